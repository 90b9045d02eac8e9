// V and I cards. Expected values are the file's own arithmetic; shapes after Nagel, UCB/ERL M520 (1975).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "netlist_text.h"

#include <numbers>

namespace ohmwright {
namespace {

Part sourceOf(const std::string& words) {
    return partOf(sound("V1 a 0 " + words + "\nR1 a 0 1k\n"), "V1");
}

TEST(NetlistSources, ValuesInAnyOrder) {
    struct Case {
        const char* words;
        double dc, ac, degrees;
    };
    constexpr Case cases[] = {
        {"5", 5, 0, 0},
        {"-5", -5, 0, 0},
        {"+5", 5, 0, 0},
        {"DC 5", 5, 0, 0},
        {"dc=5", 5, 0, 0},
        {"AC 1", 0, 1, 0},
        {"AC", 0, 1, 0},
        {"ac=2", 0, 2, 0},
        {"AC 2 90", 0, 2, 90},
        {"DC 0 AC 1", 0, 1, 0},
        {"AC 1 DC 9", 9, 1, 0},
        {"9 AC 1 -45", 9, 1, -45},
        {"{3*3} AC {1/2}", 9, 0.5, 0},
        {"'3*3'", 9, 0, 0},
        {"AC 1 0 5", 5, 1, 0},
        {"SIN(0 1 1k) 5 AC 1", 5, 1, 0},
        {"AC 1 SIN(0 1 1k) DC 5", 5, 1, 0},
    };
    for (const Case& one : cases) {
        const Part part = sourceOf(one.words);
        EXPECT_DOUBLE_EQ(part.value, one.dc) << one.words;
        EXPECT_DOUBLE_EQ(part.acAmplitude, one.ac) << one.words;
        EXPECT_DOUBLE_EQ(part.acDegrees, one.degrees) << one.words;
    }
}

TEST(NetlistSources, ASineWithAllItsNumbers) {
    for (const char* words : {"SIN(0.5 2 1k 1m 100 30)", "sin 0.5 2 1k 1m 100 30", "SINE (0.5, 2, 1k, 1m, 100, 30)"}) {
        const Part part = sourceOf(words);
        ASSERT_TRUE(part.wave.has_value()) << words;
        EXPECT_EQ(part.wave->shape, SourceWave::Shape::sine);
        EXPECT_DOUBLE_EQ(part.wave->low, 0.5);
        EXPECT_DOUBLE_EQ(part.wave->high, 2.0);
        EXPECT_DOUBLE_EQ(part.wave->hertz, 1000.0);
        EXPECT_DOUBLE_EQ(part.wave->delay, 1e-3);
        EXPECT_DOUBLE_EQ(part.wave->damping, 100.0);
        EXPECT_DOUBLE_EQ(part.wave->degrees, 30.0);
        EXPECT_NEAR(part.value, 0.5 + 2.0 * 0.5, 1e-12);  // sin 30 degrees is a half.
    }
}

TEST(NetlistSources, ThePulseWithAllItsNumbers) {
    const Part part = sourceOf("PULSE(1 5 1m 2m 3m 4m 20m)");
    ASSERT_TRUE(part.wave.has_value());
    EXPECT_EQ(part.wave->shape, SourceWave::Shape::pulse);
    EXPECT_DOUBLE_EQ(part.wave->low, 1.0);
    EXPECT_DOUBLE_EQ(part.wave->high, 5.0);
    EXPECT_DOUBLE_EQ(part.wave->delay, 1e-3);
    EXPECT_DOUBLE_EQ(part.wave->rise, 2e-3);
    EXPECT_DOUBLE_EQ(part.wave->fall, 3e-3);
    EXPECT_DOUBLE_EQ(part.wave->width, 4e-3);
    EXPECT_DOUBLE_EQ(part.wave->period, 20e-3);
    EXPECT_DOUBLE_EQ(part.value, 1.0);
    EXPECT_GT(sourceOf("PULSE(0 1)").wave->width, 1e9);
}

TEST(NetlistSources, BiasIsTheDcValueOrElseTheWaveAtTheStart) {
    EXPECT_DOUBLE_EQ(sourceOf("SIN(3 1 1k)").value, 3.0);
    EXPECT_DOUBLE_EQ(sourceOf("DC 1 SIN(3 1 1k)").value, 1.0);
    EXPECT_DOUBLE_EQ(sourceOf("PULSE(2 4)").value, 2.0);
    EXPECT_DOUBLE_EQ(sourceOf("AC 1").value, 0.0);
}

TEST(NetlistSources, NoValueIsZeroAndSaid) {
    const Netlist netlist = sound("V1 a 0\nR1 a 0 1\n");
    EXPECT_DOUBLE_EQ(partOf(netlist, "V1").value, 0.0);
    EXPECT_TRUE(hasNote(netlist, 2, "taken as 0"));
    EXPECT_FALSE(hasNote(sound("V1 a 0 AC 1\nR1 a 0 1\n"), 2, "taken as 0"));
}

}  // namespace
}  // namespace ohmwright
