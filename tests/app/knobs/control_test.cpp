// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/control.h"

#include "app/look/level_units.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>

namespace ohmwright::test {
namespace {

using testing::ElementsAre;

std::vector<QString> namesOf(const std::vector<std::unique_ptr<Control>>& controls, const Job& job) {
    std::vector<QString> names;
    for (const auto& control : controls) {
        names.push_back(control->face(job).name);
    }
    return names;
}

/// The control whose dial has that name.
const Control& controlNamed(const std::vector<std::unique_ptr<Control>>& controls, const Job& job,
                            const QString& name) {
    for (const auto& control : controls) {
        if (control->face(job).name == name) {
            return *control;
        }
    }
    ADD_FAILURE() << "no control named " << name.toStdString();
    return *controls.front();
}

class ControlTest : public testing::Test {
protected:
    [[nodiscard]] const Control& named(const QString& name) const { return controlNamed(controls, job, name); }
    [[nodiscard]] DialFace faceOf(const QString& name) const { return named(name).face(job); }

    Job job = harbourLamp();
    std::vector<std::unique_ptr<Control>> controls = controlsOf(job.stock);
};

TEST_F(ControlTest, KnobsOfTheUnitComeFirstThenWhatIsOutside) {
    EXPECT_THAT(namesOf(controls, job),
                ElementsAre("Drive", "Level", "Guitar volume", "Pick level", "Battery", "Next box"));
    EXPECT_TRUE(named("Level").isOfUnit(job.stock));
    EXPECT_FALSE(named("Guitar volume").isOfUnit(job.stock));
    EXPECT_FALSE(named("Battery").isOfUnit(job.stock));
}

// A netlist's own sources and loads stand: what the setting cannot reach has no dial.
TEST_F(ControlTest, ACircuitWithoutBatteryOrNextBoxHasNoDialsForThem) {
    job.stock.ports.battery.clear();
    job.stock.ports.load.clear();
    EXPECT_THAT(namesOf(controlsOf(job.stock), job), ElementsAre("Drive", "Level", "Guitar volume", "Pick level"));
}

// Demo figures: drive 5 is 37k5 of a 250k log track of 15 %, level 5 is 7k5 of 50k.
TEST_F(ControlTest, AKnobSaysWhatItsTrackLeavesInThePath) {
    EXPECT_EQ(faceOf("Drive").value, "5.0");
    EXPECT_EQ(faceOf("Drive").hint, "37k5 of 250k log");
    EXPECT_EQ(faceOf("Level").hint, "7k5 of 50k log");
    EXPECT_EQ(faceOf("Guitar volume").hint, "250k of 250k linear");
    EXPECT_DOUBLE_EQ(faceOf("Drive").travel, 0.5);
    EXPECT_DOUBLE_EQ(faceOf("Guitar volume").travel, 1.0);
}

TEST_F(ControlTest, AKnobAtItsEndLeavesNothing) {
    const Control& drive = named("Drive");
    const auto turned = drive.turned(job, 0.0);
    ASSERT_TRUE(turned);
    EXPECT_EQ(drive.face(*turned).hint, "0 of 250k log");
}

// A rheostat whose wiper stands on the bottom uses the other half of its track.
TEST_F(ControlTest, ARheostatIsReadOnTheSideThatIsNotBridged) {
    Part& pot = *findPart(job.stock, "vr1");
    pot.taper = Taper::linear;
    pot.nets = {"rf", "o1", "o1"};
    EXPECT_EQ(faceOf("Drive").hint, "125k of 250k linear");
    job.setting.knobs["drive"] = 2.0;
    EXPECT_EQ(faceOf("Drive").hint, "200k of 250k linear");
}

// 100 mV peak of a sine is 0.0707 V RMS, 20 log10 of it −23.0 dBV.
TEST_F(ControlTest, OutsideControlsShowTheirUnits) {
    EXPECT_EQ(faceOf("Pick level").value, "100 mVpk");
    EXPECT_EQ(faceOf("Pick level").hint, "−23.0 dBV RMS");
    EXPECT_EQ(faceOf("Battery").value, "9.00 V");
    EXPECT_EQ(faceOf("Battery").hint, "flat 7.20 V");
    EXPECT_EQ(faceOf("Next box").value, "1 MΩ");
}

TEST_F(ControlTest, KnobStepsAreTenthsHalvesAndWholes) {
    const Control& drive = named("Drive");
    EXPECT_DOUBLE_EQ(drive.stepped(job, 1, DialStep::fine), 5.1);
    EXPECT_DOUBLE_EQ(drive.stepped(job, -1, DialStep::normal), 4.5);
    EXPECT_DOUBLE_EQ(drive.stepped(job, 2, DialStep::coarse), 7.0);
    EXPECT_DOUBLE_EQ(drive.stepped(job, 20, DialStep::coarse), 10.0);
    EXPECT_DOUBLE_EQ(drive.stepped(job, -20, DialStep::coarse), 0.0);
}

// E3 (IEC 60063): 1.0, 2.2, 4.7; E12 next above 1.0 is 1.2.
TEST_F(ControlTest, TheNextBoxWalksPreferredResistances) {
    const Control& box = named("Next box");
    EXPECT_NEAR(box.stepped(job, 1, DialStep::normal), 2.2e6, 1.0);
    EXPECT_NEAR(box.stepped(job, -1, DialStep::normal), 470e3, 1.0);
    EXPECT_NEAR(box.stepped(job, 1, DialStep::fine), 1.2e6, 1.0);
    EXPECT_NEAR(box.stepped(job, -1, DialStep::coarse), 100e3, 1.0);
    EXPECT_NEAR(box.stepped(job, 50, DialStep::normal), 10e6, 1.0);
    EXPECT_NEAR(box.stepped(job, -50, DialStep::normal), 10e3, 1.0);
}

TEST_F(ControlTest, TypedTextIsReadInTheDialsUnit) {
    EXPECT_DOUBLE_EQ(*named("Drive").read("4,2"), 4.2);
    EXPECT_DOUBLE_EQ(*named("Pick level").read("50"), 0.05);
    EXPECT_DOUBLE_EQ(*named("Pick level").read("50 mVpk"), 0.05);
    EXPECT_DOUBLE_EQ(*named("Pick level").read("0.2 V"), 0.2);
    EXPECT_DOUBLE_EQ(*named("Battery").read("7.2 V"), 7.2);
    EXPECT_DOUBLE_EQ(*named("Next box").read("470k"), 470e3);
}

// 100 mV peak: -23.0 dBV, -20.8 dBu; 50 mV RMS are 70.7 mV peak; 0 dBu is 1.095 V peak (ITU-R BS.645-2).
TEST_F(ControlTest, ThePickLevelIsSaidAndReadInTheUnitOfLevels) {
    LevelUnits::current().setUnit(LevelUnit::dbu);
    EXPECT_EQ(faceOf("Pick level").value, "−20.8 dBu");
    EXPECT_EQ(faceOf("Pick level").hint, "100 mVpk");
    EXPECT_NEAR(*named("Pick level").read("0"), 1.0954, 1e-4);
    EXPECT_NEAR(*named("Pick level").read("−20.8"), 0.0999, 1e-4);
    EXPECT_DOUBLE_EQ(*named("Pick level").read("50 mVpk"), 0.05) << "a unit that is typed counts";
    EXPECT_NEAR(*named("Pick level").read("-23 dBV"), 0.1001, 1e-4);
    EXPECT_DOUBLE_EQ(*named("Pick level").read("0.2 V"), 0.2);
    LevelUnits::current().setUnit(LevelUnit::millivoltsRms);
    EXPECT_EQ(faceOf("Pick level").value, "71 mVrms");
    EXPECT_NEAR(*named("Pick level").read("50"), 0.0707, 1e-4);
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
}

TEST_F(ControlTest, WhatCannotBeReadIsQuoted) {
    for (const char* name : {"Drive", "Pick level", "Battery", "Next box"}) {
        const auto reading = named(name).read("loud");
        ASSERT_FALSE(reading) << name;
        EXPECT_THAT(reading.error().message, testing::HasSubstr("loud")) << name;
    }
    EXPECT_FALSE(named("Drive").read("11"));
    EXPECT_FALSE(named("Drive").read("-1"));
    EXPECT_FALSE(named("Battery").read(""));
}

TEST_F(ControlTest, AnImpossibleBatteryIsRefusedByTheSetting) {
    EXPECT_FALSE(named("Battery").turned(job, 0.0));
    EXPECT_TRUE(named("Battery").turned(job, 18.0));
}

// A valve stage's 269.4 V were called a battery that is flat at 215.52 V, and a turn of the wheel moved them by 0.1 V.
TEST_F(ControlTest, AValveStagesSupplyIsNoBattery) {
    findPart(job.stock, job.stock.ports.battery)->value = 269.4;
    job.setting.batteryVolts = 269.4;
    const Control& supply = *controls.at(4);
    EXPECT_EQ(supply.face(job).name, "Supply");
    EXPECT_EQ(supply.face(job).value, "269.40 V");
    EXPECT_EQ(supply.face(job).hint, "low mains 242.46 V");
    EXPECT_DOUBLE_EQ(supply.stepped(job, 1, DialStep::normal), 270.4);
    EXPECT_DOUBLE_EQ(supply.stepped(job, -1, DialStep::coarse), 264.4);
}

TEST_F(ControlTest, RestIsTheMiddleForTheUnitAndOpenForTheGuitar) {
    EXPECT_DOUBLE_EQ(named("Drive").restValue(job), 5.0);
    EXPECT_DOUBLE_EQ(named("Guitar volume").restValue(job), 10.0);
    EXPECT_DOUBLE_EQ(named("Battery").restValue(job), 9.0);
}

TEST_F(ControlTest, AnUndoStepNamesTheDialAndItsNewValue) {
    const auto turned = named("Drive").turned(job, 3.0);
    ASSERT_TRUE(turned);
    EXPECT_EQ(named("Drive").editText(*turned), "Turn Drive to 3.0");
}

}  // namespace
}  // namespace ohmwright::test
