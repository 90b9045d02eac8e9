/// The drawings that a board may be of: those of stored jobs, each as its revision was built.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <string>
#include <vector>

namespace ohmwright {

/// A drawing that the board may be of.
struct RevisionCandidate {
    std::string name;  ///< "Harbour Lamp, PB-14 rev 2"
    Circuit circuit;
    Setting setting;
    std::string serial;  ///< Of the unit whose job has it; may be empty.
    std::string file;    ///< Of that job; empty where nobody said.
};

/// The revision that a stored job's unit is of: as it came to its first visit, without what was measured on that unit,
/// without earlier mods, and with what later visits found its board to have. What cannot be undone stays, and the name
/// says "with an earlier mod".
RevisionCandidate candidateOf(const Job& job);
/// The job's own drawing, as its board should be today: after an ended visit its name says "as left in visit 1", and
/// with an earlier mod on it "with an earlier mod".
RevisionCandidate ownCandidateOf(const Job& job);

/// The candidates without those that would read like an earlier one: the same parts, types and setting of the supply.
/// Names that repeat get the serial after them, or a number.
std::vector<RevisionCandidate> withoutTwins(std::vector<RevisionCandidate> candidates);

/// The job's own drawing first, then those of stored jobs of a unit of that name, else of all; twins left out.
/// @param files  of the stored jobs, in their order; may be shorter.
std::vector<RevisionCandidate> candidatesFor(const Job& job, const std::vector<Job>& stored,
                                             const std::vector<std::string>& files = {});

}  // namespace ohmwright
