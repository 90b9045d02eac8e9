// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/wire_grid.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

constexpr std::array<Way, 4> allWays{Way::right, Way::down, Way::left, Way::up};

std::size_t numberOf(Way way) {
    return static_cast<std::size_t>(way);
}

GridPoint stepped(GridPoint point, Way way) {
    const GridPoint offset = wayOffsets[numberOf(way)];
    return {point.x + offset.x, point.y + offset.y};
}

/// Whether a unit step runs through a box or along its edge from inside.
bool runsThrough(GridPoint from, GridPoint to, const GridBox& box) {
    return std::min(from.x, to.x) < box.right && std::max(from.x, to.x) > box.left &&
           std::min(from.y, to.y) < box.bottom && std::max(from.y, to.y) > box.top;
}

}  // namespace

WireGrid::WireGrid(GridPoint topLeft, GridPoint bottomRight)
    : m_topLeft(topLeft),
      m_width(bottomRight.x - topLeft.x + 1),
      m_height(bottomRight.y - topLeft.y + 1),
      m_cells(static_cast<std::size_t>(m_width) * static_cast<std::size_t>(m_height)) {
    for (std::size_t i = 0; i < m_cells.size(); ++i) {
        for (const Way way : allWays) {
            m_cells[i].blocked[numberOf(way)] = !holds(stepped(pointOf(i), way));
        }
    }
}

bool WireGrid::holds(GridPoint point) const {
    return point.x >= m_topLeft.x && point.y >= m_topLeft.y && point.x < m_topLeft.x + m_width &&
           point.y < m_topLeft.y + m_height;
}

std::size_t WireGrid::indexOf(GridPoint point) const {
    const int index = (point.y - m_topLeft.y) * m_width + (point.x - m_topLeft.x);
    return static_cast<std::size_t>(index);
}

GridPoint WireGrid::pointOf(std::size_t index) const {
    const int number = static_cast<int>(index);
    return {m_topLeft.x + number % m_width, m_topLeft.y + number / m_width};
}

std::size_t WireGrid::neighbour(std::size_t index, Way way) const {
    const GridPoint offset = wayOffsets[numberOf(way)];
    const int next = static_cast<int>(index) + offset.y * m_width + offset.x;
    return static_cast<std::size_t>(next);
}

void WireGrid::block(const GridBox& box) {
    const int left = static_cast<int>(std::floor(box.left)) - 1;
    const int right = static_cast<int>(std::ceil(box.right)) + 1;
    const int top = static_cast<int>(std::floor(box.top)) - 1;
    const int bottom = static_cast<int>(std::ceil(box.bottom)) + 1;
    for (int y = top; y <= bottom; ++y) {
        for (int x = left; x <= right; ++x) {
            for (const Way way : {Way::right, Way::down}) {
                if (runsThrough({x, y}, stepped({x, y}, way), box)) {
                    blockStep({x, y}, way);
                }
            }
        }
    }
}

void WireGrid::blockStep(GridPoint point, Way way) {
    const GridPoint other = stepped(point, way);
    if (holds(point)) {
        m_cells[indexOf(point)].blocked[numberOf(way)] = true;
    }
    if (holds(other)) {
        m_cells[indexOf(other)].blocked[numberOf(opposite(way))] = true;
    }
}

void WireGrid::addPrice(const GridBox& box, double price) {
    for (int y = static_cast<int>(std::ceil(box.top)); y <= box.bottom; ++y) {
        for (int x = static_cast<int>(std::ceil(box.left)); x <= box.right; ++x) {
            if (holds({x, y})) {
                m_cells[indexOf({x, y})].price += price;
            }
        }
    }
}

void WireGrid::addEnd(GridPoint point, int net) {
    Cell& cell = m_cells[indexOf(point)];
    cell.endNet = net;
    cell.ends += 1;
}

void WireGrid::addPiece(GridPoint from, GridPoint to, int net, int change) {
    const Way way = from.y == to.y ? (to.x > from.x ? Way::right : Way::left) : (to.y > from.y ? Way::down : Way::up);
    const int value = change > 0 ? net : none;
    while (!(from == to)) {
        const GridPoint next = stepped(from, way);
        m_cells[indexOf(from)].stepNet[numberOf(way)] = value;
        m_cells[indexOf(next)].stepNet[numberOf(opposite(way))] = value;
        from = next;
    }
}

bool WireGrid::isBlocked(std::size_t index, Way way) const {
    return m_cells[index].blocked[numberOf(way)];
}

int WireGrid::netOfStep(std::size_t index, Way way) const {
    return m_cells[index].stepNet[numberOf(way)];
}

int WireGrid::endsHere(std::size_t index, int net) const {
    const Cell& cell = m_cells[index];
    return static_cast<int>(std::count(cell.stepNet.begin(), cell.stepNet.end(), net)) +
           (cell.endNet == net ? cell.ends : 0);
}

WireGrid::Foreign WireGrid::foreign(std::size_t index, int net, Way way) const {
    const Cell& cell = m_cells[index];
    Foreign found;
    std::array<bool, 4> theirs{};
    for (const Way each : allWays) {
        const int there = cell.stepNet[numberOf(each)];
        theirs[numberOf(each)] = there != none && there != net;
        found.any = found.any || theirs[numberOf(each)];
    }
    const bool isEnd = cell.endNet != none && cell.endNet != net;
    if (isEnd) {
        return {true, false};
    }
    const auto along = numberOf(way) % 2;
    found.crossable = found.any && !theirs[along] && !theirs[along + 2] && theirs[1 - along] && theirs[3 - along];
    return found;
}

}  // namespace ohmwright
