// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/route.h"

#include "core/drawing/joined_points.h"
#include "core/drawing/sketch.h"
#include "core/drawing/wires_on_grid.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <optional>
#include <queue>
#include <set>
#include <utility>

namespace ohmwright {
namespace {

/// In lengths of a step.
constexpr double bendPrice = 2.5;
constexpr double crossingPrice = 5.0;
/// Words that a wire runs through move aside; where some find no side any more, all is done anew at the second price.
constexpr std::array<double, 2> wordPrices{1.0, 4.0};
constexpr double signWordPrice = 5.0;
constexpr double jointOfFourPrice = 8.0;
/// Room round the parts for wires that go about them.
constexpr int margin = 3;

constexpr std::array<Way, 4> allWays{Way::right, Way::down, Way::left, Way::up};

struct Terminal {
    GridPoint at;
    bool isSign = false;
};

struct NetPlan {
    NetName name;
    std::vector<Terminal> terminals;
    std::vector<Wire> kept;                    ///< Drawn before; never taken away.
    std::vector<std::vector<GridPoint>> ways;  ///< As found, corner by corner.
};

/// Whether something upright of a wire stands in a box.
bool holdsUprightWire(const Circuit& circuit, const GridBox& box) {
    return std::any_of(circuit.drawing.wires.begin(), circuit.drawing.wires.end(), [&box](const Wire& wire) {
        for (std::size_t i = 1; i < wire.corners.size(); ++i) {
            const GridPoint a = wire.corners[i - 1];
            const GridPoint b = wire.corners[i];
            if (a.x == b.x && a.x > box.left && a.x < box.right && std::min(a.y, b.y) < box.bottom &&
                std::max(a.y, b.y) > box.top) {
                return true;
            }
        }
        return false;
    });
}

/// Upright parts of two pins with a wire close by on either side: their words have no place.
int wordlessParts(const Circuit& circuit) {
    return static_cast<int>(std::count_if(circuit.parts.begin(), circuit.parts.end(), [&circuit](const Part& part) {
        if (!part.placement || drawnPinCount(part.kind) != 2 || pinPoint(part, 0).x != pinPoint(part, 1).x) {
            return false;
        }
        const int x = pinPoint(part, 0).x;
        const double middle = (pinPoint(part, 0).y + pinPoint(part, 1).y) / 2.0;
        const double reach = wordColumns(part) - 0.5;
        return holdsUprightWire(circuit, {x - reach, middle - 0.9, x - 0.5, middle + 0.9}) &&
               holdsUprightWire(circuit, {x + 0.5, middle - 0.9, x + reach, middle + 0.9});
    }));
}

class Router {
public:
    Router(Circuit& circuit, const std::vector<GridBox>& words, double wordPrice)
        : m_circuit(circuit), m_grid(cornerOf(circuit, -1), cornerOf(circuit, 1)) {
        collectNets();
        enterBodies();
        for (const GridBox& box : words) {
            m_grid.addPrice(box, wordPrice);
        }
        enterSigns();
    }

    void run() {
        std::vector<std::size_t> order(m_nets.size());
        for (std::size_t i = 0; i < order.size(); ++i) {
            order[i] = i;
        }
        std::stable_sort(order.begin(), order.end(),
                         [this](std::size_t a, std::size_t b) { return extent(m_nets[a]) < extent(m_nets[b]); });
        for (const std::size_t net : order) {
            joinUp(net);
        }
        for (int pass = 0; pass < 2; ++pass) {
            for (const std::size_t net : order) {
                takeAway(net);
                joinUp(net);
            }
        }
        writeWires();
    }

private:
    static GridPoint cornerOf(const Circuit& circuit, int side) {
        GridPoint corner{side > 0 ? std::numeric_limits<int>::min() : std::numeric_limits<int>::max(),
                         side > 0 ? std::numeric_limits<int>::min() : std::numeric_limits<int>::max()};
        const auto reach = [&corner, side](GridPoint point) {
            corner.x = side > 0 ? std::max(corner.x, point.x) : std::min(corner.x, point.x);
            corner.y = side > 0 ? std::max(corner.y, point.y) : std::min(corner.y, point.y);
        };
        for (const Part& part : circuit.parts) {
            for (int pin = 0; part.placement && pin < std::max(1, drawnPinCount(part.kind)); ++pin) {
                reach(pinPoint(part, pin));
            }
        }
        for (const Flag& flag : circuit.drawing.flags) {
            reach(flag.at);
        }
        for (const Wire& wire : circuit.drawing.wires) {
            std::for_each(wire.corners.begin(), wire.corners.end(), reach);
        }
        return {corner.x + side * margin, corner.y + side * margin};
    }

    std::size_t numberOf(const NetName& name) {
        const auto [known, isNew] = m_numbers.try_emplace(name, m_nets.size());
        if (isNew) {
            m_nets.push_back({name, {}, {}, {}});
        }
        return known->second;
    }

    void collectNets() {
        for (const Part& part : m_circuit.parts) {
            const int drawn = std::min(drawnPinCount(part.kind), static_cast<int>(part.nets.size()));
            for (int pin = 0; part.placement && pin < drawn; ++pin) {
                const std::size_t net = numberOf(part.nets[static_cast<std::size_t>(pin)]);
                const GridPoint at = pinPoint(part, pin);
                m_nets[net].terminals.push_back({at, false});
                m_grid.addEnd(at, static_cast<int>(net));
            }
        }
        for (const Flag& flag : m_circuit.drawing.flags) {
            if (flag.kind != FlagKind::note) {
                const std::size_t net = numberOf(flag.net);
                m_nets[net].terminals.push_back({flag.at, flag.kind != FlagKind::terminal});
                m_grid.addEnd(flag.at, static_cast<int>(net));
            }
        }
        for (const Wire& wire : m_circuit.drawing.wires) {
            const std::size_t net = numberOf(wire.net);
            m_nets[net].kept.push_back(wire);
            enter(wire.corners, static_cast<int>(net), 1);
        }
    }

    void enter(const std::vector<GridPoint>& corners, int net, int change) {
        for (std::size_t i = 1; i < corners.size(); ++i) {
            m_grid.addPiece(corners[i - 1], corners[i], net, change);
        }
    }

    void enterBodies() {
        for (const Part& part : m_circuit.parts) {
            if (!part.placement) {
                continue;
            }
            const GridBox body = bodyBox(part);
            constexpr double clearance = 0.05;
            m_grid.block(
                {body.left - clearance, body.top - clearance, body.right + clearance, body.bottom + clearance});
            for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
                blockLead(pinPoint(part, pin), body);
            }
        }
    }

    /// From the pin straight to the body.
    void blockLead(GridPoint pin, const GridBox& body) {
        const double dx = std::max({body.left - pin.x, 0.0, pin.x - body.right});
        const double dy = std::max({body.top - pin.y, 0.0, pin.y - body.bottom});
        const bool isLevelLead = dx >= dy;
        const Way way =
            isLevelLead ? (pin.x < body.left ? Way::right : Way::left) : (pin.y < body.top ? Way::down : Way::up);
        const int steps = static_cast<int>(std::ceil(std::max(dx, dy)));
        const GridPoint offset = wayOffsets[static_cast<std::size_t>(way)];
        for (int i = 0; i < steps; ++i) {
            const GridPoint here{pin.x + i * offset.x, pin.y + i * offset.y};
            m_grid.blockStep(here, way);
            if (i > 0) {  // nothing crosses a lead
                m_grid.blockStep(here, isLevelLead ? Way::up : Way::left);
                m_grid.blockStep(here, isLevelLead ? Way::down : Way::right);
            }
        }
    }

    void enterSigns() {
        for (const Flag& flag : m_circuit.drawing.flags) {
            if (flag.kind == FlagKind::ground) {
                m_grid.blockStep(flag.at, Way::down);
            } else if (flag.kind == FlagKind::supply) {
                m_grid.blockStep(flag.at, Way::up);
                m_grid.addPrice({flag.at.x - 1.0, flag.at.y - 1.0, flag.at.x + 1.0, flag.at.y - 1.0}, signWordPrice);
            }
        }
    }

    static double extent(const NetPlan& net) {
        if (net.terminals.empty()) {
            return 0.0;
        }
        const auto byX = [](const Terminal& a, const Terminal& b) { return a.at.x < b.at.x; };
        const auto byY = [](const Terminal& a, const Terminal& b) { return a.at.y < b.at.y; };
        const auto [left, right] = std::minmax_element(net.terminals.begin(), net.terminals.end(), byX);
        const auto [top, bottom] = std::minmax_element(net.terminals.begin(), net.terminals.end(), byY);
        return right->at.x - left->at.x + bottom->at.y - top->at.y;
    }

    void takeAway(std::size_t net) {
        for (const std::vector<GridPoint>& way : m_nets[net].ways) {
            enter(way, static_cast<int>(net), -1);
        }
        m_nets[net].ways.clear();
        for (const Wire& wire : m_nets[net].kept) {
            enter(wire.corners, static_cast<int>(net), 1);
        }
    }

    Pieces piecesOf(const NetPlan& net) const {
        Pieces pieces;
        for (const Terminal& terminal : net.terminals) {
            pieces.of(m_grid.indexOf(terminal.at));
        }
        for (const Wire& wire : net.kept) {
            for (std::size_t i = 1; i < wire.corners.size(); ++i) {
                joinAlong(wire.corners[i - 1], wire.corners[i], pieces);
            }
        }
        return pieces;
    }

    void joinAlong(GridPoint from, GridPoint to, Pieces& pieces) const {
        const int dx = (to.x > from.x) - (to.x < from.x);
        const int dy = (to.y > from.y) - (to.y < from.y);
        while (!(from == to)) {
            const GridPoint next{from.x + dx, from.y + dy};
            pieces.join(m_grid.indexOf(from), m_grid.indexOf(next));
            from = next;
        }
    }

    /// Joins the nearest pieces until one is left; with signs, until every piece has one.
    void joinUp(std::size_t number) {
        NetPlan& net = m_nets[number];
        Pieces pieces = piecesOf(net);
        std::set<std::size_t> signs;
        for (const Terminal& terminal : net.terminals) {
            if (terminal.isSign) {
                signs.insert(m_grid.indexOf(terminal.at));
            }
        }
        while (true) {
            const auto groups = pieces.all();
            std::vector<std::size_t> open;
            for (const auto& [root, points] : groups) {
                const bool hasSign = std::any_of(points.begin(), points.end(),
                                                 [&signs](std::size_t point) { return signs.count(point) > 0; });
                if (!hasSign) {
                    open.push_back(root);
                }
            }
            if (open.empty() || groups.size() < 2 || (signs.empty() && open.size() < 2)) {
                return;
            }
            std::optional<std::vector<GridPoint>> way;
            for (const std::size_t root : open) {
                way = findWay(static_cast<int>(number), groups.at(root), pieces, root);
                if (way) {
                    break;
                }
            }
            if (!way) {
                nameEnds(number, open, groups);
                return;
            }
            enter(*way, static_cast<int>(number), 1);
            for (std::size_t i = 1; i < way->size(); ++i) {
                joinAlong((*way)[i - 1], (*way)[i], pieces);
            }
            if (way->size() == 1) {
                return;
            }
            net.ways.push_back(std::move(*way));
        }
    }

    /// The last resort: ends that say their net's name.
    void nameEnds(std::size_t number, const std::vector<std::size_t>& open,
                  const std::map<std::size_t, std::vector<std::size_t>>& groups) {
        for (const std::size_t root : open) {
            const GridPoint at = m_grid.pointOf(groups.at(root).front());
            const NetName& name = m_nets[number].name;
            const bool isGround = name == groundNet;
            m_circuit.drawing.flags.push_back(
                {isGround ? FlagKind::ground : FlagKind::supply, name, at, isGround ? "" : name});
            m_nets[number].terminals.push_back({at, true});
        }
    }

    struct State {
        double cost;
        std::size_t key;  ///< Point times four plus the way it was reached.
        friend bool operator>(const State& a, const State& b) {
            return std::tie(a.cost, a.key) > std::tie(b.cost, b.key);
        }
    };

    std::optional<std::vector<GridPoint>> findWay(int net, const std::vector<std::size_t>& from, Pieces& pieces,
                                                  std::size_t root) {
        constexpr double never = std::numeric_limits<double>::infinity();
        std::vector<double> cost(m_grid.count() * 4, never);
        std::vector<std::size_t> before(m_grid.count() * 4, 0);
        std::priority_queue<State, std::vector<State>, std::greater<>> queue;
        for (const std::size_t point : from) {
            for (const Way way : allWays) {
                tryStep(net, point, way, startCost(net, point), point * 4 + static_cast<std::size_t>(way), cost, before,
                        queue, true);
            }
        }
        while (!queue.empty()) {
            const State state = queue.top();
            queue.pop();
            if (state.cost > cost[state.key]) {
                continue;
            }
            const std::size_t point = state.key / 4;
            if (pieces.knows(point)) {
                if (pieces.of(point) != root) {
                    return traced(state.key, before);
                }
                continue;
            }
            const Way reached = static_cast<Way>(state.key % 4);
            const bool mustGoOn = m_grid.foreign(point, net, reached).any;
            for (const Way way : allWays) {
                if (way == opposite(reached) || (mustGoOn && way != reached)) {
                    continue;
                }
                const double bend = way == reached ? 0.0 : bendPrice;
                tryStep(net, point, way, state.cost + bend, state.key, cost, before, queue, false);
            }
        }
        return std::nullopt;
    }

    double startCost(int net, std::size_t point) const {
        return m_grid.endsHere(point, net) >= 3 ? jointOfFourPrice : 0.0;
    }

    void tryStep(int net, std::size_t point, Way way, double costHere, std::size_t key, std::vector<double>& cost,
                 std::vector<std::size_t>& before,
                 std::priority_queue<State, std::vector<State>, std::greater<>>& queue, bool isStart) const {
        if (m_grid.isBlocked(point, way) || m_grid.netOfStep(point, way) != WireGrid::none) {
            return;
        }
        if (isStart && m_grid.foreign(point, net, way).any) {
            return;  // another net crosses here: no joint
        }
        const std::size_t next = m_grid.neighbour(point, way);
        const WireGrid::Foreign foreign = m_grid.foreign(next, net, way);
        const int ends = m_grid.endsHere(next, net);
        if (foreign.any && (!foreign.crossable || ends > 0)) {
            return;
        }
        double reached = costHere + 1.0 + m_grid.price(next) + (foreign.any ? crossingPrice : 0.0);
        reached += ends >= 3 ? jointOfFourPrice : 0.0;
        const std::size_t nextKey = next * 4 + static_cast<std::size_t>(way);
        if (reached < cost[nextKey]) {
            cost[nextKey] = reached;
            before[nextKey] = isStart ? startMark + point : key;
            queue.push({reached, nextKey});
        }
    }

    /// Corners from the start to the point of `key`.
    std::vector<GridPoint> traced(std::size_t key, const std::vector<std::size_t>& before) const {
        std::vector<GridPoint> points{m_grid.pointOf(key / 4)};
        while (true) {
            const std::size_t last = before[key];
            const bool isStart = last >= startMark;
            points.push_back(m_grid.pointOf(isStart ? last - startMark : last / 4));
            if (isStart) {
                break;
            }
            key = last;
        }
        std::vector<GridPoint> corners;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const bool isInner = i > 0 && i + 1 < points.size();
            const bool isStraight = isInner && ((points[i - 1].x == points[i].x && points[i].x == points[i + 1].x) ||
                                                (points[i - 1].y == points[i].y && points[i].y == points[i + 1].y));
            if (!isStraight) {
                corners.push_back(points[i]);
            }
        }
        return corners;
    }

    void writeWires() {
        std::vector<NetName> names;
        for (const NetPlan& net : m_nets) {
            names.push_back(net.name);
        }
        m_circuit.drawing.wires = wiresOn(m_grid, names);
    }

    static constexpr std::size_t startMark = std::numeric_limits<std::size_t>::max() / 2;

    Circuit& m_circuit;
    WireGrid m_grid;
    std::map<NetName, std::size_t> m_numbers;
    std::vector<NetPlan> m_nets;
};

}  // namespace

void joinWithWires(Circuit& circuit, const std::vector<GridBox>& words) {
    const bool isPlaced = std::any_of(circuit.parts.begin(), circuit.parts.end(),
                                      [](const Part& part) { return part.placement.has_value(); });
    if (!isPlaced) {
        return;
    }
    std::optional<Circuit> best;
    int fewest = std::numeric_limits<int>::max();
    for (const double price : wordPrices) {
        Circuit joined = circuit;
        Router(joined, words, price).run();
        const int silenced = wordlessParts(joined);
        if (silenced < fewest) {
            fewest = silenced;
            best = std::move(joined);
        }
        if (fewest == 0) {
            break;
        }
    }
    circuit = std::move(*best);
}

}  // namespace ohmwright
