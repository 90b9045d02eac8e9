/// The drawing's grid as the router sees it: what stands at each point, and which steps between points are free.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/outline.h"

#include <array>
#include <cstddef>
#include <vector>

namespace ohmwright {

enum class Way { right, down, left, up };
inline constexpr std::array<GridPoint, 4> wayOffsets{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
inline constexpr Way opposite(Way way) {
    return static_cast<Way>((static_cast<int>(way) + 2) % 4);
}
inline constexpr bool isLevel(Way way) {
    return way == Way::right || way == Way::left;
}

/// Points of a rectangle of the drawing. Nets are numbers from 0; -1 is none.
class WireGrid {
public:
    static constexpr int none = -1;

    WireGrid(GridPoint topLeft, GridPoint bottomRight);

    [[nodiscard]] std::size_t count() const { return m_cells.size(); }
    [[nodiscard]] bool holds(GridPoint point) const;
    [[nodiscard]] std::size_t indexOf(GridPoint point) const;
    [[nodiscard]] GridPoint pointOf(std::size_t index) const;

    /// No wire through the box, its edge not counting.
    void block(const GridBox& box);
    void blockStep(GridPoint point, Way way);
    void addPrice(const GridBox& box, double price);
    /// A pin, a sign: a net ends here, whatever wires do.
    void addEnd(GridPoint point, int net);
    /// A wire's straight piece; `change` is 1 to add, -1 to take away.
    void addPiece(GridPoint from, GridPoint to, int net, int change);

    [[nodiscard]] bool isBlocked(std::size_t index, Way way) const;
    [[nodiscard]] std::size_t neighbour(std::size_t index, Way way) const;
    [[nodiscard]] double price(std::size_t index) const { return m_cells[index].price; }
    /// The net whose wire takes this step, or none.
    [[nodiscard]] int netOfStep(std::size_t index, Way way) const;
    /// Ends of pins and signs plus wires of `net` that meet here.
    [[nodiscard]] int endsHere(std::size_t index, int net) const;
    /// Whether something of another net than `net` stands here; if it is but a wire that passes straight and across
    /// `way`, it may be crossed.
    struct Foreign {
        bool any = false;
        bool crossable = false;
    };
    [[nodiscard]] Foreign foreign(std::size_t index, int net, Way way) const;

private:
    struct Cell {
        std::array<int, 4> stepNet{none, none, none, none};
        std::array<bool, 4> blocked{};
        int endNet = none;
        int ends = 0;
        double price = 0.0;
    };

    GridPoint m_topLeft;
    int m_width;
    int m_height;
    std::vector<Cell> m_cells;
};

}  // namespace ohmwright
