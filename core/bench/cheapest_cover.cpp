// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/cheapest_cover.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace ohmwright {

namespace {

/// Exact search: the row that the fewest columns cover is covered first, branches dearer than the best are left.
class CoverSearch {
public:
    CoverSearch(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs)
        : m_covers(covers), m_costs(costs) {
        for (std::size_t row = 0; row < covers.size(); ++row) {
            if (std::find(covers[row].begin(), covers[row].end(), true) != covers[row].end()) {
                m_open.push_back(row);
            }
        }
    }

    Cover search() {
        greedy();
        std::vector<std::size_t> chosen;
        descend(m_open, chosen, 0.0);
        std::sort(m_best.begin(), m_best.end());
        return {m_best, m_nodes < mostNodes};
    }

private:
    static constexpr long mostNodes = 200000;

    [[nodiscard]] std::vector<std::size_t> uncovered(const std::vector<std::size_t>& rows, std::size_t column) const {
        std::vector<std::size_t> left;
        for (const std::size_t row : rows) {
            if (!m_covers[row][column]) {
                left.push_back(row);
            }
        }
        return left;
    }

    /// A good start: again and again the column that covers the most for its cost.
    void greedy() {
        std::vector<std::size_t> rows = m_open;
        m_bestCost = 0.0;
        while (!rows.empty()) {
            std::size_t best = 0;
            double bestWorth = 0.0;
            for (std::size_t column = 0; column < m_costs.size(); ++column) {
                const auto gained = static_cast<double>(rows.size() - uncovered(rows, column).size());
                if (gained / m_costs[column] > bestWorth) {
                    bestWorth = gained / m_costs[column];
                    best = column;
                }
            }
            m_best.push_back(best);
            m_bestCost += m_costs[best];
            rows = uncovered(rows, best);
        }
    }

    void descend(const std::vector<std::size_t>& rows, std::vector<std::size_t>& chosen, double cost) {
        if (rows.empty()) {
            if (cost < m_bestCost) {
                m_best = chosen;
                m_bestCost = cost;
            }
            return;
        }
        if (++m_nodes >= mostNodes) {
            return;
        }
        std::vector<std::size_t> fewest;
        double bound = 0.0;
        for (const std::size_t row : rows) {
            std::vector<std::size_t> columns;
            double cheapest = std::numeric_limits<double>::infinity();
            for (std::size_t column = 0; column < m_costs.size(); ++column) {
                if (m_covers[row][column]) {
                    columns.push_back(column);
                    cheapest = std::min(cheapest, m_costs[column]);
                }
            }
            bound = std::max(bound, cheapest);
            if (fewest.empty() || columns.size() < fewest.size()) {
                fewest = std::move(columns);
            }
        }
        if (cost + bound >= m_bestCost) {
            return;
        }
        // What covers more is tried first, so that the bound bites early.
        std::vector<std::pair<std::size_t, std::size_t>> order;
        order.reserve(fewest.size());
        for (const std::size_t column : fewest) {
            order.emplace_back(uncovered(rows, column).size(), column);
        }
        std::sort(order.begin(), order.end());
        for (const auto& [left, column] : order) {
            if (cost + m_costs[column] >= m_bestCost) {
                continue;
            }
            chosen.push_back(column);
            descend(uncovered(rows, column), chosen, cost + m_costs[column]);
            chosen.pop_back();
        }
    }

    const std::vector<std::vector<bool>>& m_covers;
    const std::vector<double>& m_costs;
    std::vector<std::size_t> m_open;
    std::vector<std::size_t> m_best;
    double m_bestCost = 0.0;
    long m_nodes = 0;
};

}  // namespace

Cover cheapestCover(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs) {
    return CoverSearch(covers, costs).search();
}

}  // namespace ohmwright
