// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const std::string job = test::harbourLampPath();

TEST(MapVerb, WritesTheDrawingAsTheEndingSays) {
    const test::ScratchFolder folder;
    const std::string svg = folder.path("lamp.svg");
    EXPECT_EQ(test::answered({"map", job, "--out", svg}), "");
    // The demo's gain capacitor as it was and as mod A makes it; in print ink, which has no violet.
    EXPECT_THAT(test::bytesOf(svg), HasSubstr(">56n<"));
    EXPECT_THAT(test::bytesOf(svg), HasSubstr(">120n<"));
    EXPECT_THAT(test::bytesOf(svg), Not(HasSubstr("#4b47dc")));
    const std::string pdf = folder.path("lamp.pdf");
    EXPECT_EQ(test::answered({"map", job, "--out", pdf}), "");
    EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-"));
    const std::string png = folder.path("lamp.png");
    EXPECT_EQ(test::answered({"map", job, "--out", png}), "");
    EXPECT_THAT(test::bytesOf(png), StartsWith("\x89PNG"));
}

TEST(MapVerb, TheStockUnitIsDrawnWithoutItsMods) {
    const test::ScratchFolder folder;
    const std::string svg = folder.path("stock.svg");
    EXPECT_EQ(test::answered({"map", job, "--variant", "stock", "--out", svg}), "");
    EXPECT_THAT(test::bytesOf(svg), HasSubstr(">56n<"));
    EXPECT_THAT(test::bytesOf(svg), Not(HasSubstr(">120n<")));
}

TEST(MapVerb, AnotherEndingIsRefusedWithTheThreeThatThereAre) {
    const test::ScratchFolder folder;
    const std::string path = folder.path("lamp.txt");
    EXPECT_THAT(test::refused({"map", job, "--out", path}, ExitStatus::callWrong), HasSubstr(".svg, .pdf or .png"));
}

}  // namespace
}  // namespace ohmwright
