/// The walk over the board: every part that can be looked at, in the order in which the signal meets it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// Whether the part is on the unit's board: pickup, guitar, cable, battery, next box, and sources that only stand for
/// something are not.
bool isOnBoard(const Circuit& circuit, const Part& part);

/// The parts on the board: by stage, in a stage from left to right as drawn, parts without a place after those; what
/// is of no stage (supply) last.
std::vector<PartId> walkOrder(const Circuit& circuit);

struct WalkProgress {
    int drawn = 0;     ///< Known from the drawing alone: left to look at.
    int seen = 0;      ///< Looked at.
    int measured = 0;  ///< Looked at and read by a meter.

    [[nodiscard]] int all() const { return drawn + seen + measured; }
    friend bool operator==(const WalkProgress&, const WalkProgress&) = default;
};
WalkProgress walkProgress(const Circuit& circuit);

/// The next part after `from` that is known from the drawing alone, from the end on to the beginning; nothing when
/// every part was looked at. `from` empty: the first of them.
std::optional<PartId> nextUnseen(const Circuit& circuit, const PartId& from);

}  // namespace ohmwright
