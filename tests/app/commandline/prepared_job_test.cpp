// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/prepared_job.h"

#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

std::string lettersOn(const Plan& plan) {
    std::string letters;
    for (const Mod& mod : plan)
        if (mod.on) letters += mod.letter;
    return letters;
}

Request setting(const std::vector<std::string>& pairs) {
    Request request;
    request.settings = pairs;
    return request;
}

TEST(PreparedJob, AVariantSwitchesExactlyItsMods) {
    const Plan plan = test::harbourLamp().plan;
    EXPECT_EQ(lettersOn(*planOfVariant(plan, "stock")), "");
    EXPECT_EQ(lettersOn(*planOfVariant(plan, "now")), "A");
    for (const char* variant : {"A+B+C", "ABC", "c,b,a", "A B C"})
        EXPECT_EQ(lettersOn(*planOfVariant(plan, variant)), "ABC") << variant;
    EXPECT_EQ(lettersOn(*planOfVariant(plan, "D")), "D");
}

TEST(PreparedJob, ALetterPairThatIsAModIsThatMod) {
    Plan plan(3);
    plan[0].letter = "A";
    plan[1].letter = "B";
    plan[2].letter = "AB";
    for (Mod& mod : plan) mod.on = false;
    const auto chosen = planOfVariant(plan, "AB");
    ASSERT_TRUE(chosen);
    EXPECT_FALSE((*chosen)[0].on);
    EXPECT_TRUE((*chosen)[2].on);
}

TEST(PreparedJob, AnUnknownLetterIsRefusedWithTheKnownOnes) {
    const Plan plan = test::harbourLamp().plan;
    for (const char* variant : {"X", "A+X", "", "+"}) {
        const auto chosen = planOfVariant(plan, variant);
        ASSERT_FALSE(chosen) << variant;
        EXPECT_THAT(chosen.error().message, HasSubstr("--variant"));
    }
    EXPECT_THAT(planOfVariant(plan, "X").error().message, HasSubstr("A, B, C, D"));
}

TEST(PreparedJob, KnobsAndEndsAreSetByName) {
    const auto job = withSettings(test::harbourLamp(), setting({"drive=3", "Guitar volume=7.5", "battery=7.2",
                                                                "load=10k", "pick level=50m", "tone=110"}));
    ASSERT_TRUE(job) << job.error().message;
    EXPECT_DOUBLE_EQ(job->setting.knobs.at("drive"), 3.0);
    EXPECT_DOUBLE_EQ(job->setting.knobs.at("guitar"), 7.5);
    EXPECT_DOUBLE_EQ(job->setting.batteryVolts, 7.2);
    EXPECT_DOUBLE_EQ(job->setting.loadOhms, 10e3);
    EXPECT_DOUBLE_EQ(job->setting.pickVoltsPeak, 0.05);
    EXPECT_DOUBLE_EQ(job->setting.toneHz, 110.0);
}

TEST(PreparedJob, TheLastSettingOfAKnobHolds) {
    const auto job = withSettings(test::harbourLamp(), setting({"drive=3", "drive=8"}));
    ASSERT_TRUE(job);
    EXPECT_DOUBLE_EQ(job->setting.knobs.at("drive"), 8.0);
}

TEST(PreparedJob, WhatCannotBeSetIsRefused) {
    for (const char* pair : {"drive", "=3", "foo=3", "drive=", "drive=11", "drive=-1", "drive=x", "load=1m", "load=0",
                             "battery=-9", "source=tape", "tone=0", "pick-level=nan"}) {
        const auto job = withSettings(test::harbourLamp(), setting({pair}));
        ASSERT_FALSE(job) << pair;
        EXPECT_EQ(job.error().code, ErrorCode::invalidInput) << pair;
    }
}

TEST(PreparedJob, TemperatureIsInCelsius) {
    Request request;
    request.temperature = "27";
    EXPECT_DOUBLE_EQ(withSettings(test::harbourLamp(), request)->setting.temperatureKelvin, 300.15);
    request.temperature = "-10";
    EXPECT_DOUBLE_EQ(withSettings(test::harbourLamp(), request)->setting.temperatureKelvin, 263.15);
    request.temperature = "4000";
    EXPECT_FALSE(withSettings(test::harbourLamp(), request));
}

TEST(PreparedJob, InputAndOutputAreNamedPartsAndNets) {
    Request request;
    request.input = "VBAT";
    request.output = "o1";
    const auto prepared = prepareJob(test::harbourLamp(), request, "stock");
    ASSERT_TRUE(prepared) << prepared.error().message;
    EXPECT_EQ(prepared->circuit.ports.source, "vbat");
    EXPECT_EQ(prepared->circuit.ports.output, "o1");

    request.input = "C4";
    EXPECT_THAT(prepareJob(test::harbourLamp(), request, "stock").error().message, HasSubstr("no voltage source"));
    request.input.clear();
    for (const char* net : {"0", "nowhere"}) {
        request.output = net;
        EXPECT_FALSE(prepareJob(test::harbourLamp(), request, "stock")) << net;
    }
}

TEST(PreparedJob, TheJobInTheFileIsNotTouched) {
    const Job before = test::harbourLamp();
    Job job = before;
    Request request = setting({"source=jack", "drive=1"});
    request.variant = "ABC";
    ASSERT_TRUE(prepareJob(job, request, "stock"));
    EXPECT_EQ(job, before);
}

TEST(PreparedJob, APlanThatTheFileItselfCannotCarryOutIsTheFilesFault) {
    Job job = test::harbourLamp();
    job.plan.front().change = SwapValue{"no such part", 1.0};
    const auto prepared = prepareJob(job, Request(), "now");
    ASSERT_FALSE(prepared);
    EXPECT_EQ(prepared.error().code, ErrorCode::fileDamaged);
}

}  // namespace
}  // namespace ohmwright
