// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/message_band.h"

#include "app/look/theme.h"

#include <gtest/gtest.h>
#include <QPushButton>
#include <QSignalSpy>

namespace ohmwright {
namespace {

TEST(MessageBand, IsThereOnlyWithWords) {
    QWidget parent;
    MessageBand band(SignKind::care, MessageBand::Stays::untilDismissed, &parent);
    EXPECT_FALSE(band.isVisibleTo(&parent));
    band.setSentence("C4 cannot be 0 F: type a value.");
    EXPECT_TRUE(band.isVisibleTo(&parent));
    EXPECT_EQ(band.accessibleName(), "C4 cannot be 0 F: type a value.");
    band.findChild<QPushButton*>()->click();
    EXPECT_FALSE(band.isVisibleTo(&parent));
}

TEST(MessageBand, WhatStaysTrueCannotBeDismissed) {
    MessageBand band(SignKind::stop, MessageBand::Stays::whileTrue);
    EXPECT_EQ(band.findChild<QPushButton*>(), nullptr);
}

TEST(MessageBand, CareIsOchreAndStopIsOxblood) {
    for (const auto& [sign, ground] : {std::pair{SignKind::care, Theme::current().colours().warnSoft},
                                       std::pair{SignKind::stop, Theme::current().colours().stopSoft}}) {
        MessageBand band(sign, MessageBand::Stays::whileTrue);
        band.setSentence("words");
        band.resize(400, 40);
        EXPECT_EQ(band.grab().toImage().pixelColor(398, 2), ground);
    }
}

TEST(MessageBand, WhatDoesNotFitIsBehindAButtonOfItsOwn) {
    MessageBand band(SignKind::care, MessageBand::Stays::whileTrue);
    band.setSentence("3 notes on moss.cir");
    band.setMore("Show all 3");
    QSignalSpy asked(&band, &MessageBand::moreAsked);
    auto* more = band.findChild<QPushButton*>();
    ASSERT_NE(more, nullptr);
    EXPECT_EQ(more->text(), "Show all 3");
    more->click();
    EXPECT_EQ(asked.count(), 1);
    band.setMore({});
    EXPECT_FALSE(more->isVisibleTo(&band));
}

}  // namespace
}  // namespace ohmwright
