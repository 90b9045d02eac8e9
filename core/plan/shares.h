/// Alone and together: what each mod of a plan does by itself, and its fair share of what all do together.
///
/// Alone = change of a figure with one mod; together = with all mods that are on; interaction = together less the sum
/// of the singles. Fair share = average of a mod's marginal change over all orders of fitting, exact, from all 2^n
/// subsets; shares add up to together. Where a mod works on a part that another one fits, the orders that the bench
/// does not allow do not count: the average is over those that can be.
/// Source of the average: L. S. Shapley, A value for n-person games, Annals of Mathematics Studies 28 (1953) 307.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/spread.h"
#include "core/plan/job.h"

#include <cstddef>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Up to so many mods are shared exactly: 64 subsets. With more there are only alone and together.
inline constexpr std::size_t mostSharedMods = 6;

/// What to share out.
struct SharesRequest {
    /// Ids of figureKinds(), "response@95" or "stage_gain@95" (core/measure/chosen_figures.h).
    std::vector<std::string> figures{"level", "response_82", "response_220", "response_1k", "response_3k"};
    /// Also the quick spread band of stock for responses, stage gains and the highest gain.
    bool withBands = true;
};

/// One mod's part of one figure, in the figure's unit.
struct ModShare {
    std::string modId;
    std::string letter;
    std::optional<double> alone;     ///< Absent: it cannot be fitted alone, or the figure has no value then.
    std::optional<double> share;     ///< Absent: no exact share; FigureShares::note says why.
    std::optional<SpreadMark> mark;  ///< Alone against stock's band; absent where there is no band.

    friend bool operator==(const ModShare&, const ModShare&) = default;
};

struct FigureShares {
    std::string id;
    std::string unit;
    std::optional<double> stock;
    std::optional<double> now;
    std::vector<ModShare> mods;  ///< Of the mods that are on, in the plan's order.
    std::optional<double> together;
    std::optional<double> sumOfSingles;
    std::optional<double> interaction;
    std::optional<double> bandDb;  ///< Quick spread band of stock; absent where the figure has none.
    std::string note;              ///< A sentence on what is missing; else empty.

    friend bool operator==(const FigureShares&, const FigureShares&) = default;
};

struct SharesAnswer {
    std::vector<FigureShares> figures;
    int orders = 0;           ///< In which the mods can be fitted.
    int ordersThinkable = 0;  ///< n!; 0 above mostSharedMods.
    std::string note;         ///< "B comes before C in 3 of 6 orders ..." when some cannot be; else empty.
};

/// Errors: of applyPlan for the plan as it is on ("now: "); of the solver for stock and now; invalidInput for an
/// unknown figure; cancelled. A subset that cannot be solved is no error: its figure says so in its note.
Result<SharesAnswer> shareFigures(const Job& job, const SharesRequest& request = {}, const std::stop_token& stop = {});

/// Where each mod's small-signal change, alone, stands out most against the spread of stock.
struct ModSpread {
    std::string modId;
    std::string letter;
    double hertz = 0.0;    ///< Where |change|/band is greatest; of equals the lowest.
    SpreadMark mark;       ///< There.
    bool isWithin = true;  ///< At every frequency asked for.
    std::string sentence;  ///< "within spread: +0.41 dB at 1 kHz against ±1.06", or why there is no number.
};
/// @param hertz  where it is looked at.
/// Errors: of the solver for stock; cancelled. A mod that cannot be fitted alone says so in its sentence.
Result<std::vector<ModSpread>> markMods(const Job& job, const std::vector<double>& hertz,
                                        const std::stop_token& stop = {});

/// "within spread: +0.41 dB at 1 kHz against ±1.06", "bigger than the spread: +5.89 dB at 110 Hz against ±1.19".
std::string spreadSentence(const SpreadMark& mark, double hertz);

}  // namespace ohmwright
