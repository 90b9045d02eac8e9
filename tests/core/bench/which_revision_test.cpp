// Figures of Small Rooster: base 1.12, emitter 0.46, collector 4.43 V (the demo's own reference figures); 56k reads
// 56.0k with the rail open and 47.9k, 56k across 330k, where the supply is a short for direct current.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/which_revision.h"

#include "core/bench/meter.h"
#include "tests/support/demo_job.h"
#include "tests/support/disguise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

RevisionCandidate roosterAs(const std::string& name) {
    RevisionCandidate candidate = candidateOf(test::jobIn(test::demoJobPath("small-rooster")));
    candidate.name = name;
    return candidate;
}

RevisionCandidate with(RevisionCandidate candidate, const PartId& part, double value) {
    findPart(candidate.circuit, part)->value = value;
    return candidate;
}

/// Other names, other order, some parts turned round: the drawing of another hand.
RevisionCandidate drawnByAnother(RevisionCandidate candidate, std::uint32_t seed) {
    candidate.circuit = test::disguised(candidate.circuit, seed).circuit;
    candidate.setting.knobs.clear();
    return candidate;
}

/// As the meter shows the demo: three pins and its base resistor.
std::vector<SpotReading> readOfRooster() {
    return {{"Q1 base", "", Unit::volt, 1.12},
            {"Q1 emitter", "", Unit::volt, 0.46},
            {"Q1 collector", "", Unit::volt, 4.43},
            {"R2 leg 1", "R2 leg 2", Unit::ohm, 56e3}};
}

RevisionRanking ranked(const std::vector<RevisionCandidate>& candidates, const std::vector<SpotReading>& readings) {
    const Result<RevisionRanking> ranking = whichRevision(candidates, readings);
    EXPECT_TRUE(ranking) << (ranking ? "" : ranking.error().message);
    return ranking ? *ranking : RevisionRanking{};
}

TEST(WhichRevision, TheBaseResistorInCircuitReadsAsTheRailIs) {
    const RevisionCandidate rooster = roosterAs("rev 4");
    const auto open = ProbedBoard(rooster.circuit, rooster.setting, SupplyEnd::out).ohms("b", "0");
    const auto shorted = ProbedBoard(rooster.circuit, rooster.setting, SupplyEnd::shorted).ohms("b", "0");
    ASSERT_TRUE(open && open->value && shorted && shorted->value);
    EXPECT_NEAR(*open->value, 56.0e3, 0.05e3);
    EXPECT_NEAR(*shorted->value, 47.9e3, 0.05e3);
    const RevisionRanking ranking = ranked({rooster}, readOfRooster());
    EXPECT_NEAR(*ranking.fits[0].spots[3].expected, 56.0e3, 0.05e3);
    EXPECT_TRUE(ranking.isLikely);
    EXPECT_LT(ranking.fits[0].misfit, 0.1);
    // Best of one is no praise.
    EXPECT_EQ(ranking.sentence.find("best"), std::string::npos) << ranking.sentence;
    EXPECT_EQ(ranking.sentence.find("rev 4 is the only drawing here: misfit"), 0U) << ranking.sentence;
}

// A revision with 33k under the base: about 0.7 V there instead of 1.12 V, and 33k on the ohmmeter.
TEST(WhichRevision, TheDrawingThatReadsSoComesFirstWhicheverIsTheOpenOne) {
    const RevisionCandidate right = roosterAs("right");
    const RevisionCandidate other = with(roosterAs("other"), "r2", 33e3);
    for (const auto& [candidates, best] :
         {std::pair{std::vector{right, other}, std::size_t(0)}, std::pair{std::vector{other, right}, std::size_t(1)}}) {
        const RevisionRanking ranking = ranked(candidates, readOfRooster());
        EXPECT_EQ(ranking.fits.front().candidate, best);
        EXPECT_TRUE(ranking.isSeparated);
        EXPECT_FALSE(ranking.further);
        EXPECT_THAT(ranking.sentence, HasSubstr("right fits best"));
        EXPECT_THAT(ranking.fits[1].spots[3].sentence, HasSubstr("56.0 kΩ read, 33.0 kΩ expected"));
        EXPECT_GT(ranking.fits[1].spots[3].pull, separatingMisfit);
    }
}

TEST(WhichRevision, PlacesAreFoundUnderOtherNames) {
    const RevisionCandidate open = with(roosterAs("open"), "r2", 33e3);
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        const RevisionRanking ranking = ranked({open, drawnByAnother(roosterAs("stored"), seed)}, readOfRooster());
        EXPECT_EQ(ranking.fits.front().candidate, 1u) << seed;
        EXPECT_LT(ranking.fits.front().misfit, 0.1) << seed;
        for (const SpotFit& spot : ranking.fits.front().spots) {
            EXPECT_TRUE(spot.isThere) << seed;
        }
    }
}

// Volts at the transistor say nothing of the level pot's value: the ohmmeter does.
TEST(WhichRevision, ThoseThatReadAlikeAreSaidWithTheReadingThatTells) {
    std::vector<SpotReading> volts = readOfRooster();
    volts.pop_back();
    const RevisionRanking ranking =
        ranked({roosterAs("100k level"), with(roosterAs("500k level"), "vr1", 500e3)}, volts);
    EXPECT_FALSE(ranking.isSeparated);
    EXPECT_THAT(ranking.sentence, HasSubstr("500k level (0.00) is not told apart from it by these readings."));
    ASSERT_TRUE(ranking.further);
    EXPECT_EQ(ranking.further->unit, Unit::ohm);
    ASSERT_TRUE(ranking.further->best && ranking.further->second);
    EXPECT_GT(std::abs(*ranking.further->best - *ranking.further->second), 10e3);
    EXPECT_THAT(ranking.sentence, HasSubstr("Power off and discharged, read ohms from"));
}

// A capacitor's value is nothing that volts at rest or ohms tell.
TEST(WhichRevision, WhatNoMeterTellsIsSaid) {
    const RevisionRanking ranking = ranked({roosterAs("4n7"), with(roosterAs("10n"), "c1", 10e-9)}, readOfRooster());
    EXPECT_FALSE(ranking.isSeparated);
    EXPECT_FALSE(ranking.further);
    EXPECT_THAT(ranking.sentence, HasSubstr("No reading of volts or ohms would do it: compare what is printed."));
}

TEST(WhichRevision, ABoardThatIsNoneOfThemIsSaidToBe) {
    std::vector<SpotReading> read = readOfRooster();
    read[2].value = 8.9;
    read[1].value = 0.02;
    const RevisionRanking ranking = ranked({roosterAs("rev 4")}, read);
    EXPECT_FALSE(ranking.isLikely);
    EXPECT_THAT(ranking.sentence, HasSubstr("explains them badly"));
}

// Seven readings of a board stay under 14.067 / 1.96² in 95 % of cases (NIST table of chi-square): 3.66, where seven
// half bands squared used to be taken for likely.
TEST(WhichRevision, LikelyIsWhatNineteenOfTwentyBoardsRead) {
    EXPECT_NEAR(likelyMisfit(1), 1.0, 0.001);
    EXPECT_NEAR(likelyMisfit(7), 3.66, 0.01);
    const RevisionRanking near = ranked({roosterAs("rev 4")}, readOfRooster());
    std::vector<SpotReading> read = readOfRooster();
    for (std::size_t k = 0; k < read.size(); ++k) {
        read[k].value = near.fits[0].spots[k].high;
    }
    // Each at the edge of its band, all on one side: a misfit of four where 9.488 / 1.96² = 2.47 is likely.
    const RevisionRanking edge = ranked({roosterAs("rev 4")}, read);
    EXPECT_NEAR(edge.fits[0].misfit, 4.0, 0.01);
    EXPECT_FALSE(edge.isLikely);
}

// A place that a drawing has not makes it unlikely with up to 22 readings (33.924 / 1.96² = 8.83, NIST table).
TEST(WhichRevision, APlaceThatIsNotThereIsUnlikelyWithTwentyTwoReadings) {
    EXPECT_GT(absentPull * absentPull, likelyMisfit(22));
    EXPECT_LT(absentPull * absentPull, likelyMisfit(23));
}

// One stored job without figures stopped the whole question, and the job that was asked about was blamed.
TEST(WhichRevision, ADrawingWithoutFiguresIsLeftOutAndNamed) {
    RevisionCandidate broken = roosterAs("broken");
    findPart(broken.circuit, "q1")->model = "no such type";
    const RevisionRanking ranking = ranked({roosterAs("right"), broken}, readOfRooster());
    ASSERT_EQ(ranking.fits.size(), 1u);
    ASSERT_EQ(ranking.leftOut.size(), 1u);
    EXPECT_THAT(ranking.leftOut[0], testing::StartsWith("broken is left out: "));
    EXPECT_FALSE(whichRevision({broken, roosterAs("right")}, readOfRooster()));
}

TEST(WhichRevision, EveryPlaceThatIsOfferedIsUnderstood) {
    for (const std::string& demo : test::allDemos()) {
        const Circuit stock = test::jobIn(test::demoJobPath(demo)).stock;
        const std::vector<std::string> names = spotNames(stock);
        EXPECT_GT(names.size(), 10u);
        for (const std::string& name : names) {
            EXPECT_TRUE(netOfSpot(stock, name)) << demo << ": " << name;
        }
    }
    EXPECT_EQ(spotNames(roosterAs("").circuit).front(), "Q1 collector");
}

TEST(WhichRevision, PlacesAreNamedByLegPinAndNet) {
    const Circuit rooster = roosterAs("").circuit;
    const Circuit lamp = candidateOf(test::jobIn(test::demoJobPath("harbour-lamp"))).circuit;
    EXPECT_EQ(*netOfSpot(rooster, "q1 Collector"), "c");
    EXPECT_EQ(*netOfSpot(rooster, "R2.1"), "b");
    EXPECT_EQ(*netOfSpot(rooster, "vcc"), "vcc");
    EXPECT_EQ(*netOfSpot(rooster, "Ground"), "0");
    EXPECT_EQ(*netOfSpot(lamp, "U1A pin 2"), "im");
    EXPECT_EQ(*netOfSpot(lamp, "C4 Cg leg 2"), "leg");
    for (const char* nowhere : {"", "Q7 base", "R2 leg 3", "Q1 anode"}) {
        const auto net = netOfSpot(rooster, nowhere);
        ASSERT_FALSE(net) << nowhere;
        EXPECT_THAT(net.error().message, HasSubstr("is no place of this drawing"));
    }
    EXPECT_FALSE(whichRevision({roosterAs("")}, {{"vt", "", Unit::volt, 1.0}}));
    EXPECT_FALSE(whichRevision({}, readOfRooster()));
    EXPECT_FALSE(whichRevision({roosterAs("")}, {}));
}

}  // namespace
}  // namespace ohmwright
