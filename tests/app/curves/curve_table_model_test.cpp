// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_table_model.h"

#include <gtest/gtest.h>

#include <QClipboard>
#include <QGuiApplication>
#include <QTableView>
#include <QTest>

#include <limits>

namespace ohmwright {
namespace {

QString at(const CurveTableModel& model, int row, int column) {
    return model.index(row, column).data().toString();
}

TEST(CurveTableModel, ValuesAreRoundedAsAPersonReadsThemAndWhatIsMissingIsSaid) {
    CurveTableModel model;
    CurveTable table;
    table.columns = {{"frequency_hz", "frequency", "Hz", {82.41}},
                     {"stock_gain_db", "gain, stock", "dB", {-8.1912}},
                     {"now_gain_db", "gain, now", "dB", {std::numeric_limits<double>::quiet_NaN()}},
                     {"change_gain_db", "gain, change", "dB", {5.781}}};
    model.setTable(table);
    EXPECT_EQ(at(model, 0, 0), "82.41");
    EXPECT_EQ(at(model, 0, 1), QStringLiteral("\u22128.19"));
    EXPECT_EQ(at(model, 0, 2), "none");
    EXPECT_EQ(at(model, 0, 3), "+5.78");
    EXPECT_EQ(model.headerData(1, Qt::Horizontal, Qt::DisplayRole).toString(), "gain\nstock\ndB");
}

// A wave of 50 mV was 0.04 and 0.05 all along, and its time 0.00 and 0.01.
TEST(CurveTableModel, SmallValuesKeepTheirDigits) {
    CurveTableModel model;
    CurveTable table;
    table.columns = {{"time_ms", "time", "ms", {0.0044088, 4.5454545}},
                     {"stock_output_v", "output, stock", "V", {0.0433442, -0.0506641}}};
    model.setTable(table);
    EXPECT_EQ(at(model, 0, 0), "0.004409");
    EXPECT_EQ(at(model, 1, 0), "4.545");
    EXPECT_EQ(at(model, 0, 1), "0.0433");
    EXPECT_EQ(at(model, 1, 1), QStringLiteral("\u22120.0507"));
}

TEST(CurveTableModel, NetsStandInFrontAndVoltsHaveTwoDecimals) {
    CurveTableModel model;
    CurveTable table;
    table.rows = {"vb"};
    table.columns = {{"stock_bias_v", "no signal, stock", "V", {4.4567}}};
    model.setTable(table);
    EXPECT_EQ(model.columnCount(), 2);
    EXPECT_EQ(at(model, 0, 0), "vb");
    EXPECT_EQ(at(model, 0, 1), "4.46");
    EXPECT_EQ(model.headerData(0, Qt::Horizontal, Qt::DisplayRole).toString(), "net");
}

// Ctrl+C before any cell was chosen asked for the row before the first, and the program fell.
TEST(CurveTableModel, CopyingWhereNoCellIsChosenCopiesNothing) {
    for (const std::vector<std::string>& names : {std::vector<std::string>{"vb"}, std::vector<std::string>()}) {
        CurveTableModel model;
        CurveTable table;
        table.rows = names;
        table.columns = {{"stock_bias_v", "no signal, stock", "V", {4.4567}}};
        model.setTable(table);
        QTableView view;
        view.setModel(&model);
        QGuiApplication::clipboard()->setText("kept");
        QTest::keySequence(&view, QKeySequence::Copy);
        EXPECT_EQ(QGuiApplication::clipboard()->text(), "kept");
        EXPECT_FALSE(model.data({}, Qt::DisplayRole).isValid());
    }
}

}  // namespace
}  // namespace ohmwright
