// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/setting.h"

#include "tests/core/circuit/circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace ohmwright {
namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();

Part driveOf250k() {
    Part drive = pot("VR1", {"rf", "o1", "o1"}, 250e3);
    drive.taper = Taper::logarithmic;
    drive.shareAtHalf = 0.15;
    return drive;
}

// The log law's share at half travel is what the law is made from; the demos' figures: drive 5 of 250k is
// 37k5, level 5 of 50k is 7k5 under 42k5.
TEST(Setting, ALogPotHasItsShareAtHalfTravel) {
    const PotHalves drive = potHalves(driveOf250k(), 5.0);
    EXPECT_NEAR(drive.wiperToBottom, 37.5e3, 0.01);
    EXPECT_NEAR(drive.topToWiper, 212.5e3, 0.01);
}

// Worked by hand with a = (1/0.15 - 1)^2 = 32.1: (32.1^0.3 - 1)/31.1 = 0.0589, at 24 % 0.0418. The knob
// translations of the demo Harbour Lamp (43k6, 48k8 and 47k7 with a fixed 33k) are at 2.4, 3.1 and 3.0.
TEST(Setting, ALogPotFollowsTheLawBetweenTheEnds) {
    EXPECT_NEAR(taperShare(Taper::logarithmic, 0.15, 3.0), 0.0589, 2e-4);
    EXPECT_NEAR(33e3 + potHalves(driveOf250k(), 2.4).wiperToBottom, 43.6e3, 300.0);
    EXPECT_NEAR(33e3 + potHalves(driveOf250k(), 3.1).wiperToBottom, 48.8e3, 500.0);
    EXPECT_NEAR(33e3 + potHalves(driveOf250k(), 3.0).wiperToBottom, 47.7e3, 100.0);
}

TEST(Setting, AReverseLogPotMirrorsALogPot) {
    for (const double position : {0.0, 1.0, 2.5, 5.0, 7.5, 9.0, 10.0}) {
        EXPECT_NEAR(taperShare(Taper::reverseLogarithmic, 0.1, position),
                    1.0 - taperShare(Taper::logarithmic, 0.1, 10.0 - position), 1e-15);
    }
    EXPECT_NEAR(taperShare(Taper::reverseLogarithmic, 0.1, 5.0), 0.9, 1e-12);
}

TEST(Setting, ALogLawOfHalfAtHalfIsTheStraightLine) {
    EXPECT_DOUBLE_EQ(taperShare(Taper::logarithmic, 0.5, 3.0), 0.3);
    EXPECT_NEAR(taperShare(Taper::logarithmic, 0.5 + 1e-7, 3.0), 0.3, 1e-6);
    EXPECT_DOUBLE_EQ(taperShare(Taper::linear, 0.15, 3.0), 0.3);
}

TEST(Setting, EveryTaperRunsFromNothingToTheWholeTrackAndNeverBack) {
    for (const Taper taper : {Taper::linear, Taper::logarithmic, Taper::reverseLogarithmic}) {
        EXPECT_DOUBLE_EQ(taperShare(taper, 0.15, 0.0), 0.0);
        EXPECT_DOUBLE_EQ(taperShare(taper, 0.15, 10.0), 1.0);
        for (int step = 1; step <= 100; ++step) {
            EXPECT_GT(taperShare(taper, 0.15, 0.1 * step), taperShare(taper, 0.15, 0.1 * (step - 1)));
        }
    }
}

TEST(Setting, AnEndOfAPotIsNeverUnderAMilliohm) {
    const PotHalves atBottom = potHalves(driveOf250k(), 0.0);
    EXPECT_DOUBLE_EQ(atBottom.wiperToBottom, 1e-3);
    EXPECT_DOUBLE_EQ(atBottom.topToWiper, 250e3);
    EXPECT_DOUBLE_EQ(potHalves(driveOf250k(), 10.0).topToWiper, 1e-3);
}

TEST(Setting, AKnobThatIsNotNamedStandsAtFive) {
    Setting setting;
    setting.knobs["drive"] = 3.0;
    EXPECT_EQ(knobPosition(setting, "drive"), 3.0);
    EXPECT_EQ(knobPosition(setting, "level"), 5.0);
}

TEST(Setting, BatteryAndLoadArePutIntoTheCircuit) {
    const Circuit circuit = clipStage();
    Setting setting;
    setting.batteryVolts = 7.2;
    setting.loadOhms = 10e3;
    Circuit expected = circuit;
    partOf(expected, "VBAT").value = 7.2;
    partOf(expected, "RLOAD").value = 10e3;
    EXPECT_EQ(withEnds(circuit, setting), expected) << "and nothing else is changed";
}

TEST(Setting, ACircuitWithoutBatteryAndLoadIsLeftAsItIs) {
    Circuit circuit = clipStage();
    circuit.ports.battery.clear();
    circuit.ports.load.clear();
    EXPECT_EQ(withEnds(circuit, Setting{}), circuit);
}

TEST(Setting, TheDefaultSettingIsSound) {
    EXPECT_TRUE(checkSetting(clipStage(), Setting{}));
}

TEST(Setting, EachFigureHasItsRange) {
    struct Row {
        const char* name;
        double Setting::*figure;
        double lowest;
        double highest;
    };
    const Row rows[] = {
        {"Pick level", &Setting::pickVoltsPeak, 1e-6, 10.0},
        {"Tone", &Setting::toneHz, 1.0, 100e3},
        {"Battery", &Setting::batteryVolts, 0.1, 600.0},
        {"Load", &Setting::loadOhms, 1.0, 100e9},
        {"Temperature", &Setting::temperatureKelvin, 223.15, 398.15},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.name);
        const auto checked = [&](double value) {
            Setting setting;
            setting.*row.figure = value;
            return checkSetting(clipStage(), setting);
        };
        EXPECT_TRUE(checked(row.lowest));
        EXPECT_TRUE(checked(row.highest));
        for (const double wrong :
             {row.lowest * 0.999, row.highest * 1.001, -1.0, notANumber, std::numeric_limits<double>::infinity()}) {
            const Result<void> result = checked(wrong);
            ASSERT_FALSE(result) << wrong;
            EXPECT_EQ(result.error().code, ErrorCode::invalidInput);
            EXPECT_EQ(result.error().message.rfind(row.name, 0), 0U) << result.error().message;
        }
    }
}

TEST(Setting, KnobsGoFromZeroToTenAndMustExist) {
    const auto checked = [](const std::string& knob, double position) {
        Setting setting;
        setting.knobs[knob] = position;
        return checkSetting(clipStage(), setting);
    };
    EXPECT_TRUE(checked("drive", 0.0));
    EXPECT_TRUE(checked("drive", 10.0));
    for (const double wrong : {-0.1, 10.1, notANumber}) {
        ASSERT_FALSE(checked("drive", wrong));
        EXPECT_EQ(checked("drive", wrong).error().message,
                  "Knob \"Drive\" is outside its range: choose a value from 0 to 10.");
    }
    ASSERT_FALSE(checked("tone", 5.0));
    EXPECT_EQ(checked("tone", 5.0).error().message, "There is no knob \"tone\" in this circuit: its knobs are drive.");
}

}  // namespace
}  // namespace ohmwright
