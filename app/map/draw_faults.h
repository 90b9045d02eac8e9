/// What is wrong with a drawing so far, each with a place to look at.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"
#include "core/circuit/check.h"

#include <vector>

namespace ohmwright {

struct DrawFault {
    Severity severity = Severity::wrong;
    QString sentence;
    GridPoint at;           ///< A pin of the part or of the net.
    bool hasPlace = false;  ///< Whether `at` means something.
    bool isOpenPin = false;
};

/// checkCircuit and, where there is a current bias, polarityFaults; then what the circuit still lacks to be solved (an
/// input, an output). What is only unfinished (an open pin) comes after what is wrong.
std::vector<DrawFault> drawFaults(const MapState& state);

/// The sentences of a list: as they are, but one for all open pins together.
struct DrawFaultLine {
    QString sentence;
    DrawFault first;  ///< Where it leads.
};
std::vector<DrawFaultLine> faultLines(const std::vector<DrawFault>& faults, const Circuit& circuit);

}  // namespace ohmwright
