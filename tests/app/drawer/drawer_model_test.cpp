// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/drawer_model.h"

#include "app/document/shop_document.h"
#include "app/drawer/lot_cells.h"
#include "core/files/drawer_file.h"
#include "tests/support/temporary_folder.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

class DrawerModelTest : public testing::Test {
protected:
    DrawerModelTest() {
        Drawer drawer{"us", {}};
        drawer = withLot(drawer, *lotFromWords("resistor", "2k7", "4"));
        drawer = withLot(drawer, *lotFromWords("capacitor", "120n", "3"));
        drawer.lots[1].lot = "CF-12";
        drawer.lots[1].reserved = {{"QB-0007/1", 3}};
        folder.write("drawer.json", writeDrawer(drawer));
        shop.open(QString::fromStdString(folder.path().string()));
    }
    [[nodiscard]] std::string cell(int row, int column) const {
        return model.index(row, column).data().toString().toStdString();
    }

    TemporaryFolder folder;
    ShopDocument shop;
    DrawerModel model{shop};
};

TEST_F(DrawerModelTest, ALotIsARowWithWhatIsFree) {
    ASSERT_EQ(model.rowCount(), 2);
    EXPECT_EQ(cell(0, DrawerModel::part), "2k7");
    EXPECT_EQ(cell(0, DrawerModel::have), "4");
    EXPECT_EQ(cell(0, DrawerModel::freeCount), "4");
    EXPECT_EQ(cell(1, DrawerModel::freeCount), "0") << "all three are reserved";
    EXPECT_EQ(cell(0, DrawerModel::measured), "not measured");
    EXPECT_EQ(cell(0, DrawerModel::volts), "none");
}

TEST_F(DrawerModelTest, EveryWordOfTheSearchMustBeThere) {
    model.setFilter("capacitor cf-12");
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(cell(0, DrawerModel::part), "120n");
    model.setFilter("capacitor 2k7");
    EXPECT_EQ(model.rowCount(), 0);
    model.setFilter("");
    EXPECT_EQ(model.rowCount(), 2);
}

TEST_F(DrawerModelTest, AnEditedCellIsAnUndoStepOnTheDisk) {
    EXPECT_TRUE(model.setData(model.index(0, DrawerModel::measured), "2k688", Qt::EditRole));
    EXPECT_EQ(cell(0, DrawerModel::measured), "2k688");
    EXPECT_NE(folder.read("drawer.json").find("2688"), std::string::npos);
    shop.undoStack().undo();
    EXPECT_EQ(cell(0, DrawerModel::measured), "not measured");
}

TEST_F(DrawerModelTest, WhatCannotBeIsRefusedInWords) {
    QSignalSpy refused(&model, &DrawerModel::refused);
    EXPECT_FALSE(model.setData(model.index(0, DrawerModel::have), "some", Qt::EditRole));
    EXPECT_EQ(refused.count(), 1);
    EXPECT_EQ(cell(0, DrawerModel::have), "4");
    EXPECT_FALSE(model.flags(model.index(0, DrawerModel::part)) & Qt::ItemIsEditable);
}

TEST_F(DrawerModelTest, WithoutADrawerPreferredValuesStandThere) {
    const TemporaryFolder empty;
    shop.open(QString::fromStdString(empty.path().string()));
    EXPECT_TRUE(model.isAssumed());
    EXPECT_GT(model.rowCount(), 100);
    EXPECT_EQ(cell(0, DrawerModel::have), "assumed");
    EXPECT_FALSE(model.flags(model.index(0, DrawerModel::have)) & Qt::ItemIsEditable);
}

}  // namespace
}  // namespace ohmwright
