// A first line that was meant as a card is lost as the title: it is said where it can be told.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include <string>

namespace ohmwright {
namespace {

const std::string body = "R1 in out 1k\nC1 out 0 1n\nV2 in 0 AC 1\nRx vcc c 1k\nRy c 0 1k\nRz vcc 0 1k\n";

bool isNoted(const std::string& title) {
    const Result<Netlist> netlist = readNetlist(title + "\n" + body);
    EXPECT_TRUE(netlist.hasValue()) << title;
    return netlist && hasNote(*netlist, 1, "looks like a card");
}

TEST(NetlistTitle, AnElementBetweenNetsOfTheFileIsNoted) {
    for (const char* title :
         {"V1 vcc 0 9", "V1 vcc 0 DC 9", "V1 IN 0 SIN(0 1 1k) AC 1", "R9 in out {r}", "Q1 c out 0 QX",
          "Q1 c out gnd QX", "D1 out 0 DX", "X1 in out vcc BUFFER", "X1 in out vcc BUFFER gain=3", "M1 c out 0 0 NX",
          "E1 out 0 in 0 10", "B1 out 0 V=v(in)*2", "J1 c out 0 JX", "F1 out 0 V2 3", "I1 out 0 1m", "R9 a b 5k"}) {
        EXPECT_TRUE(isNoted(title)) << title;
    }
}

TEST(NetlistTitle, WordsAreATitle) {
    for (const char* title :
         {"RC low pass", "Harbour Lamp, stock", "in out 0", "Low pass in front of out", "", "* V1 in 0 9", "R1",
          "X1 the buffer", "Clean boost in 0 steps", "Q and out", "Version 2 of 0 V rails"}) {
        EXPECT_FALSE(isNoted(title)) << title;
    }
}

}  // namespace
}  // namespace ohmwright
