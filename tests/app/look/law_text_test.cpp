// Expected: the words of law_text.h, by hand.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/law_text.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Part partOf(PartKind kind, double value) {
    Part part;
    part.kind = kind;
    part.value = value;
    return part;
}

TEST(LawText, SaysTheGainOfAControlledSourceWithItsUnit) {
    EXPECT_EQ(lawText(partOf(PartKind::voltageControlledVoltage, 2.0)).toStdString(), "2 V/V");
    EXPECT_EQ(lawText(partOf(PartKind::voltageControlledCurrent, 1e-3)).toStdString(), "1 mA/V");
    EXPECT_EQ(lawText(partOf(PartKind::currentControlledCurrent, 0.5)).toStdString(), "500 mA/A");
    EXPECT_EQ(lawText(partOf(PartKind::currentControlledVoltage, 10.0)).toStdString(), "10 V/A");
}

TEST(LawText, SaysTheLawOfABehaviouralSource) {
    Part part = partOf(PartKind::behaviouralVoltage, 0.0);
    part.law = "tanh(V(in))";
    EXPECT_EQ(lawText(part).toStdString(), "V = tanh(V(in))");
    part.kind = PartKind::behaviouralCurrent;
    EXPECT_EQ(lawText(part).toStdString(), "I = tanh(V(in))");
}

TEST(LawText, SaysWhatACouplingJoinsAndHowASwitchStands) {
    Part coupling = partOf(PartKind::coupling, 0.99);
    coupling.controls = {"L1", "L2"};
    EXPECT_EQ(lawText(coupling).toStdString(), "k 0.99, L1 and L2");
    EXPECT_EQ(lawText(partOf(PartKind::switchContact, 1.0)).toStdString(), "closed");
    EXPECT_EQ(lawText(partOf(PartKind::switchContact, 0.0)).toStdString(), "open");
}

TEST(LawText, SaysASourceAndHowItMoves) {
    Part source = partOf(PartKind::voltageSource, 9.0);
    EXPECT_EQ(lawText(source).toStdString(), "9 V");
    source.wave.emplace();
    source.wave->hertz = 220.0;
    EXPECT_EQ(lawText(source).toStdString(), "9 V, sine 220 Hz");
    source.wave->shape = SourceWave::Shape::pulse;
    EXPECT_EQ(lawText(source).toStdString(), "9 V, pulse");
}

TEST(LawText, IsSilentWhereAValueOrATypeSpeaks) {
    for (const PartKind kind : {PartKind::resistor, PartKind::potentiometer, PartKind::jfet, PartKind::triode}) {
        EXPECT_TRUE(lawText(partOf(kind, 1.0)).isEmpty()) << kindName(kind);
    }
}

}  // namespace
}  // namespace ohmwright
