// Parameters in any order, and circles of them. No outside source: each value is the file's own arithmetic.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_parameters.h"

#include "netlist_text.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

TEST(NetlistParameters, MayReferToLaterOnes) {
    const Netlist netlist = sound("R1 a 0 {c}\n.param c={b*2} b=a+1\n.param A = 4k\nR2 a 0 {C/2}\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "R1").value, 8002.0);
    EXPECT_DOUBLE_EQ(partOf(netlist, "R2").value, 4001.0);
}

TEST(NetlistParameters, NamesInAFormula) {
    EXPECT_THAT(namesIn("2*Abc+x_1/4.7k-1e3*sqrt(y)+max(z, 2meg)"), testing::ElementsAre("abc", "x_1", "y", "z"));
    EXPECT_TRUE(namesIn("1k2+3meg").empty());
}

TEST(NetlistParameters, ALongChainIsNoRecursion) {
    std::string text = "R1 a 0 {p0}\n";
    constexpr int length = 50'000;
    for (int index = 0; index < length; ++index) {
        text += ".param p" + std::to_string(index) + "={p" + std::to_string(index + 1) + "+1}\n";
    }
    text += ".param p" + std::to_string(length) + "=0\n";
    EXPECT_DOUBLE_EQ(partOf(sound(text), "R1").value, 50'000.0);
}

TEST(NetlistParameters, ACircleIsNamedWithAllOfIt) {
    EXPECT_THAT(faultOf("R1 a 0 {x}\n.param x={y}\n.param y={z+w}\n.param w=1\n.param z={y}\n"),
                testing::HasSubstr("y and z"));
}

TEST(NetlistParameters, AFaultyOneIsSaidOnceAtItsOwnLine) {
    EXPECT_THAT(faultOf("R1 a 0 {x}\nR2 a 0 {2*x}\n.param x={1/0}\n"), testing::StartsWith("line 4: Parameter x"));
}

TEST(NetlistParameters, BoundsOnTheirNumber) {
    std::string text = "R1 a 0 1\n.param";
    for (int index = 0; index < 100'001; ++index) {
        text += " p" + std::to_string(index) + "=1";
        text += index % 1000 == 999 ? "\n.param" : "";
    }
    EXPECT_THAT(faultOf(text + "\n"), testing::HasSubstr("100000 parameters"));
}

}  // namespace
}  // namespace ohmwright
