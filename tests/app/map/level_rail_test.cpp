// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/level_rail.h"

#include "app/look/level_units.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

// Levels and peaks of the demo's own figures table, 220 Hz and 100 mVpk, stock and with mod A. The first two
// borders: 95 and 93 mVpk of a sine.
MapState solvedDemo() {
    MapState state;
    state.job = std::make_shared<const Job>(harbourLamp());
    LargeSignalAnswer answer;
    answer.stock.levelDbvAtBorder = {-23.456, -23.641, -11.5, -11.52, -28.2, -28.32};
    answer.now.levelDbvAtBorder = {-23.456, -23.641, -9.4, -9.44, -26.1, -26.23};
    answer.stock.clip.pickVoltsPeak = {0.0, 0.1, 0.2};
    answer.stock.clip.positiveVolts = {0.0, 0.365, 0.5};
    answer.stock.clip.negativeVolts = {0.0, -0.365, -0.5};
    answer.now.clip.pickVoltsPeak = {0.0, 0.08, 0.12};
    answer.now.clip.positiveVolts = {0.0, 0.707, 0.731};
    answer.now.clip.negativeVolts = {0.0, -0.425, -0.449};
    state.largeSignal = std::make_shared<const LargeSignalAnswer>(std::move(answer));
    state.isCurrent = true;
    return state;
}

TEST(LevelRail, BeforeTheClipStageTheSineIsSaidInPeakMillivolts) {
    const std::vector<RailFigure> figures = railFigures(solvedDemo());
    ASSERT_EQ(figures.size(), 6U);
    EXPECT_EQ(figures[0].place, "jack");
    EXPECT_EQ(figures[0].now, "95");
    EXPECT_EQ(figures[1].place, "U1 pin 3");
    EXPECT_EQ(figures[1].now, "93");
    EXPECT_EQ(figures[1].unit, "mVpk");
    EXPECT_TRUE(figures[1].stock.isEmpty());
}

// 95.0 mV peak are 67.2 mV RMS, -23.5 dBV and -21.2 dBu (0.7746 V, ITU-R BS.645-2).
TEST(LevelRail, LevelsFollowTheUnitThatTheyAreReadIn) {
    struct Case {
        LevelUnit unit;
        const char* jack;
        const char* jackUnit;
        const char* output;
        const char* outputUnit;
        const char* pick;
    };
    for (const Case& each : {Case{LevelUnit::millivoltsPeak, "95", "mVpk", "−26.2", "dBV", "100 mVpk"},
                             Case{LevelUnit::millivoltsRms, "67", "mVrms", "49", "mVrms", "71 mVrms"},
                             Case{LevelUnit::dbv, "−23.5", "dBV", "−26.2", "dBV", "−23.0 dBV"},
                             Case{LevelUnit::dbu, "−21.2", "dBu", "−24.0", "dBu", "−20.8 dBu"}}) {
        LevelUnits::current().setUnit(each.unit);
        const std::vector<RailFigure> figures = railFigures(solvedDemo());
        EXPECT_EQ(figures[0].now, QString(each.jack));
        EXPECT_EQ(figures[0].unit, each.jackUnit);
        EXPECT_EQ(figures[5].now, QString(each.output)) << each.outputUnit;
        EXPECT_EQ(figures[5].unit, each.outputUnit);
        EXPECT_EQ(pickText(*solvedDemo().job), QString("220 Hz, %1 picked").arg(each.pick));
    }
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
}

TEST(LevelRail, TheClipStageSaysItsPeaksAtThePlayersLevel) {
    const RailFigure figure = railFigures(solvedDemo())[2];
    EXPECT_EQ(figure.place, "pin 1");
    EXPECT_EQ(figure.unit, "V");
    EXPECT_EQ(figure.now, QString("+0.72 / −0.44")) << "between two points of the curve";
    EXPECT_FALSE(figure.stock.isEmpty());
}

TEST(LevelRail, AfterItLevelsAreStockToNow) {
    const std::vector<RailFigure> figures = railFigures(solvedDemo());
    EXPECT_EQ(figures[3].stock, QString("−11.5"));
    EXPECT_EQ(figures[3].now, QString("−9.44"));
    EXPECT_EQ(figures[5].stock, QString("−28.3"));
    EXPECT_EQ(figures[5].now, QString("−26.2"));
    EXPECT_EQ(figures[5].shortUnit, "dBV");
}

TEST(LevelRail, HoldingStockShowsStockAlone) {
    MapState state = solvedDemo();
    state.holdsStock = true;
    for (const RailFigure& figure : railFigures(state)) {
        EXPECT_TRUE(figure.stock.isEmpty());
    }
    EXPECT_EQ(railFigures(state)[5].now, QString("−28.3"));
}

TEST(LevelRail, WithoutAnAnswerThereIsThePickAloneAndNoNumberIsMadeUp) {
    MapState state = solvedDemo();
    state.largeSignal.reset();
    for (const RailFigure& figure : railFigures(state)) {
        EXPECT_TRUE(figure.now.isEmpty());
    }
    EXPECT_EQ(pickText(*state.job), "220 Hz, 100 mVpk picked");
}

// The booster's and the fuzz's first zone is narrower than the pick and the jack's figure, which lay over each other.
TEST(LevelRail, AFigureWithoutRoomStandsBeforeThatOfTheNextZone) {
    RailFigure jack{"jack", "95", "85", "mVpk", ""};
    RailFigure clip{"clip node", "", "±0.19", "V", "V"};
    joinFigures(jack, clip);
    EXPECT_TRUE(jack.now.isEmpty());
    EXPECT_EQ(clip.place, QString("jack 95 → 85 mVpk, clip node"));
    EXPECT_EQ(clip.now, QString("±0.19"));

    RailFigure pin{"jack", "", "95", "mVpk", ""};
    RailFigure sameUnit{"", "", "93", "mVpk", ""};
    joinFigures(pin, sameUnit);
    EXPECT_EQ(sameUnit.place, "jack 95,");

    RailFigure first{"jack", "", "55", "mVpk", ""};
    RailFigure nothing;
    joinFigures(first, nothing);
    EXPECT_EQ(nothing.place + ' ' + nothing.now + ' ' + nothing.unit, "jack 55 mVpk");
    EXPECT_TRUE(first.now.isEmpty());
}

TEST(LevelRail, ABorderAtAnOpampsOutputNamesItsPin) {
    MapState state = solvedDemo();
    state.job = std::make_shared<const Job>(jobIn(demoJobPath("quarry-bell")));
    EXPECT_EQ(railFigures(state)[1].place, "U1 pin 1");
}

TEST(LevelRail, APlayersLevelBeyondTheCurveHasNoPeak) {
    MapState state = solvedDemo();
    Job loud = *state.job;
    loud.setting.pickVoltsPeak = 1.0;
    state.job = std::make_shared<const Job>(std::move(loud));
    EXPECT_TRUE(railFigures(state)[2].now.isEmpty());
}

}  // namespace
}  // namespace ohmwright::test
