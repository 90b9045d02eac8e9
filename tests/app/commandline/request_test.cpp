// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/request.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(Request, FiguresAreReadPlainOrInTheHousesNotation) {
    EXPECT_DOUBLE_EQ(*readFigure("--tone", "82.41", Unit::hertz), 82.41);
    EXPECT_DOUBLE_EQ(*readFigure("--tone", "1k", Unit::hertz), 1000.0);
    EXPECT_DOUBLE_EQ(*readFigure("--tone", "1e3", Unit::hertz), 1000.0);
    EXPECT_DOUBLE_EQ(*readFigure("--level", "100m", Unit::volt), 0.1);
    EXPECT_DOUBLE_EQ(*readFigure("--level", "100 mV", Unit::volt), 0.1);
    EXPECT_DOUBLE_EQ(*readFigure("--temperature", "-10", Unit::none), -10.0);
    EXPECT_DOUBLE_EQ(*readFigureOr("--from", "", Unit::hertz, 20.0), 20.0);
}

TEST(Request, AFigureThatCannotBeReadNamesItsOption) {
    for (const char* text : {"", "x", "nan", "inf", "1e999", "12 apples", "--"}) {
        const auto figure = readFigure("--tone", text, Unit::hertz);
        ASSERT_FALSE(figure) << text;
        EXPECT_EQ(figure.error().code, ErrorCode::invalidInput);
        EXPECT_THAT(figure.error().message, HasSubstr("--tone")) << text;
    }
}

TEST(Request, CountsAreWholeNumbersInTheirRange) {
    EXPECT_EQ(*readCountOr("--count", "", 1, 200, 9), 9);
    EXPECT_EQ(*readCountOr("--count", "200", 1, 200, 9), 200);
    for (const char* text : {"0", "201", "-1", "3.5", "x", "99999999999"})
        EXPECT_FALSE(readCountOr("--count", text, 1, 200, 9)) << text;
}

TEST(Request, ListsAreSplitAtCommas) {
    EXPECT_THAT(*readFigureList("--at", "82.41,110,1k", Unit::hertz), ElementsAre(82.41, 110.0, 1000.0));
    EXPECT_FALSE(readFigureList("--at", "82,,110", Unit::hertz));
    EXPECT_FALSE(readFigureList("--at", "82,", Unit::hertz));
}

}  // namespace
}  // namespace ohmwright
