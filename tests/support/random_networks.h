/// Random circuits with a fixed seed: passive networks, and chains of stages with every kind of device.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/support/small_circuits.h"

#include <cmath>
#include <map>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright::test {

/// One source of chance, the same on every machine.
class Chance {
public:
    explicit Chance(unsigned seed) : m_engine(seed) {}

    /// 0 .. count - 1.
    int below(int count) { return int(m_engine() % unsigned(count)); }
    /// Even on a log axis.
    double between(double low, double high) {
        const double share = double(m_engine()) / double(std::mt19937::max());
        return low * std::pow(high / low, share);
    }
    bool coin() { return below(2) == 0; }

private:
    std::mt19937 m_engine;
};

/// Adds a part of any kind.
inline Part& addPart(Circuit& circuit, PartKind kind, const std::string& id, std::vector<NetName> nets,
                     double value = 0.0) {
    Part part;
    part.id = id;
    part.reference = id;
    part.kind = kind;
    part.nets = std::move(nets);
    part.value = value;
    circuit.parts.push_back(part);
    return circuit.parts.back();
}

inline Part& addDevice(Circuit& circuit, PartKind kind, const std::string& id, std::vector<NetName> nets,
                       std::map<std::string, double> parameters) {
    Part& part = addPart(circuit, kind, id, std::move(nets));
    part.model = "model of " + id;
    circuit.models.push_back({part.model, kind, std::move(parameters), "test"});
    return part;
}

/// Resistors, capacitors, coils and now and then a pair of coupled coils between four to seven nets "in", "n1" ..,
/// "out" and ground; every net has a path of resistors to ground.
inline SmallCircuit randomPassiveNetwork(Chance& chance, bool withCoils = true) {
    SmallCircuit circuit;
    std::vector<NetName> nets{"in", "0", "out"};
    const int inner = 1 + chance.below(4);
    for (int k = 1; k <= inner; ++k) {
        nets.push_back("n" + std::to_string(k));
    }
    int number = 0;
    const auto name = [&](const char* letter) { return letter + std::to_string(++number); };
    const auto ohms = [&] { return chance.between(100.0, 1e6); };
    for (std::size_t k = 2; k < nets.size(); ++k) {
        circuit.r(name("R"), nets[k], nets[std::size_t(chance.below(int(k)))], ohms());
    }
    circuit.r(name("R"), "in", "0", ohms());
    const int more = 3 + chance.below(6);
    for (int k = 0; k < more; ++k) {
        const NetName& a = nets[std::size_t(chance.below(int(nets.size())))];
        const NetName& b = nets[std::size_t(chance.below(int(nets.size())))];
        if (a == b) {
            continue;
        }
        const int kind = chance.below(withCoils ? 4 : 2);
        if (kind == 0) {
            circuit.r(name("R"), a, b, ohms());
        } else if (kind <= 2) {
            circuit.c(name("C"), a, b, chance.between(1e-11, 1e-6));
        } else {
            const std::string wire = name("x");
            circuit.r(name("R"), a, wire, chance.between(10.0, 1e4)).l(name("L"), wire, b, chance.between(1e-3, 5.0));
        }
    }
    if (withCoils && chance.below(4) == 0) {
        const std::string first = name("L");
        const std::string second = name("L");
        circuit.r(name("R"), "in", first + "a", ohms()).l(first, first + "a", "0", chance.between(0.01, 5.0));
        circuit.r(name("R"), "out", second + "a", ohms()).l(second, second + "a", "0", chance.between(0.01, 5.0));
        Part& coupling = addPart(circuit.circuit(), PartKind::coupling, name("K"), {},
                                 (chance.coin() ? 1.0 : -1.0) * chance.between(0.1, 0.99));
        coupling.controls = {first, second};
    }
    return circuit;
}

/// Builds chains of one to three stages from "in" to "out".
class RandomStages {
public:
    explicit RandomStages(Chance& chance) : m_chance(chance) {}

    static constexpr int kinds = 13;

    /// @param first  kind of the first stage, 0 .. kinds - 1, so that every kind has its turn.
    SmallCircuit chain(int first) { return chain(first, 1 + m_chance.below(3)); }

    SmallCircuit chain(int first, int stages) {
        m_circuit = SmallCircuit();
        m_number = 0;
        m_circuit.v("VBAT", "vcc", "0", m_chance.between(7.0, 18.0));
        m_circuit.v("VHT", "ht", "0", m_chance.between(200.0, 350.0));
        m_circuit.r("RBL", "vcc", "0", 100e3).r("RBH", "ht", "0", 1e6);
        m_circuit.r("RS", "in", "s0", m_chance.between(100.0, 50e3));
        m_net = "s0";
        for (int k = 0; k < stages; ++k) {
            add(k == 0 ? first : m_chance.below(kinds));
        }
        m_circuit.c(name("C"), m_net, "out", m_chance.between(1e-8, 1e-5));
        m_circuit.r(name("R"), "out", "0", m_chance.between(10e3, 1e6));
        return m_circuit;
    }

private:
    using Parameters = std::map<std::string, double>;

    std::string name(const char* letter) { return letter + std::to_string(++m_number); }
    double ohms(double about) { return m_chance.between(0.7 * about, 1.4 * about); }
    /// A coupling capacitor into a new net.
    NetName coupled() {
        const NetName net = name("g");
        m_circuit.c(name("C"), m_net, net, m_chance.between(1e-9, 1e-6));
        return net;
    }

    void add(int kind) {
        switch (kind) {
            case 0:
                return bipolar(1.0, "vcc", "0");
            case 1:
                return bipolar(-1.0, "0", "vcc");
            case 2:
                return jfet();
            case 3:
                return mosfet();
            case 4:
                return opamp();
            case 5:
                return clipper();
            case 6:
                return triode();
            case 7:
                return pentode();
            case 8:
                return formula();
            case 9:
                return controlled();
            case 10:
                return transformer();
            case 11:
                return diodeAttenuator();
            default:
                return pot();
        }
    }

    void bipolar(double polarity, const NetName& far, const NetName& near) {
        const NetName base = coupled();
        const NetName collector = name("c");
        const NetName emitter = name("e");
        Parameters card = card2N3904();
        card["POLARITY"] = polarity;
        card["BF"] = m_chance.between(50.0, 600.0);
        if (m_chance.coin()) {
            card["CJS"] = 2e-12;
            card["RBM"] = 2.0;
            card["IRB"] = 1e-5;
            card["TR"] = 5e-9;
        }
        m_circuit.r(name("R"), far, base, ohms(82e3)).r(name("R"), base, near, ohms(15e3));
        m_circuit.r(name("R"), far, collector, ohms(4.7e3)).r(name("R"), emitter, near, ohms(1e3));
        if (m_chance.coin()) {
            const NetName leg = name("l");
            m_circuit.r(name("R"), emitter, leg, ohms(220.0)).c(name("C"), leg, "0", m_chance.between(1e-7, 1e-5));
        }
        m_circuit.q(name("Q"), collector, base, emitter, card);
        m_net = collector;
    }

    void jfet() {
        const NetName gate = coupled();
        const NetName drain = name("d");
        const NetName source = name("e");
        m_circuit.r(name("R"), gate, "0", ohms(1e6)).r(name("R"), "vcc", drain, ohms(2.2e3));
        m_circuit.r(name("R"), source, "0", ohms(1e3));
        addDevice(m_circuit.circuit(), PartKind::jfet, name("J"), {drain, gate, source},
                  {{"VTO", -m_chance.between(0.8, 2.5)},
                   {"BETA", m_chance.between(3e-4, 1.5e-3)},
                   {"LAMBDA", 2e-3},
                   {"CGS", 5e-12},
                   {"CGD", 4e-12},
                   {"RS", m_chance.coin() ? 20.0 : 0.0}});
        m_net = drain;
    }

    void mosfet() {
        const NetName gate = coupled();
        const NetName drain = name("d");
        const NetName source = name("e");
        m_circuit.r(name("R"), "vcc", gate, ohms(220e3)).r(name("R"), gate, "0", ohms(150e3));
        m_circuit.r(name("R"), "vcc", drain, ohms(2.2e3)).r(name("R"), source, "0", ohms(1e3));
        Parameters card{{"VTO", m_chance.between(0.8, 2.0)},
                        {"KP", m_chance.between(5e-3, 5e-2)},
                        {"LAMBDA", 5e-3},
                        {"CGSO", 3e-7},
                        {"CGDO", 1e-7},
                        {"GAMMA", 0.3}};
        if (m_chance.coin()) {
            card["TOX"] = 1e-7;
        }
        addDevice(m_circuit.circuit(), PartKind::mosfet, name("M"),
                  {drain, gate, source, m_chance.coin() ? source : NetName("0")}, card);
        m_net = drain;
    }

    void opamp() {
        const NetName plus = coupled();
        const NetName minus = name("m");
        const NetName output = name("o");
        const NetName half = name("h");
        const NetName leg = name("l");
        m_circuit.r(name("R"), "vcc", half, ohms(10e3)).r(name("R"), half, "0", ohms(10e3));
        m_circuit.c(name("C"), half, "0", 10e-6).r(name("R"), plus, half, ohms(1e6));
        m_circuit.r(name("R"), output, minus, ohms(100e3)).r(name("R"), minus, leg, ohms(4.7e3));
        m_circuit.c(name("C"), leg, "0", m_chance.between(1e-8, 1e-6));
        m_circuit.c(name("C"), output, minus, m_chance.between(1e-11, 1e-9));
        Parameters card{{"EN", 18e-9}, {"FCE", 100.0}, {"IN", 1e-14}, {"SR", 13e6}, {"RIN", 1e9}};
        if (m_chance.coin()) {
            card["POLE2"] = 9e6;
            card["IB"] = 1e-9;
        }
        m_circuit.opamp(name("U"), {plus, minus, output, "vcc", "0"}, card);
        m_net = output;
    }

    void clipper() {
        const NetName middle = coupled();
        const NetName node = name("k");
        m_circuit.r(name("R"), middle, node, ohms(2.2e3)).r(name("R"), node, "0", ohms(100e3));
        const Parameters card{{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}, {"CJO", 4e-12}, {"TT", 20e-9}};
        m_circuit.d(name("D"), node, "0", card).d(name("D"), "0", node, card);
        if (m_chance.coin()) {
            m_circuit.r(name("R"), "vcc", node, ohms(1e6));  // not symmetric: a current at rest
        }
        m_net = node;
    }

    void triode() {
        const NetName grid = coupled();
        const NetName anode = name("a");
        const NetName cathode = name("k");
        m_circuit.r(name("R"), grid, "0", ohms(1e6)).r(name("R"), "ht", anode, ohms(100e3));
        m_circuit.r(name("R"), cathode, "0", ohms(1.5e3));
        Parameters card{{"CCG", 2.3e-12}, {"CGP", 2.4e-12}, {"CCP", 0.9e-12}, {"RNEQ", 2e3}};
        if (m_chance.coin()) {
            card["LAW"] = 2.0;
        }
        if (m_chance.coin()) {
            m_circuit.c(name("C"), cathode, "0", m_chance.between(1e-7, 1e-5));
        }
        addDevice(m_circuit.circuit(), PartKind::triode, name("T"), {anode, grid, cathode}, card);
        m_net = anode;
    }

    void pentode() {
        const NetName grid = coupled();
        const NetName anode = name("a");
        const NetName screen = name("s");
        const NetName cathode = name("k");
        m_circuit.r(name("R"), grid, "0", ohms(470e3)).r(name("R"), "ht", anode, ohms(10e3));
        m_circuit.r(name("R"), "ht", screen, ohms(22e3)).c(name("C"), screen, "0", 1e-6);
        m_circuit.r(name("R"), cathode, "0", ohms(470.0));
        addDevice(m_circuit.circuit(), PartKind::pentode, name("P"), {anode, screen, grid, cathode},
                  {{"CCG", 5e-12}, {"CPG1", 0.5e-12}, {"CCP", 5e-12}});
        m_net = anode;
    }

    void formula() {
        const NetName middle = coupled();
        const NetName output = name("o");
        m_circuit.r(name("R"), middle, "0", ohms(100e3)).r(name("R"), "vcc", middle, ohms(2.2e6));
        Part& part =
            addPart(m_circuit.circuit(), m_chance.coin() ? PartKind::behaviouralVoltage : PartKind::behaviouralCurrent,
                    name("B"), {output, "0"});
        part.law = "tanh(1.5*v(" + middle + "))*0.5+0.1*v(" + middle + ")**2+0.01*v(vcc)";
        if (part.kind == PartKind::behaviouralCurrent) {
            part.law = "(" + part.law + ")*1e-3";
        }
        m_circuit.r(name("R"), output, "0", ohms(2.2e3));
        m_net = output;
    }

    void controlled() {
        const NetName middle = coupled();
        const NetName output = name("o");
        m_circuit.r(name("R"), middle, "0", ohms(100e3));
        const int kind = m_chance.below(4);
        Circuit& circuit = m_circuit.circuit();
        const double gain = m_chance.between(0.5, 5.0);
        if (kind == 0) {
            addPart(circuit, PartKind::voltageControlledVoltage, name("E"), {output, "0", middle, "0"}, gain);
        } else if (kind == 1) {
            addPart(circuit, PartKind::voltageControlledCurrent, name("G"), {output, "0", middle, "0"}, gain * 1e-3);
        } else {
            const std::string sense = name("V");
            const NetName end = name("v");
            m_circuit.v(sense, middle, end, 0.0).r(name("R"), end, "0", ohms(10e3));
            Part& part =
                addPart(circuit, kind == 2 ? PartKind::currentControlledCurrent : PartKind::currentControlledVoltage,
                        name("F"), {output, "0"}, kind == 2 ? gain : gain * 1e4);
            part.controls = {sense};
        }
        m_circuit.r(name("R"), output, "0", ohms(4.7e3));
        m_net = output;
    }

    void transformer() {
        const NetName middle = coupled();
        const NetName primary = name("p");
        const NetName secondary = name("q");
        const std::string first = name("L");
        const std::string second = name("L");
        m_circuit.r(name("R"), middle, primary, ohms(200.0)).l(first, primary, "0", m_chance.between(0.5, 5.0));
        m_circuit.l(second, secondary, "0", m_chance.between(0.05, 5.0)).r(name("R"), secondary, "0", ohms(10e3));
        Part& coupling = addPart(m_circuit.circuit(), PartKind::coupling, name("K"), {}, m_chance.between(0.5, 0.99));
        coupling.controls = {first, second};
        m_net = secondary;
    }

    /// The signal across a diode that the supply keeps open.
    void diodeAttenuator() {
        const NetName middle = coupled();
        const NetName node = name("k");
        m_circuit.r(name("R"), middle, node, ohms(1e3)).r(name("R"), "vcc", node, ohms(47e3));
        m_circuit.r(name("R"), middle, "0", ohms(1e6));
        m_circuit.d(name("D"), node, "0", {{"IS", 4.35e-9}, {"N", 1.906}, {"RS", 0.65}, {"CJO", 7e-13}, {"TT", 3e-9}});
        m_net = node;
    }

    void pot() {
        const NetName wiper = name("w");
        const NetName top = coupled();
        addPart(m_circuit.circuit(), PartKind::potentiometer, name("P"), {top, wiper, "0"}, ohms(100e3));
        m_net = wiper;
    }

    Chance& m_chance;
    SmallCircuit m_circuit;
    NetName m_net;
    int m_number = 0;
};

}  // namespace ohmwright::test
