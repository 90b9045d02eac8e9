/// Draws a way of the signal from left to right: series of parts on its line, what leads to a supply hung up or down at
/// its net, devices between their nets, feedback below its op-amp.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/signal_path.h"
#include "core/drawing/sketch.h"

#include <set>

namespace ohmwright {

/// What has found its place so far.
struct Progress {
    std::vector<bool> branches;  ///< By index.
    std::vector<bool> parts;     ///< By index into Circuit::parts.
    std::set<NetName> nets;      ///< Those that have a line.
};

/// What a row is drawn from.
struct RowInput {
    const Circuit& circuit;
    const Rails& rails;
    const std::vector<Branch>& branches;
};

/// Draws `way` from `start`, whose line begins at the origin, and marks what it drew.
/// @param way  as shortestWay gives it; may be empty: the net alone with what hangs at it.
/// A start net that has a line elsewhere gets no second one.
/// @param zones  steps of the way that a new stage begins with; each has its column in the sketch.
Sketch drawRow(const RowInput& input, const NetName& start, const std::vector<SignalStep>& way, Progress& progress,
               const std::vector<std::size_t>& zones = {});

/// Steps between the ends of a part on a level line: a capacitor is short.
int levelSpan(const Part& part);

/// One series of parts on a level line from the origin to the right.
Sketch drawLevel(const RowInput& input, const Branch& branch);

/// A series that stands at `at` and leads down to a supply or ground below, or up to one above, with its sign.
/// @param branch  from the net at `at`.
/// @param isTight  a single part takes two steps, as those of a series always do.
void hang(const RowInput& input, const Branch& branch, GridPoint at, bool isUp, Sketch& sketch, bool isTight = false);

/// Rows that stand under each other are this far apart.
inline constexpr int rowPitch = 2;

}  // namespace ohmwright
