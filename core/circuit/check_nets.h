/// Faults of nets: those that nothing holds, that have one pin, and supplies that nothing feeds. Belongs to check.cpp.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/findings.h"

#include <map>
#include <utility>
#include <vector>

namespace ohmwright {

/// Who is on a net.
struct NetUse {
    std::size_t firstPart = 0;  ///< Index of the first part on it.
    std::size_t pins = 0;
    const Part* part = nullptr;
};

std::map<NetName, NetUse> usesOfNets(const Circuit& circuit);

/// Nets that float together, each with the index of its first part; a group by the net that comes first.
using FloatingNets = std::vector<std::vector<std::pair<std::size_t, NetName>>>;
/// Nets that nothing ties to ground for direct current; open nets are tied on purpose.
FloatingNets floatingNets(const Circuit& circuit, const std::map<NetName, NetUse>& uses);

void checkDirectCurrentPaths(const Circuit& circuit, const std::map<NetName, NetUse>& uses, Findings& findings);

/// Nets with one pin. One that a sign or a jack stands on is connected by it, and ground always is.
void checkLonelyNets(const Circuit& circuit, const std::map<NetName, NetUse>& uses, Findings& findings);

/// Supply signs, and positive supplies of drawn op-amps, whose net no source feeds, not even through resistors or an
/// op-amp that holds it: everything on it would be solved at rest, and the curve of a dead unit looks like one of a
/// quiet unit.
void checkSupplySigns(const Circuit& circuit, Findings& findings);

}  // namespace ohmwright
