/// Stock, now and ghost at one setting: what the window, the papers and the command line show side by side.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/plan/job.h"

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// What one value of the selected part would do on top of the rest of the plan.
struct Candidate {
    double value = 0.0;
    std::optional<double> cornerTagHz;
    std::optional<double> changeAtCursorDb;  ///< Against stock, at the cursor.
    std::string error;                       ///< Why there is no number; else empty.
};

struct LinearAnswer {
    std::shared_ptr<const Job> job;
    LinearState stock;
    LinearState now;
    std::optional<LinearState> ghost;
    std::optional<LinearState> selectedAlone;  ///< Stock with only the selected part's mod.
    std::vector<Candidate> candidates;
    std::string ghostError;  ///< Why a ghost was asked for and is not there.
    /// Quick spread bands (core/measure/spread.h), ± so many dB about the response at each of its frequencies; empty
    /// where a spread has no value, as with no signal.
    std::vector<double> stockBandDb;
    std::vector<double> nowBandDb;
    std::optional<double> stockBandAtCursorDb;  ///< What two stock units differ by at the cursor, ±.
};

struct LargeSignalAnswer {
    std::shared_ptr<const Job> job;
    LargeSignalState stock;
    LargeSignalState now;
    std::optional<LargeSignalState> ghost;
    std::optional<LargeSignalState> selectedAlone;
    std::vector<std::optional<double>> modAloneDb;  ///< Change of output level, one a mod of the plan; absent as well
                                                    ///< where no signal arrives.
    double togetherDb = 0.0;  ///< Change of output level with the mods that are on; NaN where no signal arrives.
};

/// What to compare. A value; safe to hand to another thread.
struct CompareRequest {
    std::shared_ptr<const Job> job;
    std::optional<Change> ghost;          ///< Tried on top of now, not kept.
    PartId selected;                      ///< Part whose own change is looked at; may be empty.
    std::vector<double> candidateValues;  ///< Values of the selected part to list, SI.
    double cursorHz = 110.0;
    /// Earlier answers, or null: whatever in them was solved from the same circuit and setting is taken over, so that
    /// stock is solved once while a value turns.
    std::shared_ptr<const LinearAnswer> lastLinear;
    std::shared_ptr<const LargeSignalAnswer> lastLargeSignal;
};

/// Errors: of applyPlan or the solver, with "stock: " or "now: " before the sentence; cancelled. A ghost that
/// cannot be solved is no error: it is absent.
Result<LinearAnswer> compareLinear(const CompareRequest& request, const std::stop_token& stop = {});
Result<LargeSignalAnswer> compareLargeSignal(const CompareRequest& request, const std::stop_token& stop = {});

/// A figure of stock and now side by side.
struct ComparedFigure {
    std::string id;
    Figure stock;
    Figure now;
};
/// All figures of both states, in the order of figureKinds(); what `ohmwright-cli figures` prints.
Result<std::vector<ComparedFigure>> compareFigures(const Job& job, const std::stop_token& stop = {});

/// "corner moved up, low end unchanged (−0.09 dB at 82 Hz)" when a gain-leg change raises the corner tag by more than
/// 2 % while the response at the low E string moves by less than 0.25 dB; else empty.
std::string cornerNote(const LinearState& stock, const LinearState& now);

}  // namespace ohmwright
