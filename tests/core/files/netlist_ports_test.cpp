// Which source is the input and which net the output. The program's own rules.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

struct Choice {
    const char* cards;
    const char* input;
    const char* output;
    const char* answer;  ///< "SOURCE NET", or words of the fault.
};

std::string chosen(const Choice& choice) {
    Netlist netlist = sound(choice.cards);
    const Result<void> done = choosePorts(netlist, choice.input, choice.output);
    return done ? netlist.circuit.ports.source + " " + netlist.circuit.ports.output : done.error().message;
}

TEST(NetlistPorts, TheOnlyAcSourceAndTheNetOut) {
    constexpr Choice choices[] = {
        {"V1 in 0 AC 1\nV2 b 0 9\nR1 in Out 1\nR2 out b 1\n", "", "", "V1 Out"},
        {"V1 in 0 AC 1\nV2 b 0 AC 1\nR1 in out 1\n", "", "", "Several sources"},
        {"V1 in 0 AC 1\nV2 b 0 AC 1\nR1 in out 1\n", "v2", "", "V2 out"},
        {"V1 in 0 0\nV2 b 0 9\nR1 in out 1\n", "", "", "V1 out"},
        {"V1 in 0 SIN(5 1 1k)\nV2 b 0 9\nR1 in out 1\n", "", "", "V1 out"},
        {"V1 in 0 0\nI2 b 0 0\nR1 in out 1\n", "", "", "--input"},
        {"V2 b 0 9\nV1 in 0 5\nR1 in out 1\n", "", "", "--input"},
        {"V1 in 0 5\nR1 in out 1\n", "", "", "V1 out"},
        {"R1 in out 1\n", "", "", "--input"},
        {"I1 in 0 AC 1\nR1 in out 1\n", "", "", "I1 out"},
        {"V1 in 0 AC 1\nR1 in out 1\n", "V9", "", "V1"},
        {"V1 in 0 AC 1\nR1 in out 1\n", "R1", "", "no source"},
        {"V1 in 0 AC 1\nR1 in a 1\n", "", "", "in and a"},
        {"V1 in 0 AC 1\nR1 in a 1\n", "", "A", "V1 a"},
        {"V1 in 0 AC 1\nR1 in a 1\n", "", "0", "Ground"},
        {"V1 in 0 AC 1\nR1 in a 1\n", "", "gnd", "Ground"},
        {"V1 in 0 AC 1\nX1 in 0 S\n.subckt S p q\nR1 p Mid 1\nR2 mid q 1\n.ends\n", "", "x1.mid", "V1 X1.Mid"},
        {"V1 in 0 AC 1\nX1 in out S\n.subckt S p q\nR1 p q 1\nV1 q 0 AC 1\n.ends\n", "", "", "X1.V1"},
        {"X1 in out S\n.subckt S p q\nR1 p q 1\nV1 p 0 AC 1\n.ends\n", "", "", "X1.V1 out"},
    };
    for (const Choice& choice : choices) {
        EXPECT_THAT(chosen(choice), testing::HasSubstr(choice.answer)) << choice.cards << choice.input;
    }
}

TEST(NetlistPorts, TheInputHasAnAcValue) {
    Netlist netlist = sound("V1 in 0 9\nR1 in out 1\n");
    ASSERT_TRUE(choosePorts(netlist, "V1", "").hasValue());
    EXPECT_DOUBLE_EQ(partOf(netlist, "V1").acAmplitude, 1.0);
}

}  // namespace
}  // namespace ohmwright
