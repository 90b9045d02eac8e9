// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/drawer.h"

#include "core/base/value_text.h"
#include "core/circuit/check.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ohmwright {

namespace {

int reservedBy(const DrawerLot& lot, std::string_view job) {
    const auto found = lot.reserved.find(std::string(job));
    return found == lot.reserved.end() ? 0 : found->second;
}

int reservedInAll(const DrawerLot& lot) {
    int sum = 0;
    for (const auto& [job, quantity] : lot.reserved) {
        sum += quantity;
    }
    return sum;
}

/// The wishes by lot, each lot once.
std::map<std::string, int> addedUp(const std::vector<LotCount>& wanted) {
    std::map<std::string, int> sums;
    for (const LotCount& wish : wanted) {
        sums[wish.lot] += wish.quantity;
    }
    return sums;
}

class LotCheck {
public:
    LotCheck(const DrawerLot& lot, std::vector<std::string>& faults) : m_lot(lot), m_faults(faults) {}

    void run() {
        if (hasValue(m_lot.kind)) {
            checkValue("value", m_lot.value);
            if (m_lot.measured) {
                checkValue("measured value", *m_lot.measured);
            }
        } else if (m_lot.type.empty()) {
            fault("a " + std::string(kindName(m_lot.kind)) + " needs the name of its type");
        }
        if (m_lot.quantity < 0) {
            fault("there cannot be fewer than none of it");
        }
        for (const auto& [job, quantity] : m_lot.reserved) {
            if (quantity <= 0) {
                fault("the reservation of job " + job + " is no number of parts");
            }
        }
        if (reservedInAll(m_lot) > m_lot.quantity) {
            fault("more are reserved (" + std::to_string(reservedInAll(m_lot)) + ") than there are (" +
                  std::to_string(m_lot.quantity) + ")");
        }
        if (static_cast<int>(m_lot.devices.size()) > m_lot.quantity) {
            fault("more devices were measured (" + std::to_string(m_lot.devices.size()) + ") than there are (" +
                  std::to_string(m_lot.quantity) + ")");
        }
        checkShare("tolerance", m_lot.tolerance);
        checkSize("pitch", m_lot.pitchMillimetres);
        checkSize("rated voltage", m_lot.ratedVolts);
        checkSize("price", m_lot.price);
        for (const MeasuredDevice& device : m_lot.devices) {
            checkDevice(device);
        }
    }

private:
    void fault(const std::string& sentence) { m_faults.push_back("Lot " + m_lot.id + ": " + sentence + "."); }

    void checkValue(const std::string& what, double value) {
        const auto limits = valueLimits(m_lot.kind);
        if (limits && !limits->hold(value)) {
            fault("its " + what + " is none that a " + std::string(kindName(m_lot.kind)) + " has; choose " +
                  std::string(limits->words));
        }
    }
    void checkShare(const std::string& what, double share) {
        if (!(share >= 0.0 && share < 1.0)) {
            fault("its " + what + " is not between 0 and 100 %");
        }
    }
    void checkSize(const std::string& what, double size) {
        if (!(size >= 0.0 && std::isfinite(size))) {
            fault("its " + what + " is no number from 0 up");
        }
    }
    void checkDevice(const MeasuredDevice& device) {
        const bool ofBipolar = device.beta.has_value();
        const bool ofJfet = device.saturationAmperes.has_value() || device.pinchOffVolts.has_value();
        if ((ofBipolar && m_lot.kind != PartKind::bipolar) || (ofJfet && m_lot.kind != PartKind::jfet)) {
            fault("device " + device.label + " has figures that a " + std::string(kindName(m_lot.kind)) +
                  " does not have");
        }
        if (ofBipolar && !(*device.beta > 0.0 && std::isfinite(*device.beta))) {
            fault("device " + device.label + ": beta is a number above 0");
        }
        if (device.saturationAmperes && !(*device.saturationAmperes > 0.0 && *device.saturationAmperes < 10.0)) {
            fault("device " + device.label + ": Idss is a current from 0 to 10 A");
        }
        if (device.pinchOffVolts &&
            !(std::abs(*device.pinchOffVolts) > 1e-3 && std::abs(*device.pinchOffVolts) < 100.0)) {
            fault("device " + device.label + ": Vp is a voltage of 1 mV to 100 V");
        }
    }

    const DrawerLot& m_lot;
    std::vector<std::string>& m_faults;
};

}  // namespace

const DrawerLot* findLot(const Drawer& drawer, std::string_view id) {
    const auto found =
        std::find_if(drawer.lots.begin(), drawer.lots.end(), [id](const DrawerLot& lot) { return lot.id == id; });
    return found == drawer.lots.end() ? nullptr : &*found;
}

double valueOf(const DrawerLot& lot) {
    return lot.measured.value_or(lot.value);
}

int availableFor(const DrawerLot& lot, std::string_view job) {
    return std::max(0, lot.quantity - reservedInAll(lot) + reservedBy(lot, job));
}

std::vector<const DrawerLot*> lotsOfKind(const Drawer& drawer, PartKind kind, std::string_view job) {
    std::vector<const DrawerLot*> lots;
    for (const DrawerLot& lot : drawer.lots) {
        if (lot.kind == kind && availableFor(lot, job) > 0) {
            lots.push_back(&lot);
        }
    }
    return lots;
}

Result<Drawer> reserve(const Drawer& drawer, const std::string& job, const std::vector<LotCount>& wanted) {
    Drawer result = releaseReservation(drawer, job);
    for (const auto& [id, quantity] : addedUp(wanted)) {
        const auto lot = std::find_if(result.lots.begin(), result.lots.end(),
                                      [&id = id](const DrawerLot& each) { return each.id == id; });
        if (lot == result.lots.end()) {
            return Error{ErrorCode::invalidInput, "There is no lot " + id + " in the drawer. Choose another.", id};
        }
        if (quantity < 0) {
            return Error{ErrorCode::invalidInput, "Fewer than none of lot " + id + " cannot be reserved.", id};
        }
        const int left = availableFor(*lot);
        if (quantity > left) {
            return Error{ErrorCode::invalidInput,
                         "Of " + displayName(*lot) + " " + std::to_string(left) + " can be had and " +
                             std::to_string(quantity) + " are needed: " + std::to_string(quantity - left) +
                             " to be ordered, or choose another part.",
                         id};
        }
        if (quantity > 0) {
            lot->reserved[job] = quantity;
        }
    }
    return result;
}

Drawer releaseReservation(const Drawer& drawer, std::string_view job) {
    Drawer result = drawer;
    for (DrawerLot& lot : result.lots) {
        lot.reserved.erase(std::string(job));
    }
    return result;
}

Drawer takeReserved(const Drawer& drawer, std::string_view job) {
    Drawer result = drawer;
    for (DrawerLot& lot : result.lots) {
        lot.quantity -= reservedBy(lot, job);
        lot.reserved.erase(std::string(job));
    }
    return result;
}

std::vector<std::string> faultsOf(const Drawer& drawer) {
    std::vector<std::string> faults;
    std::set<std::string> seen;
    for (std::size_t k = 0; k < drawer.lots.size(); ++k) {
        const DrawerLot& lot = drawer.lots[k];
        if (lot.id.empty()) {
            faults.push_back("Lot " + std::to_string(k + 1) + " of the drawer has no id: give it one.");
        } else if (!seen.insert(lot.id).second) {
            faults.push_back("Lot " + lot.id + ": there are two of that id; rename one.");
        }
        LotCheck(lot, faults).run();
    }
    return faults;
}

Model withMeasured(const Model& type, const MeasuredDevice& device) {
    Model model = type;
    if (type.kind == PartKind::bipolar && device.beta) {
        model.parameters["BF"] = *device.beta;
    }
    if (type.kind == PartKind::jfet) {
        const auto given = [&type](const char* name, double otherwise) {
            const auto found = type.parameters.find(name);
            return found == type.parameters.end() ? otherwise : found->second;
        };
        // Berkeley defaults: VTO -2 V, BETA 1e-4 A/V^2.
        const double typePinchOff = given("VTO", -2.0);
        const double pinchOff = device.pinchOffVolts ? -std::abs(*device.pinchOffVolts) : typePinchOff;
        const double saturation = device.saturationAmperes.value_or(given("BETA", 1e-4) * typePinchOff * typePinchOff);
        model.parameters["VTO"] = pinchOff;
        model.parameters["BETA"] = saturation / (pinchOff * pinchOff);
    }
    return model;
}

std::string displayName(const DrawerLot& lot) {
    std::string name = hasValue(lot.kind) ? formatPartValue({lot.value, unitOf(lot.kind)}) : lot.type;
    if (hasValue(lot.kind) && !lot.build.empty()) {
        name += " " + lot.build;
    }
    return lot.lot.empty() ? name : name + ", lot " + lot.lot;
}

}  // namespace ohmwright
