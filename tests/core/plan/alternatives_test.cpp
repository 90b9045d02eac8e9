// Mods that exclude each other.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/alternatives.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Alternatives, AreTwoModsThatReplaceOnePart) {
    const Mod value{"a", "A", "", SwapValue{"c4", 120e-9}};
    const Mod other{"b", "B", "", SwapValue{"c4", 220e-9}};
    const Mod elsewhere{"c", "C", "", SwapValue{"r5", 2.7e3}};
    const Mod across{"d", "D", "", AddAcross{"c4"}};
    const Mod fitted{"e", "E", "", FitSwitch{"c4", {{"stock", {}}, {"fat", {SwapValue{"c4", 220e-9}}}}}};
    EXPECT_TRUE(areAlternatives(value, other));
    EXPECT_TRUE(areAlternatives(value, fitted)) << "in one of its throws";
    EXPECT_FALSE(areAlternatives(value, elsewhere));
    EXPECT_FALSE(areAlternatives(value, across)) << "a part across keeps the part";
}

}  // namespace
}  // namespace ohmwright
