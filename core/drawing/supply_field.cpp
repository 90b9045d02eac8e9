// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/supply_field.h"

#include <algorithm>

namespace ohmwright {
namespace {

class SupplyBuilder {
public:
    SupplyBuilder(const RowInput& input, Progress& progress) : m_input(input), m_progress(progress) {}

    Sketch build() {
        for (const NetName& net : order()) {
            addLine(net);
        }
        for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
            if (isOpen(i)) {
                addRest(i);
            }
        }
        return std::move(m_sketch);
    }

private:
    [[nodiscard]] bool isSupply(const NetName& net) const { return net != groundNet && m_input.rails.isRail(net); }
    [[nodiscard]] bool isOpen(std::size_t i) const {
        const Branch& branch = m_input.branches[i];
        return !m_progress.branches[i] && m_input.rails.isRail(branch.from) && m_input.rails.isRail(branch.to);
    }
    [[nodiscard]] bool hasSource(std::size_t i) const {
        const std::vector<Branch::Element>& elements = m_input.branches[i].elements;
        return std::any_of(elements.begin(), elements.end(), [this](const Branch::Element& element) {
            return m_input.circuit.parts[element.part].kind == PartKind::voltageSource;
        });
    }

    void reach(const NetName& net, std::vector<NetName>& sorted) const {
        if (isSupply(net) && std::find(sorted.begin(), sorted.end(), net) == sorted.end()) {
            sorted.push_back(net);
        }
    }

    /// What is fed by those from `first` on, and what is fed by that.
    void follow(std::vector<NetName>& sorted, std::size_t first) const {
        for (std::size_t k = first; k < sorted.size(); ++k) {
            const NetName net = sorted[k];
            for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
                const Branch& branch = m_input.branches[i];
                if (isOpen(i) && (branch.from == net || branch.to == net)) {
                    reach(branch.from == net ? branch.to : branch.from, sorted);
                }
            }
        }
    }

    /// Supplies from the sources on, each after the one that feeds it.
    [[nodiscard]] std::vector<NetName> order() const {
        std::vector<NetName> sorted;
        for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
            if (isOpen(i) && hasSource(i)) {
                const std::size_t known = sorted.size();
                reach(m_input.branches[i].from, sorted);
                reach(m_input.branches[i].to, sorted);
                follow(sorted, known);
            }
        }
        for (const Branch& branch : m_input.branches) {
            if (m_input.rails.isRail(branch.from) && m_input.rails.isRail(branch.to)) {
                reach(branch.from, sorted);
                reach(branch.to, sorted);
            }
        }
        return sorted;
    }

    /// The supply's line: fed from the left where the supply before it feeds it, its parts to ground, its sign.
    void addLine(const NetName& net) {
        bool isFed = !m_last.empty() && feed(net);
        if (!isFed && m_right > 0) {
            m_right += 2;
            isFed = feedFromSign(net);
        }
        int left = m_right;
        int grounds = 0;
        for (const bool sources : {true, false}) {
            for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
                if (isOpen(i) && hasSource(i) == sources && leadsToGround(i, net)) {
                    addDown(i, net);
                    left = grounds == 0 && !isFed ? m_right : left;
                    grounds += 1;
                }
            }
        }
        if (grounds == 0 && !isFed) {
            return;
        }
        int sign = isFed ? left : std::min(left + 2, m_right);
        sign = isFed && m_right > left ? std::min(left + 1, m_right) : sign;
        if (m_right == left && !isFed) {
            sign = left;
        }
        m_sketch.flags.push_back({FlagKind::supply, net, {sign, 0}, signText(net)});
        m_sketch.taken.push_back({sign - 1.0, -1.3, sign + 1.0, 0.0});
        if (m_right > left) {
            m_sketch.wires.push_back({net, cornersThrough(left, m_right, sign)});
        }
        m_last = net;
    }

    static std::vector<GridPoint> cornersThrough(int left, int right, int sign) {
        std::vector<GridPoint> corners{{left, 0}};
        if (sign > left && sign < right) {
            corners.push_back({sign, 0});
        }
        corners.push_back({right, 0});
        return corners;
    }

    [[nodiscard]] bool leadsToGround(std::size_t i, const NetName& net) const {
        const Branch& branch = m_input.branches[i];
        return (branch.from == net && branch.to == groundNet) || (branch.to == net && branch.from == groundNet);
    }

    /// The series from the last supply to this one, side by side below each other.
    bool feed(const NetName& net) {
        int y = 0;
        int length = 0;
        const int left = m_right + 1;
        for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
            const Branch& branch = m_input.branches[i];
            const bool isOn = branch.from == m_last && branch.to == net;
            if (!isOpen(i) || (!isOn && !(branch.to == m_last && branch.from == net))) {
                continue;
            }
            Sketch level = drawLevel(m_input, isOn ? branch : branch.turned());
            length = std::max(length, static_cast<int>(level.bounds().right));
            level.move(left, y);
            m_sketch.add(level);
            mark(i);
            y += rowPitch;
        }
        if (length > 0) {
            m_right = left + length;
        }
        return length > 0;
    }

    /// A supply fed by another than the last: that one's sign stands at the left.
    bool feedFromSign(const NetName& net) {
        for (std::size_t i = 0; i < m_input.branches.size(); ++i) {
            const Branch& branch = m_input.branches[i];
            const bool isOn = branch.to == net;
            const NetName& feeder = isOn ? branch.from : branch.to;
            const bool isDrawn = std::any_of(m_sketch.flags.begin(), m_sketch.flags.end(),
                                             [&feeder](const Flag& flag) { return flag.net == feeder; });
            if (isOpen(i) && (isOn || branch.from == net) && feeder != groundNet && isDrawn) {
                m_right += 1;
                m_sketch.flags.push_back({FlagKind::supply, feeder, {m_right, 0}, signText(feeder)});
                m_sketch.taken.push_back({m_right - 1.0, -1.3, m_right + 1.0, 0.0});
                m_sketch.wires.push_back({feeder, {{m_right, 0}, {m_right + 1, 0}}});
                m_last = feeder;
                return feed(net);
            }
        }
        return false;
    }

    void addDown(std::size_t i, const NetName& net) {
        const Branch& branch = m_input.branches[i];
        const Branch down = branch.from == net ? branch : branch.turned();
        int words = 0;
        for (const Branch::Element& element : down.elements) {
            words = std::max(words, wordColumns(m_input.circuit.parts[element.part]));
        }
        // A battery is wider than other parts, and its plus stands beside it: its words and its neighbour's need room.
        const bool isWide = hasSource(i);
        const int beside = down.elements.size() > 1 ? words : std::min(words, 3) + (isWide || m_lastIsWide ? 1 : 0);
        const int x = m_isFirst ? 2 : std::max(m_right + (m_right == m_lastDown ? 0 : 1), m_lastDown + beside);
        Sketch hung;
        hang(m_input, down, {x, 0}, false, hung, true);
        m_sketch.add(hung);
        mark(i);
        m_right = m_lastDown = x;
        m_lastIsWide = isWide;
        m_isFirst = false;
    }

    /// What stands between two supplies that do not follow each other.
    void addRest(std::size_t i) {
        const Branch& branch = m_input.branches[i];
        const bool isDown = m_input.rails.isBelow(branch.to);
        const Branch down = isDown ? branch : branch.turned();
        int words = 0;
        for (const Branch::Element& element : down.elements) {
            words = std::max(words, wordColumns(m_input.circuit.parts[element.part]));
        }
        const int x = std::max(m_right, m_lastDown) + words + 1;
        hang(m_input, down, {x, 0}, false, m_sketch, true);
        const NetName& top = down.from;
        if (top == groundNet) {
            m_sketch.wires.push_back({top, {{x, 0}, {x + 1, 0}}});
            m_sketch.flags.push_back({FlagKind::ground, top, {x + 1, 0}, ""});
        } else {
            m_sketch.flags.push_back({FlagKind::supply, top, {x, 0}, signText(top)});
        }
        mark(i);
        m_right = m_lastDown = x;
    }

    void mark(std::size_t i) {
        m_progress.branches[i] = true;
        for (const Branch::Element& element : m_input.branches[i].elements) {
            m_progress.parts[element.part] = true;
        }
    }

    const RowInput& m_input;
    Progress& m_progress;
    Sketch m_sketch;
    NetName m_last;
    int m_right = 0;
    int m_lastDown = 0;
    bool m_lastIsWide = false;
    bool m_isFirst = true;
};

}  // namespace

Sketch drawSupply(const RowInput& input, Progress& progress) {
    return SupplyBuilder(input, progress).build();
}

}  // namespace ohmwright
