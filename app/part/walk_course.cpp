// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/walk_course.h"

#include "core/plan/board_walk.h"

#include <algorithm>

namespace ohmwright {

void WalkCourse::begin() {
    m_here.clear();
    m_behind.clear();
}

PartId WalkCourse::next(const Circuit& board) const {
    const std::vector<PartId> order = walkOrder(board);
    const auto at = std::find(order.begin(), order.end(), m_here);
    const auto found =
        std::find_if(at == order.end() ? order.begin() : at + 1, order.end(),
                     [&board](const PartId& id) { return findPart(board, id)->knowledge == Knowledge::drawn; });
    return found == order.end() ? PartId() : *found;
}

void WalkCourse::stepTo(const PartId& part, bool hasMadeKnown) {
    if (!m_here.empty() && (part != m_here || hasMadeKnown)) {
        m_behind.push_back({m_here, hasMadeKnown});
    }
    m_here = part;
}

void WalkCourse::standAt(const PartId& part) {
    m_here = part;
}

void WalkCourse::goBack() {
    if (!m_behind.empty()) {
        m_here = m_behind.back().from;
        m_behind.pop_back();
    }
}

bool WalkCourse::follow(const Circuit& board) {
    const PartId before = m_here;
    if (!m_behind.empty() && m_behind.back().hasMadeKnown) {
        const Part* last = findPart(board, m_behind.back().from);
        if (last != nullptr && last->knowledge == Knowledge::drawn) {
            goBack();
        }
    }
    // Parts that are gone are no place to go back to either.
    std::erase_if(m_behind, [&board](const Step& step) { return findPart(board, step.from) == nullptr; });
    if (!m_here.empty() && findPart(board, m_here) == nullptr) {
        m_here.clear();
    }
    return m_here != before;
}

}  // namespace ohmwright
