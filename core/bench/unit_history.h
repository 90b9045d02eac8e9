/// What happened to a unit: its stays in order, out of one job or of several that tell of the same unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <cstddef>
#include <string>
#include <vector>

namespace ohmwright {

/// One stay of the unit.
struct PastVisit {
    Visit visit;                       ///< As it was when it ended; of the present one as it is.
    std::string left;                  ///< When the unit left (ISO 8601); empty while it is here.
    std::vector<std::string> work;     ///< "A Gain cap: C4 Cg 56n → 120n": the mods that were on, in their order.
    std::vector<std::string> leftOut;  ///< The others of the plan, as they were told then.
    std::vector<std::string> found;    ///< Where the board was not as drawn: "R5 Rg: 2k7, the drawing says 3k9 (...)".
    std::vector<UnitReading> leaving;  ///< What the meter showed on leaving.
    std::vector<std::string> notes;    ///< Corrections since.
    std::string hash;                  ///< stateHash of then, as its papers carry it.
    std::size_t job = 0;               ///< In which of the jobs it stands.

    [[nodiscard]] bool isFrozen() const { return !left.empty(); }
    friend bool operator==(const PastVisit&, const PastVisit&) = default;
};

/// How often the pads of a part have seen the iron, in visits; planned work of the present visit counts.
struct PadWork {
    PartId part;
    std::string reference;
    int visits = 0;

    /// Two reworks are the usual life of a pad on a single-sided board (house figure, common practice, no source).
    [[nodiscard]] bool isWorn() const { return visits > 2; }
    friend bool operator==(const PadWork&, const PadWork&) = default;
};

struct UnitHistory {
    std::vector<PastVisit> visits;    ///< By number.
    std::vector<PadWork> pads;        ///< Most worked on first.
    std::vector<std::string> doubts;  ///< Sentences: two jobs tell one visit differently.
};

/// The visits that one job tells of: those with a record of leaving, then the present one while it is here.
std::vector<PastVisit> visitsOf(const Job& job);

/// One history out of several jobs: a frozen record stands for the same visit while it was open; a record that is in
/// two jobs stands once.
/// REQUIRES: jobs of one unit.
UnitHistory historyOf(const std::vector<Job>& jobs);

}  // namespace ohmwright
