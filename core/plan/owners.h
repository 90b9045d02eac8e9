/// Who owns a frequency: the parts in the order of how much a tenth more of each would move the response there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Parts below it own nothing worth saying [dB per +10 %]. House figure, no source.
inline constexpr double leastOwnedDb = 0.02;
/// How many strengths a map tells apart.
inline constexpr int ownedSteps = 4;

struct Owner {
    PartId part;
    std::string reference;
    std::string name;              ///< "C4 Cg"
    double dbPerTenPercent = 0.0;  ///< Above 0: more of the part raises the response. Both halves of a pot together.

    friend bool operator==(const Owner&, const Owner&) = default;
};

/// Of the circuit at a setting, strongest first, those of at least `leastOwnedDb`; equal ones as in the circuit.
/// Errors: invalidInput for a frequency that is not above 0; as solveCircuit and solveInfluence; cancelled.
Result<std::vector<Owner>> findOwners(const Circuit& circuit, const Setting& setting, double hertz,
                                      const std::stop_token& stop = {});

/// 0..ownedSteps - 1, weakest first, a quarter of a dB each; what is above the last belongs to it.
int ownedStep(double dbPerTenPercent);

}  // namespace ohmwright
