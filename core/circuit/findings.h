/// Faults while a circuit is checked, and words for them. Belongs to check.cpp and its parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/check.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright {

/// Pins of an op-amp, in PartKind's order.
enum OpampPin : std::size_t { nonInverting, inverting, output, positiveSupply, negativeSupply };

/// Faults as they are found, put in the order of the parts at the end.
class Findings {
public:
    explicit Findings(const Circuit& circuit) : m_circuit(circuit) {}

    void addPart(Severity severity, const Part& part, std::string message, const NetName& net = {}) {
        const auto place = static_cast<std::size_t>(&part - m_circuit.parts.data());
        m_found.push_back({place, {severity, std::move(message), part.id, net}});
    }
    void addNet(Severity severity, std::size_t place, const NetName& net, std::string message) {
        m_found.push_back({place, {severity, std::move(message), {}, net}});
    }
    /// A fault of a net whose place on the drawing is a part's pin.
    void addNetAtPart(Severity severity, const Part& part, const NetName& net, std::string message) {
        const auto place = static_cast<std::size_t>(&part - m_circuit.parts.data());
        m_found.push_back({place, {severity, std::move(message), part.id, net}});
    }
    void addGeneral(std::string message, const PartId& part = {}, const NetName& net = {}) {
        m_found.push_back({m_circuit.parts.size(), {Severity::wrong, std::move(message), part, net}});
    }

    [[nodiscard]] std::vector<Fault> inOrder() && {
        std::stable_sort(m_found.begin(), m_found.end(),
                         [](const Placed& a, const Placed& b) { return a.place < b.place; });
        std::vector<Fault> faults;
        faults.reserve(m_found.size());
        for (Placed& placed : m_found) {
            faults.push_back(std::move(placed.fault));
        }
        return faults;
    }

private:
    struct Placed {
        std::size_t place;
        Fault fault;
    };

    const Circuit& m_circuit;
    std::vector<Placed> m_found;
};

/// "C4, R5 and R6"; a long list is cut, since one name is enough to find the place.
std::string inWords(const std::vector<std::string>& names);

/// Whether every pin is on a net.
inline bool isWired(const Part& part) {
    return part.nets.size() == static_cast<std::size_t>(pinCount(part.kind)) &&
           std::none_of(part.nets.begin(), part.nets.end(), [](const NetName& net) { return net.empty(); });
}

}  // namespace ohmwright
