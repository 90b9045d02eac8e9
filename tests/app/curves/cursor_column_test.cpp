// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/cursor_column.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

std::vector<std::string> written(const CursorReading& reading) {
    std::vector<std::string> lines;
    for (const ReadingRow& row : readingRows(reading)) {
        lines.push_back((row.name + " " + row.figure).toStdString());
    }
    return lines;
}

TEST(CursorColumn, ReadsStockNowChangeThenGhostAndItsChange) {
    CursorReading reading;
    reading.stockDb = -8.27;
    reading.nowDb = -2.38;
    reading.hasGhost = true;
    reading.ghostDb = -0.71;
    EXPECT_EQ(written(reading),
              (std::vector<std::string>{"stock −8.27", "now −2.38", "change +5.89", "ghost −0.71", "change +7.56"}));
}

TEST(CursorColumn, HoldingStockLeavesOnlyStock) {
    CursorReading reading;
    reading.stockDb = -10.47;
    reading.nowDb = -4.71;
    reading.holdsStock = true;
    EXPECT_EQ(written(reading), (std::vector<std::string>{"stock −10.5"}));
}

TEST(CursorColumn, WhatIsMissingIsNoneAndNotZero) {
    EXPECT_EQ(written(CursorReading{}), (std::vector<std::string>{"stock none", "now none", "change none"}));
}

TEST(CursorColumn, TellsItsReadOutToAScreenReader) {
    CursorColumn column;
    CursorReading reading;
    reading.stockDb = -8.27;
    reading.nowDb = -2.38;
    column.setReadout(responseReadout(reading, {}));
    EXPECT_EQ(column.accessibleDescription().toStdString(),
              "open A, 110 Hz: stock −8.27 dB, now −2.38 dB, change +5.89 dB");
}

}  // namespace
}  // namespace ohmwright
