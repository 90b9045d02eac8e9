// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/net_groups.h"

#include <utility>

namespace ohmwright {

const NetName& NetGroups::groupOf(const NetName& net) const {
    const NetName* group = &net;
    for (auto parent = m_parent.find(*group); parent != m_parent.end(); parent = m_parent.find(*group)) {
        group = &parent->second;
    }
    return *group;
}

bool NetGroups::join(const NetName& a, const NetName& b) {
    NetName larger = groupOf(a);
    NetName smaller = groupOf(b);
    if (larger == smaller) {
        return false;
    }
    if (m_others[larger] < m_others[smaller]) {
        std::swap(larger, smaller);
    }
    // The smaller goes under the larger, so that the way to the top stays short in any circuit.
    m_others[larger] += m_others[smaller] + 1;
    m_parent[smaller] = larger;
    return true;
}

NetGroups groupsByLinks(const Circuit& circuit) {
    NetGroups groups;
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::link && part.nets.size() == 2) {
            groups.join(part.nets[0], part.nets[1]);
        }
    }
    return groups;
}

}  // namespace ohmwright
