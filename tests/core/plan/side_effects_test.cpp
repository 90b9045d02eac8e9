// Figures of the demos: tests/reference/harbour-lamp-figures.csv and demos/figures.csv; sums as the walk-throughs name
// them: 3 MHz/105.8 = 28 kHz, 3.3 V at 20 kHz needs 0.41 V/us.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/side_effects.h"

#include "core/plan/side_readings.h"
#include "tests/support/csv_rows.h"
#include "tests/support/demo_jobs.h"
#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

using testing::HasSubstr;

std::vector<SideEffect> effectsOf(const Job& job, bool withOnsets = false) {
    SideEffectOptions options;
    options.withOnsets = withOnsets;
    const auto effects = findSideEffects(job, options);
    EXPECT_TRUE(effects) << (effects ? "" : effects.error().message);
    return effects ? *effects : std::vector<SideEffect>();
}

SideEffect effect(const std::vector<SideEffect>& effects, const std::string& id) {
    for (const SideEffect& one : effects)
        if (one.id == id) return one;
    ADD_FAILURE() << "no effect " << id;
    return {};
}

bool has(const std::vector<SideEffect>& effects, const std::string& id) {
    return std::any_of(effects.begin(), effects.end(), [&id](const SideEffect& one) { return one.id == id; });
}

/// A row of the reference tables.
double expected(const std::string& demo, const std::string& state, const std::string& figure,
                const std::string& condition) {
    const bool isHarbour = demo == "harbour-lamp";
    for (const test::CsvRow& row : test::referenceTable(isHarbour ? "harbour-lamp-figures.csv" : "demos/figures.csv")) {
        const bool isDemo = isHarbour || row.at("demo") == demo;
        if (isDemo && row.at("state") == state && row.at("figure") == figure && row.at("condition") == condition)
            return std::stod(row.at("value"));
    }
    ADD_FAILURE() << "no row " << demo << " " << state << " " << figure << " " << condition;
    return 0.0;
}

TEST(SideEffects, HarbourLampHasTheFiguresOfItsReference) {
    const auto effects = effectsOf(test::demoJob("harbour-lamp", "ABC"), true);
    const auto holds = [&](const std::string& id, const std::string& figure, const std::string& condition) {
        const SideEffect one = effect(effects, id);
        const double stock = expected("harbour-lamp", "stock", figure, condition);
        const double now = expected("harbour-lamp", "A+B+C", figure, condition);
        EXPECT_NEAR(one.stock.value_or(0), stock, 0.005 * stock) << id;
        EXPECT_NEAR(one.now.value_or(0), now, 0.005 * now) << id;
    };
    holds("input_impedance", "input_impedance", "hz=1000");
    holds("noise_out", "noise_out", "band_hz=20 20000");
    holds("supply_current", "supply_current", "");
    holds("clip_onset_82", "clip_onset", "hz=82.41;thd_percent=1");
}

// The clip stage's plateau gain at full drive: 1 + 283k/2k7 = 105.8, stock 1 + 283k/3k9 = 73.6.
TEST(SideEffects, SpeedIsHeldAgainstTheHighestGainOfTheKnobs) {
    const auto effects = effectsOf(test::demoJob("harbour-lamp", "AC"));
    const SideEffect bandwidth = effect(effects, "bandwidth");
    EXPECT_NEAR(*bandwidth.now, 3e6 / 105.8, 50);
    EXPECT_NEAR(*bandwidth.stock, 3e6 / 73.56, 100);
    EXPECT_EQ(bandwidth.state, EffectState::fine);
    const SideEffect slew = effect(effects, "slew");
    EXPECT_NEAR(*slew.now, 0.41, 0.2);  // at the rails of this job, which are a little under 3.3 V
    EXPECT_NEAR(*slew.limit, 13.0, 1e-6);
    // An op-amp of 1 MHz would do 9.5 kHz.
    Job slow = test::demoJob("harbour-lamp", "AC");
    for (Model& model : slow.stock.models)
        if (model.name == "TL072") model.parameters["GBW"] = 1e6;
    const SideEffect flagged = effect(effectsOf(slow), "bandwidth");
    EXPECT_NEAR(*flagged.now, 9.45e3, 50);
    EXPECT_EQ(flagged.state, EffectState::over);
    EXPECT_THAT(flagged.sentence, HasSubstr("passed by"));
}

// Level 10, all of A, B and C: +0.60 V at the output against the next grid's 1.2 V, 6 dB left.
TEST(SideEffects, TheNextStagesThresholdIsNotReached) {
    Job job = test::demoJob("harbour-lamp", "ABC");
    job.setting.knobs["level"] = 10;
    const SideEffect peak = effect(effectsOf(job), "next_stage_peak");
    EXPECT_NEAR(*peak.now, 0.60, 0.006);
    EXPECT_NEAR(*peak.margin, 0.60, 0.006);
    EXPECT_EQ(peak.state, EffectState::fine);
}

// The input corner moves from 1030 to 1863 Hz by the emitter mod alone: the gain mod eats the bass.
TEST(SideEffects, SmallRoostersGainModMovesItsInputCorner) {
    const auto effects = effectsOf(test::demoJob("small-rooster", "BC"));
    const SideEffect corner = effect(effects, "input_corner");
    EXPECT_NEAR(*corner.stock, expected("small-rooster", "stock", "input_corner_tag", ""), 5.0);
    EXPECT_NEAR(*corner.now, expected("small-rooster", "B", "input_corner_tag", ""), 9.0);
    EXPECT_EQ(corner.part, "c1");
    EXPECT_EQ(corner.state, EffectState::over);
    EXPECT_THAT(corner.sentence, HasSubstr("moves up"));
    // Not so when Cin is changed along with it.
    EXPECT_EQ(effect(effectsOf(test::demoJob("small-rooster", "A")), "input_corner").state, EffectState::fine);
}

TEST(SideEffects, AFlatBatteryShiftsTheCollector) {
    const SideEffect rooster = effect(effectsOf(test::demoJob("small-rooster")), "flat_battery_bias");
    EXPECT_NEAR(*rooster.now, 100.0 * (4.38 / 7.2 - 0.5), 0.1);
    const SideEffect moss = effect(effectsOf(test::demoJob("moss-engine", "A")), "flat_battery_bias");
    EXPECT_NEAR(*moss.now, 100.0 * (0.5 - 3.01 / 7.2), 0.2);
    EXPECT_EQ(moss.part, "q2");
}

TEST(SideEffects, PaperBoatsOutputImpedanceIsItsReferences) {
    const SideEffect output = effect(effectsOf(test::demoJob("paper-boat")), "output_impedance");
    const double ohms = expected("paper-boat", "stock", "output_impedance", "hz=1000");
    EXPECT_NEAR(*output.now, ohms, 0.005 * ohms);
    Job loaded = test::demoJob("paper-boat");
    loaded.setting.loadOhms = 10e3;
    EXPECT_EQ(effect(effectsOf(loaded), "output_impedance").state, EffectState::over);
}

TEST(SideEffects, RailsAndDevicesAreWatched) {
    const auto effects = effectsOf(test::demoJob("harbour-lamp"));
    // Peaks of 0.36 V where the rails are some 2.5 to 3.3 V off.
    EXPECT_GT(*effect(effects, "rail_room").now, 2.0);
    EXPECT_LT(*effect(effects, "rail_room").now, 3.3);
    Job loud = test::demoJob("harbour-lamp");
    loud.setting.pickVoltsPeak = 5.0;
    EXPECT_LT(*effect(effectsOf(loud), "rail_room").now, 0.5);
    EXPECT_TRUE(has(effects, "pot_dc"));
    EXPECT_TRUE(has(effects, "resistor_load"));
    EXPECT_TRUE(has(effects, "capacitor_load"));
    EXPECT_FALSE(has(effectsOf(test::demoJob("small-rooster")), "rail_room")) << "it has no op-amp";
}

// 5 uA of leakage into a 100k pot is 0.5 V: a leaky coupling capacitor shows.
TEST(SideEffects, ALeakyCouplingCapacitorPutsDcOnThePot) {
    Job job = test::demoJob("small-rooster");
    EXPECT_LT(*effect(effectsOf(job), "pot_dc").now, 1.0);
    const Part& coupling = *findPart(job.stock, "c2");
    Part leak;
    leak.id = leak.reference = "rleak";
    leak.value = 1e6;
    leak.nets = coupling.nets;
    job.stock.parts.push_back(leak);
    const SideEffect pot = effect(effectsOf(job), "pot_dc");
    EXPECT_GT(*pot.now, 100.0);
    EXPECT_EQ(pot.state, EffectState::over);
    EXPECT_EQ(pot.part, "vr1");
}

TEST(SideEffects, EveryLimitSaysWhereItComesFrom) {
    for (const char* demo :
         {"harbour-lamp", "quarry-bell", "small-rooster", "moss-engine", "paper-boat", "night-ferry", "three-hills"}) {
        for (const SideEffect& one : effectsOf(test::demoJob(demo, "ABCD"))) {
            EXPECT_FALSE(one.sentence.empty()) << demo << " " << one.id;
            EXPECT_EQ(one.limit.has_value(), !one.limitSource.empty()) << demo << " " << one.id;
            if (one.limit && one.now) {
                EXPECT_TRUE(one.margin) << demo << " " << one.id;
            }
            EXPECT_NE(one.state, EffectState::unknown) << demo << " " << one.id << " " << one.sentence;
        }
    }
}

TEST(SideEffects, RatingsAreReadFromTheBuild) {
    Part part;
    part.build = "film, 5 mm, 63 V";
    EXPECT_EQ(ratedVolts(part), 63.0);
    EXPECT_FALSE(ratedWatts(part));
    part.build = "metal film, 0.5 W, 350 V";
    EXPECT_EQ(ratedWatts(part), 0.5);
    EXPECT_EQ(ratedVolts(part), 350.0);
    part.build = "Vishay-like body, V2";
    EXPECT_FALSE(ratedVolts(part));
}

TEST(SideEffects, StopsWhenAsked) {
    std::stop_source source;
    source.request_stop();
    const auto effects = findSideEffects(test::demoJob("harbour-lamp", "A"), {}, source.get_token());
    ASSERT_FALSE(effects);
    EXPECT_EQ(effects.error().code, ErrorCode::cancelled);
}

// A diode from the collector to ground, that one throw opens: its contact stands at the collector's 4.43 V of Small
// Rooster (demos/small-rooster.md, bias c) before it closes, far above the house's 50 mV.
TEST(SideEffects, ASwitchThatOpensADcPathPops) {
    Job job = test::demoJob("small-rooster");
    EXPECT_FALSE(has(effectsOf(job), "switch_pop")) << "no switch, no pop";
    const PartId pulldown = "r9";
    NewPart load;
    load.reference = "R99";
    load.id = pulldown;
    load.value = 1e6;
    const std::vector<SingleChange> joined{AddPart{job.stock.parts.front().id, load, {"c", "0"}}};
    job.plan.push_back(
        {"mod-s", "S", "Switch", FitSwitch{job.stock.parts.front().id, {{"off", {}}, {"on", joined}}}, true});
    const SideEffect pop = effect(effectsOf(job), "switch_pop");
    EXPECT_NEAR(pop.now.value_or(0), 4.43, 0.01);
    EXPECT_FALSE(pop.stock);
    EXPECT_EQ(pop.part, pulldown);
    EXPECT_EQ(pop.state, EffectState::over);
    EXPECT_THAT(pop.sentence, HasSubstr("off to on: 4.43 V at the contact of R99"));
    job.plan.back().on = false;
    EXPECT_FALSE(has(effectsOf(job), "switch_pop"));
}

// 82 Hz breaks up at 101 mVpk in stock, at 47 with A (harbour-lamp.md, clip onset): 6.6 dB earlier.
TEST(SideEffects, AStringThatClipsEarlierThanTheShopsLimitIsTold) {
    const Job job = test::demoJob("harbour-lamp", "A");
    const SideEffect onset = effect(effectsOf(job, true), "clip_onset_82");
    EXPECT_EQ(onset.state, EffectState::over);
    EXPECT_NEAR(onset.limit.value_or(0.0), 101.0 / 1.122, 0.5);  // one decibel
    SideEffectOptions patient;
    patient.limits.onsetDropDb = {8.0, "our players pick hard"};
    const auto effects = findSideEffects(job, patient);
    ASSERT_TRUE(effects) << effects.error().message;
    EXPECT_EQ(effect(*effects, "clip_onset_82").state, EffectState::plain);
}

TEST(SideEffects, ASwitchWhoseContactsRestAtOneVoltageDoesNotPop) {
    const SideEffect pop = effect(effectsOf(test::demoJob("quarry-bell", "D")), "switch_pop");
    EXPECT_LT(pop.now.value_or(1.0), 0.001);
    EXPECT_EQ(pop.state, EffectState::fine);
}

TEST(SideEffects, ASentenceIsAskedForWholeAndItsNameBeginsItInEveryLanguage) {
    const test::Spoken german{
        {"input corner (tag)", "eingangsecke (Anhänger)"},
        {"%1 at %2", "%1, Bauteil %2"},
        {"%1 moves up, %2: the plan takes bass away here.", "Hier nimmt der Plan Bass weg (%2): %1 steigt."}};
    const SideEffect corner = effect(effectsOf(test::demoJob("small-rooster", "BC")), "input_corner");
    EXPECT_THAT(corner.sentence, testing::MatchesRegex("Hier nimmt der Plan Bass weg .*Hz.: "
                                                       "Eingangsecke .Anhänger., Bauteil C1.* steigt[.]"));
}

TEST(SideEffects, ALimitIsSaidInTheLanguageAndKeptInEnglish) {
    const SideEffectLimits limits;
    const test::Spoken german{{"house figure, common practice, no source", "Hauswert, übliche Praxis, ohne Quelle"}};
    const SideEffect dc = effect(effectsOf(test::demoJob("harbour-lamp", "A")), "supply_current");
    EXPECT_EQ(dc.limitSource, "Hauswert, übliche Praxis, ohne Quelle");
    EXPECT_EQ(limits.supplyMilliamperes.source, "house figure, common practice, no source");
}

}  // namespace
}  // namespace ohmwright
