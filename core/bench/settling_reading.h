/// One reading on the unpowered board that settles whether a part is the one that a recipe means.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/part_match.h"
#include "core/plan/recipe.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Between two places of this unit: what the meter shows where the unit is as its drawing says, and what where the part
/// stands as in the recipe's circuit.
struct SettlingReading {
    std::string red, black;                     ///< Places in words.
    Unit unit = Unit::ohm;                      ///< Ohms range, or volts of the diode range.
    std::optional<double> asDrawn, asInRecipe;  ///< Absent: no reading.
    std::string sentence;

    friend bool operator==(const SettlingReading&, const SettlingReading&) = default;
};

/// The first of these whose two bands do not touch: the part's own legs in ohms, each of its legs to ground, then the
/// same in the diode range. Where none tells (parts across each other), the sentence says to lift a leg.
/// REQUIRES: `match` is likely, of a match between the two circuits.
/// Errors: of the solver; cancelled.
Result<SettlingReading> settlingReading(const Circuit& known, const Circuit& here, const PartMatch& match,
                                        const Setting& setting, const std::stop_token& stop = {});

/// Of every likely part that the recipe's mods need, in their order.
Result<std::vector<SettlingReading>> settlingReadings(const Recipe& recipe, const RecipeFit& fit,
                                                      const std::stop_token& stop = {});

}  // namespace ohmwright
