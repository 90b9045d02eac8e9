// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/signal_path.h"

#include <algorithm>
#include <string_view>

namespace ohmwright {
namespace {

struct PinWay {
    std::size_t from, to;
    double length;
};

/// How near a device's pins are for the signal. Against the usual sense the way is long.
std::vector<PinWay> waysThrough(PartKind kind) {
    constexpr double on = 0.5;
    constexpr double across = 1.5;  // common base, common gate, common grid
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
            return {{1, 0, on}, {1, 2, on}, {2, 0, across}};
        case PartKind::pentode:
            return {{2, 0, on}, {2, 3, on}, {3, 0, across}, {1, 0, across}};
        case PartKind::opamp:
            return {{0, 2, on}, {1, 2, on}};
        case PartKind::potentiometer:
            return {{0, 1, on}, {2, 1, 2 * on}, {1, 0, across}, {1, 2, across}, {0, 2, across}, {2, 0, across}};
        case PartKind::voltageControlledVoltage:
        case PartKind::voltageControlledCurrent:
            return {{2, 0, on}, {3, 0, on}, {2, 1, on}, {3, 1, on}};
        default:
            return {};
    }
}

/// Nets that a law names as "v(net)".
std::vector<NetName> netsNamed(const Circuit& circuit, std::string_view law) {
    std::vector<NetName> named;
    for (const Part& part : circuit.parts) {
        for (const NetName& net : part.nets) {
            const bool isNamed = law.find("v(" + net + ")") != std::string_view::npos ||
                                 law.find("v(" + net + ",") != std::string_view::npos ||
                                 law.find("V(" + net + ")") != std::string_view::npos;
            if (isNamed && std::find(named.begin(), named.end(), net) == named.end()) {
                named.push_back(net);
            }
        }
    }
    return named;
}

class StepList {
public:
    StepList(const Circuit& circuit, const Rails& rails) : m_circuit(circuit), m_rails(rails) {}

    void addBranches(const std::vector<Branch>& branches) {
        for (std::size_t i = 0; i < branches.size(); ++i) {
            const double length = 1.6 + 0.4 * double(branches[i].elements.size());
            add(branches[i].from, branches[i].to, SignalStep::Through::branch, i, length);
            add(branches[i].to, branches[i].from, SignalStep::Through::branch, i, length);
        }
    }

    void addDevices() {
        for (std::size_t i = 0; i < m_circuit.parts.size(); ++i) {
            const Part& part = m_circuit.parts[i];
            if (!endsOf(part).empty()) {
                addLaw(part, i);
                continue;
            }
            for (const PinWay& way : waysThrough(part.kind)) {
                add(part.nets[way.from], part.nets[way.to], SignalStep::Through::device, i, way.length);
            }
            if (part.kind == PartKind::coupling) {
                addCoupling(part, i);
            }
        }
    }

    std::vector<SignalStep> steps;

private:
    void add(const NetName& from, const NetName& to, SignalStep::Through through, std::size_t index, double length) {
        if (from != to && !m_rails.isRail(from) && !m_rails.isRail(to)) {
            steps.push_back({from, to, through, index, length});
        }
    }

    void addLaw(const Part& part, std::size_t index) {
        std::vector<NetName> followed = netsNamed(m_circuit, part.law);
        for (const PartId& id : part.controls) {
            if (const Part* sensed = findPart(m_circuit, id)) {
                followed.insert(followed.end(), sensed->nets.begin(), sensed->nets.end());
            }
        }
        for (const NetName& from : followed) {
            for (const NetName& to : part.nets) {
                add(from, to, SignalStep::Through::law, index, 1.0);
            }
        }
    }

    void addCoupling(const Part& coupling, std::size_t index) {
        for (const PartId& first : coupling.controls) {
            for (const PartId& second : coupling.controls) {
                const Part* from = findPart(m_circuit, first);
                const Part* to = findPart(m_circuit, second);
                if (from == nullptr || to == nullptr || from == to) {
                    continue;
                }
                for (const NetName& a : from->nets) {
                    for (const NetName& b : to->nets) {
                        add(a, b, SignalStep::Through::law, index, 1.0);
                    }
                }
            }
        }
    }

    const Circuit& m_circuit;
    const Rails& m_rails;
};

}  // namespace

std::vector<SignalStep> signalSteps(const Circuit& circuit, const Rails& rails, const std::vector<Branch>& branches) {
    StepList list(circuit, rails);
    list.addBranches(branches);
    list.addDevices();
    return std::move(list.steps);
}

std::vector<SignalStep> shortestWay(const std::vector<SignalStep>& steps, const NetName& from,
                                    const std::function<bool(const NetName&)>& isGoal,
                                    const std::function<bool(const SignalStep&)>& allowed) {
    // Dijkstra (Numerische Mathematik 1 (1959) 269) by repeated passes: the nets are few.
    std::map<NetName, double> distance{{from, 0.0}};
    std::map<NetName, const SignalStep*> last;
    for (bool changed = true; changed;) {
        changed = false;
        for (const SignalStep& step : steps) {
            const auto here = distance.find(step.from);
            if (here == distance.end() || !allowed(step) || (step.from != from && isGoal(step.from))) {
                continue;
            }
            const double reached = here->second + step.length;
            const auto known = distance.find(step.to);
            if (known == distance.end() || reached < known->second - 1e-9) {
                distance[step.to] = reached;
                last[step.to] = &step;
                changed = true;
            }
        }
    }
    std::optional<NetName> nearest;
    std::optional<NetName> farthest;
    for (const auto& [net, length] : distance) {
        if (net != from && isGoal(net) && (!nearest || length < distance[*nearest])) {
            nearest = net;
        }
        if (net != from && (!farthest || length > distance[*farthest])) {
            farthest = net;
        }
    }
    std::vector<SignalStep> way;
    const std::optional<NetName> end = nearest ? nearest : farthest;
    for (NetName net = end.value_or(from); net != from; net = way.back().from) {
        way.push_back(*last.at(net));
    }
    std::reverse(way.begin(), way.end());
    return way;
}

}  // namespace ohmwright
