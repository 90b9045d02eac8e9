// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/polarity.h"

#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/small_circuits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

const CapacitorDuty& dutyOf(const DutyTable& table, const PartId& part) {
    const CapacitorDuty* duty = findDuty(table, part);
    if (duty == nullptr) {
        throw std::runtime_error("no duty of " + part);
    }
    return *duty;
}

// The drawing's plus signs of the demo: C2 from U1's bias (plus) to the follower's emitter, C9 from the emitter out.
TEST(Polarity, TheElectrolyticsOfTheDemoHaveTheirPlusWhereTheDrawingHasIt) {
    const Job job = test::harbourLamp();
    const auto table = dutiesOf({job.stock}, job.setting, {.withDevicesOff = false});
    ASSERT_TRUE(table) << table.error().message;
    EXPECT_EQ(dutyOf(*table, "c2").polarity, Polarity::plusAtFirst);
    EXPECT_NEAR(dutyOf(*table, "c2").atSetting, 4.46 - 2.76, 0.05);
    EXPECT_EQ(dutyOf(*table, "c9").polarity, Polarity::plusAtFirst);
    EXPECT_EQ(dutyOf(*table, "c10").neededRating, 16.0);
    EXPECT_EQ(dutyOf(*table, "c10").rating, 16.0);
    EXPECT_TRUE(dutyOf(*table, "c10").isRatedWell());
    EXPECT_EQ(dutyOf(*table, "c4").polarity, Polarity::plusAtFirst);
    EXPECT_EQ(findDuty(*table, "ccable"), nullptr);
}

// A pot between two halves of a supply turns the sign round.
TEST(Polarity, ASignThatChangesWithAKnobIsNonPolar) {
    test::SmallCircuit small;
    Circuit circuit = small.r("RIN", "in", "0", 1e3)
                          .v("VBAT", "vcc", "0", 9.0)
                          .r("R1", "vcc", "vb", 10e3)
                          .r("R2", "vb", "0", 10e3)
                          .c("C1", "out", "vb", 1e-6)
                          .circuit();
    Part pot;
    pot.id = pot.reference = "VR1";
    pot.kind = PartKind::potentiometer;
    pot.value = 100e3;
    pot.nets = {"vcc", "out", "0"};
    circuit.parts.push_back(pot);
    circuit.knobs.push_back({"balance", "Balance", "VR1"});
    circuit.ports.battery = "VBAT";
    const auto table = dutiesOf({circuit}, {});
    ASSERT_TRUE(table) << table.error().message;
    EXPECT_EQ(dutyOf(*table, "C1").polarity, Polarity::nonPolar);
    EXPECT_NEAR(dutyOf(*table, "C1").high, 4.8, 0.01);
    EXPECT_NEAR(dutyOf(*table, "C1").low, -4.8, 0.01);
    EXPECT_THAT(dutyOf(*table, "C1").sentence, HasSubstr("non-polar only"));
}

// A valve that is cold draws nothing: its coupling capacitor sees the whole supply, 269.4 V 220k/230k = 257.7 V and 10
// % more from the mains, and has to be rated for 400 V.
TEST(Polarity, TheCouplingCapacitorOfAValveSeesTheWholeSupply) {
    Circuit circuit = test::DemoNetlist::circuitOf(test::DemoNetlist::stock("night-ferry").text(), "out");
    circuit.ports.battery = "VHT";
    Setting setting;
    setting.batteryVolts = 269.4;
    const auto table = dutiesOf({circuit}, setting);
    ASSERT_TRUE(table) << table.error().message;
    const CapacitorDuty& coupling = dutyOf(*table, "C2");
    EXPECT_NEAR(coupling.largestVolts, 257.7 * 1.1, 1.0);
    EXPECT_EQ(coupling.neededRating, 400.0);
    EXPECT_EQ(coupling.polarity, Polarity::plusAtFirst);
    // The anode resistor at 0.8 mA: 64 mW; warmer at the mains' high end.
    for (const ResistorDuty& duty : table->resistors) {
        if (duty.part == "R3") {
            EXPECT_NEAR(duty.watts, 0.064, 0.02);
        }
    }
}

TEST(Polarity, RatingsGoUpInStandardSteps) {
    EXPECT_EQ(nextVoltageRating(4.5), 6.3);
    EXPECT_EQ(nextVoltageRating(9.6), 16.0);
    EXPECT_EQ(nextVoltageRating(-9.6), 16.0);
    EXPECT_EQ(nextVoltageRating(283.0), 400.0);
}

}  // namespace
}  // namespace ohmwright
