// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/signal_row.h"

#include <algorithm>

namespace ohmwright {
namespace {

/// Pins of a device that stands upright: its control at the left, one end up and one down, at times one at the right.
struct UprightPins {
    std::size_t control, top, bottom;
    std::optional<std::size_t> side;
};

std::optional<UprightPins> uprightPins(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::triode:
            return UprightPins{1, 0, 2, std::nullopt};
        case PartKind::mosfet:
            return UprightPins{1, 0, 2, 3};
        case PartKind::pentode:
            return UprightPins{2, 0, 3, 1};
        default:
            return std::nullopt;
    }
}

/// Where a net's line goes on: its end, and whether a part may hang right there.
struct Cursor {
    int x = 0;
    int y = 0;
    bool upHere = false;
    bool downHere = false;
};

/// Columns between uprights whose words just do not fit between them.
constexpr int wordsBelow = 3;

/// A capacitor is short: on the line it takes two steps.
int levelSpan(const Part& part) {
    return usualSpan(part, part.kind == PartKind::capacitor);
}

int lengthOf(const Circuit& circuit, const Branch& branch) {
    int length = 0;
    for (const Branch::Element& element : branch.elements) {
        length += levelSpan(circuit.parts[element.part]);
    }
    return length;
}

class RowBuilder {
public:
    RowBuilder(const RowInput& input, Progress& progress) : m_input(input), m_progress(progress) {}

    Sketch build(const NetName& start, const std::vector<SignalStep>& way, const std::vector<std::size_t>& zones) {
        for (const std::size_t zone : zones) {
            m_zones.insert(&way[zone]);
        }
        Cursor cursor{0, 0, false, false};
        cursor = enter(start, cursor);
        for (const SignalStep& step : way) {
            if (m_zones.count(&step) > 0 && step.through != SignalStep::Through::branch) {
                cursor.x = std::max(cursor.x + 1, m_clearOfDevice);
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

private:
    // What hangs at a net ---------------------------------------------------------------------------------------------

    /// Gives the net its line with all that leads to supplies; the cursor stands at the line's right end after.
    /// @param skipped  1: what leads up, -1: what leads down finds its place later, since a line runs there.
    Cursor enter(const NetName& net, Cursor at, int skipped = 0) {
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

    [[nodiscard]] std::vector<std::size_t> hanging(const NetName& net, bool isUp) const {
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
        std::stable_sort(found.begin(), found.end(),
                         [this](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
        return found;
    }

    [[nodiscard]] bool holdsSource(const Branch& branch) const {
        return std::any_of(branch.elements.begin(), branch.elements.end(), [this](const Branch::Element& element) {
            return m_input.circuit.parts[element.part].id == m_input.circuit.ports.source;
        });
    }

    [[nodiscard]] int wordsOf(std::size_t branch) const {
        int columns = 0;
        for (const Branch::Element& element : m_input.branches[branch].elements) {
            columns = std::max(columns, wordColumns(m_input.circuit.parts[element.part]));
        }
        return columns;
    }

    /// The source stands upright, with its coil above it if it has one; what follows in series lies on the line.
    /// @return the column where the line goes on.
    int placeSource(std::size_t index, const NetName& net, GridPoint at) {
        Branch standing =
            m_input.branches[index].from == net ? m_input.branches[index].turned() : m_input.branches[index];
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

    /// The net between the standing part of the source's series and the lying one.
    [[nodiscard]] NetName innerNet(const Branch& standing, std::size_t count) const {
        const Branch::Element& last = standing.elements[count - 1];
        const std::vector<NetName> ends = endsOf(m_input.circuit.parts[last.part]);
        return last.reversed ? ends[0] : ends[1];
    }

    /// Columns that what hangs down needs at its left: short words of a single part may stand below it instead.
    [[nodiscard]] int besideOf(std::size_t branch) const {
        const int words = wordsOf(branch);
        return m_input.branches[branch].elements.size() == 1 && words == wordsBelow + 1 ? wordsBelow : words;
    }

    void place(std::size_t index, const NetName& net, GridPoint at, bool isUp) {
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

    void mark(std::size_t index) {
        m_progress.branches[index] = true;
        for (const Branch::Element& element : m_input.branches[index].elements) {
            m_progress.parts[element.part] = true;
        }
    }

    // Series on the line ----------------------------------------------------------------------------------------------

    [[nodiscard]] std::vector<std::size_t> between(const NetName& a, const NetName& b) const {
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
            const Branch& branch = m_input.branches[i];
            if (!m_progress.branches[i] &&
                ((branch.from == a && branch.to == b) || (branch.from == b && branch.to == a))) {
                found.push_back(i);
            }
        }
        return found;
    }

    /// All series between the same two nets, one below the other.
    Cursor passBranches(const SignalStep& step, const Cursor& at) {
        std::vector<std::size_t> rows = between(step.from, step.to);
        const auto own = std::find(rows.begin(), rows.end(), step.index);
        if (own != rows.end()) {
            std::rotate(rows.begin(), own, own + 1);
        }
        int left = at.x + (m_up >= at.x ? 2 : 1);
        if (m_zones.count(&step) > 0) {
            left = std::max(left + 1, m_clearOfDevice + 1);  // a device's words stay in its own stage
            m_sketch.zones.push_back(left - 1);
        }
        const int width = placeRows(rows, step.from, {left, at.y}, 0);
        if (rows.size() > 1) {
            m_down = left + width;
        }
        // The words above the last part reach beyond its middle.
        const Part& last = m_input.circuit.parts[lastOf(m_input.branches[step.index], step.to)];
        m_up = std::max(m_up, left + width - 2 + wordColumns(last) / 2);
        return {left + width, at.y, false, false};
    }

    [[nodiscard]] static std::size_t lastOf(const Branch& branch, const NetName& to) {
        return branch.to == to ? branch.elements.back().part : branch.elements.front().part;
    }

    /// @return the width of the widest.
    int placeRows(const std::vector<std::size_t>& rows, const NetName& from, GridPoint at, int widest) {
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

    /// No wire leads on. Coils that couple stand side by side with their core between.
    Cursor passLaw(const SignalStep& step, const Cursor& at) {
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

    /// The branch to ground that is one of a coupling's coils and stands at a net.
    [[nodiscard]] std::optional<std::size_t> coilOf(const Part& coupling, const NetName& net) const {
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

    [[nodiscard]] bool isCoil(std::size_t branch) const {
        const PartId& id = m_input.circuit.parts[m_input.branches[branch].elements.front().part].id;
        return std::any_of(m_input.circuit.parts.begin(), m_input.circuit.parts.end(), [&id](const Part& part) {
            return part.kind == PartKind::coupling &&
                   std::find(part.controls.begin(), part.controls.end(), id) != part.controls.end();
        });
    }

    /// The source first, a coil that couples last, or first where the signal comes from its fellow.
    [[nodiscard]] int rank(std::size_t branch) const {
        if (holdsSource(m_input.branches[branch])) {
            return 0;
        }
        return m_coilFirst == branch ? 1 : isCoil(branch) ? 3 : 2;
    }

    // Devices ---------------------------------------------------------------------------------------------------------

    Cursor passDevice(const SignalStep& step, Cursor at) {
        const Part& part = m_input.circuit.parts[step.index];
        m_progress.parts[step.index] = true;
        if (part.kind == PartKind::opamp) {
            return passOpamp(step, at);
        }
        if (part.kind == PartKind::potentiometer) {
            return passPot(step, at);
        }
        if (uprightPins(part.kind)) {
            return passUpright(step, at);
        }
        return passControlled(step, at);
    }

    void setPart(std::size_t index, GridPoint at, int quarterTurns, bool mirrored, int span,
                 LabelSide label = LabelSide::automatic) {
        m_sketch.parts[index] = {at, quarterTurns, mirrored, span, label};
        Part part = m_input.circuit.parts[index];
        part.placement = m_sketch.parts[index];
        GridBox box = bodyBox(part);
        for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
            const GridPoint point = pinPoint(part, pin);
            box = {std::min(box.left, point.x - 0.4), std::min(box.top, point.y - 0.4),
                   std::max(box.right, point.x + 0.4), std::max(box.bottom, point.y + 0.4)};
        }
        m_sketch.taken.push_back(box);
    }

    /// A supply's or ground's sign for a pin that looks to `dx`, `dy`.
    void sign(const NetName& net, GridPoint pin, int dx, int dy) {
        const bool isUp = m_input.rails.isAbove(net);
        GridPoint at = pin;
        if (!(isUp && dy < 0) && !(!isUp && dy > 0)) {
            at.x += dx != 0 ? dx : 1;
            m_sketch.wires.push_back({net, {pin, at}});
        }
        addSign(net, at, isUp);
    }

    void addSign(const NetName& net, GridPoint at, bool isUp) {
        m_sketch.flags.push_back(
            {net == groundNet ? FlagKind::ground : FlagKind::supply, net, at, net == groundNet ? "" : signText(net)});
        m_sketch.taken.push_back(isUp ? GridBox{at.x - 0.9, at.y - 1.3, at.x + 0.9, double(at.y)}
                                      : GridBox{at.x - 0.6, double(at.y), at.x + 0.6, at.y + 1.0});
    }

    /// A device's net that the way does not follow: its sign, or its line with what hangs at it.
    Cursor secondary(const NetName& net, GridPoint pin, int dx, int dy, int skipped = 0) {
        if (m_input.rails.isRail(net)) {
            sign(net, pin, dx, dy);
            return {pin.x, pin.y, false, false};
        }
        return enter(net, {pin.x, pin.y, dy<0, dy> 0}, skipped);
    }

    [[nodiscard]] int upwards(const NetName& net) const {
        if (m_input.rails.isRail(net)) {
            return m_input.rails.isAbove(net) ? 3 : -3;
        }
        return std::min<int>(2, int(hanging(net, true).size())) - std::min<int>(2, int(hanging(net, false).size()));
    }

    Cursor passUpright(const SignalStep& step, Cursor at) {
        const Part& part = m_input.circuit.parts[step.index];
        const UprightPins pins = *uprightPins(part.kind);
        const bool mirrored = upwards(part.nets[pins.bottom]) > upwards(part.nets[pins.top]);
        const NetName& top = part.nets[mirrored ? pins.bottom : pins.top];
        const NetName& bottom = part.nets[mirrored ? pins.top : pins.bottom];
        const NetName& control = part.nets[pins.control];
        GridPoint base{at.x, at.y};
        if (step.from == control) {
            base.x = std::max(at.x, m_clearOfDevice);
        } else {
            base.y = step.from == bottom ? at.y - 2 : at.y + 2;
            base.x = at.x + 2;
            if (m_input.rails.isRail(control)) {
                sign(control, base, -1, 0);
            } else {
                base.x = enter(control, {base.x, base.y, false, false}).x + 1;
            }
        }
        setPart(step.index, base, 0, mirrored, 3,
                part.kind == PartKind::bipolar ? LabelSide::automatic : LabelSide::right);
        const int column = base.x + 2;
        const int words = wordColumns(part);
        m_clearOfDevice = column + words;
        m_sketch.taken.push_back({column + 0.2, base.y - 1.6, column + words - 0.2, base.y + 0.6});
        const GridPoint upper{column, base.y - 2};
        const GridPoint lower{column, base.y + 2};
        m_up = m_down = column;
        if (pins.side) {
            passSide(part, part.nets[*pins.side], {base.x + (part.kind == PartKind::mosfet ? 3 : 4), base.y});
        }
        int right = column;
        if (step.to != bottom || step.from == bottom) {
            right = std::max(right, secondary(bottom, lower, 0, 1, step.to == top ? 1 : 0).x);
        }
        if (step.to != top || step.from == top) {
            m_up = std::max(m_up, column);
            right = std::max(right, secondary(top, upper, 0, -1, step.to == bottom ? -1 : 0).x);
        }
        if (step.to == top) {
            m_down = std::max({m_down, right, column + words - 1});
            return {column, upper.y, true, false};
        }
        m_up = std::max(m_up, column + words - 1);
        return {column, step.to == bottom ? lower.y : base.y, false, true};
    }

    /// A bulk or a screen.
    void passSide(const Part&, const NetName& net, GridPoint pin) {
        if (m_input.rails.isRail(net)) {
            sign(net, pin, 1, 0);
        } else if (m_progress.nets.count(net) == 0 && (!hanging(net, true).empty() || !hanging(net, false).empty())) {
            m_up = m_down = pin.x;
            enter(net, {pin.x, pin.y, false, false});
        }
    }

    Cursor passOpamp(const SignalStep& step, const Cursor& at) {
        const Part& part = m_input.circuit.parts[step.index];
        const bool isInverting = step.from == part.nets[1] && step.from != part.nets[0];
        const NetName& other = part.nets[isInverting ? 0 : 1];
        const int upperY = isInverting ? at.y - 2 : at.y;
        const int otherY = isInverting ? upperY : upperY + 2;
        int left = at.x + 1;
        const bool isSigned = m_input.rails.isRail(other);
        if (!isSigned) {
            m_down = std::max(m_down, left - 1);
            left = enter(other, {left, otherY, false, false}).x;
        }
        const std::vector<std::size_t> rows = feedbackRows(part);
        const int x = left + (rows.empty() && !isSigned ? 1 : 2);
        setPart(step.index, {x, upperY}, 0, false, 5);
        m_sketch.taken.push_back({x + 2.0, upperY - 1.6, x + 5.0, upperY + 0.0});
        if (isSigned) {
            sign(other, {x, otherY}, -1, 0);
        } else if (m_sketch.lines.count(other) > 0) {
            m_sketch.lines[other].right = x;
        }
        int right = x + 6;
        if (!rows.empty()) {
            const int top = upperY + 5;
            const int width = placeRows(rows, part.nets[1], {x, top}, 5);
            right = std::max(right, x + width + 1);
            m_down = right;
        }
        m_up = x + 4;
        m_down = std::max(m_down, x + 5);
        return {right, upperY + 1, false, false};
    }

    /// What leads from an op-amp's output back to its inputs.
    [[nodiscard]] std::vector<std::size_t> feedbackRows(const Part& part) const {
        std::vector<std::size_t> rows = between(part.nets[1], part.nets[2]);
        const std::vector<std::size_t> positive = between(part.nets[0], part.nets[2]);
        rows.insert(rows.end(), positive.begin(), positive.end());
        return rows;
    }

    Cursor passPot(const SignalStep& step, const Cursor& at) {
        const Part& part = m_input.circuit.parts[step.index];
        if (step.to == part.nets[1]) {
            return passPotToWiper(step, at);
        }
        if (step.from == part.nets[1]) {
            return passPotFromWiper(step, at);
        }
        const bool reversed = step.from == part.nets[2];
        const int x = at.x + 1;
        constexpr int span = 4;
        setPart(step.index, {x + (reversed ? span : 0), at.y}, reversed ? 2 : 0, reversed, span, LabelSide::above);
        m_down = std::max(m_down, x);
        secondary(part.nets[1], {x + span / 2, at.y + 1}, 0, 1);
        return {x + span, at.y, false, false};
    }

    /// Upright, the wiper to the right.
    Cursor passPotToWiper(const SignalStep& step, const Cursor& at) {
        const Part& part = m_input.circuit.parts[step.index];
        const bool reversed = step.from == part.nets[2];
        const NetName& far = part.nets[reversed ? 0 : 2];
        const int x = std::max(at.x + 1, m_down + std::min(wordColumns(part), wordsBelow));
        constexpr int span = 2;
        if (m_input.rails.isAbove(far)) {
            setPart(step.index, {x, reversed ? at.y - span : at.y}, reversed ? 1 : 3, reversed, span, LabelSide::left);
            sign(far, {x, at.y - span}, 0, -1);
            return {x + 1, at.y - 1, false, false};
        }
        setPart(step.index, {x, reversed ? at.y + span : at.y}, reversed ? 3 : 1, !reversed, span, LabelSide::left);
        m_sketch.taken.push_back({x - wordColumns(part) + 0.2, double(at.y), double(x), at.y + 2.0});
        m_down = x;
        secondary(far, {x, at.y + span}, 0, 1);
        m_down = std::max(m_down, x + 1);
        return {x + 1, at.y + 1, false, false};
    }

    /// Upright, the wiper to the left.
    Cursor passPotFromWiper(const SignalStep& step, const Cursor& at) {
        const Part& part = m_input.circuit.parts[step.index];
        const bool reversed = step.to == part.nets[2];
        const NetName& far = part.nets[reversed ? 0 : 2];
        const int x = at.x + 2;
        constexpr int span = 2;
        const int top = at.y - 1;
        setPart(step.index, {x, reversed ? top + span : top}, reversed ? 3 : 1, reversed, span, LabelSide::right);
        m_sketch.taken.push_back({double(x), double(top), x + wordColumns(part) - 0.2, top + 2.0});
        m_down = x;
        secondary(far, {x, top + span}, 0, 1);
        m_down = std::max(m_down, x + wordColumns(part) - 1);
        return {x, top, true, false};
    }

    /// The controlling pins at the left, the source upright.
    Cursor passControlled(const SignalStep& step, const Cursor& at) {
        const Part& part = m_input.circuit.parts[step.index];
        constexpr int span = 3;
        const int x = at.x + 3;
        const bool isMinusControl = step.from == part.nets[3] && step.from != part.nets[2];
        const int top = isMinusControl ? at.y - span : at.y;
        setPart(step.index, {x, top}, 1, false, span, LabelSide::right);
        m_sketch.taken.push_back({double(x), double(top), x + wordColumns(part) - 0.2, top + 3.0});
        m_up = m_down = x;
        const bool isToMinus = step.to == part.nets[1] && step.to != part.nets[0];
        const std::size_t otherControl = isMinusControl ? 2 : 3;
        if (m_input.rails.isRail(part.nets[otherControl])) {
            sign(part.nets[otherControl], {x - 2, top + (isMinusControl ? 0 : span)}, 0, isMinusControl ? -1 : 1);
        }
        const int outY = isToMinus ? top + span : top;
        if (isToMinus) {
            secondary(part.nets[0], {x, top}, 0, -1);
        } else {
            secondary(part.nets[1], {x, top + span}, 0, 1);
        }
        m_down = std::max(m_down, x + wordColumns(part) - 1);
        return {x, outY, !isToMinus, false};
    }

    const RowInput& m_input;
    Progress& m_progress;
    Sketch m_sketch;
    std::set<const SignalStep*> m_zones;  ///< Steps that a new stage begins with.
    int m_up = -1;    ///< The last column that is taken above the line; words of the next stand to the right of it.
    int m_down = -1;  ///< The same below.
    std::optional<std::size_t> m_lastDown;   ///< The branch that hangs at the last column.
    std::optional<std::size_t> m_coilFirst;  ///< The coil that the signal comes out of.
    int m_clearOfDevice = 0;                 ///< From here on the next device stands clear of the last one's words.
};

}  // namespace

Sketch drawRow(const RowInput& input, const NetName& start, const std::vector<SignalStep>& way, Progress& progress,
               const std::vector<std::size_t>& zones) {
    return RowBuilder(input, progress).build(start, way, zones);
}

Sketch drawLevel(const RowInput& input, const Branch& branch) {
    Sketch sketch;
    int x = 0;
    for (const Branch::Element& element : branch.elements) {
        const Part& part = input.circuit.parts[element.part];
        const int span = levelSpan(part);
        sketch.parts[element.part] = placementAlong(part, {x, 0}, span, false, element.reversed);
        sketch.taken.push_back({x - 0.5, -0.8, x + span + 0.5, 0.8});
        sketch.taken.push_back({x + 0.2, -1.7, x + span - 0.2, 0.0});
        x += span;
    }
    return sketch;
}

void hang(const RowInput& input, const Branch& branch, GridPoint at, bool isUp, Sketch& sketch, bool isTight) {
    isTight = isTight || branch.elements.size() > 1;
    int y = at.y;
    for (const Branch::Element& element : branch.elements) {
        const Part& part = input.circuit.parts[element.part];
        const int span = usualSpan(part, isTight);
        const int top = isUp ? y - span : y;
        sketch.parts[element.part] = placementAlong(part, {at.x, top}, span, true, element.reversed != isUp);
        sketch.taken.push_back({at.x - 0.8, top - 0.4, at.x + 0.8, top + span + 0.4});
        sketch.taken.push_back(
            {at.x - wordColumns(part) + 0.2, top + span / 2.0 - 0.9, double(at.x), top + span / 2.0 + 0.9});
        y += isUp ? -span : span;
    }
    const bool isGround = branch.to == groundNet;
    sketch.flags.push_back(
        {isGround ? FlagKind::ground : FlagKind::supply, branch.to, {at.x, y}, isGround ? "" : signText(branch.to)});
    sketch.taken.push_back(isUp ? GridBox{at.x - 0.9, y - 1.3, at.x + 0.9, double(y)}
                                : GridBox{at.x - 0.6, double(y), at.x + 0.6, y + 1.0});
}

}  // namespace ohmwright
