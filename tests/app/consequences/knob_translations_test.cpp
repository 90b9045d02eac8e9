// Where the knobs stand now. Expected positions: with A, level 5 is 4.4 (harbour-lamp's figures).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/knob_translations.h"

#include "tests/support/open_job.h"

namespace ohmwright::test {
namespace {

TEST(KnobTranslations, TheLevelsNewPlaceSaysWhatWasKeptEqual) {
    OpenJob open;
    ConsequenceService consequences{open.document, open.solver, open.shop};
    KnobTranslations panel(consequences);
    panel.resize(256, 400);
    panel.show();
    EXPECT_TRUE(shownWords(panel).contains("solving"));
    ASSERT_TRUE(open.waitForAnswers());
    ASSERT_TRUE(QTest::qWaitFor([&] { return consequences.isCurrent(); }, 120'000));
    QCoreApplication::processEvents();  // new lines are shown with the next turn of the event loop
    const QStringList words = shownWords(panel);
    const qsizetype level = words.indexOf("old Level 5.0");
    ASSERT_GE(level, 0) << words.join('|').toStdString();
    EXPECT_EQ(words[level + 1], "new 4.4");
    EXPECT_TRUE(words[level + 2].contains("equal")) << words[level + 2].toStdString();
    EXPECT_TRUE(words[level + 2].contains("82 Hz +")) << words[level + 2].toStdString();
    EXPECT_EQ(clippedWords(panel), QStringList());
}

TEST(KnobTranslations, AKnobOutOfTravelSaysWhatIsMissing) {
    KnobTranslation one;
    one.knobName = "drive";
    one.oldPosition = 5.0;
    one.outAt = TravelEnd::belowZero;
    one.keptEqualName = "level";
    one.unit = "dB";
    one.goal = -28.3;
    one.reached = -27.8;
    const auto words = translationWords({one});
    ASSERT_EQ(words.size(), 1U);
    EXPECT_EQ(words[0].now, "out of travel");
    EXPECT_EQ(words[0].detail, "level: at 0 still off by +0.50 dB");
}

TEST(KnobTranslations, WhatAHandWouldNotTurnIsLeftOut) {
    KnobTranslation one;
    one.oldPosition = 5.0;
    one.newPosition = 5.03;
    EXPECT_TRUE(translationWords({one}).empty());
}

}  // namespace
}  // namespace ohmwright::test
