// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/recipe_readings.h"

#include "core/base/said.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"

#include <set>

namespace ohmwright {

Result<std::vector<UnitReading>> restReadings(const Job& job, const std::stop_token& stop) {
    const Result<Circuit> now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    const auto solved = solveCircuit(*now, job.setting, stop);
    if (!solved) {
        return solved.error();
    }
    std::set<NetName> seen{NetName(groundNet)};
    if (const Part* battery = findPart(*now, now->ports.battery)) {
        seen.insert(battery->nets.begin(), battery->nets.end());
    }
    std::vector<UnitReading> readings;
    for (const Part& part : now->parts) {
        if (!hasModel(part.kind) || part.kind == PartKind::diode) {
            continue;
        }
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            if (seen.insert(part.nets[pin]).second) {
                readings.push_back({part.reference + " " + said(pinName(part.kind, static_cast<int>(pin))),
                                    part.nets[pin], solved->biasVolts(part.nets[pin]), Unit::volt});
            }
        }
    }
    return readings;
}

}  // namespace ohmwright
