/// Steps of fitRecipe: trims solved anew, and what is not as on the unit that the recipe is from.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/recipe.h"

namespace ohmwright {

/// The recipe's setting with the unit's own knobs and switches.
Setting settingOfRecipe(const Recipe& recipe, const RecipeFit& fit);

/// Gives the mods of the recipe's trims the values that hold here; a trim that has no value leaves the recipe's value
/// and says so in its difference. Errors: cancelled.
Result<void> solveTrims(const Recipe& recipe, const RecipeFitOptions& options, RecipeFit& fit,
                        const std::stop_token& stop);

/// Appends values, parts, figures and readings that differ by more than a meter or an ear tells.
/// Errors: of the solver; cancelled.
Result<void> findDifferences(const Recipe& recipe, RecipeFit& fit, const std::stop_token& stop);

}  // namespace ohmwright
