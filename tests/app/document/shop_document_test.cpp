// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/shop_document.h"

#include "core/files/drawer_file.h"
#include "core/files/job_file.h"
#include "tests/support/temporary_folder.h"

#include <QSignalSpy>
#include <QStringList>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

QString text(const std::filesystem::path& path) {
    return QString::fromStdString(path.string());
}

Drawer oneLot(int quantity) {
    DrawerLot lot;
    lot.id = "C-120n";
    lot.kind = PartKind::capacitor;
    lot.value = 120e-9;
    lot.quantity = quantity;
    return {"us", {lot}};
}

TEST(ShopDocument, WithoutAFolderStockIsAssumed) {
    const ShopDocument document;
    EXPECT_TRUE(document.shop()->isStockAssumed());
    EXPECT_TRUE(document.onHand().lots.empty());
    EXPECT_TRUE(document.faults().isEmpty());
}

TEST(ShopDocument, AnEditIsOneUndoStepAndOnTheDiskAtOnce) {
    const TemporaryFolder folder;
    ShopDocument document;
    document.open(text(folder / "shop"));
    QSignalSpy changed(&document, &ShopDocument::shopChanged);
    ASSERT_TRUE(document.editDrawer(oneLot(3), "Add 120n"));
    EXPECT_EQ(changed.count(), 1);
    EXPECT_EQ(folder.read("shop/drawer.json"), writeDrawer(oneLot(3)));
    ASSERT_TRUE(document.editDrawer(oneLot(2), "Count 120n"));
    document.undoStack().undo();
    EXPECT_EQ(document.onHand().lots.front().quantity, 3);
    EXPECT_EQ(folder.read("shop/drawer.json"), writeDrawer(oneLot(3)));
    document.undoStack().undo();
    EXPECT_TRUE(document.shop()->isStockAssumed());
    document.undoStack().redo();
    EXPECT_EQ(folder.read("shop/drawer.json"), writeDrawer(oneLot(3)));
}

TEST(ShopDocument, ADrawerWithAFaultIsRefusedInWords) {
    const TemporaryFolder folder;
    ShopDocument document;
    document.open(text(folder.path()));
    QSignalSpy refused(&document, &ShopDocument::refused);
    EXPECT_FALSE(document.editDrawer(oneLot(-1), "Count"));
    ASSERT_EQ(refused.count(), 1);
    EXPECT_THAT(refused.front().front().toString().toStdString(), testing::HasSubstr("C-120n"));
    EXPECT_FALSE(std::filesystem::exists(folder / "drawer.json"));
    EXPECT_EQ(document.undoStack().count(), 0);
}

TEST(ShopDocument, WhatCannotBeWrittenStaysHereAndIsSaid) {
    const TemporaryFolder folder;
    folder.write("blocked", "a file where the folder should be");
    ShopDocument document;
    document.open(text(folder / "blocked"));
    QSignalSpy refused(&document, &ShopDocument::refused);
    EXPECT_TRUE(document.editDrawer(oneLot(3), "Add 120n"));
    EXPECT_EQ(refused.count(), 1);
    EXPECT_EQ(document.onHand().lots.size(), 1U);
    EXPECT_EQ(document.faults().size(), 1);
}

TEST(ShopDocument, JobsOfTheShopReserveOnHandButNotInTheFile) {
    const TemporaryFolder folder;
    folder.write("drawer.json", writeDrawer(oneLot(3)));
    ShopDocument document;
    document.open(text(folder.path()));
    const auto loaded = loadJob(std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob");
    ASSERT_TRUE(loaded);
    Job job = loaded->job;
    for (Mod& mod : job.plan) {
        mod.on = mod.letter == "A";
    }
    job.visit.state = VisitState::onBench;
    document.setJobs({{folder / "x.ohmjob", job, ""}});
    EXPECT_EQ(availableFor(document.onHand().lots.front()), 2);
    EXPECT_EQ(folder.read("drawer.json"), writeDrawer(oneLot(3)));
}

}  // namespace
}  // namespace ohmwright
