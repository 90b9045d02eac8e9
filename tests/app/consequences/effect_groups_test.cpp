// Words of the strip from effects made up here.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/effect_groups.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

SideEffect effect(const std::string& id, const std::string& unit, double stock, double now, double limit,
                  EffectState state) {
    SideEffect one;
    one.id = id;
    one.unit = unit;
    one.stock = stock;
    one.now = now;
    one.limit = limit;
    one.margin = limit - now;
    one.limitSource = "the house";
    one.state = state;
    one.sentence = "Sentence of " + id + ".";
    return one;
}

QString figure(const StripEntry& entry) {
    QString words;
    for (const FigureRun& run : entry.figure) {
        words += run.text;
    }
    return words;
}

TEST(EffectValue, HasThreeDigitsAndItsUnit) {
    EXPECT_EQ(effectValue(40781.0, "Hz"), "40.8 kHz");
    EXPECT_EQ(effectValue(210787.5, "Ω"), "211 kΩ");
    EXPECT_EQ(effectValue(0.0606, "V"), "0.06 V");
    EXPECT_EQ(effectValue(7.976, "µV"), "7.98 µV");
}

TEST(EffectEntries, AGroupShowsItsWorstAndTellsAll) {
    const auto entries = effectEntries({effect("resistor_load", "%", 1, 1, 50, EffectState::fine),
                                        effect("device_load", "mW", 100, 350, 300, EffectState::over),
                                        effect("capacitor_load", "%", 60, 60, 80, EffectState::fine)});
    ASSERT_EQ(entries.size(), 1U);
    EXPECT_EQ(entries[0].name, "Device load");
    EXPECT_EQ(figure(entries[0]), "100 mW → 350 mW");
    EXPECT_EQ(entries[0].smallPrint, "limit 300 mW, passed by 50.0 mW");
    EXPECT_EQ(entries[0].sign, SignKind::care);
    EXPECT_TRUE(entries[0].isWarning);
    ASSERT_EQ(entries[0].notes.size(), 3U);
    EXPECT_EQ(entries[0].notes[0].words, "Sentence of resistor_load.");
    EXPECT_EQ(entries[0].notes[1].smallPrint, "limit 300 mW, passed by 50.0 mW. Source of the limit: the house.");
}

TEST(EffectEntries, StringsThatClipEarlierAreToBeTold) {
    SideEffect low = effect("clip_onset_82", "mVpk", 101, 47, 90.0, EffectState::over);
    SideEffect high = effect("clip_onset_330", "mVpk", 26, 15.3, 23.2, EffectState::over);
    const auto entries = effectEntries({low, high});
    ASSERT_EQ(entries.size(), 1U);
    EXPECT_EQ(entries[0].name, "Strings clip earlier");
    EXPECT_EQ(figure(entries[0]), "82 Hz: 101 mVpk → 47.0 mVpk");
    EXPECT_TRUE(entries[0].isWarning);
    low.now = 101;
    high.now = 27;
    low.state = high.state = EffectState::plain;
    EXPECT_EQ(effectEntries({low, high})[0].name, "Clip onset");
    EXPECT_FALSE(effectEntries({low, high})[0].isWarning);
}

TEST(EffectEntries, WhatCouldNotBeSolvedIsNoFigure) {
    SideEffect unknown = effect("pot_dc", "mV", 0, 0, 10, EffectState::unknown);
    unknown.now.reset();
    const auto entries = effectEntries({unknown});
    EXPECT_EQ(figure(entries[0]), "not known");
    EXPECT_TRUE(entries[0].isWarning);
}

TEST(SharedEntry, SaysHowManyAndWhetherTheyAreFine) {
    StripEntry fine;
    fine.sign = SignKind::tick;
    StripEntry known;
    known.sign = SignKind::note;
    EXPECT_EQ(sharedEntry({fine, fine}).name, "2 more fine");
    EXPECT_EQ(sharedEntry({fine, known, fine}).name, "3 more, nothing to warn of");
}

}  // namespace
}  // namespace ohmwright
