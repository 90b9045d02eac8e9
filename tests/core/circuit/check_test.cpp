// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/check.h"

#include "tests/core/circuit/circuits.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

auto wrong(const std::string& words) {
    return AllOf(Field("severity", &Fault::severity, Severity::wrong),
                 Field("message", &Fault::message, HasSubstr(words)));
}
auto doubtful(const std::string& words) {
    return AllOf(Field("severity", &Fault::severity, Severity::doubtful),
                 Field("message", &Fault::message, HasSubstr(words)));
}
auto atPart(const PartId& id) {
    return Field("part", &Fault::part, id);
}
auto atNet(const NetName& net) {
    return Field("net", &Fault::net, net);
}

TEST(Check, TheDemosClipStageHasNoFault) {
    EXPECT_THAT(checkCircuit(clipStage()), IsEmpty());
    EXPECT_TRUE(requireSolvable(clipStage()));
}

TEST(Check, AnEmptyCircuitHasNoFault) {
    EXPECT_THAT(checkCircuit(Circuit{}), IsEmpty());
}

TEST(Check, AnIdTwiceIsWrong) {
    Circuit circuit = clipStage();
    partOf(circuit, "R7").id = "id-R5";
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("R7: the id \"id-R5\" is used twice")));
    partOf(circuit, "R6").id.clear();
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("R6 has no id")));
}

TEST(Check, AFindingIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german(
        {{"%1 has %2 connections, but %3 has %4 pins: name one net for each pin.", "%1: %2 Anschlüsse, %3 hat aber %4"},
         {"a resistor", "ein Widerstand"},
         {"The nets %1 float together and have no DC path to ground: lead one of them "
          "there by a wire or a resistor.",
          "Ohne Weg zur Masse: %1"},
         {"%1 and %2", "%1 und %2"}});
    Circuit circuit = clipStage();
    partOf(circuit, "R7").nets.pop_back();
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("R7: 1 Anschlüsse, ein Widerstand hat aber 2")));
    Part floating;
    floating.id = floating.reference = "R99";
    floating.kind = PartKind::resistor;
    floating.value = 1e3;
    floating.nets = {"far", "away"};
    circuit.parts.push_back(floating);
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("Ohne Weg zur Masse: away und far")));
}

TEST(Check, AReferenceTwiceIsDoubtful) {
    Circuit circuit = clipStage();
    partOf(circuit, "R7").reference = "R5";
    const Part& second = *findPart(circuit, "id-R7");
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(doubtful(": another part is called R5 too: give one of them the name R"),
                                  atPart(second.id))));
    EXPECT_TRUE(requireSolvable(circuit)) << "it is solved by ids all the same";
    findPart(circuit, "id-R7")->call = "X1";
    EXPECT_THAT(checkCircuit(circuit), IsEmpty()) << "a subcircuit's R5 is another one";
}

/// A 9V sign on a divider for a base, and the transistor's collector resistor; no battery.
Circuit signsWithoutBattery() {
    Circuit circuit;
    const auto add = [&circuit](const char* id, PartKind kind, std::vector<NetName> nets, double value) {
        Part part;
        part.id = part.reference = id;
        part.kind = kind;
        part.nets = std::move(nets);
        part.value = value;
        circuit.parts.push_back(part);
    };
    add("V1", PartKind::voltageSource, {"in", "0"}, 0.0);
    circuit.parts[0].acAmplitude = 1.0;
    add("C1", PartKind::capacitor, {"in", "b"}, 1e-7);
    add("R1", PartKind::resistor, {"n7", "b"}, 390e3);
    add("R2", PartKind::resistor, {"b", "0"}, 100e3);
    circuit.ports.source = "V1";
    circuit.drawing.flags = {{FlagKind::supply, "n7", {5, 1}, "9V"}, {FlagKind::supply, "n7", {8, 1}, "9V"}};
    return circuit;
}

TEST(Check, ASupplySignThatNothingFeedsIsDoubtful) {
    // A newcomer's two-transistor unit without a battery was called whole and gave a curve at -58 dB.
    Circuit circuit = signsWithoutBattery();
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(doubtful("9V is fed by nothing: put a battery from it to ground."), atPart("R1"),
                                  atNet("n7"))));
    Part battery;
    battery.id = battery.reference = "B1";
    battery.kind = PartKind::voltageSource;
    battery.nets = {"bat", "0"};
    battery.value = 9.0;
    circuit.parts.push_back(battery);
    Part inner;
    inner.id = inner.reference = "R9";
    inner.nets = {"bat", "n7"};
    inner.value = 1.7;
    circuit.parts.push_back(inner);
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
}

TEST(Check, ASupplyThatADividerOrAnOpampHoldsIsFed) {
    Circuit circuit = signsWithoutBattery();
    circuit.parts[2].nets = {"vcc", "b"};
    Part battery;
    battery.id = battery.reference = "B1";
    battery.kind = PartKind::voltageSource;
    battery.nets = {"vcc", "0"};
    battery.value = 9.0;
    circuit.parts.push_back(battery);
    circuit.drawing.flags = {{FlagKind::supply, "b", {5, 1}, "Vb"}};
    EXPECT_THAT(checkCircuit(circuit), IsEmpty()) << "half the supply, from a divider";
    // The same Vb behind a capacitor alone has no direct current.
    circuit.parts[2].nets = {"vcc", "x"};
    circuit.parts[3].nets = {"x", "0"};
    EXPECT_THAT(checkCircuit(circuit), Contains(doubtful("Vb is fed by nothing")));
}

TEST(Check, APinOnASignIsNotOpen) {
    // A transistor whose emitter stands on the only ground sign was listed among the open pins.
    Circuit circuit = signsWithoutBattery();
    circuit.parts[3].nets = {"b", "lonely"};
    circuit.parts[0].nets = {"in", "b"};
    EXPECT_THAT(checkCircuit(circuit), Contains(doubtful("Net lonely has one pin only")));
    circuit.parts[3].nets = {"b", "0"};
    EXPECT_THAT(checkCircuit(circuit), Not(Contains(doubtful("one pin only")))) << "ground joins by itself";
    circuit.parts[3].nets = {"b", "lonely"};
    circuit.drawing.flags.push_back({FlagKind::terminal, "lonely", {9, 9}, ""});
    EXPECT_THAT(checkCircuit(circuit), Not(Contains(doubtful("one pin only")))) << "the next box is plugged in there";
}

TEST(Check, APinWithoutNetIsWrong) {
    Circuit circuit = clipStage();
    partOf(circuit, "D2").nets[1].clear();
    EXPECT_THAT(checkCircuit(circuit), Contains(AllOf(wrong("D2: pin cathode is on no net"), atPart("id-D2"))));
    partOf(circuit, "D2").nets = {"o1"};
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("D2 has 1 connections, but a diode has 2 pins")));
    partOf(circuit, "U1").nets.clear();
    EXPECT_THAT(checkCircuit(circuit), Contains(wrong("U1 has 0 connections, but an op-amp has 5 pins")));
}

TEST(Check, ValuesHaveLimits) {
    struct Row {
        const char* reference;
        std::vector<double> sound;
        std::vector<double> unsound;
    };
    const double infinity = std::numeric_limits<double>::infinity();
    const Row rows[] = {
        {"R5", {0.01, 100e9}, {0.0, -3.9e3, 0.9e-3, 101e9, 1e30, infinity, std::nan("")}},
        {"C4", {0.1e-12, 1.0}, {0.0, -56e-9, 0.09e-12, 1.1, 1e30, infinity, std::nan("")}},
        {"VR1", {0.01, 100e9}, {0.0, -1.0, 0.009, 101e9, std::nan("")}},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.reference);
        Circuit circuit = clipStage();
        for (const double value : row.sound) {
            partOf(circuit, row.reference).value = value;
            EXPECT_THAT(checkCircuit(circuit), IsEmpty()) << value;
        }
        for (const double value : row.unsound) {
            partOf(circuit, row.reference).value = value;
            EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong(row.reference))) << value;
        }
    }
}

TEST(Check, ACoilHasLimits) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(inductor("L1", "out", "0", 2.8));
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
    for (const double value : {0.0, 0.9e-9, 11e3, std::nan("")}) {
        partOf(circuit, "L1").value = value;
        EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong("choose one from 1 nH to 10 kH")));
    }
}

TEST(Check, AResistorOfMilliohmsIsDoubtful) {
    Circuit circuit = clipStage();
    partOf(circuit, "RBAT").value = 1e-3;
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(doubtful("RBAT has less than 0.01 Ω")));
}

TEST(Check, OtherNumbersMustBeNumbers) {
    Circuit circuit = clipStage();
    partOf(circuit, "VBAT").value = std::nan("");
    partOf(circuit, "VSIG").acAmplitude = std::numeric_limits<double>::infinity();
    partOf(circuit, "R5").tolerance = -0.05;
    partOf(circuit, "R6").measured = 0.0;
    partOf(circuit, "VR1").shareAtHalf = 1.0;
    circuit.models[1].parameters["IS"] = std::nan("");
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(wrong("VSIG has an AC amplitude"), wrong("R5: the tolerance"),
                            wrong("R6: the measured value"), wrong("VR1: the share at half travel"),
                            wrong("D1: IS of type 1N4148"), wrong("D2: IS of type 1N4148"), wrong("VBAT has a value")));
}

TEST(Check, ATypeMustBeInTheCircuitAndOfTheKind) {
    Circuit circuit = clipStage();
    partOf(circuit, "D1").model = "BAT41";
    partOf(circuit, "D2").model = "TL072";
    partOf(circuit, "U1").model.clear();
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(wrong("U1 has no type"), wrong("D1: the type BAT41 is not in the circuit"),
                            wrong("D2: the type TL072 is an op-amp, not a diode")));
}

TEST(Check, ANetWithoutDcPathIsNamedWithWhatToDo) {
    Circuit circuit = clipStage();
    // Between two capacitors, the low-pass resistor gone.
    std::erase_if(circuit.parts, [](const Part& part) { return part.reference == "R7"; });
    circuit.stages.clear();
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(Field("message", &Fault::message,
                                        "Net lp has no DC path to ground: lead it there by a wire or a resistor."),
                                  Field("severity", &Fault::severity, Severity::wrong), atNet("lp"))));
}

TEST(Check, AnOpampInputGivesNoDcPath) {
    Circuit circuit = clipStage();
    partOf(circuit, "R4").nets[1] = "vb2";
    circuit.parts.push_back(resistor("R4B", "vb2", "vb", 22e3));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(AllOf(wrong("Net ip has no DC path"), atNet("ip"))));
}

TEST(Check, NetsThatFloatTogetherAreOneFault) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(capacitor("C80", "out", "f1", 1e-9));
    circuit.parts.push_back(resistor("R80", "f1", "f2", 1e3));
    circuit.parts.push_back(capacitor("C81", "f2", "0", 1e-9));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(AllOf(wrong("The nets f1 and f2 float together"), atNet("f1"))));
}

TEST(Check, ACurrentSourceGivesNoDcPath) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(part(PartKind::currentSource, "I1", {"float", "0"}, 1e-3));
    circuit.parts.push_back(capacitor("C80", "float", "0", 1e-9));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong("Net float has no DC path")));
}

TEST(Check, DiodesTransistorsCoilsPotsAndWiresGiveADcPath) {
    Circuit circuit = clipStage();
    circuit.models.push_back({"2N3904", PartKind::bipolar, {}, "test"});
    circuit.parts.push_back(withModel(PartKind::diode, "D9", {"n1", "0"}, "1N4148"));
    circuit.parts.push_back(withModel(PartKind::bipolar, "Q9", {"n2", "n3", "n1"}, "2N3904"));
    circuit.parts.push_back(inductor("L9", "n2", "n4", 1.0));
    circuit.parts.push_back(pot("VR9", {"n5", "n4", "n6"}, 1e3));
    circuit.parts.push_back(wire("W9", "n6", "n7"));
    for (const char* net : {"n3", "n5", "n7"}) {
        circuit.parts.push_back(capacitor(std::string("C-") + net, net, "0", 1e-9));
    }
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
}

TEST(Check, ALiftedLegIsNoFault) {
    Circuit circuit = clipStage();
    partOf(circuit, "C4").nets[0] = "lifted";
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(wrong("Net lifted has no DC path"), atNet("lifted")),
                            AllOf(doubtful("Net lifted has one pin only, of C4"), atNet("lifted"))));
    circuit.openNets = {"lifted"};
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
}

TEST(Check, ACircuitWithoutGroundIsWrong) {
    Circuit circuit;
    circuit.parts = {resistor("R1", "a", "b", 1e3), resistor("R2", "b", "a", 1e3)};
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong("The nets a and b float together")));
}

TEST(Check, ANetWithOnePinIsDoubtful) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(resistor("R80", "out", "stub", 1e3));
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(doubtful("Net stub has one pin only, of R80"), atNet("stub"))));
    EXPECT_TRUE(requireSolvable(circuit)) << "doubtful is no reason not to solve";
}

TEST(Check, ALoopOfSourcesAndCoilsIsWrongAndNamed) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(inductor("L1", "bat", "mid", 1.0));
    circuit.parts.push_back(inductor("L2", "mid", "0", 1.0));
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(wrong("L2 forms a loop without resistance with"), wrong("VBAT"), wrong("L1"))));
}

TEST(Check, TwoCoilsAcrossEachOtherAreALoop) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(inductor("L1", "out", "0", 1.0));
    circuit.parts.push_back(inductor("L2", "0", "out", 1.0));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong("L2 forms a loop without resistance with L1")));
}

TEST(Check, ASourceOrCoilWithBothPinsOnOneNetIsShorted) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(inductor("L1", "out", "out", 1.0));
    partOf(circuit, "VBAT").nets = {"0", "0"};
    EXPECT_THAT(checkCircuit(circuit), AllOf(Contains(wrong("L1 is shorted: both its pins are on net out")),
                                             Contains(wrong("VBAT is shorted: both its pins are on net 0"))));
}

TEST(Check, AShortedBatteryIsWrongAndNamesTheBridge) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(wire("W1", "bat", "x"));
    circuit.parts.push_back(wire("W2", "x", "0"));
    EXPECT_THAT(checkCircuit(circuit),
                ElementsAre(AllOf(wrong("VBAT is shorted by"), wrong("W1"), wrong("W2"), atPart("id-VBAT"))));
}

TEST(Check, ABatteryShortedThroughACoilAndAWireIsWrong) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(wire("W1", "bat", "x"));
    circuit.parts.push_back(inductor("L1", "x", "0", 1.0));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(wrong("VBAT is shorted by")));
}

TEST(Check, WiresAcrossWiresAndCoilsAreNoFault) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(inductor("L1", "out", "0", 1.0));
    circuit.parts.push_back(wire("W1", "out", "0"));
    circuit.parts.push_back(wire("W2", "0", "out"));
    EXPECT_THAT(checkCircuit(circuit), IsEmpty());
}

TEST(Check, AnOpampWithoutFeedbackIsDoubtful) {
    Circuit circuit = clipStage();
    std::erase_if(circuit.parts, [](const Part& part) { return part.reference == "R6"; });
    for (const char* reference : {"C5", "D1", "D2"}) {
        for (NetName& net : partOf(circuit, reference).nets) {
            net = net == "im" ? "rf" : net;
        }
    }
    circuit.parts.push_back(resistor("R80", "im", "0", 1e6));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(AllOf(doubtful("U1 has no feedback"), atPart("id-U1"))));
}

TEST(Check, AnOpampOutputBridgedToGroundIsDoubtful) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(wire("W1", "o1", "0"));
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(doubtful("U1: the output is bridged")));
}

TEST(Check, PortsKnobsAndStagesMustNameWhatIsThere) {
    Circuit circuit = clipStage();
    circuit.ports.source = "id-none";
    circuit.ports.battery = "id-R5";
    circuit.ports.output = "nowhere";
    circuit.knobs.push_back({"tone", "Tone", "id-R7"});
    circuit.knobs.push_back({"drive", "Drive again", ""});
    circuit.stages[0].parts.push_back("id-gone");
    circuit.stages[1].output = "away";
    EXPECT_THAT(
        checkCircuit(circuit),
        ElementsAre(wrong("R5 cannot be the battery: that is a voltage source, not a resistor"),
                    wrong("R7 cannot be turned by knob \"Tone\""), wrong("The part \"id-none\" is to be the source"),
                    wrong("The output names the net \"nowhere\""),
                    wrong("Knob \"Drive again\": the id \"drive\" is used twice"),
                    wrong("Knob \"Drive again\" turns no part"), wrong("Stage \"Clip stage\" names the part"),
                    wrong("Stage \"Low-pass\" names the net \"away\"")));
}

TEST(Check, FaultsComeInTheOrderOfTheParts) {
    Circuit circuit = clipStage();
    circuit.parts.push_back(resistor("R80", "out", "stub", 1e3));
    partOf(circuit, "R5").value = -1.0;
    partOf(circuit, "VBAT").value = std::nan("");
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(atPart("id-R5"), atPart("id-VBAT"), atNet("stub")));
}

TEST(Check, TheFirstWrongFaultIsTheError) {
    Circuit circuit = clipStage();
    circuit.parts.insert(circuit.parts.begin(), resistor("R80", "out", "stub", 1e3));
    partOf(circuit, "R5").value = -1.0;
    partOf(circuit, "C7").value = 0.0;
    const Result<void> result = requireSolvable(circuit);
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, ErrorCode::unsolvable);
    EXPECT_EQ(result.error().where, "R5");
    EXPECT_THAT(result.error().message, HasSubstr("R5 has a value that no resistor has"));
}

TEST(Check, ALargeChainIsCheckedQuickly) {
    Circuit circuit = clipStage();
    for (int i = 0; i < 20000; ++i) {
        const std::string here = "n" + std::to_string(i);
        const std::string before = i == 0 ? std::string("out") : "n" + std::to_string(i - 1);
        circuit.parts.push_back(resistor("R" + here, before, here, 1e3));
    }
    EXPECT_THAT(checkCircuit(circuit), ElementsAre(doubtful("Net n19999 has one pin only")));
}

}  // namespace
}  // namespace ohmwright
