// What the laws leave out: core/devices/opamp.h, triode.h, noise of DEFINITIONS in core/solve/noise.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/model_notes.h"

#include "tests/support/spoken.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Circuit with(PartKind kind) {
    Circuit circuit;
    Part part;
    part.kind = kind;
    circuit.parts.push_back(part);
    return circuit;
}

TEST(ModelNotes, AnOpampsAndAValvesLimitsStandAtLargeSignalsOnly) {
    const Circuit opamp = with(PartKind::opamp);
    const Circuit valve = with(PartKind::triode);
    for (const CurveKind kind : {CurveKind::clip, CurveKind::ladder, CurveKind::harmonics, CurveKind::wave}) {
        EXPECT_EQ(modelNotes(kind, opamp, opamp), "The op-amp's model knows no crossover and no common-mode limit.");
        EXPECT_EQ(modelNotes(kind, valve, valve), "A valve's grid current is approximate.");
    }
    EXPECT_EQ(modelNotes(CurveKind::response, opamp, valve), "");
    EXPECT_EQ(modelNotes(CurveKind::bias, opamp, valve), "");
}

TEST(ModelNotes, WhatAModBringsCountsAsWell) {
    EXPECT_NE(modelNotes(CurveKind::clip, with(PartKind::resistor), with(PartKind::opamp)), "");
}

TEST(ModelNotes, NoiseOfDevicesHasNoFlicker) {
    EXPECT_NE(modelNotes(CurveKind::noise, with(PartKind::bipolar), {}).find("no flicker noise"), std::string::npos);
    EXPECT_EQ(modelNotes(CurveKind::noise, with(PartKind::resistor), {}), "");
}

TEST(ModelNotes, AreSaidInTheLanguage) {
    const test::Spoken german{{"The models have no flicker noise.", "Die Modelle haben kein Funkelrauschen."}};
    EXPECT_EQ(modelNotes(CurveKind::noise, with(PartKind::bipolar), {}), "Die Modelle haben kein Funkelrauschen.");
}

}  // namespace
}  // namespace ohmwright
