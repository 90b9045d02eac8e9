// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/device_limits.h"

#include "core/devices/opamp.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

enum OpampPin : std::size_t { outputPin = 2, positivePin = 3, negativePin = 4 };

double given(const Model& model, const char* name, double otherwise) {
    const auto found = model.parameters.find(name);
    return found == model.parameters.end() ? otherwise : found->second;
}

/// The settled waves by net. P types have all voltages the other way round, so that only magnitudes are looked at.
struct Waves {
    const SolvedCircuit& solved;
    const SettledState& settled;

    [[nodiscard]] std::vector<double> of(const NetName& net) const {
        return settled.wave(solved.equations->indexOfNet(net));
    }
};

double smallestRoom(const Part& part, const Model& model, const Waves& waves) {
    // Output electrode, common electrode and, of an FET, its gate.
    const bool isBipolar = part.kind == PartKind::bipolar;
    const std::size_t common = part.kind == PartKind::pentode ? 3 : 2;
    const std::vector<double> output = waves.of(part.nets[0]);
    const std::vector<double> other = waves.of(part.nets[common]);
    const std::vector<double> gate = waves.of(part.nets[1]);
    double room = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < output.size(); ++k) {
        const double across = std::abs(output[k] - other[k]);
        double needed = 0.0;
        if (isBipolar) {
            needed = saturatedVolts;
        } else if (part.kind == PartKind::jfet) {
            // Pinch-off: |Vds| over |VTO| less the gate's reverse voltage.
            needed = std::max(0.0, std::abs(given(model, "VTO", -2.0)) - std::abs(gate[k] - other[k]));
        } else if (part.kind == PartKind::mosfet) {
            needed = std::max(0.0, std::abs(gate[k] - other[k]) - std::abs(given(model, "VTO", 0.0)));
        }
        room = std::min(room, across - needed);
    }
    return room;
}

bool hasRoom(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

}  // namespace

std::vector<OpampLimits> opampLimits(const Circuit& circuit, const SolvedCircuit& solved) {
    std::vector<OpampLimits> limits;
    for (const Part& part : circuit.parts) {
        const Model* model = part.kind == PartKind::opamp ? findModel(circuit, part.model) : nullptr;
        if (model == nullptr) {
            continue;
        }
        const OpampLaw law(*model, DeviceInstance{});
        limits.push_back({part.id, given(*model, "GBW", 3e6), law.slewVoltsPerSecond(),
                          solved.biasVolts(part.nets[positivePin]) - given(*model, "HEADROOM_P", 1.9),
                          solved.biasVolts(part.nets[negativePin]) + given(*model, "HEADROOM_N", 1.9)});
    }
    return limits;
}

std::optional<SwingLeft> leastRailRoom(const Circuit& circuit, const SolvedCircuit& solved,
                                       const SettledState& settled) {
    std::optional<SwingLeft> least;
    for (const OpampLimits& limits : opampLimits(circuit, solved)) {
        const Part& part = *findPart(circuit, limits.part);
        const std::vector<double> wave = settled.wave(solved.equations->indexOfNet(part.nets[outputPin]));
        const auto [lowest, highest] = std::minmax_element(wave.begin(), wave.end());
        const double room = std::min(limits.highestVolts - *highest, *lowest - limits.lowestVolts);
        if (!least || room < least->volts) {
            least = SwingLeft{limits.part, room};
        }
    }
    return least;
}

std::optional<SwingLeft> leastDeviceRoom(const Circuit& circuit, const SolvedCircuit& solved,
                                         const SettledState& settled) {
    std::optional<SwingLeft> least;
    for (const Part& part : circuit.parts) {
        const Model* model = hasRoom(part.kind) ? findModel(circuit, part.model) : nullptr;
        if (model == nullptr) {
            continue;
        }
        const double room = smallestRoom(part, *model, {solved, settled});
        if (!least || room < least->volts) {
            least = SwingLeft{part.id, room};
        }
    }
    return least;
}

double dissipationWatts(const SolvedCircuit& solved, const Part& part) {
    const std::vector<double> currents = solved.equations->terminalCurrents(part, solved.bias->x, solved.bias->state);
    double watts = 0.0;
    for (std::size_t pin = 0; pin < currents.size(); ++pin) {
        watts += solved.biasVolts(part.nets[pin]) * currents[pin];
    }
    return std::abs(watts);
}

}  // namespace ohmwright
