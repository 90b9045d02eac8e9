// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/same_figure.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(SameFigure, IsBlindForTheLastDigitsAlone) {
    EXPECT_TRUE(isSameFigure(56e-9, 56.0 / 1e9));
    EXPECT_TRUE(isSameFigure(0.0, 0.0));
    EXPECT_TRUE(isSameFigure(-4700.0, -4700.0 * (1.0 + 1e-12)));
    EXPECT_FALSE(isSameFigure(1e6, 1e6 * (1.0 + 1e-8)));
    EXPECT_FALSE(isSameFigure(1e-12, 0.0));
    EXPECT_FALSE(isSameFigure(4700.0, -4700.0));
}

}  // namespace
}  // namespace ohmwright
