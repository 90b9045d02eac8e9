/// Small circuits written a part a line, as the worked examples of the references give them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright::test {

/// Builds a circuit with a source "VIN" at net "in" and its output at net "out".
class SmallCircuit {
public:
    explicit SmallCircuit(double inputDcVolts = 0.0) {
        two(PartKind::voltageSource, "VIN", "in", "0", inputDcVolts);
        m_circuit.parts.back().acAmplitude = 1.0;
        m_circuit.ports.source = "VIN";
        m_circuit.ports.output = "out";
    }

    SmallCircuit& r(const std::string& id, const NetName& a, const NetName& b, double ohms) {
        return two(PartKind::resistor, id, a, b, ohms);
    }
    SmallCircuit& c(const std::string& id, const NetName& a, const NetName& b, double farads) {
        return two(PartKind::capacitor, id, a, b, farads);
    }
    SmallCircuit& l(const std::string& id, const NetName& a, const NetName& b, double henries) {
        return two(PartKind::inductor, id, a, b, henries);
    }
    SmallCircuit& v(const std::string& id, const NetName& plus, const NetName& minus, double volts) {
        return two(PartKind::voltageSource, id, plus, minus, volts);
    }
    SmallCircuit& i(const std::string& id, const NetName& from, const NetName& to, double amperes) {
        return two(PartKind::currentSource, id, from, to, amperes);
    }
    SmallCircuit& d(const std::string& id, const NetName& anode, const NetName& cathode,
                    std::map<std::string, double> parameters) {
        return device(PartKind::diode, id, {anode, cathode}, std::move(parameters));
    }
    SmallCircuit& q(const std::string& id, const NetName& collector, const NetName& base, const NetName& emitter,
                    std::map<std::string, double> parameters) {
        return device(PartKind::bipolar, id, {collector, base, emitter}, std::move(parameters));
    }
    SmallCircuit& opamp(const std::string& id, std::vector<NetName> nets, std::map<std::string, double> parameters) {
        return device(PartKind::opamp, id, std::move(nets), std::move(parameters));
    }

    operator const Circuit&() const { return m_circuit; }
    Circuit& circuit() { return m_circuit; }

private:
    SmallCircuit& two(PartKind kind, const std::string& id, const NetName& a, const NetName& b, double value) {
        Part part;
        part.id = id;
        part.reference = id;
        part.kind = kind;
        part.nets = {a, b};
        part.value = value;
        m_circuit.parts.push_back(part);
        return *this;
    }
    SmallCircuit& device(PartKind kind, const std::string& id, std::vector<NetName> nets,
                         std::map<std::string, double> parameters) {
        Part part;
        part.id = id;
        part.reference = id;
        part.kind = kind;
        part.nets = std::move(nets);
        part.model = "model of " + id;
        m_circuit.models.push_back({part.model, kind, std::move(parameters), "test"});
        m_circuit.parts.push_back(part);
        return *this;
    }

    Circuit m_circuit;
};

/// The 2N3904 card of its maker's sheet, as in the references.
inline std::map<std::string, double> card2N3904() {
    return {{"IS", 6.734e-15},  {"BF", 416.4}, {"VAF", 74.03},  {"IKF", 66.78e-3},  {"ISE", 6.734e-15}, {"NE", 1.259},
            {"BR", 0.7371},     {"RB", 10.0},  {"RC", 1.0},     {"CJE", 4.493e-12}, {"VJE", 0.75},      {"MJE", 0.2593},
            {"CJC", 3.638e-12}, {"VJC", 0.75}, {"MJC", 0.3085}, {"FC", 0.5},        {"TF", 301.2e-12}};
}

}  // namespace ohmwright::test
