// Expected values: IEC 60063, E6, E12, E24 and E96.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/value_steps.h"

#include <gmock/gmock.h>

namespace ohmwright::test {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;

auto nano(double value) {
    return DoubleNear(value * 1e-9, 1e-15);
}

TEST(ValueSteps, CapacitorsWalkE12AndResistorsE24) {
    EXPECT_THAT(steppedValue(56e-9, PartKind::capacitor, 1, Qt::NoModifier), nano(68));
    EXPECT_THAT(steppedValue(56e-9, PartKind::capacitor, -1, Qt::NoModifier), nano(47));
    EXPECT_NEAR(steppedValue(3900, PartKind::resistor, 1, Qt::NoModifier), 4300, 1e-6);
    EXPECT_NEAR(steppedValue(250e3, PartKind::potentiometer, 1, Qt::NoModifier), 330e3, 1e-3);
}

TEST(ValueSteps, KeysAskForFinerSeries) {
    EXPECT_THAT(steppedValue(56e-9, PartKind::capacitor, 1, Qt::ControlModifier), nano(62));
    EXPECT_THAT(steppedValue(56e-9, PartKind::capacitor, 1, Qt::ShiftModifier), nano(56.2));
    EXPECT_THAT(steppedValue(100e-9, PartKind::capacitor, 1, Qt::AltModifier), nano(101));
    EXPECT_THAT(steppedValue(120e-9, PartKind::capacitor, -1, Qt::AltModifier), nano(119));
}

TEST(ValueSteps, SeveralStepsAreTakenOneByOneAcrossTheDecade) {
    EXPECT_THAT(steppedValue(82e-9, PartKind::capacitor, 3, Qt::NoModifier), nano(150));
    EXPECT_THAT(steppedValue(120e-9, PartKind::capacitor, -3, Qt::NoModifier), nano(68));
    EXPECT_DOUBLE_EQ(steppedValue(120e-9, PartKind::capacitor, 0, Qt::NoModifier), 120e-9);
}

TEST(ValueSteps, TheListStandsAroundTheValue) {
    EXPECT_THAT(valuesAround(120e-9, PartKind::capacitor, 5),
                ElementsAre(nano(82), nano(100), nano(120), nano(150), nano(180)));
    EXPECT_THAT(valuesAround(118e-9, PartKind::capacitor, 3), ElementsAre(nano(100), nano(118), nano(120)))
        << "a value that is in no series stands among those that are";
}

TEST(ValueSteps, ShopSeriesHaveNames) {
    EXPECT_STREQ(seriesName(shopSeries(PartKind::capacitor)), "E12");
    EXPECT_STREQ(seriesName(shopSeries(PartKind::resistor)), "E24");
}

}  // namespace
}  // namespace ohmwright::test
