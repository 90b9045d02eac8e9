// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/text.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Text, OnlyLettersOfAsciiChangeTheirCase) {
    EXPECT_EQ(inLowerCase("Vcc_2 \xC3\x84"), "vcc_2 \xC3\x84");
    EXPECT_EQ(inUpperCase("vcc_2 \xC3\xA4"), "VCC_2 \xC3\xA4");
    EXPECT_EQ(inLowerCase(""), "");
}

TEST(Text, ALineIsOneLineWhateverItHolds) {
    EXPECT_EQ(oneLine("a\r\nb\tc\x1B[31m\x7F"), "a  b c [31m ");
    EXPECT_EQ(oneLine("4\xC2\xB5"), "4\xC2\xB5");
}

}  // namespace
}  // namespace ohmwright
