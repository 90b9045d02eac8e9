// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/check_rows.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Check checkOf(CheckKind kind, const std::string& red, const std::string& black) {
    Check check;
    check.kind = kind;
    check.red.words = red;
    check.black.words = black;
    return check;
}

TEST(CheckRows, OneRowAKindInTheOrderOfWork) {
    Check ohms = checkOf(CheckKind::ohms, "leg 2", "ground");
    ohms.expected = {3700.0, 3900.0, 4100.0};
    const auto rows =
        checkRows({checkOf(CheckKind::tone, "", ""), ohms, checkOf(CheckKind::beep, "leg 1", "U1 pin 2"),
                   checkOf(CheckKind::beep, "leg 2", "R5"), checkOf(CheckKind::silence, "leg 1", "leg 2")});
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_EQ(rows[0].word.toStdString(), "beeps");
    EXPECT_EQ(rows[0].words.toStdString(), "leg 1 to U1 pin 2");
    EXPECT_EQ(rows[1].words.toStdString(), "leg 1 to leg 2");
    EXPECT_EQ(rows[2].word.toStdString(), "ohms");
    EXPECT_TRUE(rows[2].words.startsWith("leg 2 to ground, 3.7")) << rows[2].words.toStdString();
}

}  // namespace
}  // namespace ohmwright
