// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/circuit_format.h"

#include "core/base/said.h"
#include "core/files/format_lists.h"
#include "core/files/format_words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {

namespace {

constexpr int furthestGrid = 10000;  // Grid steps: 200,000 px, far beyond any drawing; keeps sums in an int.
constexpr int mostQuarterTurns = 3;

/// @name Writing: a key is left out where it says nothing, see resources/job-file-format.md.
///@{
void addText(JsonNode& node, std::string_view key, const std::string& text) {
    if (!text.empty()) {
        node.add(std::string(key), JsonNode::ofText(text));
    }
}

JsonNode writePoint(GridPoint point) {
    JsonNode node = JsonNode::list();
    node.append(JsonNode::ofInteger(point.x));
    node.append(JsonNode::ofInteger(point.y));
    return node;
}

///@}

/// @name Reading.
///@{
GridPoint readPoint(JsonReader reader) {
    std::vector<JsonReader> numbers = reader.entries();
    if (numbers.size() != 2) {
        reader.fail(said("a point is a list of two whole numbers, [x, y]."));
        return {};
    }
    return {numbers[0].asInteger(-furthestGrid, furthestGrid), numbers[1].asInteger(-furthestGrid, furthestGrid)};
}

std::vector<GridPoint> readPoints(JsonReader reader) {
    std::vector<GridPoint> points;
    for (const JsonReader& entry : reader.entries()) {
        points.push_back(readPoint(entry));
    }
    return points;
}

///@}

// --- Placement

JsonNode writePlacement(const Placement& placement) {
    JsonNode node = JsonNode::object();
    node.add("at", writePoint(placement.at));
    node.add("turns", JsonNode::ofInteger(placement.quarterTurns));
    if (placement.mirrored) {
        node.add("mirrored", JsonNode::ofBoolean(true));
    }
    node.add("span", JsonNode::ofInteger(placement.span));
    if (placement.label != LabelSide::automatic) {
        node.add("label", wordFor(placement.label, labelSideWords));
    }
    return node;
}

Placement readPlacement(JsonReader reader) {
    Placement placement;
    placement.at = readPoint(reader.member("at"));
    placement.quarterTurns = reader.integer("turns", 0, mostQuarterTurns);
    placement.mirrored = reader.flag("mirrored", false);
    placement.span = reader.integer("span", 0, furthestGrid);
    placement.label = reader.word("label", labelSideWords, LabelSide::automatic);
    reader.keepUnknown();
    return placement;
}

// --- Parts

constexpr std::array<std::pair<const char*, double SourceWave::*>, 10> waveFigures{{
    {"low", &SourceWave::low},
    {"high", &SourceWave::high},
    {"delay", &SourceWave::delay},
    {"hertz", &SourceWave::hertz},
    {"damping", &SourceWave::damping},
    {"degrees", &SourceWave::degrees},
    {"rise", &SourceWave::rise},
    {"fall", &SourceWave::fall},
    {"width", &SourceWave::width},
    {"period", &SourceWave::period},
}};

bool isPot(PartKind kind) {
    return kind == PartKind::potentiometer;
}

bool isSource(PartKind kind) {
    return kind == PartKind::voltageSource || kind == PartKind::currentSource;
}

JsonNode writeWave(const SourceWave& wave) {
    JsonNode node = JsonNode::object();
    node.add("shape", wordFor(wave.shape, waveShapeWords));
    for (const auto& [key, member] : waveFigures) {
        if (wave.*member != 0.0) {
            node.add(std::string(key), JsonNode::ofNumber(wave.*member));
        }
    }
    return node;
}

SourceWave readWave(JsonReader reader) {
    SourceWave wave;
    wave.shape = reader.word("shape", waveShapeWords);
    for (const auto& [key, member] : waveFigures) {
        wave.*member = reader.number(key, 0.0);
    }
    reader.keepUnknown();
    return wave;
}

/// What only parts of a netlist have: waves, formulas, other parts that they name, figures of the one device.
void writeNetlistMembers(JsonNode& node, const Part& part) {
    if (part.acDegrees != 0.0) {
        node.add("acDegrees", JsonNode::ofNumber(part.acDegrees));
    }
    if (part.wave) {
        node.add("wave", writeWave(*part.wave));
    }
    addText(node, "law", part.law);
    if (!part.controls.empty()) {
        node.add("controls", writeTexts(part.controls));
    }
    if (!part.parameters.empty()) {
        JsonNode parameters = JsonNode::object();
        for (const auto& [name, value] : part.parameters) {
            parameters.add(name, JsonNode::ofNumber(value));
        }
        node.add("parameters", std::move(parameters));
    }
    addText(node, "call", part.call);
}

void readNetlistMembers(JsonReader& reader, Part& part) {
    part.acDegrees = reader.number("acDegrees", 0.0);
    if (std::optional<JsonReader> wave = reader.memberIfThere("wave")) {
        part.wave = readWave(*wave);
    }
    part.law = reader.text("law", std::string());
    if (reader.has("controls")) {
        part.controls = reader.texts("controls");
    }
    if (std::optional<JsonReader> parameters = reader.memberIfThere("parameters")) {
        for (auto& [name, value] : parameters->namedMembers()) {
            part.parameters[name] = value.asNumber();
        }
    }
    part.call = reader.text("call", std::string());
}

void writeWhatItIs(JsonNode& node, const Part& part) {
    if (unitOf(part.kind) != Unit::none || part.value != 0.0) {
        node.add("value", JsonNode::ofNumber(part.value));
    }
    if (isSource(part.kind) || part.acAmplitude != 0.0) {
        node.add("ac", JsonNode::ofNumber(part.acAmplitude));
    }
    if (hasModel(part.kind) || !part.model.empty()) {
        node.add("model", JsonNode::ofText(part.model));
    }
    if (hasValue(part.kind) || part.tolerance != 0.0) {
        node.add("tolerance", JsonNode::ofNumber(part.tolerance));
    }
    if (isPot(part.kind) || part.taper != Taper::linear) {
        node.add("taper", wordFor(part.taper, taperWords));
    }
    if (isPot(part.kind) || part.shareAtHalf != Part().shareAtHalf) {
        node.add("shareAtHalf", JsonNode::ofNumber(part.shareAtHalf));
    }
}

void readWhatItIs(JsonReader& reader, Part& part) {
    const bool needsValue = unitOf(part.kind) != Unit::none;
    part.value = needsValue ? reader.number("value") : reader.number("value", 0.0);
    part.acAmplitude = isSource(part.kind) ? reader.number("ac") : reader.number("ac", 0.0);
    part.model = hasModel(part.kind) ? reader.text("model") : reader.text("model", std::string());
    part.tolerance = hasValue(part.kind) ? reader.number("tolerance") : reader.number("tolerance", 0.0);
    part.taper = isPot(part.kind) ? reader.word("taper", taperWords) : reader.word("taper", taperWords, Taper::linear);
    part.shareAtHalf = isPot(part.kind) ? reader.number("shareAtHalf") : reader.number("shareAtHalf", part.shareAtHalf);
    if (part.tolerance < 0.0) {
        reader.member("tolerance").fail(said("a tolerance is a fraction from 0 up; 0.05 says 5 %."));
    }
    if (!reader.failed() && !(part.shareAtHalf > 0.0 && part.shareAtHalf < 1.0)) {
        reader.member("shareAtHalf").fail(said("the share of the track at half travel lies between 0 and 1."));
    }
}

JsonNode writePart(const Part& part) {
    JsonNode node = JsonNode::object();
    node.add("id", JsonNode::ofText(part.id));
    node.add("reference", JsonNode::ofText(part.reference));
    addText(node, "function", part.function);
    addText(node, "role", part.role);
    node.add("kind", wordFor(part.kind, partKindWords));
    writeWhatItIs(node, part);
    writeNetlistMembers(node, part);
    node.add("nets", writeTexts(part.nets));
    if (!part.pins.empty()) {
        node.add("pins", writeTexts(part.pins));
    }
    addText(node, "printed", part.printed);
    addText(node, "build", part.build);
    addText(node, "boardNote", part.boardNote);
    node.add("knowledge", wordFor(part.knowledge, knowledgeWords));
    if (part.measured) {
        node.add("measured", JsonNode::ofNumber(*part.measured));
    }
    if (part.placement) {
        node.add("placement", writePlacement(*part.placement));
    }
    return node;
}

void requirePinCount(JsonReader& reader, const Part& part) {
    const auto pins = static_cast<std::size_t>(pinCount(part.kind));
    if (reader.failed()) {
        return;
    }
    if (part.nets.size() != pins) {
        reader.member("nets").fail(said("%1 nets are expected here, one a pin of the %2, not %3.", pins,
                                        said(kindName(part.kind)), part.nets.size()));
    }
    if (!part.pins.empty() && part.pins.size() != pins) {
        reader.member("pins").fail(
            said("either no pin numbers or %1 are expected here, not %2.", pins, part.pins.size()));
    }
}

Part readPart(JsonReader reader) {
    Part part;
    part.id = reader.text("id");
    part.reference = reader.text("reference");
    part.function = reader.text("function", std::string());
    part.role = reader.text("role", std::string());
    part.kind = reader.word("kind", partKindWords);
    readWhatItIs(reader, part);
    readNetlistMembers(reader, part);
    part.nets = reader.texts("nets");
    if (reader.has("pins")) {
        part.pins = reader.texts("pins");
    }
    requirePinCount(reader, part);
    part.printed = reader.text("printed", std::string());
    part.build = reader.text("build", std::string());
    part.boardNote = reader.text("boardNote", std::string());
    part.knowledge = reader.word("knowledge", knowledgeWords);
    part.measured = reader.numberIfThere("measured");
    if (std::optional<JsonReader> placement = reader.memberIfThere("placement")) {
        part.placement = readPlacement(*placement);
    }
    reader.keepUnknown();
    return part;
}

// --- Knobs, stages, ports, drawing

JsonNode writeKnob(const Knob& knob) {
    JsonNode node = JsonNode::object();
    node.add("id", JsonNode::ofText(knob.id));
    node.add("name", JsonNode::ofText(knob.name));
    node.add("part", JsonNode::ofText(knob.part));
    return node;
}

Knob readKnob(JsonReader reader) {
    Knob knob;
    knob.id = reader.text("id");
    knob.name = reader.text("name");
    knob.part = reader.text("part");
    reader.keepUnknown();
    return knob;
}

JsonNode writeStage(const Stage& stage) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(stage.name));
    node.add("input", JsonNode::ofText(stage.input));
    node.add("output", JsonNode::ofText(stage.output));
    node.add("parts", writeTexts(stage.parts));
    node.add("firstColumn", JsonNode::ofInteger(stage.firstColumn));
    return node;
}

Stage readStage(JsonReader reader) {
    Stage stage;
    stage.name = reader.text("name");
    stage.input = reader.text("input");
    stage.output = reader.text("output");
    stage.parts = reader.texts("parts");
    stage.firstColumn = reader.integer("firstColumn", -furthestGrid, furthestGrid);
    reader.keepUnknown();
    return stage;
}

JsonNode writePorts(const Ports& ports) {
    JsonNode node = JsonNode::object();
    node.add("source", JsonNode::ofText(ports.source));
    node.add("output", JsonNode::ofText(ports.output));
    node.add("battery", JsonNode::ofText(ports.battery));
    node.add("load", JsonNode::ofText(ports.load));
    node.add("jack", JsonNode::ofText(ports.jack));
    node.add("clipNode", JsonNode::ofText(ports.clipNode));
    return node;
}

Ports readPorts(JsonReader reader) {
    Ports ports;
    ports.source = reader.text("source");
    ports.output = reader.text("output");
    ports.battery = reader.text("battery");
    ports.load = reader.text("load");
    ports.jack = reader.text("jack");
    ports.clipNode = reader.text("clipNode");
    reader.keepUnknown();
    return ports;
}

JsonNode writeWire(const Wire& wire) {
    JsonNode node = JsonNode::object();
    node.add("net", JsonNode::ofText(wire.net));
    node.add("corners", writeList(wire.corners, writePoint));
    return node;
}

Wire readWire(JsonReader reader) {
    Wire wire;
    wire.net = reader.text("net");
    wire.corners = readPoints(reader.member("corners"));
    if (wire.corners.size() < 2) {
        reader.fail(said("a wire has two corners or more."));
    }
    for (std::size_t i = 1; i < wire.corners.size(); ++i) {
        if (wire.corners[i].x != wire.corners[i - 1].x && wire.corners[i].y != wire.corners[i - 1].y) {
            reader.fail(said("a wire runs level or upright from corner to corner: put a corner where it turns."));
            break;
        }
    }
    reader.keepUnknown();
    return wire;
}

JsonNode writeFlag(const Flag& flag) {
    JsonNode node = JsonNode::object();
    node.add("kind", wordFor(flag.kind, flagKindWords));
    node.add("net", JsonNode::ofText(flag.net));
    node.add("at", writePoint(flag.at));
    addText(node, "text", flag.text);
    return node;
}

Flag readFlag(JsonReader reader) {
    Flag flag;
    flag.kind = reader.word("kind", flagKindWords);
    flag.net = reader.text("net");
    flag.at = readPoint(reader.member("at"));
    flag.text = reader.text("text", std::string());
    reader.keepUnknown();
    return flag;
}

JsonNode writeField(const Field& field) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(field.name));
    addText(node, "note", field.note);
    node.add("topLeft", writePoint(field.topLeft));
    node.add("bottomRight", writePoint(field.bottomRight));
    return node;
}

Field readField(JsonReader reader) {
    Field field;
    field.name = reader.text("name");
    field.note = reader.text("note", std::string());
    field.topLeft = readPoint(reader.member("topLeft"));
    field.bottomRight = readPoint(reader.member("bottomRight"));
    reader.keepUnknown();
    return field;
}

JsonNode writeDrawing(const Drawing& drawing) {
    JsonNode node = JsonNode::object();
    node.add("size", writePoint(drawing.size));
    node.add("wires", writeList(drawing.wires, writeWire));
    node.add("flags", writeList(drawing.flags, writeFlag));
    node.add("fields", writeList(drawing.fields, writeField));
    return node;
}

Drawing readDrawing(JsonReader reader) {
    Drawing drawing;
    drawing.size = readPoint(reader.member("size"));
    drawing.wires = readList<Wire>(reader.member("wires"), [](auto& entry, auto&) { return readWire(entry); });
    drawing.flags = readList<Flag>(reader.member("flags"), [](auto& entry, auto&) { return readFlag(entry); });
    drawing.fields = readList<Field>(reader.member("fields"), [](auto& entry, auto&) { return readField(entry); });
    reader.keepUnknown();
    return drawing;
}

Model readNewModel(JsonReader& entry, const std::vector<Model>& earlier) {
    Model model = readModelNode(entry);
    const bool isDouble =
        std::any_of(earlier.begin(), earlier.end(), [&model](const Model& other) { return other.name == model.name; });
    if (isDouble) {
        entry.fail(said("the type \"%1\" is described twice. Remove one of the two.", model.name));
    }
    return model;
}

JsonNode writeNamedNumbers(const std::map<std::string, double>& numbers) {
    JsonNode node = JsonNode::object();
    for (const auto& [name, number] : numbers) {
        node.add(name, JsonNode::ofNumber(number));
    }
    return node;
}

std::map<std::string, double> readNamedNumbers(JsonReader reader) {
    std::map<std::string, double> numbers;
    for (auto& [name, member] : reader.namedMembers()) {
        numbers[name] = member.asNumber();
    }
    return numbers;
}

JsonNode writeCorner(const ModelCorner& corner) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(corner.name));
    node.add("parameters", writeNamedNumbers(corner.parameters));
    return node;
}

ModelCorner readCorner(JsonReader reader) {
    ModelCorner corner;
    corner.name = reader.text("name");
    corner.parameters = readNamedNumbers(reader.member("parameters"));
    reader.keepUnknown();
    return corner;
}

}  // namespace

JsonNode writeModelNode(const Model& model) {
    JsonNode node = JsonNode::object();
    node.add("name", JsonNode::ofText(model.name));
    node.add("kind", wordFor(model.kind, partKindWords));
    node.add("parameters", writeNamedNumbers(model.parameters));
    node.add("source", JsonNode::ofText(model.source));
    if (!model.corners.empty()) {
        node.add("corners", writeList(model.corners, writeCorner));
    }
    return node;
}

Model readModelNode(JsonReader reader) {
    Model model;
    model.name = reader.text("name");
    model.kind = reader.word("kind", partKindWords);
    model.parameters = readNamedNumbers(reader.member("parameters"));
    model.source = reader.text("source");
    if (std::optional<JsonReader> corners = reader.memberIfThere("corners")) {
        model.corners = readList<ModelCorner>(*corners, [](auto& entry, auto&) { return readCorner(entry); });
    }
    reader.keepUnknown();
    return model;
}

JsonNode writePartNode(const Part& part) {
    return writePart(part);
}

Part readPartNode(JsonReader reader) {
    return readPart(std::move(reader));
}

JsonNode writeKnobNode(const Knob& knob) {
    return writeKnob(knob);
}

Knob readKnobNode(JsonReader reader) {
    return readKnob(std::move(reader));
}

JsonNode writeCircuitNode(const Circuit& circuit) {
    JsonNode node = JsonNode::object();
    node.add("parts", writeList(circuit.parts, writePart));
    node.add("models", writeList(circuit.models, writeModelNode));
    node.add("knobs", writeList(circuit.knobs, writeKnob));
    node.add("stages", writeList(circuit.stages, writeStage));
    node.add("ports", writePorts(circuit.ports));
    if (!circuit.openNets.empty()) {
        node.add("openNets", writeTexts(circuit.openNets));
    }
    if (circuit.drawing != Drawing()) {
        node.add("drawing", writeDrawing(circuit.drawing));
    }
    return node;
}

Circuit readCircuitNode(JsonReader reader) {
    Circuit circuit;
    circuit.parts = readList<Part>(reader.member("parts"), withNewId<Part>(readPart));
    circuit.models = readList<Model>(reader.member("models"), readNewModel);
    circuit.knobs = readList<Knob>(reader.member("knobs"), withNewId<Knob>(readKnob));
    circuit.stages = readList<Stage>(reader.member("stages"), [](auto& entry, auto&) { return readStage(entry); });
    circuit.ports = readPorts(reader.member("ports"));
    if (reader.has("openNets")) {
        circuit.openNets = reader.texts("openNets");
    }
    if (std::optional<JsonReader> drawing = reader.memberIfThere("drawing")) {
        circuit.drawing = readDrawing(*drawing);
    }
    reader.keepUnknown();
    return circuit;
}

JsonNode writeSettingNode(const Setting& setting) {
    JsonNode node = JsonNode::object();
    node.add("knobs", writeNamedNumbers(setting.knobs));
    if (!setting.throws.empty()) {
        JsonNode throws = JsonNode::object();
        for (const auto& [mod, position] : setting.throws) {
            throws.add(mod, JsonNode::ofText(position));
        }
        node.add("throws", std::move(throws));
    }
    node.add("pickVoltsPeak", JsonNode::ofNumber(setting.pickVoltsPeak));
    node.add("toneHz", JsonNode::ofNumber(setting.toneHz));
    node.add("batteryVolts", JsonNode::ofNumber(setting.batteryVolts));
    node.add("loadOhms", JsonNode::ofNumber(setting.loadOhms));
    node.add("temperatureKelvin", JsonNode::ofNumber(setting.temperatureKelvin));
    return node;
}

Setting readSettingNode(JsonReader reader) {
    Setting setting;
    setting.knobs = readNamedNumbers(reader.member("knobs"));
    if (std::optional<JsonReader> throws = reader.memberIfThere("throws")) {
        for (auto& [mod, member] : throws->namedMembers()) {
            setting.throws[mod] = member.asText();
        }
    }
    setting.pickVoltsPeak = reader.number("pickVoltsPeak");
    setting.toneHz = reader.number("toneHz");
    setting.batteryVolts = reader.number("batteryVolts");
    setting.loadOhms = reader.number("loadOhms");
    setting.temperatureKelvin = reader.number("temperatureKelvin");
    reader.keepUnknown();
    return setting;
}

}  // namespace ohmwright
