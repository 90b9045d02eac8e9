/// A recipe: a plan freed from the unit it was made on, to be done again on another one.
///
/// It names no part of another unit: each part that its mods need is found there by what it does
/// (circuit/part_match.h). What a trim holds (a drain half way, so many volts, a figure) is solved anew for every unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/part_match.h"
#include "core/plan/job.h"
#include "core/plan/targets.h"

#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What a mod's value is chosen for, in place of the value itself.
struct Trim {
    std::string mod;                    ///< Id of a mod of the recipe's plan that swaps one value.
    PartId device;                      ///< Whose output the part feeds; empty for a trim by figures.
    std::optional<double> outputVolts;  ///< DC at the device's output; absent with a device: as much drops over the
                                        ///< part as over the device.
    std::vector<Want> wants;            ///< Without a device: figures that the value shall give.

    friend bool operator==(const Trim&, const Trim&) = default;
};
/// "half-way", "4.9" (volts at the device's output) or figures, "gain_leg_corner=590"; the device is the one whose
/// load resistor the mod's part is.
/// Errors: invalidInput when there is no such mod that is on, it does not swap one value, or no device is fed by its
/// part.
Result<Trim> readTrim(const Job& job, std::string_view modLetter, std::string_view rule);
/// "half way between J1's supply and source", "J1 drain at 4.90 V", "gain_leg_corner 590 Hz".
std::string trimWords(const Circuit& circuit, const Trim& trim);

/// A figure that the plan reached.
struct RecipeFigure {
    std::string id;
    std::optional<double> stock, now;

    friend bool operator==(const RecipeFigure&, const RecipeFigure&) = default;
};

struct Recipe {
    std::string name;
    std::string taken;      ///< ISO 8601 day.
    UnitCard from;          ///< The unit that it was made on.
    std::string hash;       ///< stateHash of its job then.
    std::string complaint;  ///< The customer's own sentence there.
    std::vector<std::string> words;
    Circuit circuit;  ///< Stock there, without what is of the one unit: markings, board notes, drawing.
    Plan plan;        ///< The mods that were on.
    Setting setting;
    std::vector<Trim> trims;
    std::vector<RecipeFigure> figures;  ///< At that setting, measured parts at their measured values.
    std::vector<UnitReading> readings;  ///< DC at the pins of devices, with the mods fitted.

    friend bool operator==(const Recipe&, const Recipe&) = default;
};

struct RecipeOptions {
    std::string name;  ///< Empty: the unit's name and the mods' letters.
    std::string day;
    std::vector<Trim> trims;
};
/// Errors: invalidInput when no mod is on; of applyPlan and the solver; cancelled.
Result<Recipe> takeRecipe(const Job& job, const RecipeOptions& options, const std::stop_token& stop = {});

// ---- On another unit ----------------------------------------------------------------------------------------------

/// A part that the recipe's mods need, and what stands for it here.
struct RecipePart {
    PartMatch match;
    std::string known;  ///< "C4 Cg" in the recipe.
    std::string here;   ///< "C11", empty for none.
    std::string role;   ///< roleWords in the recipe's circuit.

    friend bool operator==(const RecipePart&, const RecipePart&) = default;
};

/// What became of one mod of the recipe.
struct RecipeMod {
    std::string letter;                               ///< In the recipe.
    std::string applied;                              ///< Its letter here; empty: it is not applied.
    MatchCertainty certainty = MatchCertainty::none;  ///< Of its least certain part.
    std::string sentence;                             ///< What was done here, or why it was not.

    friend bool operator==(const RecipeMod&, const RecipeMod&) = default;
};

/// "value", "trim", "figure", "reading", "part".
enum class DifferenceKind { value, trim, figure, reading, part };
std::string_view differenceWord(DifferenceKind kind);

/// Something that is not as on the unit that the recipe is from.
struct RecipeDifference {
    DifferenceKind kind = DifferenceKind::value;
    std::string what;  ///< "highest gain", "J1 drain", "R2"
    std::string unit;
    std::optional<double> there, here;
    std::string sentence;  ///< "highest gain: 19.1 dB there, 30.4 dB here"

    friend bool operator==(const RecipeDifference&, const RecipeDifference&) = default;
};

struct RecipeFit {
    CircuitMatch match;
    std::vector<RecipePart> parts;  ///< That the mods need, in the recipe's order.
    std::vector<RecipeMod> mods;    ///< In the recipe's order.
    std::vector<RecipeDifference> differences;
    Job job;  ///< The unit's job with the mods in its plan, on; its setting as it was but for the new switches.
};

struct RecipeFitOptions {
    Drawer drawer;       ///< For trims by figures; empty: preferred numbers are assumed.
    std::string forJob;  ///< Whose reservation counts as free.
};
/// Binds the recipe to another unit and solves it there, at the recipe's setting, with the unit's own measured parts.
/// A mod one of whose parts is not found is not applied, nor one that works on a part that such a mod would fit. A part
/// that is only likely found counts as not looked at, so that no paper is made before somebody did (checkSeen).
/// Errors: invalidInput when the unit is gone; of the solver on the unit with the mods; cancelled.
Result<RecipeFit> fitRecipe(const Recipe& recipe, const Job& unit, const RecipeFitOptions& options = {},
                            const std::stop_token& stop = {});

}  // namespace ohmwright
