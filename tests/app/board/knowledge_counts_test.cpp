// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/knowledge_counts.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(KnowledgeCounts, SaysHowManyPartsAreKnownHow) {
    KnowledgeCounts counts;
    counts.show({9, 17, 4});
    EXPECT_EQ(counts.words(), "9 drawn, 17 seen, 4 measured");
    EXPECT_EQ(counts.accessibleName(), "9 drawn, 17 seen, 4 measured");
    const int width = counts.sizeHint().width();
    counts.show({109, 170, 400});
    EXPECT_GT(counts.sizeHint().width(), width);
}

}  // namespace
}  // namespace ohmwright
