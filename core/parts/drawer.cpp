// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/drawer.h"

#include "core/base/said.h"
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
            checkValue(toSay("Lot %1: its value is none that a %2 has; choose %3."), m_lot.value);
            if (m_lot.measured) {
                checkValue(toSay("Lot %1: its measured value is none that a %2 has; choose %3."), *m_lot.measured);
            }
        } else if (m_lot.type.empty()) {
            fault(toSay("Lot %1: a %2 needs the name of its type."), said(kindName(m_lot.kind)));
        }
        if (m_lot.quantity < 0) {
            fault(toSay("Lot %1: there cannot be fewer than none of it."));
        }
        for (const auto& [job, quantity] : m_lot.reserved) {
            if (quantity <= 0) {
                fault(toSay("Lot %1: the reservation of job %2 is no number of parts."), job);
            }
        }
        if (reservedInAll(m_lot) > m_lot.quantity) {
            fault(toSay("Lot %1: more are reserved (%2) than there are (%3)."), reservedInAll(m_lot), m_lot.quantity);
        }
        if (static_cast<int>(m_lot.devices.size()) > m_lot.quantity) {
            fault(toSay("Lot %1: more devices were measured (%2) than there are (%3)."), m_lot.devices.size(),
                  m_lot.quantity);
        }
        if (!(m_lot.tolerance >= 0.0 && m_lot.tolerance < 1.0)) {
            fault(toSay("Lot %1: its tolerance is not between 0 and 100 %."));
        }
        checkSize(toSay("Lot %1: its pitch is no number from 0 up."), m_lot.pitchMillimetres);
        checkSize(toSay("Lot %1: its rated voltage is no number from 0 up."), m_lot.ratedVolts);
        checkSize(toSay("Lot %1: its price is no number from 0 up."), m_lot.price);
        for (const MeasuredDevice& device : m_lot.devices) {
            checkDevice(device);
        }
    }

private:
    /// @param sentence  "Lot %1: ...", with places from %2 on for the fillings.
    template <class... Fillings>
    void fault(const char* sentence, const Fillings&... fillings) {
        m_faults.push_back(said(sentence, m_lot.id, fillings...));
    }

    void checkValue(const char* sentence, double value) {
        const auto limits = valueLimits(m_lot.kind);
        if (limits && !limits->hold(value)) {
            fault(sentence, said(kindName(m_lot.kind)), said(limits->words));
        }
    }
    void checkSize(const char* sentence, double size) {
        if (!(size >= 0.0 && std::isfinite(size))) {
            fault(sentence);
        }
    }
    void checkDevice(const MeasuredDevice& device) {
        const bool ofBipolar = device.beta.has_value();
        const bool ofJfet = device.saturationAmperes.has_value() || device.pinchOffVolts.has_value();
        if ((ofBipolar && m_lot.kind != PartKind::bipolar) || (ofJfet && m_lot.kind != PartKind::jfet)) {
            fault(toSay("Lot %1: device %2 has figures that a %3 does not have."), device.label,
                  said(kindName(m_lot.kind)));
        }
        if (ofBipolar && !(*device.beta > 0.0 && std::isfinite(*device.beta))) {
            fault(toSay("Lot %1: device %2: beta is a number above 0."), device.label);
        }
        if (device.saturationAmperes && !(*device.saturationAmperes > 0.0 && *device.saturationAmperes < 10.0)) {
            fault(toSay("Lot %1: device %2: Idss is a current from 0 to 10 A."), device.label);
        }
        if (device.pinchOffVolts &&
            !(std::abs(*device.pinchOffVolts) > 1e-3 && std::abs(*device.pinchOffVolts) < 100.0)) {
            fault(toSay("Lot %1: device %2: Vp is a voltage of 1 mV to 100 V."), device.label);
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
            return Error{ErrorCode::invalidInput, said("There is no lot %1 in the drawer. Choose another.", id), id};
        }
        if (quantity < 0) {
            return Error{ErrorCode::invalidInput, said("Fewer than none of lot %1 cannot be reserved.", id), id};
        }
        const int left = availableFor(*lot);
        if (quantity > left) {
            return Error{ErrorCode::invalidInput,
                         said("Of %1 %2 can be had and %3 are needed: %4 to be ordered, or choose another part.",
                              displayName(*lot), left, quantity, quantity - left),
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
            faults.push_back(said("Lot %1 of the drawer has no id: give it one.", k + 1));
        } else if (!seen.insert(lot.id).second) {
            faults.push_back(said("Lot %1: there are two of that id; rename one.", lot.id));
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
    return lot.lot.empty() ? name : said("%1, lot %2", name, lot.lot);
}

}  // namespace ohmwright
