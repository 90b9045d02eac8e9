// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/shop_folder.h"

#include "core/files/drawer_file.h"
#include "core/files/job_file.h"
#include "core/plan/pick_list.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;

const fs::path demos = fs::path(OHMWRIGHT_SOURCE_DIR) / "demo-projects";

DrawerLot lotOf(const std::string& id, PartKind kind, double value, int quantity) {
    DrawerLot lot;
    lot.id = id;
    lot.kind = kind;
    lot.value = value;
    lot.quantity = quantity;
    return lot;
}

Job harbourLamp() {
    const auto loaded = loadJob(demos / "harbour-lamp" / "harbour-lamp.ohmjob");
    EXPECT_TRUE(loaded) << (loaded ? "" : loaded.error().message);
    return loaded ? loaded->job : Job();
}

TEST(ShopFolder, AFolderThatIsNotThereIsAShopOfHouseFigures) {
    const TemporaryFolder folder;
    for (const fs::path& path : {folder / "none", fs::path()}) {
        const Shop shop = readShop(path);
        EXPECT_TRUE(shop.faults.empty());
        EXPECT_FALSE(shop.drawer);
        EXPECT_TRUE(shop.isStockAssumed());
        EXPECT_EQ(shop.words, houseClaimLimits());
        EXPECT_EQ(shop.rates, ShopRates());
    }
}

TEST(ShopFolder, EveryFileIsRead) {
    const TemporaryFolder folder;
    folder.write("rates.json", R"({"format": "ohmwright-rates", "version": 1, "perHour": 60})");
    folder.write(
        "limits.json",
        R"({"format": "ohmwright-limits", "version": 1, "limits": {"popVolts": {"value": 0.1, "source": "ours"}}})");
    folder.write("words.json", R"({"format": "ohmwright-words", "version": 1, "claims": [
        {"means": "fuller", "words": ["rounder"], "yes": 3, "partly": 1, "yesSecond": 2, "partlySecond": 1}]})");
    folder.write("drawer.json", writeDrawer({"us", {lotOf("a", PartKind::resistor, 3900, 2)}}));
    const Shop shop = readShop(folder.path());
    EXPECT_TRUE(shop.faults.empty()) << shop.faults.front().message;
    EXPECT_EQ(shop.rates.perHour, 60.0);
    EXPECT_EQ(shop.limits.popVolts.value, 0.1);
    EXPECT_NE(findClaim(shop.words, "rounder"), nullptr);
    ASSERT_TRUE(shop.drawer);
    EXPECT_EQ(shop.drawer->shop, "us");
    EXPECT_FALSE(shop.isStockAssumed());
}

TEST(ShopFolder, AFileThatCannotBeUsedIsNamedWithItsLineAndTheHouseStandsForIt) {
    const TemporaryFolder folder;
    folder.write("rates.json", "{\"format\": \"ohmwright-rates\", \"version\": 1,\n\"perHour\": \"dear\"}");
    folder.write("drawer.json", "{\"format\": \"ohmwright-drawer\",\n");
    const Shop shop = readShop(folder.path());
    ASSERT_EQ(shop.faults.size(), 2U);
    EXPECT_THAT(shop.faults[0].message, AllOf(HasSubstr("rates.json"), HasSubstr("line 2"), HasSubstr("perHour")));
    EXPECT_THAT(shop.faults[1].message, AllOf(HasSubstr("drawer.json"), HasSubstr("line")));
    EXPECT_EQ(shop.rates, ShopRates());
    EXPECT_FALSE(shop.drawer);
}

TEST(ShopFolder, ADamagedDrawerIsNotWrittenOver) {
    const TemporaryFolder folder;
    folder.write("drawer.json", "{ half a drawer");
    Shop shop = readShop(folder.path());
    const auto saved = saveShopDrawer(shop, {});
    ASSERT_FALSE(saved);
    EXPECT_THAT(saved.error().message, HasSubstr("nothing was overwritten"));
    EXPECT_EQ(folder.read("drawer.json"), "{ half a drawer");
}

TEST(ShopFolder, SavingMakesTheFolderAndKeepsWhatStoodThere) {
    const TemporaryFolder folder;
    Shop shop = readShop(folder / "new shop");
    const Drawer first{"us", {lotOf("a", PartKind::resistor, 3900, 2)}};
    Drawer second = first;
    second.lots.front().quantity = 1;
    ASSERT_TRUE(saveShopDrawer(shop, first));
    ASSERT_TRUE(saveShopDrawer(shop, second));
    EXPECT_EQ(readShop(folder / "new shop").drawer, second);
    EXPECT_EQ(folder.read("new shop/earlier/drawer.json.1"), writeDrawer(first));
}

TEST(ShopFolder, AChangeFromOutsideIsNotOverwritten) {
    const TemporaryFolder folder;
    folder.write("drawer.json", writeDrawer({"us", {lotOf("a", PartKind::resistor, 3900, 2)}}));
    Shop shop = readShop(folder.path());
    const std::string others = writeDrawer({"us", {lotOf("a", PartKind::resistor, 3900, 7)}});
    folder.write("drawer.json", others);
    const auto saved = saveShopDrawer(shop, {"us", {}});
    ASSERT_FALSE(saved);
    EXPECT_THAT(saved.error().message, HasSubstr("changed by someone else"));
    EXPECT_EQ(folder.read("drawer.json"), others);
    EXPECT_EQ(shop.drawer->lots.front().quantity, 2);
}

TEST(ShopFolder, AJobBelongsToTheShopWhoseDrawerLiesWithItOrAbove) {
    EXPECT_EQ(shopFolderOf(demos / "harbour-lamp" / "harbour-lamp.ohmjob"), demos);
    const TemporaryFolder folder;
    EXPECT_EQ(shopFolderOf(folder / "alone.ohmjob"), fs::path());
}

TEST(ShopFolder, JobsAreFoundInFoldersBelowAndDamagedOnesNamed) {
    const TemporaryFolder folder;
    const std::string job = writeJob(harbourLamp());
    folder.write("b.ohmjob", job);
    folder.write("2026/a.ohmjob", job);
    folder.write("earlier/b.ohmjob", job);
    folder.write("c.ohmjob", "{");
    folder.write("notes.txt", "no job");
    const std::vector<ShopJob> jobs = readShopJobs(folder.path());
    ASSERT_EQ(jobs.size(), 3U);
    EXPECT_EQ(jobs[0].path, folder / "2026/a.ohmjob");
    EXPECT_EQ(jobs[1].job->unit.serial, "HL-0231");
    EXPECT_FALSE(jobs[2].job);
    EXPECT_THAT(jobs[2].fault, HasSubstr("c.ohmjob"));
}

TEST(ShopFolder, OpenJobsReserveWhatTheirPlansTakeAndDraftsNothing) {
    Job job = harbourLamp();
    for (Mod& mod : job.plan) mod.on = mod.letter == "A";  // Cg 56n -> 120n
    const Drawer drawer{"us", {lotOf("C-120n", PartKind::capacitor, 120e-9, 3)}};
    const std::string name = reservationName(job);
    EXPECT_EQ(availableFor(withReservations(drawer, {job}).lots.front()), 3);
    for (const VisitState state : {VisitState::quoted, VisitState::onBench, VisitState::proven}) {
        job.visit.state = state;
        const Drawer reserved = withReservations(drawer, {job});
        EXPECT_EQ(availableFor(reserved.lots.front()), 2);
        EXPECT_EQ(availableFor(reserved.lots.front(), name), 3);
    }
    const Drawer reserved = withReservations(drawer, {job});
    job.visit.state = VisitState::gone;
    EXPECT_EQ(availableFor(withReservations(reserved, {job}).lots.front()), 3);
}

TEST(ShopFolder, TheSecondJobGetsWhatTheFirstLeaves) {
    Job first = harbourLamp();
    for (Mod& mod : first.plan) mod.on = mod.letter == "A";
    first.visit.state = VisitState::quoted;
    Job second = first;
    second.unit.serial = "HL-0240";
    const Drawer drawer{"us", {lotOf("C-120n", PartKind::capacitor, 120e-9, 1)}};
    const Drawer reserved = withReservations(drawer, {first, second});
    EXPECT_EQ(reserved.lots.front().reserved, (std::map<std::string, int>{{reservationName(first), 1}}));
}

}  // namespace
}  // namespace ohmwright
