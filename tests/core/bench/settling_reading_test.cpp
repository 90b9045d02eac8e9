// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/settling_reading.h"

#include "core/plan/papers.h"
#include "tests/support/demo_job_files.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

/// A revision of Small Rooster whose R4, 560 ohms at the emitter, has a second resistor of 1k between it and ground.
test::Disguise withSplitEmitter(const Job& job) {
    test::Disguise other = test::disguised(job.stock, 41);
    Part& emitter = *findPart(other.circuit, other.parts.at("r4"));
    const std::size_t grounded = emitter.nets[0] == groundNet ? 0 : 1;
    emitter.nets[grounded] = "half";
    Part second;
    second.id = "second";
    second.reference = "R88";
    second.value = 1e3;
    second.nets = {"half", NetName(groundNet)};
    other.circuit.parts.push_back(second);
    return other;
}

// From the emitter to ground: 560 in the recipe's unit, 1k56 in this one. A junction does not open at 0.2 V.
TEST(SettlingReading, NamesTwoPlacesAndWhatEachDrawingReadsThere) {
    const Job job = test::demoJob("small-rooster");
    const test::Disguise other = withSplitEmitter(job);
    const CircuitMatch match = matchCircuits(job.stock, other.circuit);
    const PartMatch& emitter = *match.find("r4");
    ASSERT_EQ(emitter.certainty, MatchCertainty::likely) << emitter.sentence;
    EXPECT_EQ(emitter.other, other.parts.at("r4"));
    const auto reading = settlingReading(job.stock, other.circuit, emitter, job.setting);
    ASSERT_TRUE(reading) << reading.error().message;
    EXPECT_EQ(reading->unit, Unit::ohm);
    ASSERT_TRUE(reading->asInRecipe && reading->asDrawn);
    EXPECT_NEAR(*reading->asInRecipe, 560.0, 1.0);
    EXPECT_NEAR(*reading->asDrawn, 1560.0, 2.0);
    EXPECT_THAT(reading->sentence, HasSubstr("Power off and discharged"));
    EXPECT_THAT(reading->sentence, HasSubstr("560"));
}

// Two electrolytics across the supply: no meter tells one from the other.
TEST(SettlingReading, PartsAcrossEachOtherAskForALiftedLeg) {
    const Job job = test::demoJob("harbour-lamp");
    test::Disguise other = test::disguised(job.stock, 43);
    findPart(other.circuit, other.parts.at("c10"))->value = 4.7e-6;
    findPart(other.circuit, other.parts.at("c12"))->value = 3.3e-6;
    const CircuitMatch match = matchCircuits(job.stock, other.circuit);
    const auto reading = settlingReading(job.stock, other.circuit, *match.find("c10"), job.setting);
    ASSERT_TRUE(reading) << reading.error().message;
    EXPECT_THAT(reading->sentence, HasSubstr("lift one leg"));
    EXPECT_EQ(reading->red, "");
}

TEST(SettlingReading, AreGivenForTheLikelyPartsOfARecipeAlone) {
    Job job = test::demoJob("small-rooster");
    job.plan[1].on = true;
    const Recipe recipe = test::valueOrThrow(takeRecipe(job, {}));
    Job unit = job;
    unit.plan.clear();
    unit.stock = withSplitEmitter(job).circuit;
    const auto fit = fitRecipe(recipe, unit);
    ASSERT_TRUE(fit) << fit.error().message;
    EXPECT_EQ(fit->mods[0].certainty, MatchCertainty::sure) << fit->mods[0].sentence;
    EXPECT_EQ(fit->mods[1].certainty, MatchCertainty::likely) << fit->mods[1].sentence;
    EXPECT_NE(fit->mods[1].applied, "");
    const auto readings = settlingReadings(recipe, *fit);
    ASSERT_TRUE(readings) << readings.error().message;
    EXPECT_THAT(*readings, SizeIs(1));
    // Nobody prints work on a part that may be another: it is looked at first, with that reading.
    const Result<void> seen = checkSeen(fit->job);
    ASSERT_FALSE(seen);
    EXPECT_EQ(seen.error().where, fit->parts.back().match.other);
    EXPECT_TRUE(checkSeen(*markSeen(fit->job, unseenParts(fit->job))));
}

}  // namespace
}  // namespace ohmwright
