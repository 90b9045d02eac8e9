// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/owners.h"

#include "core/base/said.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/influence.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace ohmwright {

namespace {

constexpr double stepDb = 0.25;

}  // namespace

Result<std::vector<Owner>> findOwners(const Circuit& circuit, const Setting& setting, double hertz,
                                      const std::stop_token& stop) {
    if (!std::isfinite(hertz) || hertz <= 0.0) {
        return Error{ErrorCode::invalidInput, said("A frequency above 0 Hz is needed: move the cursor."), ""};
    }
    const auto solved = solveCircuit(circuit, setting, stop);
    if (!solved) {
        return solved.error();
    }
    const int output = solved->equations->indexOfNet(circuit.ports.output);
    const auto curves = solveInfluence(*solved->equations, *solved->bias, output, std::span(&hertz, 1), stop);
    if (!curves) {
        return curves.error();
    }
    std::vector<Owner> owners;
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        const std::vector<double>& moved = curves->dbPerTenPercent[k];
        if (!moved.empty() && std::abs(moved.front()) >= leastOwnedDb) {
            const Part& part = circuit.parts[k];
            owners.push_back({part.id, part.reference, displayName(part), moved.front()});
        }
    }
    std::stable_sort(owners.begin(), owners.end(), [](const Owner& a, const Owner& b) {
        return std::abs(a.dbPerTenPercent) > std::abs(b.dbPerTenPercent);
    });
    return owners;
}

int ownedStep(double dbPerTenPercent) {
    const double strength = std::min(std::abs(dbPerTenPercent) / stepDb, double(ownedSteps) - 1.0);
    return static_cast<int>(strength);
}

}  // namespace ohmwright
