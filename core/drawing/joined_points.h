/// Which points of a net are joined so far.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <map>
#include <vector>

namespace ohmwright {

/// Groups of points, each with one that stands for it; points are numbers of the grid.
class Pieces {
public:
    std::size_t of(std::size_t point) {
        m_parent.try_emplace(point, point);
        while (m_parent[point] != point) {
            point = m_parent[point] = m_parent[m_parent[point]];
        }
        return point;
    }
    void join(std::size_t a, std::size_t b) { m_parent[of(a)] = of(b); }
    [[nodiscard]] bool knows(std::size_t point) const { return m_parent.count(point) > 0; }
    std::map<std::size_t, std::vector<std::size_t>> all() {
        std::map<std::size_t, std::vector<std::size_t>> groups;
        for (const auto& [point, parent] : std::map<std::size_t, std::size_t>(m_parent)) {
            groups[of(point)].push_back(point);
        }
        return groups;
    }

private:
    std::map<std::size_t, std::size_t> m_parent;
};

}  // namespace ohmwright
