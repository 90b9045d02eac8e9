/// Knob translation: where a player's knob must stand now to give what it gave in stock.
///
/// One knob is turned until one named figure equals stock's, the others stand still. What was kept equal is said, and
/// what difference is left: a knob cannot make everything equal.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

enum class TravelEnd { none, belowZero, aboveTen };

struct KnobTranslation {
    std::string knob;          ///< Id.
    std::string knobName;      ///< "Drive"
    double oldPosition = 0.0;  ///< Of stock, 0..10.
    std::optional<double>
        newPosition;  ///< Exact to 0.01; absent: out of travel. Of several the one nearest to the old.
    TravelEnd outAt = TravelEnd::none;  ///< The end that comes nearest, when it is out of travel.
    std::string keptEqual;              ///< Id of the figure: "stage_gain_1k".
    std::string keptEqualName;          ///< "stage gain at 1 kHz"
    std::string unit;
    double goal = 0.0;                     ///< Stock's figure.
    double reached = 0.0;                  ///< The figure at the new position, or at the end that comes nearest.
    std::optional<double> remainingLowDb;  ///< Change of response that remains at 82.41 Hz there.
    std::string sentence;  ///< "old Drive 5.0 is now 2.4: stage gain at 1 kHz equal, +2.05 dB remain at 82.41 Hz"
};

struct TranslationRequest {
    std::string knob;    ///< Id.
    std::string figure;  ///< Id of figureKinds(): one that the knob moves.
};

/// @param request  a knob of the job and the figure to keep.
/// Errors: invalidInput for an unknown knob or figure, a figure that stock does not have, or that the knob does not
/// move; of applyPlan ("now: ") and the solver; cancelled.
Result<KnobTranslation> translateKnob(const Job& job, const TranslationRequest& request,
                                      const std::stop_token& stop = {});

/// Every knob of the unit (not the guitar's) with each figure out of stage gain at 1 kHz, plateau gain, highest gain
/// and level that it moves by more than half a dB between its ends; nothing when the plan changes none of them.
/// Errors: as translateKnob.
Result<std::vector<KnobTranslation>> translateKnobs(const Job& job, const std::stop_token& stop = {});

}  // namespace ohmwright
