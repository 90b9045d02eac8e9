// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/part_words.h"

#include "core/files/job_file.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Circuit demoCircuit() {
    const auto loaded = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob");
    return loaded ? loaded->job.stock : Circuit{};
}

Part resistor(double ohmValue, double tolerance) {
    Part part;
    part.kind = PartKind::resistor;
    part.value = ohmValue;
    part.tolerance = tolerance;
    return part;
}

TEST(PartWords, TheMarkingIsThePrintedOneElseTheCodeOfTheStandard) {
    Part part;
    part.kind = PartKind::capacitor;
    part.value = 120e-9;
    // IEC 60062: 12 and four zeros, in pF.
    EXPECT_EQ(printedMarking(part), "124");
    part.printed = "u12";
    EXPECT_EQ(printedMarking(part), "u12");
}

TEST(PartWords, AResistorIsKnownByItsBands) {
    // IEC 60062 colour code: 2 red, 7 violet, two zeros red, 5 % gold.
    EXPECT_EQ(printedMarking(resistor(2700.0, 0.05)), "red-violet-red-gold");
}

TEST(PartWords, AnUnknownToleranceHasNoBand) {
    EXPECT_EQ(printedMarking(resistor(2700.0, 0.0)), "red-violet-red");
}

TEST(PartWords, LandmarksAreWhatIsFoundOnTheBoard) {
    const Circuit circuit = demoCircuit();
    const Part* capacitor = findPartByReference(circuit, "C4");
    ASSERT_NE(capacitor, nullptr);
    // Net list of the demo: C4 from U1 pin 2 (im) to the top of R5 (leg).
    EXPECT_EQ(joinsWords(circuit, capacitor->nets[0], capacitor->id), "U1 pin 2");
    EXPECT_EQ(joinsWords(circuit, capacitor->nets[1], capacitor->id), "one leg of R5 Rg");
    EXPECT_EQ(joinsWords(circuit, "0", capacitor->id), "ground (jack sleeve)");
    EXPECT_EQ(joinsWords(circuit, circuit.ports.output, {}), "output jack tip");
    EXPECT_EQ(joinsWords(circuit, "no such net", {}), "no other part");
}

TEST(PartWords, AMeterStaysSilentOnlyWhereNoLowResistanceLeads) {
    Circuit circuit;
    const auto add = [&](PartKind kind, double value, const NetName& a, const NetName& b) {
        Part part;
        part.id = std::to_string(circuit.parts.size());
        part.kind = kind;
        part.value = value;
        part.nets = {a, b};
        circuit.parts.push_back(part);
    };
    add(PartKind::resistor, 10.0, "a", "b");
    add(PartKind::inductor, 2.8, "b", "c");
    add(PartKind::resistor, 3900.0, "c", "d");
    add(PartKind::capacitor, 100e-6, "d", "e");
    EXPECT_FALSE(staysSilent(circuit, "a", "c"));
    EXPECT_TRUE(staysSilent(circuit, "c", "d"));
    EXPECT_TRUE(staysSilent(circuit, "d", "e"));
}

}  // namespace
}  // namespace ohmwright
