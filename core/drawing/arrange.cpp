// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/arrange.h"

#include "core/drawing/laid_beside.h"
#include "core/drawing/rail_signs.h"
#include "core/drawing/route.h"
#include "core/drawing/sheet.h"
#include "core/drawing/stage_names.h"
#include "core/drawing/supply_field.h"
#include "core/drawing/zones.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace ohmwright {
namespace {

/// A pin that a wire will come to, in its sketch's own coordinates.
struct OpenEnd {
    NetName net;
    GridPoint at;
};

/// Room at the sheet's edges, in grid steps: for words, and for wires along the rim.
constexpr int leftMargin = 1;
constexpr int topMargin = 2;

class Arranger {
public:
    /// @param meets  nets that parts outside the circuit are on.
    Arranger(const Circuit& circuit, Rails rails, const std::set<NetName>& meets = {})
        : m_circuit(circuit),
          m_rails(std::move(rails)),
          m_branches(branchesOf(circuit, m_rails, meets)),
          m_steps(signalSteps(circuit, m_rails, m_branches)) {
        m_progress.branches.resize(m_branches.size());
        m_progress.parts.resize(circuit.parts.size());
        for (std::size_t i = 0; i < m_branches.size(); ++i) {
            const Branch& branch = m_branches[i];
            m_isOfSupply.push_back(m_rails.isRail(branch.from) && m_rails.isRail(branch.to));
        }
    }

    /// Draws all parts beside what stands already. @return what was added.
    Sketch drawBeside(const Sketch& standing, Parallels parallels) {
        m_all = standing;
        m_isOfSupply.assign(m_isOfSupply.size(), false);
        if (parallels == Parallels::asLadders) {
            drawLadders();
        }
        while (drawLevels() || drawFromKnown() || drawFromNothing()) {
        }
        m_all.flags.erase(m_all.flags.begin(), m_all.flags.begin() + std::ptrdiff_t(standing.flags.size()));
        m_all.wires.erase(m_all.wires.begin(), m_all.wires.begin() + std::ptrdiff_t(standing.wires.size()));
        return m_all;
    }

    Circuit draw() {
        drawSignal();
        while (drawLevels() || drawFromKnown() || drawFromNothing()) {
        }
        Sketch supply = drawSupply(m_input, m_progress);
        m_supplyParts.resize(m_circuit.parts.size());
        for (const auto& [index, placement] : supply.parts) {
            m_supplyParts[index] = true;
        }
        Circuit drawn = placed(supply);
        addMissingSigns(drawn, m_rails, m_supplyParts);
        keepSignTexts(m_circuit.drawing, drawn.drawing);
        joinWithWires(drawn, m_all.taken);
        const int moved = fitSheet(drawn, topMargin);
        std::vector<int> columns = m_all.zones;
        for (int& column : columns) {
            column += moved;
        }
        nameStages(drawn, m_way, m_starts, columns);
        return drawn;
    }

private:
    // The signal's own row
    // ----------------------------------------------------------------------------------------------

    [[nodiscard]] const Branch* sourceBranch() const {
        for (const Branch& branch : m_branches) {
            for (const Branch::Element& element : branch.elements) {
                if (m_circuit.parts[element.part].id == m_circuit.ports.source) {
                    return &branch;
                }
            }
        }
        return nullptr;
    }

    [[nodiscard]] NetName startNet() const {
        if (const Branch* source = sourceBranch()) {
            if (!m_rails.isRail(source->from) || !m_rails.isRail(source->to)) {
                return m_rails.isRail(source->from) ? source->to : source->from;
            }
        }
        if (!m_steps.empty()) {
            return m_steps.front().from;
        }
        for (const Branch& branch : m_branches) {
            for (const NetName& end : {branch.from, branch.to}) {
                if (!m_rails.isRail(end)) {
                    return end;
                }
            }
        }
        return {};
    }

    void drawSignal() {
        const NetName start = startNet();
        if (start.empty()) {
            return;
        }
        const NetName& output = m_circuit.ports.output;
        m_way = shortestWay(
            m_steps, start, [&output](const NetName& net) { return net == output; },
            [](const SignalStep&) { return true; });
        m_starts = stageStarts(m_circuit, m_branches, m_way);
        m_all = drawRow(m_input, start, m_way, m_progress, m_starts);
        addTerminal(output);
    }

    void addTerminal(const NetName& output) {
        const auto line = m_all.lines.find(output);
        if (line == m_all.lines.end()) {
            return;
        }
        const GridPoint at{static_cast<int>(std::ceil(m_all.bounds().right)) + 1, line->second.y};
        m_all.flags.push_back({FlagKind::terminal, output, at, ""});
        m_all.taken.push_back({at.x - 0.5, at.y - 0.5, at.x + 0.5, at.y + 0.5});
        line->second.right = at.x;
    }

    // What else there is
    // ------------------------------------------------------------------------------------------------

    /// Series between the same two nets: level ones one below the other with their ends joined upright, those to a
    /// supply or to ground side by side on one line.
    void drawLadders() {
        std::map<std::pair<NetName, NetName>, std::vector<std::size_t>> byEnds;
        for (std::size_t i = 0; i < m_branches.size(); ++i) {
            const Branch& branch = m_branches[i];
            if (!m_rails.isRail(branch.from) || !m_rails.isRail(branch.to)) {
                byEnds[std::minmax(branch.from, branch.to)].push_back(i);
            }
        }
        for (const auto& [ends, rungs] : byEnds) {
            if (rungs.size() > 1) {
                const bool hangs = m_rails.isRail(ends.first) || m_rails.isRail(ends.second);
                addWhereNear(hangs ? hungInARow(rungs) : ladderOf(ends.first, ends.second, rungs));
            }
        }
    }

    void mark(std::size_t index) {
        m_progress.branches[index] = true;
        for (const Branch::Element& element : m_branches[index].elements) {
            m_progress.parts[element.part] = true;
        }
    }

    Sketch hungInARow(const std::vector<std::size_t>& rungs) {
        Sketch row;
        NetName net;
        int column = 0;
        for (const std::size_t index : rungs) {
            const Branch& branch = m_branches[index];
            if (!net.empty()) {
                for (const Branch::Element& element : branch.elements) {
                    column = std::max(column, lastColumn(row) + wordColumns(m_circuit.parts[element.part]) + 1);
                }
            }
            net = m_rails.isRail(branch.from) ? branch.to : branch.from;
            Sketch hung = hungAlone(branch);
            hung.move(column, 0);
            row.add(hung);
            mark(index);
        }
        row.wires.push_back({net, {{0, 0}, {column, 0}}});
        return row;
    }

    static int lastColumn(const Sketch& row) { return static_cast<int>(std::floor(row.bounds().right)); }

    /// What stands at the left of two nets is the one that is further left already.
    Sketch ladderOf(const NetName& first, const NetName& second, const std::vector<std::size_t>& rungs) {
        constexpr int rungHeight = 3;
        const bool isTurned = middleOf(first) > middleOf(second);
        const NetName& left = isTurned ? second : first;
        const NetName& right = isTurned ? first : second;
        Sketch ladder;
        std::vector<int> lengths;
        for (const std::size_t index : rungs) {
            const Branch& branch = m_branches[index];
            Sketch rung = drawLevel(m_input, branch.from == left ? branch : branch.turned());
            int length = 0;
            for (const Branch::Element& element : branch.elements) {
                length += levelSpan(m_circuit.parts[element.part]);
            }
            mark(index);
            rung.move(0, rungHeight * static_cast<int>(lengths.size()));
            ladder.add(rung);
            lengths.push_back(length);
        }
        const int widest = *std::max_element(lengths.begin(), lengths.end());
        for (int i = 0; i < static_cast<int>(lengths.size()); ++i) {
            const int y = rungHeight * i;
            if (const int length = lengths[static_cast<std::size_t>(i)]; length < widest) {
                ladder.wires.push_back({right, {{length, y}, {widest, y}}});
            }
        }
        const int bottom = rungHeight * (static_cast<int>(lengths.size()) - 1);
        ladder.wires.push_back({left, {{0, 0}, {0, bottom}}});
        ladder.wires.push_back({right, {{widest, 0}, {widest, bottom}}});
        return ladder;
    }

    /// One series between two nets that have their lines.
    bool drawLevels() {
        for (std::size_t i = 0; i < m_branches.size(); ++i) {
            const Branch& branch = m_branches[i];
            if (m_progress.branches[i] || m_isOfSupply[i] || !isKnown(branch.from) || !isKnown(branch.to)) {
                continue;
            }
            const bool isTurned = middleOf(branch.from) > middleOf(branch.to);
            const Branch& level = isTurned ? branch.turned() : branch;
            mark(i);
            addWhereNear(m_rails.isRail(branch.from) || m_rails.isRail(branch.to) ? hungAlone(level)
                                                                                  : drawLevel(m_input, level));
            return true;
        }
        return false;
    }

    /// A series from a net whose line is drawn already to a supply.
    Sketch hungAlone(const Branch& branch) const {
        Sketch sketch;
        const Branch down = m_rails.isRail(branch.from) ? branch.turned() : branch;
        hang(m_input, down, {0, 0}, m_rails.isAbove(down.to), sketch);
        return sketch;
    }

    [[nodiscard]] bool isKnown(const NetName& net) const { return m_rails.isRail(net) || m_all.lines.count(net) > 0; }

    [[nodiscard]] double middleOf(const NetName& net) const {
        const auto line = m_all.lines.find(net);
        return line == m_all.lines.end() ? 0.0 : (line->second.left + line->second.right) / 2.0;
    }

    [[nodiscard]] bool isOpen(const SignalStep& step) const {
        return step.through == SignalStep::Through::branch ? !m_progress.branches[step.index]
                                                           : !m_progress.parts[step.index];
    }

    [[nodiscard]] const std::string& callOf(const SignalStep& step) const {
        const bool isBranch = step.through == SignalStep::Through::branch;
        return m_circuit.parts[isBranch ? m_branches[step.index].elements.front().part : step.index].call;
    }

    /// A row that leaves a net with a line and comes back to one, or ends.
    bool drawFromKnown() {
        for (const SignalStep& first : m_steps) {
            if (!isOpen(first) || m_all.lines.count(first.from) == 0) {
                continue;
            }
            const NetName from = first.from;
            // What belongs to one subcircuit is drawn together.
            const std::string& call = callOf(first);
            const std::vector<SignalStep> way = shortestWay(
                m_steps, from, [this](const NetName& net) { return m_all.lines.count(net) > 0; },
                [&](const SignalStep& step) {
                    return isOpen(step) && callOf(step) == call && step.through != SignalStep::Through::law &&
                           (step.from != from || &step == &first);
                });
            if (way.empty()) {
                continue;
            }
            addWhereNear(drawRow(m_input, from, way, m_progress));
            return true;
        }
        return false;
    }

    /// A part that nothing drawn leads to.
    bool drawFromNothing() {
        for (const SignalStep& step : m_steps) {
            if (isOpen(step) && step.through != SignalStep::Through::law) {
                const std::vector<SignalStep> way = shortestWay(
                    m_steps, step.from, [](const NetName&) { return false; },
                    [this](const SignalStep& each) {
                        return isOpen(each) && each.through != SignalStep::Through::law;
                    });
                addWhereNear(drawRow(m_input, step.from, way, m_progress));
                return true;
            }
        }
        for (std::size_t i = 0; i < m_branches.size(); ++i) {
            if (!m_progress.branches[i] && !m_isOfSupply[i]) {
                const Branch& branch = m_branches[i];
                addWhereNear(drawRow(m_input, m_rails.isRail(branch.from) ? branch.to : branch.from, {}, m_progress));
                if (!m_progress.branches[i]) {
                    m_progress.branches[i] = true;
                    addWhereNear(drawLevel(m_input, branch));
                }
                return true;
            }
        }
        for (std::size_t i = 0; i < m_circuit.parts.size(); ++i) {
            if (!m_progress.parts[i] && endsOf(m_circuit.parts[i]).empty()) {
                m_progress.parts[i] = true;
                Sketch alone;
                Part part = m_circuit.parts[i];
                part.placement = Placement{};
                part.placement->span = part.kind == PartKind::potentiometer ? 2 : 3;
                alone.parts[i] = *part.placement;
                const GridBox box = bodyBox(part);
                alone.taken.push_back({box.left - 2, box.top - 2, box.right + 2, box.bottom + 2});
                addWhereNear(alone);
                return true;
            }
        }
        return false;
    }

    // Places
    // ------------------------------------------------------------------------------------------------------------

    [[nodiscard]] std::vector<OpenEnd> openEndsOf(const Sketch& sketch) const {
        std::vector<OpenEnd> ends;
        for (const auto& [index, placement] : sketch.parts) {
            Part part = m_circuit.parts[index];
            part.placement = placement;
            for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
                const NetName& net = part.nets[static_cast<std::size_t>(pin)];
                if (m_all.lines.count(net) > 0) {
                    ends.push_back({net, pinPoint(part, pin)});
                }
            }
        }
        return ends;
    }

    [[nodiscard]] double wireLength(const std::vector<OpenEnd>& ends, int dx, int dy) const {
        double length = 0.0;
        for (const OpenEnd& end : ends) {
            const NetLine& line = m_all.lines.at(end.net);
            const int x = end.at.x + dx;
            length += std::abs(end.at.y + dy - line.y) + std::max({0, line.left - x, x - line.right});
        }
        return length;
    }

    /// Puts a sketch where it is free and its wires are short; below rather than above, on the sheet rather than
    /// beside.
    void addWhereNear(Sketch sketch) {
        if (sketch.taken.empty()) {
            return;
        }
        const std::vector<OpenEnd> ends = openEndsOf(sketch);
        // Lanes for the wires that come later.
        std::vector<GridBox> tight = sketch.taken;
        for (GridBox& box : sketch.taken) {
            box = {box.left - 0.5, box.top - 0.5, box.right + 0.5, box.bottom + 0.5};
        }
        const GridBox all = m_all.bounds();
        const GridBox own = sketch.bounds();
        double best = std::numeric_limits<double>::infinity();
        GridPoint where;
        const int lowest = static_cast<int>(all.bottom - own.top) + 2;
        const int highest = static_cast<int>(all.top - own.bottom) - 2;
        for (int dx = static_cast<int>(all.left - own.left) - 2; dx <= static_cast<int>(all.right - own.left) + 3;
             ++dx) {
            for (int dy = highest; dy <= lowest; ++dy) {
                const double below = std::max(0.0, own.bottom + dy - all.bottom);
                const double above = std::max(0.0, all.top - own.top - dy);
                const double right = std::max(0.0, own.right + dx - all.right);
                const double left = std::max(0.0, all.left - own.left - dx);
                // A map is three times as wide as high: a row more costs as much as three columns.
                const double cost = wireLength(ends, dx, dy) + 1.5 * below + 1.5 * above + 0.5 * right + 1.0 * left;
                if (cost < best && !m_all.meets(sketch, dx, dy)) {
                    best = cost;
                    where = {dx, dy};
                }
            }
        }
        sketch.taken = std::move(tight);
        sketch.move(where.x, where.y);
        m_all.add(sketch);
    }

    /// Below the first stages, or to the right of everything where the map is shown larger then: a map is three times
    /// as wide as high.
    void placeSupply(Sketch& supply) const {
        constexpr int titleRoom = 3;
        const GridBox own = supply.bounds();
        const GridBox all = m_all.bounds();
        const auto scaleOf = [](double width, double height) { return std::min(1.0 / width, 1.0 / (3.0 * height)); };
        const double width = all.right - all.left;
        const double height = all.bottom - all.top;
        const double ownWidth = own.right - own.left + 2;
        const double ownHeight = own.bottom - own.top + titleRoom;
        const double lowest = m_all.lowestBetween(all.left - 1, all.left + ownWidth, all.top);
        const double below = scaleOf(std::max(width, ownWidth), std::max(height, lowest - all.top + ownHeight));
        const double beside = scaleOf(width + ownWidth + 1, std::max(height, ownHeight));
        constexpr double worthIt = 1.1;
        if (beside > worthIt * below) {
            supply.move(static_cast<int>(std::ceil(all.right - own.left)) + 3,
                        static_cast<int>(std::ceil(std::max(all.bottom - own.bottom, all.top - own.top + titleRoom))));
            return;
        }
        supply.move(static_cast<int>(std::floor(all.left - own.left)),
                    static_cast<int>(std::ceil(lowest - own.top)) + titleRoom);
    }

    Circuit placed(Sketch& supply) {
        const double right = m_all.bounds().right;
        if (!supply.taken.empty()) {
            placeSupply(supply);
        }
        const GridBox field = supply.bounds();
        const bool hasField = !supply.taken.empty();
        m_all.add(supply);
        const GridBox all = m_all.bounds();
        const int dx = leftMargin - static_cast<int>(std::floor(all.left));
        const int dy = topMargin - static_cast<int>(std::floor(all.top));
        m_all.move(dx, dy);
        Circuit drawn = m_circuit;
        drawn.drawing = {};
        for (Part& part : drawn.parts) {
            part.placement.reset();
        }
        for (const auto& [index, placement] : m_all.parts) {
            drawn.parts[index].placement = placement;
        }
        drawn.drawing.flags = m_all.flags;
        drawn.drawing.wires = m_all.wires;
        if (hasField) {
            drawn.drawing.fields.push_back({"Supply",
                                            "",
                                            {field.left > right ? static_cast<int>(std::floor(field.left)) + dx - 1 : 0,
                                             static_cast<int>(std::floor(field.top)) + dy - 2},
                                            {static_cast<int>(std::ceil(field.right)) + dx + 1,
                                             static_cast<int>(std::ceil(field.bottom)) + dy + 1}});
        }
        return drawn;
    }

    const Circuit& m_circuit;
    Rails m_rails;
    std::vector<Branch> m_branches;
    std::vector<SignalStep> m_steps;
    RowInput m_input{m_circuit, m_rails, m_branches};
    std::vector<bool> m_isOfSupply;
    Progress m_progress;
    std::vector<SignalStep> m_way;      ///< The signal's, from source to output.
    std::vector<std::size_t> m_starts;  ///< Steps of it that begin a stage.
    std::vector<bool> m_supplyParts;    ///< By index into Circuit::parts.
    Sketch m_all;
};

}  // namespace

Circuit arrange(const Circuit& circuit) {
    return Arranger(circuit, railsOf(circuit)).draw();
}

Sketch laidBeside(const Circuit& circuit, const Rails& rails, const std::set<NetName>& meets, const Sketch& standing,
                  Parallels parallels) {
    return Arranger(circuit, rails, meets).drawBeside(standing, parallels);
}

}  // namespace ohmwright
