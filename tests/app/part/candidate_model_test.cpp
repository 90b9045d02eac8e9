// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/candidate_model.h"

#include <gtest/gtest.h>
#include <QAbstractItemModelTester>
#include <QSignalSpy>

namespace ohmwright::test {
namespace {

class CandidateModelTest : public testing::Test {
protected:
    CandidateModelTest() {
        model.setRows({{SwapValue{"c4", 56e-9}, "56n", false, true},
                       {SwapValue{"c4", 120e-9}, "120n", true, false},
                       {SwapValue{"c4", 150e-9}, "150n", false, false}});
    }
    [[nodiscard]] QString at(int row, int role) const { return model.index(row).data(role).toString(); }

    CandidateModel model;
    QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(CandidateModelTest, RowsAreTaggedStockNowAndGhost) {
    EXPECT_EQ(at(0, CandidateModel::tagRole), "stock");
    EXPECT_EQ(at(1, CandidateModel::tagRole), "now");
    EXPECT_EQ(at(2, CandidateModel::tagRole), "");
    model.setGhost(SwapValue{"c4", 150e-9});
    EXPECT_EQ(at(2, CandidateModel::tagRole), "ghost");
    EXPECT_TRUE(model.index(2).data(CandidateModel::ghostRole).toBool());
    model.setGhost(std::nullopt);
    EXPECT_EQ(at(2, CandidateModel::tagRole), "");
}

TEST_F(CandidateModelTest, FiguresAreMatchedByValueNotByPlace) {
    EXPECT_EQ(at(1, CandidateModel::changeRole), "");
    EXPECT_FALSE(model.hasCorners());
    model.setFigures({{150e-9, 272.05, 7.5567, {}}, {120e-9 * (1.0 + 1e-12), 340.06, 5.8949, {}}});
    EXPECT_EQ(at(0, CandidateModel::changeRole), "") << "not asked for yet";
    EXPECT_EQ(at(1, CandidateModel::cornerRole), "340");
    EXPECT_EQ(at(1, CandidateModel::changeRole), "+5.89");
    EXPECT_EQ(at(2, CandidateModel::changeRole), "+7.56");
    EXPECT_TRUE(model.hasCorners());
    EXPECT_EQ(at(2, Qt::AccessibleTextRole), "150n, +7.56 dB");
}

TEST_F(CandidateModelTest, AValueThatCannotBeSolvedHasTheReasonAndNoNumber) {
    model.setFigures({{150e-9, std::nullopt, std::nullopt, "no bias was found"}});
    EXPECT_EQ(at(2, CandidateModel::changeRole), "");
    EXPECT_EQ(at(2, Qt::ToolTipRole), "no bias was found");
}

TEST_F(CandidateModelTest, AnotherNowAmongTheSameValuesMovesNoRow) {
    QSignalSpy reset(&model, &QAbstractItemModel::modelReset);
    std::vector<CandidateRow> rows = model.rows();
    rows[1].isNow = false;
    rows[2].isNow = true;
    model.setRows(rows);
    EXPECT_EQ(reset.count(), 0);
    EXPECT_EQ(at(2, CandidateModel::tagRole), "now");
    rows.pop_back();
    model.setRows(rows);
    EXPECT_EQ(reset.count(), 1);
}

}  // namespace
}  // namespace ohmwright::test
