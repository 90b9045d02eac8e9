// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mods_model.h"

#include "app/document/job_document.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QAbstractItemModelTester>
#include <QSignalSpy>

namespace ohmwright::test {
namespace {

class ModsModelTest : public testing::Test {
protected:
    ModsModelTest() { document.setJob(harbourLamp(), {}); }

    [[nodiscard]] QString at(int row, int role) const { return model.index(row).data(role).toString(); }

    JobDocument document;
    ModsModel model{document};
    QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
};

// Demo Harbour Lamp: A Cg 56n to 120n (on), B a third diode, C Rg 3k9 to 2k7, D Clp 47n to 33n (off).
TEST_F(ModsModelTest, ARowSaysWhatTheModDoes) {
    ASSERT_EQ(model.rowCount(), 4);
    EXPECT_EQ(at(0, ModsModel::letterRole), "A");
    EXPECT_EQ(at(0, Qt::DisplayRole), "Gain cap");
    EXPECT_EQ(at(0, ModsModel::stockRole), "56n");
    EXPECT_EQ(at(0, ModsModel::newRole), "120n");
    EXPECT_EQ(at(0, ModsModel::partRole), "c4");
    EXPECT_EQ(model.index(0).data(Qt::CheckStateRole).toInt(), Qt::Checked);
    EXPECT_EQ(at(1, ModsModel::stockRole), "");
    EXPECT_EQ(at(1, ModsModel::newRole), "1N4148 in series, D2");
    EXPECT_EQ(model.index(1).data(Qt::CheckStateRole).toInt(), Qt::Unchecked);
    EXPECT_EQ(at(2, ModsModel::stockRole), "3k9");
    EXPECT_EQ(at(0, Qt::AccessibleTextRole), "Mod A, Gain cap, stock 56n, now 120n, on");
}

TEST_F(ModsModelTest, TheCheckBoxIsAnUndoableEdit) {
    ASSERT_TRUE(model.setData(model.index(1), Qt::Checked, Qt::CheckStateRole));
    EXPECT_TRUE(document.job()->plan[1].on);
    EXPECT_EQ(document.undoStack().undoText(), "Switch mod B on");
    document.undoStack().undo();
    EXPECT_EQ(model.index(1).data(Qt::CheckStateRole).toInt(), Qt::Unchecked);
}

TEST_F(ModsModelTest, ANewNameChangesWordsOnly) {
    QSignalSpy changed(&document, &JobDocument::jobChanged);
    ASSERT_TRUE(model.setData(model.index(0), " Fat cap ", Qt::EditRole));
    EXPECT_EQ(document.job()->plan[0].name, "Fat cap");
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(changed.first().first().value<JobAspect>(), JobAspect::words);
    EXPECT_FALSE(model.setData(model.index(0), "  ", Qt::EditRole)) << "a mod keeps its name";
    EXPECT_EQ(document.job()->plan[0].name, "Fat cap");
}

TEST_F(ModsModelTest, EffectsAreShownByModAndBlankWhileUnknown) {
    EXPECT_EQ(at(0, ModsModel::effectRole), "");
    const Plan plan = document.job()->plan;
    model.showEffects(plan, {2.08, 1.21, std::nullopt, -0.0801});
    EXPECT_EQ(at(0, ModsModel::effectRole), "+2.08");
    EXPECT_EQ(at(2, ModsModel::effectRole), "");
    EXPECT_EQ(at(3, ModsModel::effectRole), "−0.08");
    model.clearEffects();
    EXPECT_EQ(at(0, ModsModel::effectRole), "");
}

TEST_F(ModsModelTest, AnEffectFollowsItsModWhenTheOrderChanges) {
    model.showEffects(document.job()->plan, {2.08, 1.21, -0.08, 0.02});
    document.edit(moveMod(*document.job(), document.job()->plan[3].id, 0), "Move mod D up");
    EXPECT_EQ(at(0, ModsModel::letterRole), "D");
    EXPECT_EQ(at(0, ModsModel::effectRole), "+0.02");
    EXPECT_EQ(at(1, ModsModel::effectRole), "+2.08");
    EXPECT_EQ(model.indexOfMod(document.job()->plan[1].id).row(), 1);
}

// Its first arrow was taken for the only one: the rest was painted over the figure and out of the list.
TEST_F(ModsModelTest, ACombinedModNamesItsPartsAndHasNoStruckSide) {
    Model schottky = *findModel(document.job()->stock, "1N4148");
    schottky.name = "BAT41";
    document.edit(addMod(*document.job(), Combined{{SwapType{"d1", schottky}, SwapType{"d2", schottky}}}), "Add");
    EXPECT_EQ(at(4, ModsModel::stockRole), "");
    EXPECT_EQ(at(4, ModsModel::newRole), "D1, D2 1N4148 → BAT41");
}

TEST_F(ModsModelTest, AJobWithoutModsHasNoRows) {
    document.setJob(Job{}, {});
    EXPECT_EQ(model.rowCount(), 0);
    EXPECT_FALSE(model.setData(model.index(0), Qt::Checked, Qt::CheckStateRole));
    EXPECT_FALSE(model.indexOfMod("mod-a").isValid());
}

}  // namespace
}  // namespace ohmwright::test
