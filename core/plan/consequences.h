/// What a plan brings with it beside the curves: who did what, the customer's words, where the knobs stand now, what is
/// upset, and how the throws of fitted switches differ.
///
/// All of one job at its setting. Everything can be had with one call, or a section at a time, so that a window shows
/// each as it comes. A section that cannot be had says why and takes no other with it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/plan/claims.h"
#include "core/plan/job.h"
#include "core/plan/knob_translation.h"
#include "core/plan/shares.h"
#include "core/plan/side_effects.h"
#include "core/plan/side_readings.h"
#include "core/plan/sums.h"
#include "core/plan/throws.h"

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Alone and together, as level at the output [dB] at the setting's tone and pick level.
struct TogetherAnswer {
    FigureShares on;  ///< Of the mods that are on.
    /// Of all mods of the plan that can be meant together, as if all were on; absent while no more than these are on,
    /// or where they cannot be together.
    std::optional<FigureShares> all;
    /// Letters of mods that `all` leaves out, because they are alternatives to mods in it: what is on stays in, then
    /// the earlier one.
    std::vector<std::string> leftOut;
    std::string allTrouble;          ///< Why they cannot; else empty.
    std::string note;                ///< On the orders of fitting, or why there are no shares; else empty.
    std::vector<ModSpread> spreads;  ///< Of every mod alone, on or off, in the plan's order.

    /// The set that shares are told of: the mods that are on when they are two or more, else all of the plan.
    [[nodiscard]] const FigureShares& shared() const { return on.mods.size() < 2 && all ? *all : on; }
};

/// A word held against the figures, and what would serve it better.
struct WordAnswer {
    ClaimAnswer claim;
    std::string better;  ///< "B alone: yes, slope 0.52 → 0.73 dB per dB" for a word that is not kept; else empty.
};

/// A switch that the plan fits, and is on.
struct SwitchAnswer {
    std::string modId;
    std::string chosen;                    ///< How it stands: the throw's name.
    ThrowTable table;                      ///< Its throws in their order.
    std::vector<ResponseCurve> responses;  ///< One a throw.
    std::string trim;  ///< The resistor that makes the loudest as loud as the quietest; may be empty.
};

/// What to look for. A value; safe to hand to another thread.
struct ConsequenceRequest {
    std::shared_ptr<const Job> job;
    ClaimLimits words = houseClaimLimits();
    SideEffectLimits limits;
    /// Readings of stock, when they were taken before at the same stock, setting and limits; else null.
    std::shared_ptr<const SideReadings> stockReadings;
};

/// @name The sections
/// Errors: of applyPlan and the solver, "stock: " or "now: " before the sentence; cancelled.
///@{
Result<TogetherAnswer> findTogether(const ConsequenceRequest& request, const std::stop_token& stop = {});
/// Of the words of the job's visit; a word that the table does not know has the verdict noAnswer.
Result<std::vector<WordAnswer>> findWords(const ConsequenceRequest& request, const std::stop_token& stop = {});
Result<std::vector<KnobTranslation>> findTranslations(const ConsequenceRequest& request,
                                                      const std::stop_token& stop = {});
/// Side effects, and the readings of stock that they were judged from.
struct EffectsAnswer {
    std::vector<SideEffect> effects;
    std::shared_ptr<const SideReadings> stockReadings;
};
Result<EffectsAnswer> findEffects(const ConsequenceRequest& request, const std::stop_token& stop = {});
/// Empty where the plan fits no switch that is on.
Result<std::vector<SwitchAnswer>> findSwitches(const ConsequenceRequest& request, const std::stop_token& stop = {});
/// The sums behind the figures, of stock and of now; not among `Consequences`, because they are asked for one by one.
struct SumsAnswer {
    std::vector<Sum> stock;
    std::vector<Sum> now;
};
Result<SumsAnswer> findSums(const ConsequenceRequest& request, const std::stop_token& stop = {});
///@}

/// All sections.
struct Consequences {
    std::shared_ptr<const Job> job;
    Result<TogetherAnswer> together;
    Result<std::vector<WordAnswer>> words;
    Result<std::vector<KnobTranslation>> translations;
    Result<EffectsAnswer> effects;
    Result<std::vector<SwitchAnswer>> switches;
};
/// One after the other. Errors: cancelled; what else goes wrong is its section's own.
Result<Consequences> findConsequences(const ConsequenceRequest& request, const std::stop_token& stop = {});

}  // namespace ohmwright
