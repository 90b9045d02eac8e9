// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/curve_csv.h"

#include <gtest/gtest.h>

#include <limits>

namespace ohmwright {
namespace {

TEST(CurveCsv, ColumnsCarryTheirUnitsAndWhatIsNotThereIsEmpty) {
    CurveTable table;
    table.columns = {{"frequency_hz", "frequency", "Hz", {20.0, 82.41}},
                     {"stock_gain_db", "gain, stock", "dB", {-17.25, std::numeric_limits<double>::quiet_NaN()}},
                     {"change_gain_db", "gain, change", "dB", {-0.0, 1.0 / 3.0}}};
    EXPECT_EQ(writeCurveCsv(table), "frequency_hz,stock_gain_db,change_gain_db\n20,-17.25,0\n82.41,,0.333333333333\n");
}

TEST(CurveCsv, NetsStandInFrontQuotedWhereTheyMustBe) {
    CurveTable table;
    table.rows = {"vb", "in,\"x\""};
    table.columns = {{"bias_v", "no signal", "V", {4.4567, std::numeric_limits<double>::infinity()}}};
    EXPECT_EQ(writeCurveCsv(table), "net,bias_v\nvb,4.4567\n\"in,\"\"x\"\"\",\n");
}

TEST(CurveCsv, AFirstCellThatIsNotThereKeepsItsComma) {
    CurveTable table;
    table.columns = {{"x", "", "", {std::numeric_limits<double>::quiet_NaN()}}, {"y", "", "", {1.0}}};
    EXPECT_EQ(writeCurveCsv(table), "x,y\n,1\n");
}

}  // namespace
}  // namespace ohmwright
