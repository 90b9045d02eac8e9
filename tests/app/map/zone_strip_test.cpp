// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/zone_strip.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <limits>

namespace ohmwright::test {
namespace {

/// The demo with the stage gains of its own figures table at 110 Hz, stock and with mod A.
MapState solvedDemo() {
    MapState state;
    state.job = std::make_shared<const Job>(harbourLamp());
    LinearAnswer answer;
    answer.stock.stageGainDbAtCursor = {-0.52, -0.21, 9.54, -0.3, -16.7, -0.1};
    answer.now.stageGainDbAtCursor = {-0.52, -0.21, 15.43, -0.3, -16.7, -0.1};
    state.linear = std::make_shared<const LinearAnswer>(std::move(answer));
    state.isCurrent = true;
    return state;
}

TEST(ZoneStrip, EveryStageIsNumberedAndNamed) {
    const std::vector<ZoneHead> heads = zoneHeads(solvedDemo());
    ASSERT_EQ(heads.size(), 6U);
    EXPECT_EQ(heads[0].number + ' ' + heads[0].name, "1 Source");
    EXPECT_EQ(heads[2].number + ' ' + heads[2].name, "3 Clip stage");
    EXPECT_EQ(heads[5].number + ' ' + heads[5].name, "6 Output buffer");
}

TEST(ZoneStrip, AChangedGainIsSaidStockToNowWithFrequencyAndKnob) {
    const ZoneHead head = zoneHeads(solvedDemo())[2];
    EXPECT_EQ(head.stockGain, "9.54");
    EXPECT_EQ(head.gain, "15.4 dB");
    EXPECT_EQ(head.remark, "at 110 Hz, drive 5.0");
    EXPECT_TRUE(head.hasActiveMod);
}

TEST(ZoneStrip, AnUnchangedGainIsSaidOnce) {
    const std::vector<ZoneHead> heads = zoneHeads(solvedDemo());
    EXPECT_TRUE(heads[0].stockGain.isEmpty());
    EXPECT_EQ(heads[0].gain, QString("−0.52 dB"));
    EXPECT_EQ(heads[0].remark, "guitar volume 10");
    EXPECT_FALSE(heads[3].hasActiveMod) << "D is off";
}

TEST(ZoneStrip, AGainThatCountsFromTheJackSaysSo) {
    MapState state = solvedDemo();
    state.job = std::make_shared<const Job>(jobIn(demoJobPath("moss-engine")));
    LinearAnswer answer;
    answer.stock.stageGainDbAtCursor = {-22.0, std::numeric_limits<double>::quiet_NaN(), 61.4, -0.45};
    answer.now.stageGainDbAtCursor = {-22.0, std::numeric_limits<double>::quiet_NaN(), 61.3, -0.45};
    state.linear = std::make_shared<const LinearAnswer>(std::move(answer));
    const std::vector<ZoneHead> heads = zoneHeads(state);
    EXPECT_EQ(heads[1].gain, "") << "the loop has one gain, that of both transistors";
    EXPECT_EQ(heads[2].remark, "at 110 Hz, from the jack, fuzz 10");
    EXPECT_EQ(heads[2].shortRemark, "from the jack, fuzz 10") << "said where the frequency has no room";
    EXPECT_EQ(heads[3].remark, "volume 10");
}

TEST(ZoneStrip, HoldingStockShowsStockAlone) {
    MapState state = solvedDemo();
    state.holdsStock = true;
    const ZoneHead head = zoneHeads(state)[2];
    EXPECT_TRUE(head.stockGain.isEmpty());
    EXPECT_EQ(head.gain, "9.54 dB");
    EXPECT_FALSE(head.hasActiveMod);
}

TEST(ZoneStrip, WithoutAnAnswerThereAreNoNumbers) {
    MapState state = solvedDemo();
    state.linear.reset();
    for (const ZoneHead& head : zoneHeads(state)) {
        EXPECT_TRUE(head.gain.isEmpty());
        EXPECT_TRUE(head.stockGain.isEmpty());
    }
}

TEST(ZoneStrip, AStageWithoutTwoBordersHasNoGain) {
    MapState state = solvedDemo();
    LinearAnswer answer = *state.linear;
    answer.now.stageGainDbAtCursor[2] = std::numeric_limits<double>::quiet_NaN();
    state.linear = std::make_shared<const LinearAnswer>(std::move(answer));
    EXPECT_TRUE(zoneHeads(state)[2].gain.isEmpty());
}

}  // namespace
}  // namespace ohmwright::test
