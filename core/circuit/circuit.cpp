// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/circuit.h"

#include "core/base/text.h"

#include <algorithm>

namespace ohmwright {

namespace {

/// What the rest of the program may ask of a kind, one row each, in the order of PartKind.
struct KindFacts {
    std::string_view name;
    Unit unit;
    bool hasValue;
    int pinCount;
    std::array<std::string_view, 5> pins;
};

constexpr std::array<KindFacts, 22> kindTable{{
    {"resistor", Unit::ohm, true, 2, {"1", "2"}},
    {"capacitor", Unit::farad, true, 2, {"1", "2"}},
    {"inductor", Unit::henry, true, 2, {"1", "2"}},
    {"pot", Unit::ohm, true, 3, {"top", "wiper", "bottom"}},
    {"link", Unit::none, false, 2, {"1", "2"}},
    {"diode", Unit::none, false, 2, {"anode", "cathode"}},
    {"transistor", Unit::none, false, 3, {"collector", "base", "emitter"}},
    {"op-amp",
     Unit::none,
     false,
     5,
     {"non-inverting input", "inverting input", "output", "positive supply", "negative supply"}},
    {"voltage source", Unit::volt, false, 2, {"plus", "minus"}},
    {"current source", Unit::ampere, false, 2, {"from", "to"}},
    {"JFET", Unit::none, false, 3, {"drain", "gate", "source"}},
    {"MOSFET", Unit::none, false, 4, {"drain", "gate", "source", "bulk"}},
    {"triode", Unit::none, false, 3, {"anode", "grid", "cathode"}},
    {"pentode", Unit::none, false, 4, {"anode", "screen", "control grid", "cathode"}},
    {"switch", Unit::none, false, 2, {"1", "2"}},
    {"coupling", Unit::none, false, 0, {}},
    {"controlled voltage source", Unit::none, false, 4, {"plus", "minus", "control plus", "control minus"}},
    {"controlled current source", Unit::none, false, 4, {"from", "to", "control plus", "control minus"}},
    {"current-controlled current source", Unit::none, false, 2, {"from", "to"}},
    {"current-controlled voltage source", Unit::none, false, 2, {"plus", "minus"}},
    {"behavioural voltage source", Unit::none, false, 2, {"plus", "minus"}},
    {"behavioural current source", Unit::none, false, 2, {"from", "to"}},
}};

const KindFacts& factsOf(PartKind kind) {
    return kindTable.at(static_cast<std::size_t>(kind));
}

template <class Range, class Test>
auto* firstWhere(Range& range, Test test) {
    const auto found = std::find_if(range.begin(), range.end(), test);
    return found == range.end() ? nullptr : &*found;
}

}  // namespace

const Part* findPart(const Circuit& circuit, std::string_view id) {
    return firstWhere(circuit.parts, [id](const Part& part) { return part.id == id; });
}

Part* findPart(Circuit& circuit, std::string_view id) {
    return firstWhere(circuit.parts, [id](const Part& part) { return part.id == id; });
}

const Part* findPartByReference(const Circuit& circuit, std::string_view reference) {
    return firstWhere(circuit.parts, [reference](const Part& part) { return part.reference == reference; });
}

const Model* findModel(const Circuit& circuit, std::string_view name) {
    return firstWhere(circuit.models, [name](const Model& model) { return model.name == name; });
}

const Knob* findKnob(const Circuit& circuit, std::string_view id) {
    return firstWhere(circuit.knobs, [id](const Knob& knob) { return knob.id == id; });
}

const Knob* knobOf(const Circuit& circuit, std::string_view part) {
    return firstWhere(circuit.knobs, [part](const Knob& knob) { return knob.part == part; });
}

const Stage* stageOfPart(const Circuit& circuit, std::string_view part) {
    return firstWhere(circuit.stages, [part](const Stage& stage) {
        return std::find(stage.parts.begin(), stage.parts.end(), part) != stage.parts.end();
    });
}

const Stage* stageWithOutput(const Circuit& circuit, std::string_view net) {
    return firstWhere(circuit.stages, [net](const Stage& stage) { return !net.empty() && stage.output == net; });
}

int pinCount(PartKind kind) {
    return factsOf(kind).pinCount;
}

std::string_view pinName(PartKind kind, int pin) {
    return factsOf(kind).pins.at(static_cast<std::size_t>(pin));
}

Unit unitOf(PartKind kind) {
    return factsOf(kind).unit;
}

std::string_view kindName(PartKind kind) {
    return factsOf(kind).name;
}

bool hasModel(PartKind kind) {
    return kind == PartKind::diode || kind == PartKind::bipolar || kind == PartKind::opamp || kind == PartKind::jfet ||
           kind == PartKind::mosfet || kind == PartKind::triode || kind == PartKind::pentode;
}

bool hasValue(PartKind kind) {
    return factsOf(kind).hasValue;
}

bool fixesVoltage(PartKind kind) {
    switch (kind) {
        case PartKind::voltageSource:
        case PartKind::inductor:
        case PartKind::voltageControlledVoltage:
        case PartKind::currentControlledVoltage:
        case PartKind::behaviouralVoltage:
            return true;
        default:
            return false;
    }
}

bool isPolarised(std::string_view build) {
    const std::string words = inLowerCase(build);
    const auto says = [&words](std::string_view word) { return words.find(word) != std::string::npos; };
    return (says("electrolytic") || says("tantalum")) && !says("non-polar") && !says("nonpolar") && !says("bipolar");
}

bool isPolarised(const Part& part) {
    return part.kind == PartKind::capacitor && isPolarised(std::string_view(part.build));
}

std::string displayName(const Part& part) {
    const std::string& label = part.reference.empty() ? part.id : part.reference;
    return part.function.empty() || part.function == label ? label : label + " " + part.function;
}

}  // namespace ohmwright
