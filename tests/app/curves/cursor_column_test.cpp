// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/cursor_column.h"

#include <gtest/gtest.h>
#include <QImage>
#include <QPixmap>

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

/// Where two pictures differ.
QRect differenceOf(const QImage& one, const QImage& other) {
    QRect box;
    for (int y = 0; y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            if (one.pixel(x, y) != other.pixel(x, y)) {
                box |= QRect(x, y, 1, 1);
            }
        }
    }
    return box;
}

TEST(CursorColumn, TheLastRowIsWholeWhereTextIsLargeAndTheHeightShort) {
    using Kind = ReadingRow::Kind;
    CursorReadout readout{"Cursor, pick level", "100 mVpk", {}, {}, {}, {}};
    for (const char* name : {"peak +", "peak −"}) {
        readout.rows.push_back({Kind::heading, QString::fromUtf8(name) + ", V", {}});
        readout.rows.push_back({Kind::stock, "stock", "0.24"});
        readout.rows.push_back({Kind::now, "now", "0.23"});
        readout.rows.push_back({Kind::change, "change", "−0.01"});
    }
    Theme::current().setTextScale(1.3);
    CursorColumn column;
    column.resize(column.width(), 196);
    column.setReadout(readout);
    const QImage with = column.grab().toImage();
    readout.rows.back().figure.clear();
    column.setReadout(readout);
    const QRect figure = differenceOf(with, column.grab().toImage());
    Theme::current().setTextScale(1.0);
    EXPECT_GT(figure.height(), 5) << "as high as a digit";
    EXPECT_LT(figure.bottom(), 196 - 2);
}

}  // namespace
}  // namespace ohmwright
