// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/figures.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// 2 - 2 sqrt(1 - v): rises by 1 V a volt at rest, ever steeper; from 1 V peak on it has no value.
Circuit rootLaw() {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e6).v("B1", "curved", "0", 0.0).r("R3", "curved", "0", 1e3);
    Part& formula = *findPart(circuit.circuit(), "B1");
    formula.kind = PartKind::behaviouralVoltage;
    formula.law = "2-2*sqrt(1-v(in))";
    circuit.circuit().ports.output = "curved";
    circuit.circuit().stages.resize(1);
    circuit.circuit().stages[0].output = "curved";
    return circuit;
}

Setting playedAt(double volts) {
    Setting setting;
    setting.pickVoltsPeak = volts;
    setting.toneHz = 220.0;
    return setting;
}

const Figure& figureOf(const LargeSignalState& state, std::string_view id) {
    const Figure* figure = findFigure(state.figures, id);
    EXPECT_NE(figure, nullptr) << id;
    static const Figure none;
    return figure == nullptr ? none : *figure;
}

TEST(LargeSignal, ALevelThatDoesNotSettleLeavesTheOthersStanding) {
    // One level without a settled state once took the whole clip curve with it.
    const auto state = measureLargeSignal(rootLaw(), playedAt(2.0), {});
    ASSERT_TRUE(state) << state.error().message;
    EXPECT_FALSE(state->trouble.empty());
    ASSERT_EQ(state->clip.pickVoltsPeak.size(), 25U);
    // The curve as its formula says, at the right end of 0.2 V.
    EXPECT_NEAR(state->clip.positiveVolts.back(), 2.0 - 2.0 * std::sqrt(0.8), 1e-4);
    EXPECT_NEAR(state->clip.negativeVolts.back(), 2.0 - 2.0 * std::sqrt(1.2), 1e-4);
    for (const char* id : {"level", "peak_positive", "peak_negative_out", "thd", "h2", "level_slope", "dc_shift"}) {
        EXPECT_FALSE(figureOf(*state, id).value) << id;
        EXPECT_EQ(figureOf(*state, id).absence, notSettled) << id;
    }
    ASSERT_EQ(state->levelDbvAtBorder.size(), 1U);
    EXPECT_TRUE(std::isnan(state->levelDbvAtBorder[0]));
}

TEST(LargeSignal, ASlopeWithoutItsLouderLevelIsAbsentAlone) {
    // 0.9 V settles, 2 dB above it does not.
    const auto state = measureLargeSignal(rootLaw(), playedAt(0.9), {});
    ASSERT_TRUE(state) << state.error().message;
    EXPECT_FALSE(state->trouble.empty());
    ASSERT_TRUE(figureOf(*state, "peak_positive").value);
    EXPECT_NEAR(*figureOf(*state, "peak_positive").value, 2.0 - 2.0 * std::sqrt(0.1), 1e-3);
    EXPECT_TRUE(figureOf(*state, "level").value);
    EXPECT_FALSE(figureOf(*state, "level_slope").value);
    EXPECT_EQ(figureOf(*state, "level_slope").absence, notSettled);
}

TEST(LargeSignal, WhereNoLevelSettlesTheReasonIsAnError) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "0", 1e3).v("B1", "out", "0", 0.0).r("R3", "out", "0", 1e3);
    Part& formula = *findPart(circuit.circuit(), "B1");
    formula.kind = PartKind::behaviouralVoltage;
    formula.law = "sqrt(1e-9-v(in))";
    const auto state = measureLargeSignal(circuit, playedAt(0.1), {});
    ASSERT_FALSE(state);
    EXPECT_EQ(state.error().code, ErrorCode::unsolvable) << state.error().message;
    EXPECT_EQ(state.error().where, "B1");
}

}  // namespace
}  // namespace ohmwright
