// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/visit_strip.h"

#include "app/look/theme.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(VisitStrip, EveryStateHasItsWords) {
    EXPECT_EQ(visitStateWords(VisitState::draft), "draft");
    EXPECT_EQ(visitStateWords(VisitState::quoted), "quoted");
    EXPECT_EQ(visitStateWords(VisitState::onBench), "on bench");
    EXPECT_EQ(visitStateWords(VisitState::proven), "proven");
    EXPECT_EQ(visitStateWords(VisitState::gone), "gone");
}

TEST(VisitStrip, SaysItsVisitToAScreenReader) {
    VisitStrip strip;
    Visit visit;
    visit.number = 2;
    visit.state = VisitState::onBench;
    strip.setVisit(visit);
    EXPECT_EQ(strip.accessibleName(), "Visit 2, on bench");
}

TEST(VisitStrip, TheCurrentStateIsMarkedByABarInInk) {
    VisitStrip strip;
    Visit visit;
    visit.state = VisitState::gone;
    strip.setVisit(visit);
    strip.resize(strip.sizeHint());
    const QImage picture = strip.grab().toImage();
    const QColor ink = Theme::current().colours().ink;
    EXPECT_EQ(picture.pixelColor(picture.width() - 20, 1), ink);
    EXPECT_NE(picture.pixelColor(10, 1), ink);
}

TEST(VisitStrip, FoldedItIsShorter) {
    VisitStrip strip;
    const int whole = strip.sizeHint().width();
    strip.setFolded(true);
    EXPECT_LT(strip.sizeHint().width(), whole / 2);
}

}  // namespace
}  // namespace ohmwright
