// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/capacitor_charging.h"

#include "core/circuit/check.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace ohmwright {

namespace {

/// A capacitor as one step sees it: a conductance, and a current that carries its past.
struct Companion {
    std::size_t conductance, current;  ///< Indices among the parts.
    NetName plus, minus;
    double farads;
    double volts, lastVolts;  ///< At the end of the last step and of the one before.
};

/// What is not carried at all: the conductance of a capacitor in a very long step [Ω].
constexpr double longestStepOhms = 1e15;

/// The circuit with a conductance and a current in the place of each capacitor; both have no value yet.
struct SteppedCircuit {
    Circuit circuit;
    std::vector<Companion> capacitors;
};

SteppedCircuit steppedOf(const Circuit& circuit, const std::map<PartId, double>& startVolts) {
    SteppedCircuit stepped{circuit, {}};
    std::vector<Part>& parts = stepped.circuit.parts;
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        const Part& part = circuit.parts[k];
        if (part.kind != PartKind::capacitor || part.nets[0] == part.nets[1]) {
            continue;
        }
        const auto start = startVolts.find(part.id);
        const double volts = start == startVolts.end() ? 0.0 : start->second;
        parts[k].kind = PartKind::resistor;
        parts[k].value = 1.0;
        Part past;
        past.id = part.id + " past";
        past.reference = past.id;
        past.kind = PartKind::currentSource;
        past.nets = {part.nets[1], part.nets[0]};
        stepped.capacitors.push_back({k, parts.size(), part.nets[0], part.nets[1], part.value, volts, volts});
        parts.push_back(std::move(past));
    }
    // What only capacitors hold has a way now.
    stepped.circuit.openNets.clear();
    stepped.circuit.openNets = netsWithoutDcPath(stepped.circuit);
    return stepped;
}

/// dv/dt = (a0 v - a1 v1 + a2 v2) / step; the first step, which has none before it, is the one-step rule.
void loadStep(SteppedCircuit& stepped, double step, double lastStep) {
    const double ratio = lastStep > 0.0 ? step / lastStep : 0.0;
    const double a0 = lastStep > 0.0 ? (1.0 + 2.0 * ratio) / (1.0 + ratio) : 1.0;
    const double a1 = lastStep > 0.0 ? 1.0 + ratio : 1.0;
    const double a2 = lastStep > 0.0 ? ratio * ratio / (1.0 + ratio) : 0.0;
    for (const Companion& each : stepped.capacitors) {
        const double siemens = std::max(each.farads * a0 / step, 1.0 / longestStepOhms);
        stepped.circuit.parts[each.conductance].value = 1.0 / siemens;
        stepped.circuit.parts[each.current].value = each.farads * (a1 * each.volts - a2 * each.lastVolts) / step;
    }
}

}  // namespace

double dischargeSeconds(double farads, double ohms, double fromVolts, double toVolts) {
    return ohms * farads * std::log(fromVolts / toVolts);
}

Result<void> followCharging(const Circuit& circuit, const Setting& setting, const std::map<PartId, double>& startVolts,
                            const ChargingSpan& span, const ChargingWatch& watch, const std::stop_token& stop) {
    SteppedCircuit stepped = steppedOf(circuit, startVolts);
    std::optional<Equations> equations;
    std::optional<OperatingPoint> point;
    std::map<NetName, double> volts;
    double now = 0.0;
    double lastStep = 0.0;
    double end = span.fromSeconds;
    while (end <= span.toSeconds) {
        const double step = end - now;
        loadStep(stepped, step, lastStep);
        Result<Equations> next = equations ? Equations::compileLike(*equations, stepped.circuit, setting)
                                           : Equations::compile(stepped.circuit, setting);
        if (!next) {
            return next.error();
        }
        equations = *std::move(next);
        Result<OperatingPoint> solved = solveBias(*equations, point ? &*point : nullptr, stop);
        if (!solved) {
            return solved.error();
        }
        point = *std::move(solved);
        volts[NetName(groundNet)] = 0.0;
        for (const NetName& net : equations->nets()) {
            volts[net] = point->x[static_cast<std::size_t>(equations->indexOfNet(net))];
        }
        for (Companion& each : stepped.capacitors) {
            each.lastVolts = std::exchange(each.volts, volts[each.plus] - volts[each.minus]);
        }
        lastStep = step;
        now = end;
        end *= span.growth;
        if (!watch(now, volts)) {
            break;
        }
    }
    return {};
}

}  // namespace ohmwright
