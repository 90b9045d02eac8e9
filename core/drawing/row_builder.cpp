// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/row_builder.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

int lengthOf(const Circuit& circuit, const Branch& branch) {
    int length = 0;
    for (const Branch::Element& element : branch.elements) {
        length += levelSpan(circuit.parts[element.part]);
    }
    return length;
}

}  // namespace

Sketch RowBuilder::build(const NetName& start, const std::vector<SignalStep>& way,
                         const std::vector<std::size_t>& zones) {
    for (const std::size_t zone : zones) {
        m_zones.insert(&way[zone]);
    }
    RowCursor cursor{0, 0, false, false};
    cursor = enter(start, cursor);
    for (const SignalStep& step : way) {
        if (m_zones.count(&step) > 0 && step.through != SignalStep::Through::branch) {
            cursor.x = columnBesideAll(std::max(cursor.x + 1, m_clearOfDevice));
            m_sketch.zones.push_back(cursor.x);
            cursor = {cursor.x + 1, cursor.y, false, false};
        }
        switch (step.through) {
            case SignalStep::Through::branch:
                cursor = passBranches(step, cursor);
                break;
            case SignalStep::Through::device:
                cursor = passDevice(step, cursor);
                break;
            case SignalStep::Through::law:
                cursor = passLaw(step, cursor);
                break;
        }
        cursor = enter(step.to, cursor);
        m_coilFirst.reset();
    }
    return std::move(m_sketch);
}

RowCursor RowBuilder::enter(const NetName& net, RowCursor at, int skipped) {
    if (m_input.rails.isRail(net) || !m_progress.nets.insert(net).second) {
        return {at.x, at.y, false, false};
    }
    const std::vector<std::size_t> none;
    const std::vector<std::size_t> ups = skipped > 0 ? none : hanging(net, true);
    const std::vector<std::size_t> downs = skipped < 0 ? none : hanging(net, false);
    int right = at.x;
    std::size_t up = 0;
    std::size_t down = 0;
    if (at.upHere && !ups.empty()) {
        place(ups[up++], net, {at.x, at.y}, true);
    }
    if (at.downHere && !downs.empty()) {
        place(downs[down++], net, {at.x, at.y}, false);
    }
    if (!downs.empty() && down == 0 && holdsSource(m_input.branches[downs.front()])) {
        const int column = right + std::max(1, m_down + wordsOf(downs.front()));
        at.x = right = placeSource(downs[down++], net, {column, at.y});
    }
    while (up < ups.size() || down < downs.size()) {
        int column = right + 1;
        if (up < ups.size()) {
            column = std::max(column, m_up + wordsOf(ups[up]));
        }
        if (down < downs.size()) {
            column = std::max(column, m_down + besideOf(downs[down]));
        }
        if (up < ups.size()) {
            place(ups[up++], net, {column, at.y}, true);
        }
        if (down < downs.size()) {
            place(downs[down++], net, {column, at.y}, false);
        }
        right = column;
    }
    m_sketch.lines[net] = {at.y, at.x, right};
    return {right, at.y, false, false};
}

std::vector<std::size_t> RowBuilder::hanging(const NetName& net, bool isUp) const {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
        const Branch& branch = m_input.branches[i];
        const bool isHere = branch.from == net || branch.to == net;
        const NetName& other = branch.from == net ? branch.to : branch.from;
        const Rails& rails = m_input.rails;
        if (!m_progress.branches[i] && isHere && (isUp ? rails.isAbove(other) : rails.isBelow(other))) {
            found.push_back(i);
        }
    }
    std::stable_sort(found.begin(), found.end(), [this](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    return found;
}

bool RowBuilder::holdsSource(const Branch& branch) const {
    return std::any_of(branch.elements.begin(), branch.elements.end(), [this](const Branch::Element& element) {
        return m_input.circuit.parts[element.part].id == m_input.circuit.ports.source;
    });
}

int RowBuilder::wordsOf(std::size_t branch) const {
    int columns = 0;
    for (const Branch::Element& element : m_input.branches[branch].elements) {
        columns = std::max(columns, wordColumns(m_input.circuit.parts[element.part]));
    }
    return columns;
}

int RowBuilder::placeSource(std::size_t index, const NetName& net, GridPoint at) {
    Branch standing = m_input.branches[index].from == net ? m_input.branches[index].turned() : m_input.branches[index];
    // From the supply to the net: split after the source.
    std::size_t count = 1;
    while (m_input.circuit.parts[standing.elements[count - 1].part].id != m_input.circuit.ports.source) {
        count += 1;
    }
    if (count < standing.elements.size() &&
        m_input.circuit.parts[standing.elements[count].part].kind == PartKind::inductor) {
        count += 1;
    }
    Branch lying{net, net, {standing.elements.begin() + std::ptrdiff_t(count), standing.elements.end()}};
    standing.elements.resize(count);
    hang(m_input, standing.turned(), at, false, m_sketch);
    mark(index);
    int right = at.x;
    if (!lying.elements.empty()) {
        Sketch level = drawLevel(m_input, lying);
        level.move(at.x + 1, at.y);
        right = at.x + 1 + lengthOf(m_input.circuit, lying);
        const GridPoint corner{at.x, at.y};
        m_sketch.wires.push_back({innerNet(standing, count), {corner, {at.x + 1, at.y}}});
        m_sketch.add(level);
    }
    m_down = at.x;
    m_up = right - 1;
    return right;
}

NetName RowBuilder::innerNet(const Branch& standing, std::size_t count) const {
    const Branch::Element& last = standing.elements[count - 1];
    const std::vector<NetName> ends = endsOf(m_input.circuit.parts[last.part]);
    return last.reversed ? ends[0] : ends[1];
}

int RowBuilder::besideOf(std::size_t branch) const {
    const int words = wordsOf(branch);
    return m_input.branches[branch].elements.size() == 1 && words == wordsBelow + 1 ? wordsBelow : words;
}

void RowBuilder::place(std::size_t index, const NetName& net, GridPoint at, bool isUp) {
    const Branch& branch = m_input.branches[index];
    hang(m_input, branch.from == net ? branch : branch.turned(), at, isUp, m_sketch);
    mark(index);
    (isUp ? m_up : m_down) = at.x;
    if (!isUp) {
        m_lastDown = index;
    }
    if (m_coilFirst == index) {  // the core stands at its left
        m_sketch.parts[branch.elements.front().part].label = LabelSide::right;
        m_down += wordsBelow;
    }
}

void RowBuilder::mark(std::size_t index) {
    m_progress.branches[index] = true;
    for (const Branch::Element& element : m_input.branches[index].elements) {
        m_progress.parts[element.part] = true;
    }
}

std::vector<std::size_t> RowBuilder::between(const NetName& a, const NetName& b) const {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
        const Branch& branch = m_input.branches[i];
        if (!m_progress.branches[i] && ((branch.from == a && branch.to == b) || (branch.from == b && branch.to == a))) {
            found.push_back(i);
        }
    }
    return found;
}

RowCursor RowBuilder::passBranches(const SignalStep& step, const RowCursor& at) {
    std::vector<std::size_t> rows = between(step.from, step.to);
    const auto own = std::find(rows.begin(), rows.end(), step.index);
    if (own != rows.end()) {
        std::rotate(rows.begin(), own, own + 1);
    }
    int left = at.x + (m_up >= at.x ? 2 : 1);
    if (m_zones.count(&step) > 0) {
        left = 1 + columnBesideAll(std::max(left, m_clearOfDevice));  // a device's words stay in its own stage
        m_sketch.zones.push_back(left - 1);
    }
    const int width = placeRows(rows, step.from, {left, at.y}, 0);
    if (rows.size() > 1) {
        m_down = left + width;
    }
    // The words above the last part reach beyond its middle.
    const Part& last = m_input.circuit.parts[lastOf(m_input.branches[step.index], step.to)];
    m_up = std::max(m_up, left + width - (width > 2 ? 2 : 1) + wordColumns(last) / 2);
    return {left + width, at.y, false, false};
}

int RowBuilder::columnBesideAll(int column) const {
    return std::max(column, static_cast<int>(std::ceil(m_sketch.bounds().right)));
}

std::size_t RowBuilder::lastOf(const Branch& branch, const NetName& to) {
    return branch.to == to ? branch.elements.back().part : branch.elements.front().part;
}

int RowBuilder::placeRows(const std::vector<std::size_t>& rows, const NetName& from, GridPoint at, int widest) {
    for (const std::size_t row : rows) {
        widest = std::max(widest, lengthOf(m_input.circuit, m_input.branches[row]));
    }
    int y = at.y;
    for (const std::size_t row : rows) {
        const Branch& branch = m_input.branches[row];
        Sketch level = drawLevel(m_input, branch.from == from ? branch : branch.turned());
        const int length = lengthOf(m_input.circuit, branch);
        level.move(at.x + (widest - length) / 2, y);
        m_sketch.add(level);
        mark(row);
        y += rowPitch;
    }
    return widest;
}

RowCursor RowBuilder::passLaw(const SignalStep& step, const RowCursor& at) {
    const Part& part = m_input.circuit.parts[step.index];
    const bool isCoupling = part.kind == PartKind::coupling && !m_progress.parts[step.index];
    const std::optional<std::size_t> coil = isCoupling ? coilOf(part, step.to) : std::nullopt;
    if (!coil || m_lastDown != coilOf(part, step.from)) {
        m_up = m_down = at.x + 1;
        return {at.x + 2, at.y, false, false};
    }
    m_progress.parts[step.index] = true;
    constexpr int span = 3;
    const int core = at.x + 2;
    setPart(step.index, {core, at.y}, 1, false, span, LabelSide::below);
    m_coilFirst = coil;
    m_up = m_down = core + 2;
    return {core + 2, at.y, false, true};
}

std::optional<std::size_t> RowBuilder::coilOf(const Part& coupling, const NetName& net) const {
    for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
        const Branch& branch = m_input.branches[i];
        const PartId& id = m_input.circuit.parts[branch.elements.front().part].id;
        const bool isHere = branch.from == net || branch.to == net;
        const NetName& other = branch.from == net ? branch.to : branch.from;
        if (branch.elements.size() == 1 && isHere && m_input.rails.isBelow(other) &&
            std::find(coupling.controls.begin(), coupling.controls.end(), id) != coupling.controls.end()) {
            return i;
        }
    }
    return std::nullopt;
}

bool RowBuilder::isCoil(std::size_t branch) const {
    const PartId& id = m_input.circuit.parts[m_input.branches[branch].elements.front().part].id;
    return std::any_of(m_input.circuit.parts.begin(), m_input.circuit.parts.end(), [&id](const Part& part) {
        return part.kind == PartKind::coupling &&
               std::find(part.controls.begin(), part.controls.end(), id) != part.controls.end();
    });
}

int RowBuilder::rank(std::size_t branch) const {
    if (holdsSource(m_input.branches[branch])) {
        return 0;
    }
    return m_coilFirst == branch ? 1 : isCoil(branch) ? 3 : 2;
}

}  // namespace ohmwright
