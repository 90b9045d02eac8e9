/// From figures that are wanted to parts that are in the drawer.
///
/// The figures are solved on a grid of values (equal steps in log value), interpolated between for every part and pair
/// on hand, and the best answers are then solved anew, each on its own: no number in the list is an interpolation.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figure_name.h"
#include "core/measure/figures.h"
#include "core/parts/combinations.h"
#include "core/plan/job.h"

#include <cstddef>
#include <functional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A figure and the value that it shall have.
struct Want {
    FigureName figure;
    double value = 0.0;  ///< In the figure's unit.

    friend bool operator==(const Want&, const Want&) = default;
};
/// "gain_leg_corner=590", "plateau_gain=29", "response@330=12.5". Errors: invalidInput naming the word.
Result<Want> readWant(std::string_view text);

/// How far off one step of nearness is: 1 % of a figure that is compared as a ratio, 0.1 dB, 1 % of the wanted value of
/// any other (at least 0.001 of its unit). House figure: the tolerances with which the demos' figures are held.
double nearnessStep(const Want& want);

struct TargetRequest {
    std::vector<Want> wants;           ///< One to six.
    std::vector<PartId> parts;         ///< That may change: one to four, each with a value.
    Drawer drawer;                     ///< Empty: preferred numbers are assumed (E24; E12 for capacitors, E3 for pots).
    std::string forJob;                ///< Whose reservation counts as free (parts/drawer.h).
    bool withPairs = true;             ///< Two in series or across each other beside single parts.
    std::size_t mostForEachCount = 4;  ///< Answers listed for each number of parts taken from the drawer.
    std::function<void(double)> progress;  ///< Told the share done, 0..1, now and then; may be empty.
};

/// What happens to one part.
struct PartChoice {
    PartId part;
    bool stays = true;        ///< No iron: the part is as now.
    Combination combination;  ///< What takes its place; of one that stays its value alone.
};

/// One real answer.
struct TargetAnswer {
    std::vector<PartChoice> choices;  ///< One a part of the request, in its order.
    std::vector<Figure> figures;      ///< One a want, solved for this very answer.
    double score = 0.0;               ///< Root of the sum of squares of the misses in steps of nearness; 0 is exact.
    std::size_t swaps = 0;            ///< Parts that change.
    std::size_t taken = 0;            ///< Parts out of the drawer: a pair counts two.
    bool isInStock = true;            ///< False where preferred numbers are assumed.
    int leftToBuild = 0;              ///< How often the drawer holds it.
};

struct TargetList {
    std::vector<Figure> present;        ///< The wanted figures as they are now.
    std::vector<TargetAnswer> answers;  ///< Best first.
    std::size_t considered = 0;         ///< Combinations looked at.
    std::size_t solved = 0;             ///< Circuits that were solved.
    std::string note;                   ///< "assumed stock: E24 and E12, nothing of it was counted"; may be empty.
};

/// Ranks what the drawer can do for the job's circuit as it is planned now, at the job's setting. At most two of the
/// parts change in one answer.
///
/// Order: score in tenths of a step, then parts taken, then swaps, then the exact score, then how often it can be
/// built. An answer that takes more parts is listed only when it is nearer by a tenth of a step than all that take
/// fewer. No answer takes more of a lot than the job can have.
/// @param stop  polled at every solve.
/// Errors: invalidInput (no wants, a part without a value or not in the circuit, a figure that does not exist anywhere
/// here); of the solver when nothing can be solved; cancelled.
Result<TargetList> findTargets(const Job& job, const TargetRequest& request, const std::stop_token& stop = {});

/// The changes that make an answer, one or two a part: a value swapped, and the second of a pair in series or across.
/// A part that is added has the reference of its partner with a letter, "R5b".
std::vector<Change> changesOf(const Circuit& now, const TargetAnswer& answer);

}  // namespace ohmwright
