// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist.h"

#include "core/circuit/setting.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_jobs.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <complex>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

bool holdsLine(const std::string& text, const std::string& line) {
    const std::vector<std::string> lines = linesOf(text);
    return std::find(lines.begin(), lines.end(), line) != lines.end();
}

/// A circuit of one part between nets named by the caller; not to be solved.
Circuit with(Part part) {
    Circuit circuit;
    circuit.parts.push_back(std::move(part));
    return circuit;
}

Part part(PartKind kind, const std::string& reference, std::vector<NetName> nets, double value = 0.0) {
    Part made;
    made.id = reference;
    made.reference = reference;
    made.kind = kind;
    made.nets = std::move(nets);
    made.value = value;
    return made;
}

Part device(PartKind kind, const std::string& reference, std::vector<NetName> nets, const std::string& model) {
    Part made = part(kind, reference, std::move(nets));
    made.model = model;
    return made;
}

std::string written(const Circuit& circuit, const Setting& setting = {}) {
    return writeNetlist(circuit, setting, "Test");
}

// --- text ---

// The cards as a technician wrote them by hand for the same unit at the same setting.
TEST(NetlistWriter, TheDemoIsWrittenAsByHand) {
    const Job job = test::harbourLamp();
    const std::string text = writeNetlist(job.stock, job.setting, "Harbour Lamp, stock");
    EXPECT_EQ(linesOf(text).front(), "Harbour Lamp, stock");
    EXPECT_EQ(linesOf(text).back(), ".end");
    for (const char* line : {"* knobs: Drive 5, Level 5, Guitar volume 10",
                             "* battery 9 V, next box 1megohm, temperature 27 C",
                             "VSIG emf 0 DC 0 AC 1",
                             "LPU emf pu1 2.8",
                             "RPU pu1 pu 7k",
                             "CPU pu 0 110p",
                             "RVGA pu in 1m",
                             "RVGB in 0 250k",
                             "CCABLE in 0 500p",
                             "R1 in 0 1meg",
                             "C1 in b1 33n",
                             "R2 vb b1 390k",
                             "Q1 vcc b1 e1 2N3904",
                             "R3 e1 0 8.2k",
                             "R4 vb ip 22k",
                             "XU1A ip im o1 vcc 0 TL072",
                             "C4 im leg 56n",
                             "R5 leg 0 3.9k",
                             "R6 im rf 33k",
                             "C5 im o1 100p",
                             "D1 im o1 1N4148",
                             "D2 o1 im 1N4148",
                             "R7 o1 lp 1.5k",
                             "C7 lp 0 47n",
                             "C6 lp vt 1u",
                             "RVR2A vt w 42.5k",
                             "RVR2B w 0 7.5k",
                             "C8 w b2 220n",
                             "R8 vb b2 330k",
                             "Q2 vcc b2 e2 2N3904",
                             "R9 e2 0 6.8k",
                             "C9 e2 out 2.2u",
                             "R10 out 0 100k",
                             "RLOAD out 0 1meg",
                             "VBAT bat 0 DC 9",
                             "RBAT bat vcc 1.7",
                             "C10 vcc 0 100u",
                             "C12 vcc 0 100n",
                             "R11 vcc vb 12k",
                             "R12 vb 0 12k",
                             "C11 vb 0 47u",
                             "IU1B vcc 0 DC 1.4m",
                             ".subckt TL072 ip im o vp vn",
                             "CX x 0 100n",
                             "VH h1 h DC 1.9",
                             "VL l l1 DC 1.9",
                             "IQ vp vn DC 1.4m",
                             ".ends TL072"}) {
        EXPECT_TRUE(holdsLine(text, line)) << line << "\nis not in\n" << text;
    }
    // A rheostat has one resistance, whichever way round.
    EXPECT_TRUE(holdsLine(text, "RVR1 rf o1 37.5k") || holdsLine(text, "RVR1 o1 rf 37.5k")) << text;
}

TEST(NetlistWriter, KnobsBatteryAndLoadAreThoseOfTheSetting) {
    const Job job = test::harbourLamp();
    Setting setting = job.setting;
    setting.batteryVolts = 7.2;
    setting.loadOhms = 47e3;
    setting.temperatureKelvin = 313.15;
    setting.knobs[job.stock.knobs.front().id] = 10.0;
    const std::string text = writeNetlist(job.stock, setting, "Harbour Lamp");
    EXPECT_TRUE(holdsLine(text, "VBAT bat 0 DC 7.2"));
    EXPECT_TRUE(holdsLine(text, "RLOAD out 0 47k"));
    EXPECT_TRUE(holdsLine(text, "* battery 7.2 V, next box 47kohm, temperature 40 C")) << text;
    EXPECT_TRUE(holdsLine(text, "* knobs: Drive 10, Level 5, Guitar volume 10"));
}

TEST(NetlistWriter, EveryKindHasItsCard) {
    Circuit circuit;
    Part sense = part(PartKind::voltageSource, "VS", {"a", "0"}, 1.5);
    sense.acAmplitude = 2.0;
    sense.acDegrees = 90.0;
    Part current = part(PartKind::currentSource, "S1", {"a", "b"}, -2e-3);
    current.wave = SourceWave{.shape = SourceWave::Shape::pulse,
                              .low = 0,
                              .high = 1e-3,
                              .delay = 1e-3,
                              .rise = 1e-6,
                              .fall = 2e-6,
                              .width = 5e-3,
                              .period = 0.01};
    Part sine = part(PartKind::voltageSource, "V2", {"b", "0"});
    sine.wave = SourceWave{.low = 0.5, .high = 1, .delay = 0, .hertz = 440, .damping = 0, .degrees = 0};
    Part coupling = part(PartKind::coupling, "T1", {}, 0.98);
    coupling.controls = {"L1", "W2"};
    Part cccs = part(PartKind::currentControlledCurrent, "F1", {"a", "0"}, 3.0);
    cccs.controls = {"VS"};
    Part ccvs = part(PartKind::currentControlledVoltage, "H1", {"c", "0"}, 1e3);
    ccvs.controls = {"VS"};
    Part lawful = part(PartKind::behaviouralVoltage, "B1", {"d", "0"});
    lawful.law = "tanh(v(a,b))*2+i(VS)*1k";
    Part lawfulToo = part(PartKind::behaviouralCurrent, "G2", {"d", "0"});
    lawfulToo.law = "v(d)**2*1m";
    Part wide = device(PartKind::mosfet, "M1", {"a", "b", "0", "0"}, "NM");
    wide.parameters = {{"W", 1e-5}, {"L", 2e-6}};
    circuit.parts = {sense,
                     current,
                     sine,
                     part(PartKind::inductor, "L1", {"a", "0"}, 1e-3),
                     part(PartKind::inductor, "W2", {"b", "0"}, 1e-3),
                     coupling,
                     part(PartKind::link, "W1", {"a", "b"}),
                     part(PartKind::link, "W3", {"a", "a"}),
                     part(PartKind::switchContact, "SW1", {"a", "b"}, 1.0),
                     part(PartKind::switchContact, "SW2", {"a", "b"}, 0.0),
                     part(PartKind::voltageControlledVoltage, "E1", {"a", "0", "b", "0"}, 10.0),
                     part(PartKind::voltageControlledCurrent, "G1", {"a", "0", "b", "c"}, 1e-3),
                     cccs,
                     ccvs,
                     lawful,
                     lawfulToo,
                     device(PartKind::diode, "D1", {"a", "b"}, "1N4148"),
                     device(PartKind::bipolar, "Q1", {"a", "b", "c"}, "2N3906"),
                     device(PartKind::jfet, "J1", {"a", "b", "c"}, "JN"),
                     device(PartKind::jfet, "J2", {"a", "b", "c"}, "JP"),
                     wide};
    circuit.models = {{"1N4148", PartKind::diode, {{"IS", 2.52e-9}, {"N", 1.752}}, ""},
                      {"2N3906", PartKind::bipolar, {{"BF", 180.7}, {"POLARITY", -1}}, ""},
                      {"JN", PartKind::jfet, {{"VTO", -1.8}, {"POLARITY", 1}}, ""},
                      {"JP", PartKind::jfet, {{"VTO", -1.8}, {"POLARITY", -1}}, ""},
                      {"NM", PartKind::mosfet, {{"VTO", 1}, {"KP", 2e-5}}, ""}};
    circuit.openNets = {"c", "nowhere"};
    const std::string text = written(circuit);
    for (const char* line : {"VS a 0 DC 1.5 AC 2 90",
                             "IS1 a b DC -2m PULSE(0 1m 1m 1u 2u 5m 0.01)",
                             "V2 b 0 DC 0 SIN(0.5 1 440 0 0 0)",
                             "L1 a 0 1m",
                             "LW2 b 0 1m",
                             "KT1 L1 LW2 0.98",
                             "RW1 a b 1m",
                             "RSW1 a b 1m",
                             "RSW2 a b 100g",
                             "E1 a 0 b 0 10",
                             "G1 a 0 b c 1m",
                             "F1 a 0 VS 3",
                             "H1 c 0 VS 1k",
                             "B1 d 0 V=tanh(v(a,b))*2+i(VS)*1000",
                             "BG2 d 0 I=pow(v(d),2)*0.001",
                             "D1 a b 1N4148",
                             "Q1 a b c 2N3906",
                             "J1 a b c JN",
                             "J2 a b c JP",
                             "M1 a b 0 0 NM L=2u W=10u",
                             ".model 1N4148 D(IS=2.52n N=1.752)",
                             ".model 2N3906 PNP(BF=180.7)",
                             ".model JN NJF(VTO=-1.8)",
                             ".model JP PJF(VTO=-1.8)",
                             ".model NM NMOS(KP=20u VTO=1)",
                             "ROPEN_c c 0 100g"}) {
        EXPECT_TRUE(holdsLine(text, line)) << line << "\nis not in\n" << text;
    }
    EXPECT_EQ(text.find("RW3"), std::string::npos);
    EXPECT_EQ(text.find("nowhere"), std::string::npos);
}

TEST(NetlistWriter, NamesAreMadeLegal) {
    Circuit circuit;
    circuit.parts = {part(PartKind::resistor, "5", {"GND", "V+"}, 1.0),
                     part(PartKind::resistor, "R 5", {"gnd", "out put"}, 2.0),
                     part(PartKind::resistor, "r_5", {"0", "v+"}, 3.0)};
    circuit.parts[1].id = "second";
    circuit.parts[2].reference = "";
    circuit.ports.output = "out put";
    const std::string text = written(circuit);
    EXPECT_TRUE(holdsLine(text, "R5 GND_2 Vp 1")) << text;
    EXPECT_TRUE(holdsLine(text, "R_5 gnd_3 out 2")) << text;
    EXPECT_TRUE(holdsLine(text, "r_5_2 0 vp_2 3")) << text;
}

TEST(NetlistWriter, TheOutputIsOutAndNoOtherNetIs) {
    Circuit circuit;
    circuit.parts = {part(PartKind::resistor, "R1", {"out", "e5"}, 1.0)};
    circuit.ports.output = "e5";
    EXPECT_TRUE(holdsLine(written(circuit), "R1 out_2 out 1")) << written(circuit);
}

TEST(NetlistWriter, OnlyTheInputDrivesTheSmallSignal) {
    Circuit circuit;
    circuit.parts = {part(PartKind::voltageSource, "V1", {"a", "0"}), part(PartKind::voltageSource, "V2", {"b", "0"})};
    circuit.parts[1].acAmplitude = 1.0;
    circuit.ports.source = "V1";
    EXPECT_TRUE(holdsLine(written(circuit), "V1 a 0 DC 0 AC 1"));
    EXPECT_TRUE(holdsLine(written(circuit), "V2 b 0 DC 0"));
}

// A type that no model is known of was written as typed: its second line became a card of its own.
TEST(NetlistWriter, ATypeWithoutAModelIsOneWord) {
    const Circuit circuit = with(device(PartKind::diode, "D1", {"a", "0"}, "1N4148\nR9 a 0 1"));
    EXPECT_TRUE(holdsLine(written(circuit), "D1 a 0 1N4148_R9_a_0_1")) << written(circuit);
}

TEST(NetlistWriter, OneTitleLineWhateverIsTyped) {
    const Circuit circuit = with(part(PartKind::resistor, "R1", {"a", "0"}, 1.0));
    EXPECT_EQ(linesOf(writeNetlist(circuit, {}, "two\nlines\tand\r a tab"))[0], "two lines and  a tab");
    EXPECT_EQ(linesOf(writeNetlist(circuit, {}, " \n"))[0], "Netlist");
}

TEST(NetlistWriter, ATypeIsWrittenOnceAndAnUnusedOneNotAtAll) {
    Circuit circuit;
    circuit.parts = {device(PartKind::diode, "D1", {"a", "0"}, "LED, red"),
                     device(PartKind::diode, "D2", {"0", "a"}, "LED, red"),
                     device(PartKind::triode, "V1", {"a", "g", "0"}, "KOREN_TRIODE")};
    circuit.models = {{"LED, red", PartKind::diode, {{"IS", 1e-18}}, ""},
                      {"unused", PartKind::diode, {}, ""},
                      {"KOREN_TRIODE", PartKind::triode, {}, ""}};
    const std::string text = written(circuit);
    EXPECT_TRUE(holdsLine(text, "D2 0 a LED_red"));
    EXPECT_TRUE(holdsLine(text, ".model LED_red D(IS=1e-18)"));
    EXPECT_EQ(text.find("LED_red D("), text.rfind("LED_red D("));
    EXPECT_EQ(text.find("unused"), std::string::npos);
    EXPECT_TRUE(holdsLine(text, "XV1 a g 0 KOREN_TRIODE_2")) << text;
    EXPECT_TRUE(holdsLine(text, ".subckt KOREN_TRIODE_2 a g k")) << text;
}

TEST(NetlistWriter, CircuitsOfChanceAreWrittenWithoutACollision) {
    test::Chance chance(11);
    for (int round = 0; round < 400; ++round) {
        const Circuit circuit = test::randomCircuit(chance);
        const std::string text = written(circuit);
        std::set<std::string> names;
        bool inside = false;
        for (const std::string& line : linesOf(text.substr(text.find('\n') + 1))) {
            ASSERT_FALSE(line.empty());
            if (line.rfind(".subckt", 0) == 0 || line.rfind(".ends", 0) == 0) {
                inside = line[1] == 's';
            }
            if (inside || line[0] == '*' || line[0] == '+' || line[0] == '.') {
                continue;
            }
            std::string name = line.substr(0, line.find(' '));
            std::transform(name.begin(), name.end(), name.begin(),
                           [](unsigned char c) { return char(std::tolower(c)); });
            ASSERT_TRUE(names.insert(name).second) << name << " stands twice in\n" << text;
        }
    }
}

// --- round trips ---

struct Answers {
    std::map<NetName, double> volts;
    std::vector<std::complex<double>> response;
    std::vector<double> noise;
};

std::vector<double> grid() {
    return logarithmicGrid(20.0, 20e3, 4);
}

Answers answersOf(const Circuit& circuit, const Setting& setting) {
    Answers answers;
    const Result<SolvedCircuit> solved = solveCircuit(circuit, setting);
    if (!solved) {
        ADD_FAILURE() << solved.error().message;
        return answers;
    }
    for (const NetName& net : solved->equations->nets()) {
        answers.volts[net] = solved->biasVolts(net);
    }
    const std::vector<double> hertz = grid();
    const auto response = frequencyResponse(*solved->equations, *solved->bias, {circuit.ports.output}, hertz);
    const int output = solved->equations->indexOfNet(circuit.ports.output);
    const auto noise = solveNoise(*solved->equations, *solved->bias, output, hertz);
    if (!response || !noise) {
        ADD_FAILURE() << (response ? noise.error().message : response.error().message);
        return answers;
    }
    answers.response = response->front();
    answers.noise = noise->output;
    return answers;
}

struct Tolerance {
    double volts = 1e-9;  ///< Relative, at least of a millivolt.
    double gains = 1e-9;  ///< Relative.
    double noise = 1e-4;  ///< Relative: what an open leg's leak and a clamp's shot noise add.
};

/// The name that a net of the circuit has in its netlist, where nothing else wants the same.
std::string nameOf(const Circuit& circuit, const NetName& net) {
    if (net == circuit.ports.output) {
        return "out";
    }
    std::string name = net == "out" ? "out_2" : net;
    for (char& c : name) {
        const bool plain = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
        c = plain ? c : c == '+' ? 'p' : c == '-' ? 'm' : '_';
    }
    return name;
}

/// The circuit's own answers against those of its netlist.
void expectRoundTrip(const Circuit& circuit, const Setting& setting, const std::string& what,
                     const Tolerance& tolerance = {}) {
    SCOPED_TRACE(what);
    const std::string text = writeNetlist(circuit, setting, what);
    Result<Netlist> netlist = readNetlist(text);
    ASSERT_TRUE(netlist) << netlist.error().message << "\n" << text;
    const Result<void> ports = choosePorts(*netlist, "", "");
    ASSERT_TRUE(ports) << ports.error().message << "\n" << text;
    const Answers own = answersOf(circuit, setting);
    Setting plain;
    plain.temperatureKelvin = setting.temperatureKelvin;
    const Answers read = answersOf(netlist->circuit, plain);
    ASSERT_FALSE(own.response.empty());
    ASSERT_EQ(own.response.size(), read.response.size());
    for (const auto& [net, volts] : own.volts) {
        const auto found = read.volts.find(nameOf(circuit, net));
        ASSERT_NE(found, read.volts.end()) << net << "\n" << text;
        EXPECT_NEAR(found->second, volts, tolerance.volts * std::max(std::abs(volts), 1e-3)) << net;
    }
    for (std::size_t k = 0; k < own.response.size(); ++k) {
        EXPECT_LE(std::abs(own.response[k] - read.response[k]), tolerance.gains * std::abs(own.response[k]) + 1e-15)
            << grid()[k] << " Hz";
        EXPECT_NEAR(read.noise[k], own.noise[k], tolerance.noise * own.noise[k]) << grid()[k] << " Hz";
    }
}

TEST(NetlistWriter, TheDemoGivesItsFiguresBack) {
    // Beside the 1 mOhm of a guitar volume at its end, a solve leaves this much of a gain.
    const Tolerance tolerance{1e-9, 1e-7, 1e-4};
    const Job job = test::harbourLamp();
    expectRoundTrip(job.stock, job.setting, "stock", tolerance);
    const Result<Circuit> now = applyPlan(job.stock, job.plan);
    ASSERT_TRUE(now) << now.error().message;
    expectRoundTrip(*now, job.setting, "now", tolerance);
    Setting other = job.setting;
    other.batteryVolts = 7.2;
    other.loadOhms = 47e3;
    other.temperatureKelvin = 313.15;
    other.knobs[job.stock.knobs.front().id] = 9.3;
    expectRoundTrip(job.stock, other, "hot, flat battery", tolerance);
}

std::map<std::string, double> fullOpamp() {
    return {{"RIN", 2e6},        {"GAIN", 1e5},    {"GBW", 4e6},    {"SR", 5e6},         {"CP", 30e-9},
            {"POLE2", 12e6},     {"ROUT", 75.0},   {"IOUT", 0.02},  {"HEADROOM_P", 1.5}, {"HEADROOM_N", 1.2},
            {"CLAMP_IS", 1e-13}, {"CLAMP_N", 1.1}, {"IQ", 2e-3},    {"IB", 80e-9},       {"VOS", 1e-3},
            {"EN", 9e-9},        {"FCE", 120.0},   {"IN", 0.6e-12}, {"FCI", 300.0}};
}

/// An amplifier of 20 between 0 and 9 V.
test::SmallCircuit amplifier(const std::map<std::string, double>& opamp, double inputDcVolts) {
    test::SmallCircuit made(inputDcVolts);
    made.v("VBAT", "vcc", "0", 9.0)
        .r("RS", "in", "ip", 10e3)
        .opamp("U1", {"ip", "im", "o", "vcc", "0"}, opamp)
        .r("RF", "o", "im", 19e3)
        .r("RG", "im", "vb", 1e3)
        .v("VB", "vb", "0", 4.5)
        .r("RO", "o", "out", 1e3)
        .r("RL", "out", "0", 10e3)
        .c("CL", "out", "0", 1e-9);
    return made;
}

TEST(NetlistWriter, OpampsWithEveryParameterGiveTheirFiguresBack) {
    for (const double volts : {4.5, 4.55, 5.2, 3.0}) {
        expectRoundTrip(amplifier({}, volts), {}, "op-amp without parameters, " + std::to_string(volts));
        expectRoundTrip(amplifier(fullOpamp(), volts), {}, "op-amp with all, " + std::to_string(volts));
        std::map<std::string, double> quiet = fullOpamp();
        quiet.erase("FCE");
        quiet.erase("FCI");
        Setting hot;
        hot.temperatureKelvin = 330.0;
        expectRoundTrip(amplifier(quiet, volts), hot, "op-amp, white and hot, " + std::to_string(volts));
    }
}

Circuit valveStage(const Part& valve, const Model& model) {
    Circuit circuit;
    circuit.models = {model};
    circuit.parts = {part(PartKind::voltageSource, "VIN", {"in", "0"}),
                     part(PartKind::voltageSource, "VHT", {"ht", "0"}, 250.0),
                     part(PartKind::resistor, "RG", {"in", "g"}, 68e3),
                     part(PartKind::resistor, "RA", {"ht", "a"}, 100e3),
                     part(PartKind::resistor, "RK", {"k", "0"}, 1500.0),
                     part(PartKind::capacitor, "CK", {"k", "0"}, 22e-6),
                     part(PartKind::capacitor, "CO", {"a", "out"}, 22e-9),
                     part(PartKind::resistor, "RL", {"out", "0"}, 1e6),
                     valve};
    if (valve.kind == PartKind::pentode) {
        circuit.parts.push_back(part(PartKind::resistor, "RS", {"ht", "s"}, 470e3));
        circuit.parts.push_back(part(PartKind::capacitor, "CS", {"s", "0"}, 100e-9));
    }
    circuit.parts[0].acAmplitude = 1.0;
    circuit.ports.source = "VIN";
    circuit.ports.output = "out";
    return circuit;
}

TEST(NetlistWriter, ValvesGiveTheirFiguresBack) {
    Part triode = device(PartKind::triode, "V1", {"a", "g", "k"}, "12AX7");
    const std::map<std::string, double> caps{{"CCG", 1.6e-12}, {"CGP", 1.6e-12}, {"CCP", 0.5e-12}};
    std::map<std::string, double> first = caps;
    first["RNEQ"] = 1500.0;
    std::map<std::string, double> second = caps;
    second.insert({{"G", 2.242e-3}, {"RGI", 300.0}});
    Setting hot;
    hot.temperatureKelvin = 320.0;
    for (const double grid : {0.0, -1.0, 2.0}) {
        for (const Setting& setting : {Setting{}, hot}) {
            Circuit circuit = valveStage(triode, {"12AX7", PartKind::triode, first, ""});
            circuit.parts[0].value = grid;
            expectRoundTrip(circuit, setting, "first law at " + std::to_string(grid));
            circuit.models = {{"12AX7", PartKind::triode, second, ""}};
            // The noise of the second law's grid current is not in the netlist.
            expectRoundTrip(circuit, setting, "second law at " + std::to_string(grid), {1e-9, 1e-9, 1.0});
        }
    }
    triode.parameters["M"] = 2.0;
    expectRoundTrip(valveStage(triode, {"12AX7", PartKind::triode, first, ""}), {}, "two in parallel");
    const Part pentode = device(PartKind::pentode, "V1", {"a", "s", "g", "k"}, "EF86");
    const Model model{"EF86",
                      PartKind::pentode,
                      {{"MU", 34.9},
                       {"EX", 1.35},
                       {"KG1", 2648.1},
                       {"KG2", 4627.4},
                       {"KP", 222.06},
                       {"KVB", 4.7},
                       {"CCG", 3.8e-12},
                       {"CPG1", 0.05e-12},
                       {"CCP", 5.1e-12},
                       {"RNEQ", 2000.0}},
                      ""};
    for (const double grid : {0.0, -1.0, 2.0}) {
        Circuit circuit = valveStage(pentode, model);
        circuit.parts[0].value = grid;
        expectRoundTrip(circuit, {}, "pentode at " + std::to_string(grid));
    }
}

TEST(NetlistWriter, APentodeWhoseScreenIsBelowItsCathodeGivesItsFiguresBack) {
    const Part pentode = device(PartKind::pentode, "V1", {"a", "s", "g", "k"}, "EF86");
    Circuit circuit = valveStage(pentode, {"EF86", PartKind::pentode, {{"RGI", 0.0}, {"MU", 11.0}}, ""});
    circuit.parts[0].value = 1.0;
    for (const double volts : {-0.5, 0.0, 0.2}) {
        Circuit held = circuit;
        held.parts.push_back(part(PartKind::voltageSource, "VSCREEN", {"s", "k"}, volts));
        expectRoundTrip(held, {}, "screen at " + std::to_string(volts));
    }
}

/// Every net tied to ground; devices of all kinds between them.
Circuit tiedCircuit(test::Chance& chance) {
    Circuit circuit;
    const auto net = [&] { return chance.oneIn(5) ? NetName("0") : "n" + std::to_string(chance.below(6)); };
    const auto decade = [&](double least, double most) { return least * std::pow(most / least, chance.share()); };
    int number = 0;
    const auto add = [&](Part made) {
        made.id = "p" + std::to_string(++number);
        circuit.parts.push_back(std::move(made));
    };
    add(part(PartKind::voltageSource, "VIN", {"in", "0"}, 0.3));
    circuit.parts[0].acAmplitude = 1.0;
    circuit.ports.source = circuit.parts[0].id;
    circuit.ports.output = "n3";
    add(part(PartKind::voltageSource, "VCC", {"vcc", "0"}, 9.0));
    add(part(PartKind::resistor, "R", {"in", "n0"}, decade(1e3, 1e5)));
    for (int k = 0; k < 6; ++k) {
        const NetName at = "n" + std::to_string(k);
        add(part(PartKind::resistor, "R", {at, "0"}, decade(1e3, 1e6)));
        add(part(PartKind::resistor, "R", {at, "n" + std::to_string((k + 1) % 6)}, decade(1e3, 1e6)));
        add(part(PartKind::resistor, "R", {at, chance.oneIn(2) ? "vcc" : "0"}, decade(1e4, 1e6)));
    }
    circuit.models = {
        {"D one", PartKind::diode, {{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.5}, {"CJO", 4e-12}, {"TT", 2e-8}}, ""},
        {"N one", PartKind::bipolar, {{"BF", 400.0}, {"VAF", 74.0}, {"CJE", 4e-12}, {"RB", 10.0}, {"TF", 3e-10}}, ""},
        {"P one", PartKind::bipolar, {{"BF", 180.0}, {"VAF", 20.0}, {"POLARITY", -1.0}}, ""},
        {"J one", PartKind::jfet, {{"VTO", -1.8}, {"BETA", 1e-3}, {"LAMBDA", 4e-3}, {"CGS", 4e-12}}, ""},
        {"M one", PartKind::mosfet, {{"VTO", 1.0}, {"KP", 2e-5}, {"LAMBDA", 0.01}}, ""}};
    for (int k = 3 + chance.below(6); k > 0; --k) {
        switch (chance.below(11)) {
            case 0:
                add(device(PartKind::diode, "D", {net(), net()}, "D one"));
                break;
            case 1:
                add(device(PartKind::bipolar, "Q", {"vcc", net(), net()}, "N one"));
                break;
            case 2:
                add(device(PartKind::bipolar, "Q", {"0", net(), net()}, "P one"));
                break;
            case 3:
                add(device(PartKind::jfet, "J", {"vcc", net(), net()}, "J one"));
                break;
            case 4:
                add(device(PartKind::mosfet, "M", {"vcc", net(), net(), "0"}, "M one"));
                circuit.parts.back().parameters = {{"W", 1e-4}, {"L", 1e-5}};
                break;
            case 5:
                add(part(PartKind::capacitor, "C", {net(), net()}, decade(1e-11, 1e-6)));
                break;
            case 6:
                add(part(PartKind::inductor, "L", {net(), "l" + std::to_string(number)}, decade(1e-3, 1.0)));
                add(part(PartKind::resistor, "R", {circuit.parts.back().nets[1], "0"}, decade(1e3, 1e5)));
                break;
            case 7:
                add(part(PartKind::voltageControlledCurrent, "G", {net(), net(), net(), net()}, decade(1e-7, 1e-5)));
                break;
            case 8:
                add(part(PartKind::behaviouralCurrent, "B", {net(), net()}));
                circuit.parts.back().law = "1e-5*tanh(v(n1,n2))+1u*v(n4)/(1+v(n5)**2)+1e-3*i(p1)";
                break;
            case 9:
                add(part(PartKind::switchContact, "SW", {net(), net()}, double(chance.below(2))));
                break;
            default:
                add(part(PartKind::potentiometer, "VR", {net(), net(), net()}, decade(1e4, 1e6)));
        }
    }
    return circuit;
}

TEST(NetlistWriter, TiedCircuitsOfChanceGiveTheirFiguresBack) {
    test::Chance chance(31);
    for (int round = 0; round < 150; ++round) {
        expectRoundTrip(tiedCircuit(chance), {}, "circuit " + std::to_string(round));
        if (HasFailure()) {
            break;
        }
    }
}

/// For files that ask for a bias alone: the first source, and the last net.
void chooseAnyPorts(Netlist& netlist) {
    for (const Part& part : netlist.circuit.parts) {
        const bool isSource = part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
        if (isSource && netlist.circuit.ports.source.empty()) {
            netlist.circuit.ports.source = part.id;
        }
    }
    netlist.circuit.ports.output = netlist.topNets.back();
}

// Everything that a netlist may hold, as the reference suite has it.
TEST(NetlistWriter, EveryNetlistOfTheSuiteIsWrittenToTheSameFigures) {
    int compared = 0;
    const std::filesystem::path suite = OHMWRIGHT_SOURCE_DIR "/tests/reference/suite";
    for (const auto& entry : std::filesystem::recursive_directory_iterator(suite)) {
        if (entry.path().extension() != ".cir") {
            continue;
        }
        Result<Netlist> netlist = loadNetlist(entry.path());
        ASSERT_TRUE(netlist) << netlist.error().message;
        if (!choosePorts(*netlist, "", "")) {
            chooseAnyPorts(*netlist);
        }
        ++compared;
        expectRoundTrip(netlist->circuit, {}, entry.path().filename(), {1e-9, 1e-7, 1e-4});
    }
    EXPECT_GT(compared, 290);
}

}  // namespace
}  // namespace ohmwright
