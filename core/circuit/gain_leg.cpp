// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/gain_leg.h"

#include "core/circuit/net_groups.h"
#include "core/circuit/setting.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace ohmwright {

namespace {

enum OpampPin : std::size_t { nonInverting, inverting, output, positiveSupply, negativeSupply };

constexpr double halfTravel = 5.0;
constexpr std::size_t mostBranches = 64;  // more is a network of its own, which no one would call a leg

/// Some resistance and capacitance in series between two nets.
struct Branch {
    NetName from;
    NetName to;
    double ohms = 0.0;
    double perFarad = 0.0;  ///< 1/C, which adds in series; 0 for a branch without a capacitor.
    std::vector<std::size_t> parts;

    [[nodiscard]] bool isPureResistance() const { return perFarad == 0.0; }
    [[nodiscard]] bool isPureCapacitance() const { return ohms == 0.0 && perFarad != 0.0; }
    [[nodiscard]] bool joins(const NetName& a, const NetName& b) const {
        return (from == a && to == b) || (from == b && to == a);
    }
};

/// Branches between nets that were made one by links, reduced step by step to what two nets see of them.
class Ladder {
public:
    Ladder(const Circuit& circuit, const PotOhms& potOhms) : m_circuit(circuit), m_wires(groupsByLinks(circuit)) {
        for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
            addPart(index, potOhms);
        }
    }

    [[nodiscard]] NetName net(const NetName& name) const { return m_wires.groupOf(name); }

    /// What is left at rest: capacitors are open, and so are the parts that only tap a net.
    void keepResistancesOnly() {
        std::erase_if(m_branches, [](const Branch& branch) { return !branch.isPureResistance(); });
        m_tapped.clear();
    }

    /// The one branch between `a` and `b` that everything reduces to which leads from one to the other without
    /// going through a net of `borders`; absent when it is no single branch, or leads to a border as well.
    [[nodiscard]] std::optional<Branch> reduceBetween(const NetName& a, const NetName& b, std::set<NetName> borders) {
        borders.insert({a, b});
        keepReachable(a, borders);
        keepReachable(b, borders);
        if (m_branches.size() > mostBranches) {
            return std::nullopt;
        }
        while (dropUseless(borders) || mergeAcross() || mergeSeries(borders)) {
        }
        if (m_branches.size() != 1 || !m_branches.front().joins(a, b)) {
            return std::nullopt;
        }
        return m_branches.front();
    }

    enum class Which { resistors, capacitors };

    [[nodiscard]] std::vector<PartId> partsOf(const Branch& branch, Which which) const {
        std::vector<std::size_t> ordered = branch.parts;
        std::sort(ordered.begin(), ordered.end());
        ordered.erase(std::unique(ordered.begin(), ordered.end()), ordered.end());
        std::vector<PartId> ids;
        for (const std::size_t index : ordered) {
            const Part& part = m_circuit.parts[index];
            if ((part.kind == PartKind::capacitor) == (which == Which::capacitors)) {
                ids.push_back(part.id);
            }
        }
        return ids;
    }

private:
    void addPart(std::size_t index, const PotOhms& potOhms) {
        const Part& part = m_circuit.parts[index];
        if (part.nets.size() != static_cast<std::size_t>(pinCount(part.kind))) {
            return;
        }
        switch (part.kind) {
            case PartKind::resistor:
                addBranch(index, 0, 1, part.value, 0.0);
                break;
            case PartKind::capacitor:
                addBranch(index, 0, 1, 0.0, 1.0 / part.value);
                break;
            case PartKind::potentiometer: {
                const PotHalves half = potHalves(part, halfTravel);
                const auto given = potOhms.find(part.id);
                const double below = given == potOhms.end() ? half.wiperToBottom : given->second;
                const double above = given == potOhms.end() ? half.topToWiper : part.value - below;
                addBranch(index, 0, 1, std::max(above, 0.0), 0.0);
                addBranch(index, 1, 2, below, 0.0);
                break;
            }
            case PartKind::link:
                break;
            case PartKind::opamp:
                // The inputs draw no current, so that an op-amp may listen inside a chain.
                for (const std::size_t pin : {output, positiveSupply, negativeSupply}) {
                    m_tapped.insert(net(part.nets[pin]));
                }
                break;
            default:
                for (const NetName& name : part.nets) {
                    m_tapped.insert(net(name));
                }
        }
    }

    void addBranch(std::size_t index, std::size_t pinA, std::size_t pinB, double ohms, double perFarad) {
        const Part& part = m_circuit.parts[index];
        m_branches.push_back({net(part.nets[pinA]), net(part.nets[pinB]), ohms, perFarad, {index}});
    }

    /// Leaves the branches that can be reached from `start` without going through a net of `borders`.
    void keepReachable(const NetName& start, const std::set<NetName>& borders) {
        std::multimap<NetName, NetName> neighbours;
        for (const Branch& branch : m_branches) {
            neighbours.emplace(branch.from, branch.to);
            neighbours.emplace(branch.to, branch.from);
        }
        std::set<NetName> reached{start};
        std::vector<NetName> open{start};
        while (!open.empty()) {
            const auto [first, last] = neighbours.equal_range(open.back());
            open.pop_back();
            for (auto pair = first; pair != last; ++pair) {
                if (!borders.contains(pair->second) && reached.insert(pair->second).second) {
                    open.push_back(pair->second);
                }
            }
        }
        std::erase_if(m_branches, [&](const Branch& branch) {
            return !reached.contains(branch.from) && !reached.contains(branch.to);
        });
    }

    [[nodiscard]] std::size_t endsAt(const NetName& name) const {
        return static_cast<std::size_t>(std::count_if(m_branches.begin(), m_branches.end(), [&](const Branch& branch) {
            return branch.from == name || branch.to == name;
        }));
    }

    /// A branch with both ends on one net, or with an end that leads nowhere, carries nothing.
    bool dropUseless(const std::set<NetName>& borders) {
        const auto leadsNowhere = [&](const NetName& name) {
            return !borders.contains(name) && !m_tapped.contains(name) && endsAt(name) == 1;
        };
        const auto useless = std::find_if(m_branches.begin(), m_branches.end(), [&](const Branch& branch) {
            return branch.from == branch.to || leadsNowhere(branch.from) || leadsNowhere(branch.to);
        });
        if (useless == m_branches.end()) {
            return false;
        }
        m_branches.erase(useless);
        return true;
    }

    bool mergeAcross() {
        for (auto first = m_branches.begin(); first != m_branches.end(); ++first) {
            const auto second = std::find_if(std::next(first), m_branches.end(), [&](const Branch& branch) {
                return branch.joins(first->from, first->to) &&
                       ((first->isPureResistance() && branch.isPureResistance()) ||
                        (first->isPureCapacitance() && branch.isPureCapacitance()));
            });
            if (second == m_branches.end()) {
                continue;
            }
            if (first->isPureResistance()) {
                first->ohms = 1.0 / (1.0 / first->ohms + 1.0 / second->ohms);
            } else {
                first->perFarad = 1.0 / (1.0 / first->perFarad + 1.0 / second->perFarad);
            }
            first->parts.insert(first->parts.end(), second->parts.begin(), second->parts.end());
            m_branches.erase(second);
            return true;
        }
        return false;
    }

    /// Two branches that alone meet at a net make one.
    bool mergeSeries(const std::set<NetName>& borders) {
        for (auto first = m_branches.begin(); first != m_branches.end(); ++first) {
            for (const NetName& middle : {first->from, first->to}) {
                if (borders.contains(middle) || m_tapped.contains(middle) || endsAt(middle) != 2) {
                    continue;
                }
                const auto second = std::find_if(std::next(first), m_branches.end(), [&](const Branch& branch) {
                    return branch.from == middle || branch.to == middle;
                });
                if (second == m_branches.end()) {
                    continue;  // the other one stands earlier in the list, and finds this one
                }
                const NetName farA = first->from == middle ? first->to : first->from;
                const NetName farB = second->from == middle ? second->to : second->from;
                first->ohms += second->ohms;
                first->perFarad += second->perFarad;
                first->parts.insert(first->parts.end(), second->parts.begin(), second->parts.end());
                first->from = farA;
                first->to = farB;
                m_branches.erase(second);
                return true;
            }
        }
        return false;
    }

    const Circuit& m_circuit;
    NetGroups m_wires;
    std::vector<Branch> m_branches;
    std::set<NetName> m_tapped;  ///< Nets where something that is no R or C draws current.
};

bool isWiredOpamp(const Part& part) {
    return part.kind == PartKind::opamp && part.nets.size() == static_cast<std::size_t>(pinCount(PartKind::opamp));
}

/// Nets whose voltage something else sets: outputs and supplies of op-amps, pins of voltage sources.
std::set<NetName> drivenNets(const Circuit& circuit, const Ladder& ladder) {
    std::set<NetName> driven;
    for (const Part& part : circuit.parts) {
        if (isWiredOpamp(part)) {
            for (const std::size_t pin : {output, positiveSupply, negativeSupply}) {
                driven.insert(ladder.net(part.nets[pin]));
            }
        } else if (part.kind == PartKind::voltageSource) {
            for (const NetName& net : part.nets) {
                driven.insert(ladder.net(net));
            }
        }
    }
    return driven;
}

const Part* opampDriving(const Circuit& circuit, const Ladder& ladder, const NetName& node) {
    for (const Part& part : circuit.parts) {
        if (isWiredOpamp(part) && ladder.net(part.nets[output]) == ladder.net(node)) {
            return &part;
        }
    }
    return nullptr;
}

}  // namespace

PotOhms potOhmsAt(const Circuit& circuit, const Setting& setting) {
    PotOhms ohms;
    for (const Knob& knob : circuit.knobs) {
        if (const Part* pot = findPart(circuit, knob.part)) {
            ohms[pot->id] = potHalves(*pot, knobPosition(setting, knob.id)).wiperToBottom;
        }
    }
    return ohms;
}

double GainLeg::cornerHz() const {
    return 1.0 / (2.0 * std::numbers::pi * ohms * farads);
}

std::optional<GainLeg> findGainLeg(const Circuit& circuit, const NetName& clipNode, const PotOhms& potOhms) {
    Ladder ladder(circuit, potOhms);
    const Part* opamp = opampDriving(circuit, ladder, clipNode);
    if (!opamp) {
        return std::nullopt;
    }
    const NetName top = ladder.net(opamp->nets[inverting]);
    const NetName ground = ladder.net(NetName(groundNet));
    std::set<NetName> borders = drivenNets(circuit, ladder);
    borders.insert(ladder.net(opamp->nets[nonInverting]));
    borders.erase(ground);
    if (top == ground || borders.contains(top)) {
        return std::nullopt;
    }
    const std::optional<Branch> leg = ladder.reduceBetween(top, ground, borders);
    if (!leg || !(leg->ohms > 0.0 && leg->perFarad > 0.0 && std::isfinite(leg->ohms * leg->perFarad))) {
        return std::nullopt;
    }
    return GainLeg{opamp->id, leg->ohms, 1.0 / leg->perFarad, ladder.partsOf(*leg, Ladder::Which::resistors),
                   ladder.partsOf(*leg, Ladder::Which::capacitors)};
}

std::optional<FeedbackPath> findFeedbackResistance(const Circuit& circuit, const PartId& opamp,
                                                   const PotOhms& potOhms) {
    const Part* part = findPart(circuit, opamp);
    if (!part || !isWiredOpamp(*part)) {
        return std::nullopt;
    }
    Ladder ladder(circuit, potOhms);
    const NetName start = ladder.net(part->nets[output]);
    const NetName end = ladder.net(part->nets[inverting]);
    if (start == end) {
        return std::nullopt;
    }
    std::set<NetName> borders = drivenNets(circuit, ladder);
    borders.insert({ladder.net(part->nets[nonInverting]), ladder.net(NetName(groundNet))});
    ladder.keepResistancesOnly();
    const std::optional<Branch> path = ladder.reduceBetween(start, end, borders);
    if (!path || !(path->ohms > 0.0)) {
        return std::nullopt;
    }
    return FeedbackPath{path->ohms, ladder.partsOf(*path, Ladder::Which::resistors)};
}

}  // namespace ohmwright
