// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/branches.h"

#include "core/drawing/outline.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

/// Through less than this a supply stays the same supply [Ω]: an internal resistance, a fuse.
constexpr double supplyResistance = 50.0;
/// A capacitor that keeps a net still for the ear [F]; common practice, no source.
constexpr double keepingStill = 1e-7;

bool isSteadySource(const Circuit& circuit, const Part& part) {
    return part.kind == PartKind::voltageSource && part.id != circuit.ports.source && part.acAmplitude == 0.0 &&
           !part.wave && part.value != 0.0;
}

/// Pins of a net that feed or draw, for the question whether it may be a supply.
struct NetUse {
    int feeders = 0;     ///< Parts of two ends from a rail that pass DC.
    double feed = 1e12;  ///< Smallest of their resistances [Ω].
    double kept = 0.0;   ///< Capacitance to ground [F].
    int controls = 0;    ///< Bases, gates, grids, emitters, sources, cathodes, wipers, outputs.
    int loads = 0;       ///< Everything else.
};

double feedResistance(const Part& part) {
    switch (part.kind) {
        case PartKind::resistor:
            return part.value;
        case PartKind::link:
        case PartKind::inductor:
        case PartKind::diode:
        case PartKind::switchContact:
            return 1.0;
        default:
            return 1e12;
    }
}

/// Pins where a supply may stand: collectors, drains, anodes, screens, and an op-amp's supplies and inputs.
bool mayStandOnSupply(PartKind kind, std::size_t pin) {
    switch (kind) {
        case PartKind::opamp:
            return pin != 2;
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
            return pin == 0;
        case PartKind::pentode:
            return pin <= 1;
        default:
            return false;
    }
}

class RailSearch {
public:
    explicit RailSearch(const Circuit& circuit) : m_circuit(circuit) {
        m_volts[NetName(groundNet)] = 0.0;
        for (const NetName& net : {circuit.ports.output, circuit.ports.jack, circuit.ports.clipNode}) {
            m_signal.insert(net);
        }
        if (const Part* source = findPart(circuit, circuit.ports.source)) {
            m_signal.insert(source->nets.begin(), source->nets.end());
        }
        m_signal.erase(NetName(groundNet));
    }

    std::map<NetName, double> volts() {
        while (addSourced() || addFed()) {
        }
        return m_volts;
    }

private:
    bool addSourced() {
        for (const Part& part : m_circuit.parts) {
            if (!isSteadySource(m_circuit, part)) {
                continue;
            }
            const auto plus = m_volts.find(part.nets[0]);
            const auto minus = m_volts.find(part.nets[1]);
            if (plus == m_volts.end() && minus != m_volts.end() && m_signal.count(part.nets[0]) == 0) {
                m_volts[part.nets[0]] = minus->second + part.value;
                return true;
            }
            if (minus == m_volts.end() && plus != m_volts.end() && m_signal.count(part.nets[1]) == 0) {
                m_volts[part.nets[1]] = plus->second - part.value;
                return true;
            }
        }
        return false;
    }

    bool addFed() {
        std::map<NetName, NetUse> uses;
        std::map<NetName, NetName> feeds;
        for (const Part& part : m_circuit.parts) {
            const std::vector<NetName> ends = endsOf(part);
            for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
                count(part, pin, ends, uses[part.nets[pin]], feeds);
            }
        }
        for (const auto& [net, use] : uses) {
            const bool isNear = use.feed <= supplyResistance && use.loads >= 1;
            const bool isKept = use.kept >= keepingStill && use.loads >= 1;
            if (m_volts.count(net) == 0 && m_signal.count(net) == 0 && use.feeders > 0 && use.controls == 0 &&
                (isNear || isKept)) {
                m_volts[net] = m_volts.at(feeds.at(net));
                return true;
            }
        }
        return false;
    }

    void count(const Part& part, std::size_t pin, const std::vector<NetName>& ends, NetUse& use,
               std::map<NetName, NetName>& feeds) const {
        const NetName& net = part.nets[pin];
        if (ends.empty()) {
            const bool mayStand = mayStandOnSupply(part.kind, pin);
            use.controls += mayStand ? 0 : 1;
            use.loads += mayStand ? 1 : 0;
            return;
        }
        const NetName& other = ends[0] == net ? ends[1] : ends[0];
        if (part.kind == PartKind::capacitor && other == groundNet) {
            use.kept += part.value;
        } else if (other != groundNet && m_volts.count(other) > 0 && feedResistance(part) < 1e12) {
            use.feeders += 1;
            if (feedResistance(part) < use.feed) {
                use.feed = feedResistance(part);
                feeds[net] = other;
            }
        } else if (part.kind == PartKind::capacitor) {
            use.controls += 1;  // a signal comes or leaves here
        } else if (other != groundNet) {
            use.loads += 1;
        }
    }

    const Circuit& m_circuit;
    std::map<NetName, double> m_volts;
    std::set<NetName> m_signal;
};

class SeriesSearch {
public:
    SeriesSearch(const Circuit& circuit, const Rails& rails, const std::set<NetName>& meets) : m_circuit(circuit) {
        countEnds();
        for (auto& [net, ends] : m_ends) {
            ends += rails.isRail(net) ? somethingElse : 0;
        }
        for (const NetName& net : meets) {
            m_ends[net] += somethingElse;
        }
        for (const NetName& port : {circuit.ports.output, circuit.ports.jack}) {
            m_ends[port] += somethingElse;
        }
        for (const Part& part : circuit.parts) {
            if (part.kind == PartKind::coupling) {
                keepCoilsAlone(part);
            }
            for (auto& [net, ends] : m_ends) {  // a law that follows a net: the signal leaves there
                ends += part.law.find("v(" + net + ")") != std::string::npos ? somethingElse : 0;
            }
        }
    }

    std::vector<Branch> all() {
        std::vector<Branch> branches;
        for (std::size_t i = 0; i < m_circuit.parts.size(); ++i) {
            const std::vector<NetName> ends = endsOf(m_circuit.parts[i]);
            if (m_used[i] || ends.empty()) {
                continue;
            }
            m_used[i] = true;
            Branch branch{ends[0], ends[1], {{i, false}}};
            extend(branch);
            branch = branch.turned();
            extend(branch);
            branches.push_back(branch.turned());
        }
        return branches;
    }

private:
    /// Counts as more ends than a series can pass.
    static constexpr int somethingElse = 3;

    void countEnds() {
        for (std::size_t i = 0; i < m_circuit.parts.size(); ++i) {
            const Part& part = m_circuit.parts[i];
            const std::vector<NetName> ends = endsOf(part);
            const bool isNextBox = part.id == m_circuit.ports.load;  // a knob, drawn nowhere
            m_used.push_back(isNextBox);
            for (const NetName& net : ends.empty() ? part.nets : ends) {
                m_ends[net] += ends.empty() ? somethingElse : 1;
                if (!ends.empty() && !isNextBox) {
                    m_partsAt[net].push_back(i);
                }
            }
        }
    }

    /// A coil that couples stands beside the other, in no series.
    void keepCoilsAlone(const Part& coupling) {
        for (const PartId& coil : coupling.controls) {
            if (const Part* coupled = findPart(m_circuit, coil)) {
                for (const NetName& net : coupled->nets) {
                    m_ends[net] += somethingElse;
                }
            }
        }
    }

    /// Goes on at `to` while only one more part stands there.
    void extend(Branch& branch) {
        while (m_ends[branch.to] == 2) {
            const std::vector<std::size_t>& here = m_partsAt[branch.to];
            const auto next = std::find_if(here.begin(), here.end(), [this](std::size_t i) { return !m_used[i]; });
            if (next == here.end()) {
                return;
            }
            const std::vector<NetName> ends = endsOf(m_circuit.parts[*next]);
            const bool reversed = ends[1] == branch.to;
            branch.elements.push_back({*next, reversed});
            branch.to = reversed ? ends[0] : ends[1];
            m_used[*next] = true;
        }
    }

    const Circuit& m_circuit;
    std::map<NetName, int> m_ends;
    std::map<NetName, std::vector<std::size_t>> m_partsAt;
    std::vector<bool> m_used;
};

}  // namespace

Rails railsOf(const Circuit& circuit) {
    std::map<NetName, double> volts = RailSearch(circuit).volts();
    volts.erase(NetName(groundNet));
    const bool hasBoth = std::any_of(volts.begin(), volts.end(), [](const auto& rail) { return rail.second > 0.0; });
    Rails rails;
    for (const auto& [net, level] : volts) {
        (level < 0.0 && hasBoth ? rails.below : rails.above).insert(net);
    }
    return rails;
}

Branch Branch::turned() const {
    Branch other{to, from, {elements.rbegin(), elements.rend()}};
    for (Element& element : other.elements) {
        element.reversed = !element.reversed;
    }
    return other;
}

std::vector<NetName> endsOf(const Part& part) {
    if (part.kind == PartKind::potentiometer) {
        const bool isRheostat = part.nets[1] == part.nets[0] || part.nets[1] == part.nets[2];
        return isRheostat ? std::vector<NetName>{part.nets[0], part.nets[2]} : std::vector<NetName>{};
    }
    return pinCount(part.kind) == 2 ? part.nets : std::vector<NetName>{};
}

std::vector<Branch> branchesOf(const Circuit& circuit, const Rails& rails, const std::set<NetName>& meets) {
    return SeriesSearch(circuit, rails, meets).all();
}

}  // namespace ohmwright
