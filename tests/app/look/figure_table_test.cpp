// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/figure_table.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QFontMetricsF>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

/// The block "This change alone" of the demo Harbour Lamp.
std::vector<FigureRow> demoRows() {
    return {{"corner", "729", "340", "Hz", {}},
            {"at 82 Hz", "−10.5", "−4.71", "dB", "+5.77"},
            {"at 1 kHz", "5.75", "7.10", "dB", "+1.35"},
            {"threshold", "±0.24", "±0.23", "V", {}},
            {"peak", "±0.36", "±0.44", "V", {}}};
}

/// Columns [px] of one row of the picture that hold the colour.
std::vector<int> columnsWith(const QImage& image, const QRect& band, const QColor& colour) {
    std::vector<int> columns;
    for (int x = band.left(); x <= band.right(); ++x) {
        for (int y = band.top(); y <= band.bottom(); ++y) {
            if (image.pixelColor(x, y) == colour) {
                columns.push_back(x);
                break;
            }
        }
    }
    return columns;
}

TEST(FigureTable, StockIsGraphiteNowIsIrisAndTheChangeIsInk) {
    const ThemeGuard guard;
    FigureTable table;
    table.setRows(demoRows());
    table.resize(276, table.sizeHint().height());
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        const QImage image = grabbedPicture("figure-table", table);
        EXPECT_GT(pixelsOf(image, c.now), 80) << themeName(kind);
        EXPECT_GT(pixelsOf(image, c.stock), 20) << themeName(kind);
        EXPECT_GT(pixelsOf(image, c.ink), 20) << themeName(kind);
        EXPECT_EQ(pixelsOf(image, c.stop) + pixelsOf(image, c.ok), 0) << "more is not better";
    }
}

TEST(FigureTable, ColumnsStandInOrderAndInsideTheWidth) {
    const FigureColumns columns = figureColumns(demoRows(), 276);
    EXPECT_GT(columns.stockPoint, 60);
    EXPECT_LT(columns.stockPoint, columns.arrow);
    EXPECT_LT(columns.arrow, columns.nowPoint);
    EXPECT_LT(columns.nowPoint, columns.unit);
    EXPECT_LT(columns.unit, columns.changePoint);
    const double fraction = QFontMetricsF(Theme::current().font(TextRole::body, true)).horizontalAdvance(".77");
    EXPECT_NEAR(columns.changePoint + fraction, 276, 0.01) << "the change column ends at the right edge";
}

TEST(FigureTable, DecimalsStandUnderEachOther) {
    // Two rows of one digit before the point and rows of two: all points in the same pixel column.
    FigureTable table;
    table.setRows({{"a", {}, "1.11", {}, {}}, {"b", {}, "11.11", {}, {}}, {"c", {}, "−1.11", {}, {}}});
    table.resize(276, table.sizeHint().height());
    const QImage image = grabbedPicture("figure-table-decimals", table);
    const QColor now = Theme::current().colours().now;
    const int height = table.height() / 3;
    const auto rightEdge = [&](int row) {
        const auto columns = columnsWith(image, QRect(0, row * height, 276, height), now);
        return columns.empty() ? -1 : columns.back();
    };
    EXPECT_GT(rightEdge(0), 0);
    EXPECT_EQ(rightEdge(0), rightEdge(1));
    EXPECT_EQ(rightEdge(0), rightEdge(2));
    // And a whole number ends where the others have their point.
    table.setRows({{"a", {}, "1.11", {}, {}}, {"b", {}, "11", {}, {}}});
    const QImage whole = grabbedPicture("figure-table-whole", table);
    const auto first = columnsWith(whole, QRect(0, 0, 276, height), now);
    const auto second = columnsWith(whole, QRect(0, height, 276, height), now);
    ASSERT_FALSE(second.empty());
    EXPECT_LT(second.back(), first.back() - 10);
}

TEST(FigureTable, NarrowTableKeepsTheLabelClearOfTheFigures) {
    const auto rows = demoRows();
    const FigureColumns columns = figureColumns(rows, 120);
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    EXPECT_GE(columns.stockPoint - metrics.horizontalAdvance("−10"), metrics.horizontalAdvance("threshold") + 7.9);
}

TEST(FigureTable, RowIsPressedByMouseAndByKeys) {
    FigureTable table;
    table.setRows(demoRows());
    table.resize(276, table.sizeHint().height());
    QSignalSpy presses(&table, &FigureTable::rowPressed);
    QTest::mouseClick(&table, Qt::LeftButton, {}, QPoint(20, 5));
    EXPECT_EQ(presses.count(), 0) << "rows are still until made pressable";
    table.setPressable(true);
    QTest::mouseClick(&table, Qt::LeftButton, {}, QPoint(20, table.height() - 4));
    ASSERT_EQ(presses.count(), 1);
    EXPECT_EQ(presses[0][0].toInt(), 4);
    QTest::keyClick(&table, Qt::Key_Up);
    QTest::keyClick(&table, Qt::Key_Return);
    ASSERT_EQ(presses.count(), 2);
    EXPECT_EQ(presses[1][0].toInt(), 3);
    for (int key = 0; key < 9; ++key) {
        QTest::keyClick(&table, Qt::Key_Down);
    }
    QTest::keyClick(&table, Qt::Key_Space);
    EXPECT_EQ(presses[2][0].toInt(), 4) << "the last row holds";
    table.setRows({});
    QTest::keyClick(&table, Qt::Key_Return);
    EXPECT_EQ(presses.count(), 3) << "an empty table has nothing to press";
}

TEST(FigureTable, IsReadAloudRowByRow) {
    FigureTable table;
    table.setRows({{"at 82 Hz", "−10.5", "−4.71", "dB", "+5.77"}});
    EXPECT_EQ(table.accessibleDescription().toStdString(), "at 82 Hz stock −10.5, now −4.71 dB, change +5.77");
}

}  // namespace
}  // namespace ohmwright
