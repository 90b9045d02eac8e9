/// Nets taken together: which nets are joined by the parts that were named so far.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <cstddef>
#include <map>

namespace ohmwright {

/// Disjoint groups of nets. A net that was never joined is a group of its own.
class NetGroups {
public:
    /// Makes one group of the groups of `a` and `b`; false when they already were one.
    bool join(const NetName& a, const NetName& b);
    [[nodiscard]] bool joined(const NetName& a, const NetName& b) const { return groupOf(a) == groupOf(b); }
    /// The net that stands for the group of `net`.
    [[nodiscard]] const NetName& groupOf(const NetName& net) const;

private:
    std::map<NetName, NetName> m_parent;      // absent for a net that stands for its group
    std::map<NetName, std::size_t> m_others;  // how many nets a group has beside the one it is named by
};

/// The groups of nets that links make one.
NetGroups groupsByLinks(const Circuit& circuit);

}  // namespace ohmwright
