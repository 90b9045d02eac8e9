// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_laws.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ohmwright {
namespace {

/// Whether one line of the text is this.
bool holdsLine(const std::string& text, const std::string& line) {
    return ("\n" + text).find("\n" + line + "\n") != std::string::npos;
}

SubcircuitOptions named(const std::string& name) {
    SubcircuitOptions options;
    options.name = name;
    options.helperName = "D" + name;
    return options;
}

// The published triode law as it is written for programs of the Berkeley family; N. Koren, Glass Audio 8 (5) 1996.
TEST(NetlistLaws, ATriodeIsThePublishedFormula) {
    const Model model{"12AX7",
                      PartKind::triode,
                      {{"MU", 100},
                       {"EX", 1.4},
                       {"KG1", 1000},
                       {"KP", 600},
                       {"KVB", 300},
                       {"RGI", 2000},
                       {"CCG", 1.6e-12},
                       {"CGP", 1.5e-12}},
                      ""};
    const std::string text = triodeSubcircuit(model, named("V"));
    for (const char* line :
         {".subckt V a g k", "BE e 0 V=v(a,k)/600*ln(1+exp(600*(1/100+v(g,k)/sqrt(300+v(a,k)*v(a,k)))))",
          "BA a k I=0.002*max(v(e),0)**1.4", "RGI g gi 2k", "CCG g k 1.6p", "CGP g a 1.5p", "DG gi k DV_GRID",
          ".ends V", ".model DV_GRID D(IS=1n N=1 TNOM=27)"}) {
        EXPECT_TRUE(holdsLine(text, line)) << line << "\nis not in\n" << text;
    }
    EXPECT_EQ(text.find("CCP"), std::string::npos);
}

TEST(NetlistLaws, TwoTriodesInParallelHaveTwiceTheCurrentAndHalfTheResistance) {
    SubcircuitOptions two = named("V");
    two.devices = 2.0;
    const std::string text = triodeSubcircuit(
        {"V", PartKind::triode, {{"KG1", 1000}, {"EX", 1.5}, {"CCG", 1e-12}, {"RNEQ", 1000}}, ""}, two);
    for (const char* line : {"BA a k I=0.004*max(v(e),0)**1.5", "RGI g gi 1k", "CCG g k 2p", "RN g gn 500",
                             ".model DV_GRID D(IS=2n N=1 TNOM=27)"}) {
        EXPECT_TRUE(holdsLine(text, line)) << line << "\nis not in\n" << text;
    }
}

// 4kTR = EN^2 at 300.15 K: 18 nV makes 19.546 k.
TEST(NetlistLaws, AnAmplifiersHissIsAResistorsThatCarriesNoCurrent) {
    const std::string text = opampSubcircuit({"TL072", PartKind::opamp, {{"EN", 18e-9}}, ""}, named("TL072"));
    const std::size_t at = text.find("\nRN ip a ");
    ASSERT_NE(at, std::string::npos) << text;
    EXPECT_NEAR(std::stod(text.substr(at + 9)), 18e-9 * 18e-9 / (4 * 1.380649e-23 * 300.15) / 1e3, 1e-9);
    EXPECT_NE(text.find("*v(a,im)/"), std::string::npos);
}

TEST(NetlistLaws, AnAmplifierWithoutHissHasNoSuchResistor) {
    const std::string text = opampSubcircuit({"A", PartKind::opamp, {}, ""}, named("A"));
    EXPECT_EQ(text.find("RN"), std::string::npos);
    EXPECT_NE(text.find("*v(ip,im)/1.3)"), std::string::npos) << text;
    for (const char* line : {"GO o 0 o x 0.01", "IQ vp vn DC 1.4m", ".model DA_CLAMP D(IS=1p N=1 TNOM=27)"}) {
        EXPECT_TRUE(holdsLine(text, line)) << line << "\nis not in\n" << text;
    }
}

TEST(NetlistLaws, JunctionsAreStatedForTheTemperatureOfTheSetting) {
    SubcircuitOptions hot = named("A");
    hot.kelvin = 323.15;
    EXPECT_TRUE(
        holdsLine(opampSubcircuit({"A", PartKind::opamp, {}, ""}, hot), ".model DA_CLAMP D(IS=1p N=1 TNOM=50)"));
    // A hot cathode does not feel the room: N Vt stays what it is at 27 degrees.
    const std::string valve = pentodeSubcircuit({"A", PartKind::pentode, {}, ""}, hot);
    const std::size_t at = valve.find(" N=");
    ASSERT_NE(at, std::string::npos);
    EXPECT_NEAR(std::stod(valve.substr(at + 3)), 300.15 / 323.15, 1e-15);
}

}  // namespace
}  // namespace ohmwright
