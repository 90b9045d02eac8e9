// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/fitting_check.h"

#include "tests/support/demo_jobs.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Mod mod(const std::string& letter, const Change& change, bool on = true) {
    return {"mod-" + letter, letter, "Mod", change, on};
}

/// Small Rooster without one of its parts.
Circuit without(Circuit circuit, const PartId& part) {
    std::erase_if(circuit.parts, [&part](const Part& each) { return each.id == part; });
    return circuit;
}

TEST(FittingCheck, NamesTheFirstModThatBreaks) {
    const Circuit stock = test::demoJob("small-rooster").stock;
    const Plan plan{mod("A", SwapValue{"c1", 1e-9}), mod("B", SwapValue{"r4", 1e3})};
    EXPECT_FALSE(newlyUnfittable(stock, stock, plan, {}));
    const auto lost = newlyUnfittable(stock, without(stock, "r4"), plan, {});
    ASSERT_TRUE(lost);
    EXPECT_EQ(lost->mod.letter, "B");
    EXPECT_NE(lost->reason.message.find("Mod B"), std::string::npos) << lost->reason.message;
}

TEST(FittingCheck, WhatBrokeBeforeIsNoNews) {
    const Circuit stock = test::demoJob("small-rooster").stock;
    const Plan plan{mod("A", SwapValue{"r99", 1e3}), mod("B", SwapValue{"r4", 1e3})};
    EXPECT_FALSE(newlyUnfittable(stock, without(stock, "c1"), plan, {}));
    EXPECT_EQ(newlyUnfittable(stock, without(stock, "r4"), plan, {})->mod.letter, "B");
}

TEST(FittingCheck, ModsThatAreOffAreNotFitted) {
    const Circuit stock = test::demoJob("small-rooster").stock;
    EXPECT_FALSE(newlyUnfittable(stock, without(stock, "r4"), {mod("B", SwapValue{"r4", 1e3}, false)}, {}));
}

TEST(FittingCheck, EveryThrowCounts) {
    const Circuit stock = test::demoJob("small-rooster").stock;
    FitSwitch voice;
    voice.throws = {{"thin", {SwapValue{"c1", 1e-9}}}, {"loud", {SwapValue{"r4", 100.0}}}};
    const Plan plan{mod("A", voice)};
    EXPECT_TRUE(newlyUnfittable(stock, without(stock, "r4"), plan, {}));
    EXPECT_TRUE(newlyUnfittable(stock, without(stock, "c1"), plan, {{"mod-A", "loud"}}));
    EXPECT_FALSE(newlyUnfittable(stock, without(stock, "r5"), plan, {}));
}

}  // namespace
}  // namespace ohmwright
