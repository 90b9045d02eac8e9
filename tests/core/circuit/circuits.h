/// Circuits for the tests of this folder, written a part a line.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <vector>

namespace ohmwright {

inline Part part(PartKind kind, const std::string& reference, std::vector<NetName> nets, double value) {
    Part result;
    result.id = "id-" + reference;
    result.reference = reference;
    result.kind = kind;
    result.nets = std::move(nets);
    result.value = value;
    return result;
}

inline Part resistor(const std::string& reference, const NetName& a, const NetName& b, double ohms) {
    return part(PartKind::resistor, reference, {a, b}, ohms);
}
inline Part capacitor(const std::string& reference, const NetName& a, const NetName& b, double farads) {
    return part(PartKind::capacitor, reference, {a, b}, farads);
}
inline Part inductor(const std::string& reference, const NetName& a, const NetName& b, double henries) {
    return part(PartKind::inductor, reference, {a, b}, henries);
}
inline Part source(const std::string& reference, const NetName& plus, const NetName& minus, double volts) {
    return part(PartKind::voltageSource, reference, {plus, minus}, volts);
}
inline Part wire(const std::string& reference, const NetName& a, const NetName& b) {
    return part(PartKind::link, reference, {a, b}, 0.0);
}
inline Part pot(const std::string& reference, std::vector<NetName> topWiperBottom, double ohms) {
    return part(PartKind::potentiometer, reference, std::move(topWiperBottom), ohms);
}
inline Part withModel(PartKind kind, const std::string& reference, std::vector<NetName> nets,
                      const std::string& model) {
    Part result = part(kind, reference, std::move(nets), 0.0);
    result.model = model;
    return result;
}

/// The clip stage of the demo "Harbour Lamp" with its input and output followers' loads, on a 9 V battery.
/// Source: the demo's netlist.
inline Circuit clipStage() {
    Circuit circuit;
    Part drive = pot("VR1", {"rf", "o1", "o1"}, 250e3);
    drive.taper = Taper::reverseLogarithmic;
    drive.shareAtHalf = 0.15;
    circuit.parts = {
        source("VSIG", "in", "0", 0.0),
        capacitor("C2", "in", "ip", 2.2e-6),
        resistor("R4", "vb", "ip", 22e3),
        withModel(PartKind::opamp, "U1", {"ip", "im", "o1", "vcc", "0"}, "TL072"),
        capacitor("C4", "im", "leg", 56e-9),
        resistor("R5", "leg", "0", 3.9e3),
        resistor("R6", "im", "rf", 33e3),
        drive,
        capacitor("C5", "im", "o1", 100e-12),
        withModel(PartKind::diode, "D1", {"im", "o1"}, "1N4148"),
        withModel(PartKind::diode, "D2", {"o1", "im"}, "1N4148"),
        resistor("R7", "o1", "lp", 1.5e3),
        capacitor("C7", "lp", "0", 47e-9),
        capacitor("C6", "lp", "out", 1e-6),
        resistor("RLOAD", "out", "0", 1e6),
        source("VBAT", "bat", "0", 9.0),
        resistor("RBAT", "bat", "vcc", 1.7),
        resistor("R11", "vcc", "vb", 12e3),
        resistor("R12", "vb", "0", 12e3),
        capacitor("C11", "vb", "0", 47e-6),
    };
    circuit.models = {{"TL072", PartKind::opamp, {}, "test"}, {"1N4148", PartKind::diode, {{"IS", 2.52e-9}}, "test"}};
    circuit.knobs = {{"drive", "Drive", "id-VR1"}};
    circuit.stages = {{"Clip stage", "ip", "o1", {"id-U1", "id-C4", "id-R5"}, 0},
                      {"Low-pass", "o1", "lp", {"id-R7", "id-C7"}, 10}};
    circuit.ports = {"id-VSIG", "out", "id-VBAT", "id-RLOAD", "in", "o1"};
    return circuit;
}

/// The part with this reference, which must exist.
inline Part& partOf(Circuit& circuit, const std::string& reference) {
    return *findPart(circuit, "id-" + reference);
}

}  // namespace ohmwright
