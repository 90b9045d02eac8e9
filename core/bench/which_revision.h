/// Which stored revision a board is: what a meter reads on it against what each candidate's drawing would read.
///
/// Places are named on the first candidate's drawing; on the others they are found by what they do
/// (circuit/part_match.h), as the same reference may be another job there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/revision_candidates.h"

#include <cstddef>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// The legs of the parts as places in words, each net once by the leg that names it best: "Q1 collector",
/// "U1A pin 3", then "R2 leg 1".
std::vector<std::string> spotNames(const Circuit& circuit);

/// What a meter showed: volts of the powered board against ground, or ohms of the unpowered one with its rail open.
struct SpotReading {
    std::string red, black;       ///< "Q1 collector", "U1A pin 3", "R2 leg 1", a net, "ground"; black empty: ground.
    Unit unit = Unit::volt;       ///< volt or ohm.
    std::optional<double> value;  ///< Absent: the meter showed no reading.

    friend bool operator==(const SpotReading&, const SpotReading&) = default;
};
/// The net of a place in words. Errors: invalidInput naming the place and the forms that are understood.
Result<NetName> netOfSpot(const Circuit& circuit, std::string_view words);

/// One reading held against one drawing.
struct SpotFit {
    bool isThere = true;             ///< The drawing has such a place.
    std::optional<double> expected;  ///< Absent: no reading is expected.
    double low = 0.0, high = 0.0;    ///< 95 % of units of that drawing, meter and supply in it.
    double pull = 0.0;  ///< Of the distance to what is expected, in half bands on that side; above 0: too high.
    std::string sentence;
};

struct RevisionFit {
    std::size_t candidate = 0;
    double misfit = 0.0;         ///< Sum of the squares of the pulls.
    std::vector<SpotFit> spots;  ///< One a reading, in their order.
};
/// "R2 leg 1 to ground", "Q1 collector".
std::string spotWords(const SpotReading& reading);

/// The reading that would tell the two best candidates apart best.
struct FurtherReading {
    std::string red, black;
    Unit unit = Unit::volt;
    std::optional<double> best, second;  ///< What each of the two would read.
    std::string sentence;
};

struct RevisionRanking {
    std::vector<RevisionFit> fits;     ///< Best first.
    std::vector<std::string> leftOut;  ///< Sentences: drawings that have no figures, each with the reason.
    bool isSeparated = false;          ///< The best is better than the second by more than chance gives.
    bool isLikely = false;             ///< 95 % of boards of the best read no worse; see likelyMisfit.
    std::string sentence;
    std::optional<FurtherReading> further;  ///< Where two are not separated, and a reading would do it.
};

/// A misfit that much larger is more than chance: bands hold 95 % of units, 1.96 deviations, and 1.96² is the 95 %
/// point of chi-square with one degree of freedom.
inline constexpr double separatingMisfit = 1.0;
/// What a reading counts that one drawing has no place for, or where one shows none and the other does, in half bands.
/// Own choice, no source: 5.9 deviations is as good as excluded, so that one such place makes a drawing unlikely with
/// up to 22 readings (see likelyMisfit), and yet it weighs no more than nine readings at the edge of their bands: a
/// probe that slipped once does not decide alone.
inline constexpr double absentPull = 3.0;
/// The misfit that 95 % of boards of a drawing stay under with so many readings. A pull of 1 is 1.96 deviations, so
/// that the misfit times 1.96² is a chi-square of as many degrees of freedom (core/bench/chi_square.h).
double likelyMisfit(int readings);

/// A candidate that the solver has no figures for is left out and named; the first one is what was asked about.
/// Errors: invalidInput without a candidate or a reading, for a place that the first candidate has not, and for volts
/// at a net without a pin of a transistor, valve or chip; of the solver on the first candidate; cancelled.
Result<RevisionRanking> whichRevision(const std::vector<RevisionCandidate>& candidates,
                                      const std::vector<SpotReading>& readings, const std::stop_token& stop = {});

}  // namespace ohmwright
