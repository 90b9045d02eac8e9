// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/high_voltage.h"

#include "core/bench/order_of_work.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/demo_netlists.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

namespace ohmwright {
namespace {

using testing::HasSubstr;

struct Unit250 {
    Circuit circuit;
    Setting setting;
};

Unit250 nightFerry() {
    Unit250 unit{test::DemoNetlist::circuitOf(test::DemoNetlist::stock("night-ferry").text(), "out"), {}};
    unit.circuit.ports.battery = "VHT";
    unit.setting.batteryVolts = 269.4;
    return unit;
}

// 47 uF at 257.7 V and 10 % more; the tool of 10 k with the bleeder of 220 k across: R C ln(283/30) = 1.01 s; the
// bleeder alone 23.2 s. The wait is told in whole tens.
TEST(HighVoltage, AValveUnitsFilterIsDownInASecondThroughTheToolAndTheWaitIsTenSeconds) {
    const Unit250 unit = nightFerry();
    const auto discharge = dischargeOf(unit.circuit, unit.setting);
    ASSERT_TRUE(discharge) << discharge.error().message;
    EXPECT_TRUE(discharge->isHighVoltage);
    ASSERT_FALSE(discharge->capacitors.empty());
    const DischargeTime& filter = discharge->capacitors.front();
    EXPECT_EQ(filter.part, "C3");
    const double from = 269.4 * 220.0 / 230.0 * 1.1;
    EXPECT_NEAR(filter.fromVolts, from, 1.0);
    const double both = 1.0 / (1.0 / 10e3 + 1.0 / 220e3);
    EXPECT_NEAR(filter.withToolSeconds, both * 47e-6 * std::log(from / 30.0), 0.04);
    ASSERT_TRUE(filter.byItselfSeconds);
    EXPECT_NEAR(*filter.byItselfSeconds, 220e3 * 47e-6 * std::log(from / 30.0), 0.8);
    EXPECT_EQ(discharge->waitSeconds, 10.0);
    EXPECT_THAT(discharge->sentence, HasSubstr("Wait 10 s, then measure"));
}

TEST(HighVoltage, ABatteryUnitIsDischargedBeforeTheMeterComesNear) {
    const Job job = test::harbourLamp();
    const auto discharge = dischargeOf(job.stock, job.setting);
    ASSERT_TRUE(discharge) << discharge.error().message;
    EXPECT_FALSE(discharge->isHighVoltage);
    EXPECT_EQ(discharge->toVolts, meterVolts);
    EXPECT_EQ(discharge->capacitors.front().part, "c10");
    // 100 uF through 1 k from 9.6 V to 0.1 V: 0.456 s, and longer while C11 feeds back through its 12 k.
    EXPECT_GT(discharge->capacitors.front().withToolSeconds, 100e-6 * 1e3 * std::log(9.6 / 0.1));
    EXPECT_LT(discharge->capacitors.front().withToolSeconds, 0.8);
}

TEST(HighVoltage, CautionsFollowFromWhatTheUnitIs) {
    const Unit250 unit = nightFerry();
    EXPECT_EQ(cautionsOf(unit.circuit, unit.setting).front().head, "High voltage:");
    const Job job = test::harbourLamp();
    const auto battery = cautionsOf(job.stock, job.setting);
    for (const char* head : {"Before the iron:", "Fumes:", "Lead solder:", "Law:"}) {
        EXPECT_THAT(battery, testing::Contains(testing::Field(&Caution::head, head)));
    }
    EXPECT_NE(battery.front().head, "High voltage:");
}

// 10k at 269.4 V and mains a tenth high: 296.3^2 / 10k = 8.8 W, twice that is 17.6 W, the next rating 20 W. At 9 V
// through 1k it is 0.2 W: the smallest that is in a drawer does.
TEST(HighVoltage, TheDischargeResistorStandsTwiceWhatItTakes) {
    EXPECT_DOUBLE_EQ(toolWatts(10e3, 269.4), 20.0);
    EXPECT_DOUBLE_EQ(toolWatts(10e3, 450.0), 50.0);
    EXPECT_DOUBLE_EQ(toolWatts(1e3, 9.0), 0.25);
    EXPECT_THAT(toolWords(10e3, 269.4), HasSubstr("10 kΩ, 20 W or more"));
    EXPECT_EQ(toolWords(1e3, 9.0), "1 kΩ");
}

// 269.4 V behind 10k with 1.9 mA drawn leave 250 V at the reservoir: whoever reads one of the two must find the other.
TEST(HighVoltage, TheSourceAndWhatIsHeldInUseStandTogether) {
    const Job job = test::demoJob("night-ferry");
    const std::vector<std::pair<NetName, double>> bias{{"0", 0.0}, {"b", 250.0}, {"raw", 269.4}};
    Circuit circuit = job.stock;
    for (Part& part : circuit.parts) {
        if (part.reference == "C3") {
            part.nets = {"b", "0"};
        }
    }
    EXPECT_EQ(highVoltageWords(circuit, job.setting, bias), "up to 269 V, 250 V on C3 in use");
    EXPECT_EQ(highVoltageWords(circuit, job.setting, {}), "up to 269 V");
}

// A valve unit has no battery: the plug comes out of the wall.
TEST(HighVoltage, AMainsUnitIsUnpluggedAndABatteryUnitLosesItsBattery) {
    for (const auto& [name, wanted, unwanted] : {std::tuple{"night-ferry", "plug out of the wall", "battery"},
                                                 std::tuple{"harbour-lamp", "leads, battery and supply out", "plug"}}) {
        const auto work = orderOfWork(test::demoJob(name, "A"));
        ASSERT_TRUE(work) << work.error().message;
        std::string words;
        for (const BenchStep& step : work->steps) {
            for (const StepLine& line : step.lines) {
                words += line.text + "\n";
            }
        }
        for (const Caution& caution : work->cautions) {
            words += caution.text + "\n";
        }
        EXPECT_THAT(words, HasSubstr(wanted)) << name;
        EXPECT_THAT(words, testing::Not(HasSubstr(unwanted))) << name;
    }
}

}  // namespace
}  // namespace ohmwright
