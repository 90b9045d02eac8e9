// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/circuit.h"

#include "core/base/said.h"
#include "core/base/text.h"

#include <algorithm>

namespace ohmwright {

namespace {

/// What the rest of the program may ask of a kind, one row each, in the order of PartKind.
struct KindFacts {
    std::string_view name, one;
    Unit unit;
    bool hasValue;
    int pinCount;
    std::array<std::string_view, 5> pins;
};

constexpr std::array<KindFacts, 22> kindTable{{
    {toSay("resistor"), toSay("a resistor"), Unit::ohm, true, 2, {"1", "2"}},
    {toSay("capacitor"), toSay("a capacitor"), Unit::farad, true, 2, {"1", "2"}},
    {toSay("inductor"), toSay("an inductor"), Unit::henry, true, 2, {"1", "2"}},
    {toSay("pot"), toSay("a pot"), Unit::ohm, true, 3, {toSay("top"), toSay("wiper"), toSay("bottom")}},
    {toSay("link"), toSay("a link"), Unit::none, false, 2, {"1", "2"}},
    {toSay("diode"), toSay("a diode"), Unit::none, false, 2, {toSay("anode"), toSay("cathode")}},
    {toSay("transistor"),
     toSay("a transistor"),
     Unit::none,
     false,
     3,
     {toSay("collector"), toSay("base"), toSay("emitter")}},
    {toSay("op-amp"),
     toSay("an op-amp"),
     Unit::none,
     false,
     5,
     {toSay("non-inverting input"), toSay("inverting input"), toSay("output"), toSay("positive supply"),
      toSay("negative supply")}},
    {toSay("voltage source"), toSay("a voltage source"), Unit::volt, false, 2, {toSay("plus"), toSay("minus")}},
    {toSay("current source"), toSay("a current source"), Unit::ampere, false, 2, {toSay("from"), toSay("to")}},
    {toSay("JFET"), toSay("a JFET"), Unit::none, false, 3, {toSay("drain"), toSay("gate"), toSay("source")}},
    {toSay("MOSFET"),
     toSay("a MOSFET"),
     Unit::none,
     false,
     4,
     {toSay("drain"), toSay("gate"), toSay("source"), toSay("bulk")}},
    {toSay("triode"), toSay("a triode"), Unit::none, false, 3, {toSay("anode"), toSay("grid"), toSay("cathode")}},
    {toSay("pentode"),
     toSay("a pentode"),
     Unit::none,
     false,
     4,
     {toSay("anode"), toSay("screen"), toSay("control grid"), toSay("cathode")}},
    {toSay("switch"), toSay("a switch"), Unit::none, false, 2, {"1", "2"}},
    {toSay("coupling"), toSay("a coupling"), Unit::none, false, 0, {}},
    {toSay("controlled voltage source"),
     toSay("a controlled voltage source"),
     Unit::none,
     false,
     4,
     {toSay("plus"), toSay("minus"), toSay("control plus"), toSay("control minus")}},
    {toSay("controlled current source"),
     toSay("a controlled current source"),
     Unit::none,
     false,
     4,
     {toSay("from"), toSay("to"), toSay("control plus"), toSay("control minus")}},
    {toSay("current-controlled current source"),
     toSay("a current-controlled current source"),
     Unit::none,
     false,
     2,
     {toSay("from"), toSay("to")}},
    {toSay("current-controlled voltage source"),
     toSay("a current-controlled voltage source"),
     Unit::none,
     false,
     2,
     {toSay("plus"), toSay("minus")}},
    {toSay("behavioural voltage source"),
     toSay("a behavioural voltage source"),
     Unit::none,
     false,
     2,
     {toSay("plus"), toSay("minus")}},
    {toSay("behavioural current source"),
     toSay("a behavioural current source"),
     Unit::none,
     false,
     2,
     {toSay("from"), toSay("to")}},
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

std::string_view kindAsOne(PartKind kind) {
    return factsOf(kind).one;
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
