// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_stem.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(FileStem, HoldsWhatAnyDiskCan) {
    EXPECT_EQ(fileStem("Harbour Lamp: A + B", "x"), "harbour-lamp-a-b");
    EXPECT_EQ(fileStem("../../etc/passwd", "x"), "etc-passwd");
    EXPECT_EQ(fileStem("  ", "stage"), "stage");
    EXPECT_EQ(fileStem("Ω", "stage"), "stage");
    EXPECT_EQ(fileStem(std::string(200, 'a'), "x").size(), 60U);
}

}  // namespace
}  // namespace ohmwright
