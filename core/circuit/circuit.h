/// The circuit as a value: parts, nets, knobs, stages and the drawing of them.
///
/// Everything here compares with == and knows no behaviour. A part's identity is its id; the reference
/// (R5) is a label that may repeat or change. Nets are named; "0" is ground (the jack's sleeve).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"

#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

using PartId = std::string;
using NetName = std::string;

inline constexpr std::string_view groundNet = "0";

/// Resistance of a wire or solder bridge [Ω]: a short, and yet enough for the arithmetic.
inline constexpr double linkOhms = 1e-3;
/// A leg left open on purpose leaks to ground through this [Ω]: no answer depends on it, and the net has a voltage.
inline constexpr double openLegOhms = 1e11;

/// Pins of each kind stand in the order given here; every part has exactly that many nets.
enum class PartKind {
    resistor,                  ///< 2 pins
    capacitor,                 ///< 2 pins; a polarised one has its plus at pin 1
    inductor,                  ///< 2 pins
    potentiometer,             ///< top, wiper, bottom; a rheostat has its wiper on an end's net
    link,                      ///< 2 pins: a wire or solder bridge of 1 mΩ
    diode,                     ///< anode, cathode
    bipolar,                   ///< collector, base, emitter
    opamp,                     ///< non-inverting, inverting, output, positive supply, negative supply
    voltageSource,             ///< plus, minus
    currentSource,             ///< from, to (through the source)
    jfet,                      ///< drain, gate, source
    mosfet,                    ///< drain, gate, source, bulk
    triode,                    ///< anode, grid, cathode
    pentode,                   ///< anode, screen, control grid, cathode
    switchContact,             ///< 2 pins; value 1 is closed (a link), 0 open (an open leg)
    coupling,                  ///< no pins; Part::controls names two inductors, the value is k, -1..1 without 0
    voltageControlledVoltage,  ///< plus, minus, control plus, control minus; the value is V/V
    voltageControlledCurrent,  ///< from, to (through the source), control plus, control minus; the value is A/V
    currentControlledCurrent,  ///< from, to; Part::controls names the voltage source that senses; A/A
    currentControlledVoltage,  ///< plus, minus; as above, V/A
    behaviouralVoltage,        ///< plus, minus; Part::law
    behaviouralCurrent,        ///< from, to; Part::law
};

/// How a pot's resistance follows its knob.
enum class Taper { linear, logarithmic, reverseLogarithmic };

/// What is known of a part on the board: from the drawing only, seen on the board, or measured.
enum class Knowledge { drawn, seen, measured };

/// One end of what copies of a type do: "low", "high", a gain class. What it does not name is as the type says.
struct ModelCorner {
    std::string name;
    std::map<std::string, double> parameters;

    friend bool operator==(const ModelCorner&, const ModelCorner&) = default;
};

/// A device law's parameters under a registered type name.
struct Model {
    std::string name;  ///< "1N4148"
    PartKind kind = PartKind::diode;
    std::map<std::string, double> parameters;  ///< Berkeley names, upper case, SI units; see devices/.
    std::string source;                        ///< Where the figures come from.
    std::vector<ModelCorner> corners;          ///< How far copies differ; empty where it is not known.

    friend bool operator==(const Model&, const Model&) = default;
};

/// A place on the drawing grid (pitch 20 px); x to the right, y downwards.
struct GridPoint {
    int x = 0;
    int y = 0;

    friend bool operator==(const GridPoint&, const GridPoint&) = default;
};

enum class LabelSide { automatic, left, right, above, below };

/// Where and how a part is drawn. `at` is the first pin, unless the kind says otherwise (app/look/symbols).
struct Placement {
    GridPoint at;
    int quarterTurns = 0;   ///< Clockwise, 0..3; at 0 a two-pin part runs from pin 1 to the right.
    bool mirrored = false;  ///< Across the part's own axis, before turning.
    int span = 3;           ///< Grid steps between the ends of a two-pin part, 2 or more.
    LabelSide label = LabelSide::automatic;

    friend bool operator==(const Placement&, const Placement&) = default;
};

/// How an independent source moves with time; its bias is Part::value.
struct SourceWave {
    enum class Shape { sine, pulse };
    Shape shape = Shape::sine;
    double low = 0.0;                            ///< Sine: offset. Pulse: first value.
    double high = 0.0;                           ///< Sine: amplitude. Pulse: second value.
    double delay = 0.0;                          ///< [s]
    double hertz = 0.0;                          ///< Sine.
    double damping = 0.0;                        ///< Sine [1/s].
    double degrees = 0.0;                        ///< Sine.
    double rise = 0.0, fall = 0.0, width = 0.0;  ///< Pulse [s].
    double period = 0.0;                         ///< Pulse [s]; 0 when it comes once.

    friend bool operator==(const SourceWave&, const SourceWave&) = default;
};

struct Part {
    PartId id;              ///< Stable, unique in the circuit.
    std::string reference;  ///< "C4"
    std::string function;   ///< Short name on the drawing: "Cg"; may be empty.
    std::string role;       ///< In words: "gain-leg capacitor"; may be empty.
    PartKind kind = PartKind::resistor;
    double value = 0.0;  ///< SI unit of the kind; whole track of a pot; DC of a source; 0 for a part with a model.
    double acAmplitude = 0.0;        ///< Small-signal drive of a source; the input has 1.
    double acDegrees = 0.0;          ///< Its phase.
    std::optional<SourceWave> wave;  ///< Of a source that moves by itself.
    std::string law;                 ///< Behavioural sources: an expression (core/expression) of this circuit's nets.
    std::vector<PartId> controls;    ///< Parts that this one names, see PartKind.
    std::map<std::string, double> parameters;  ///< Of this one device: AREA, W, L, M ..., upper case, SI units.
    std::string model;                         ///< Name in Circuit::models; empty for a part with a value.
    double tolerance = 0.0;                    ///< Fraction of the value, 0.05 for 5 %; 0 when none is stated.
    Taper taper = Taper::linear;               ///< Pots only.
    double shareAtHalf = 0.5;                  ///< Pots with a log law: share of the track at half travel, 0.15.
    std::vector<NetName> nets;                 ///< One a pin, in the kind's order.
    std::string call;               ///< Subcircuit call that it came from, "X1" or "X1.X2"; empty at the top.
    std::vector<std::string> pins;  ///< Printed pin numbers, "3"; empty where the pin has none.

    std::string printed;    ///< Marking on the body: "563".
    std::string build;      ///< "film, 5 mm, 63 V"
    std::string boardNote;  ///< Where it sits, in words.
    Knowledge knowledge = Knowledge::drawn;
    std::optional<double> measured;  ///< SI unit of the kind.

    std::optional<Placement> placement;

    friend bool operator==(const Part&, const Part&) = default;
};

/// A control: which pot it turns.
struct Knob {
    std::string id;    ///< "drive": the name on the command line.
    std::string name;  ///< "Drive"
    PartId part;

    friend bool operator==(const Knob&, const Knob&) = default;
};

/// A block of the signal path.
struct Stage {
    std::string name;
    NetName input;   ///< Border net towards the source; empty where there is none.
    NetName output;  ///< Border net towards the output.
    std::vector<PartId> parts;
    int firstColumn = 0;  ///< Where its zone starts on the drawing grid.

    friend bool operator==(const Stage&, const Stage&) = default;
};

/// What the analyses need to know of the circuit's ends.
struct Ports {
    PartId source;     ///< The pickup's voltage source.
    NetName output;    ///< Where the next box is connected.
    PartId battery;    ///< The supply's voltage source.
    PartId load;       ///< The next box's input resistance.
    NetName jack;      ///< Input jack: where source parts end and the unit begins.
    NetName clipNode;  ///< Where clipping is looked at; its stage is the clip stage.

    friend bool operator==(const Ports&, const Ports&) = default;
};

/// A drawn line of one net.
struct Wire {
    NetName net;
    std::vector<GridPoint> corners;  ///< Two or more; right angles only.

    friend bool operator==(const Wire&, const Wire&) = default;
};

enum class FlagKind { ground, supply, terminal, note };

/// A drawn end of a net: ground sign, supply flag with its name, jack terminal, or a note of text.
struct Flag {
    FlagKind kind = FlagKind::ground;
    NetName net;
    GridPoint at;
    std::string text;

    friend bool operator==(const Flag&, const Flag&) = default;
};

/// A framed field of the drawing that is no stage, such as the supply.
struct Field {
    std::string name;
    std::string note;
    GridPoint topLeft;
    GridPoint bottomRight;

    friend bool operator==(const Field&, const Field&) = default;
};

struct Drawing {
    GridPoint size;
    std::vector<Wire> wires;
    std::vector<Flag> flags;
    std::vector<Field> fields;

    friend bool operator==(const Drawing&, const Drawing&) = default;
};

struct Circuit {
    std::vector<Part> parts;
    std::vector<Model> models;
    std::vector<Knob> knobs;    ///< In the order of the knob row.
    std::vector<Stage> stages;  ///< In signal order.
    Ports ports;
    std::vector<NetName> openNets;  ///< Nets left open on purpose (a lifted leg): no fault, see solve/equations.h.
    Drawing drawing;

    friend bool operator==(const Circuit&, const Circuit&) = default;
};

const Part* findPart(const Circuit& circuit, std::string_view id);
Part* findPart(Circuit& circuit, std::string_view id);
const Part* findPartByReference(const Circuit& circuit, std::string_view reference);
const Model* findModel(const Circuit& circuit, std::string_view name);
const Knob* findKnob(const Circuit& circuit, std::string_view id);
/// The knob that turns a pot, or null.
const Knob* knobOf(const Circuit& circuit, std::string_view part);
/// The stage whose borders enclose a net as output, or that lists a part; null when none does.
const Stage* stageOfPart(const Circuit& circuit, std::string_view part);
const Stage* stageWithOutput(const Circuit& circuit, std::string_view net);

int pinCount(PartKind kind);
/// "anode", "cathode", "wiper" ...; "1" and "2" for parts without a sense.
std::string_view pinName(PartKind kind, int pin);
/// The unit of Part::value; Unit::none for parts that have a model.
Unit unitOf(PartKind kind);
/// "capacitor", "op-amp": for sentences.
std::string_view kindName(PartKind kind);
/// The same with its article: "a resistor", "an op-amp". English; said() where it is shown, as the names are.
std::string_view kindAsOne(PartKind kind);
/// Sources of voltage and coils: at rest the voltage across them is fixed, whatever current flows.
bool fixesVoltage(PartKind kind);
/// True when the part works by the law of a type: diodes, transistors, valves, op-amps.
bool hasModel(PartKind kind);
/// True when the part's value can be stepped and typed (R, C, L, pot).
bool hasValue(PartKind kind);

/// Whether a build is one with a plus: electrolytic or tantalum, unless it says non-polar or bipolar.
bool isPolarised(std::string_view build);
/// A capacitor of such a build; its plus is pin 1.
bool isPolarised(const Part& part);

/// "C4 Cg" or "C4": how messages name a part.
std::string displayName(const Part& part);

}  // namespace ohmwright
