// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string job = test::harbourLampPath();
const std::string demos = OHMWRIGHT_SOURCE_DIR "/demo-projects";

TEST(DrawerVerb, ListsWhatIsInStock) {
    const auto rows = test::rowsOf(test::answered({"drawer", job}));
    const test::CsvRow row = test::rowWith(rows, "lot", "R-2k7");
    EXPECT_EQ(row.at("quantity"), "4");
    EXPECT_EQ(row.at("free"), "4");
    EXPECT_EQ(row.at("measured"), "2688");
}

TEST(PickListVerb, NamesTheLotOfEachMod) {
    const auto rows = test::rowsOf(test::answered({"pick-list", job, "--variant", "now"}));
    EXPECT_EQ(test::rowWith(rows, "place", "C4").at("lot"), "C-120n");
    EXPECT_EQ(test::rowWith(rows, "place", "C4").at("printed"), "124");
}

TEST(PickListVerb, AShopAlsoSaysWhatItsOpenJobsAreShortOf) {
    EXPECT_THAT(test::answered({"pick-list", job, "--shop", demos}), HasSubstr("part,needed,there,missing,jobs"));
}

TEST(SubstitutesVerb, RanksByConsequence) {
    const auto rows = test::rowsOf(test::answered({"substitutes", job, "--part", "C4"}));
    ASSERT_GE(rows.size(), 2U);
    EXPECT_LE(test::numberIn(rows[0], "score"), test::numberIn(rows[1], "score"));
    EXPECT_THAT(rows[0].at("consequence"), HasSubstr("instead of"));
}

// JOB 6.5: a trimmed typical device gives 18.7 dB.
TEST(DevicePickVerb, SaysWhichDeviceOfTheBag) {
    const auto rows = test::rowsOf(
        test::answered({"device-pick", demos + "/paper-boat/paper-boat.ohmjob", "--part", "J1", "--variant", "stock"}));
    ASSERT_FALSE(rows.empty());
    EXPECT_GT(test::numberIn(rows[0], "output_v"), 0.0);
    EXPECT_FALSE(rows[0].at("device").empty());
}

// Minutes of the house: 8 for a value; 48 an hour is 6.40, and the bench fee 15.
TEST(QuoteVerb, AddsUpWithTheHousesRates) {
    const std::string csv = test::call({"quote", job}).out;
    EXPECT_THAT(csv, StartsWith("kind,mod,what,minutes,price\nfee,,"));
    EXPECT_THAT(csv, HasSubstr(",8,6.4\n"));
    EXPECT_THAT(csv, HasSubstr("minutes,8"));
}

TEST(QuoteVerb, AShopsRatesAreTheShops) {
    const test::ScratchFolder folder;
    const std::string rates =
        folder.write("rates.json", R"({"format": "ohmwright-rates", "version": 1, "perHour": 60, "benchFee": 20})");
    const std::string shop = std::filesystem::path(rates).parent_path().string();
    EXPECT_THAT(test::call({"quote", job, "--shop", shop}).out, HasSubstr(",8,8\n"));
    (void)folder.write("rates.json", "{\"format\": \"ohmwright-rates\", \"version\": 1,\n\"perHour\": -1}");
    EXPECT_THAT(test::refused({"quote", job, "--shop", shop}, ExitStatus::fileWrong), HasSubstr("line 2"));
}

TEST(ShopOption, WordsAndLimitsOfTheShopAreUsed) {
    const test::ScratchFolder folder;
    const std::string words = folder.write("words.json", R"({"format": "ohmwright-words", "version": 1, "claims": [
        {"means": "fuller", "words": ["rounder"], "yes": 3, "partly": 1, "yesSecond": 2, "partlySecond": 1}]})");
    const std::string shop = std::filesystem::path(words).parent_path().string();
    EXPECT_THAT(test::answered({"claims", job, "--words", "rounder", "--shop", shop}), HasSubstr("rounder,yes"));
    (void)folder.write("limits.json",
                       R"({"format": "ohmwright-limits", "version": 1,
                     "limits": {"supplyMilliamperes": {"value": 3, "source": "ours"}}})");
    const auto rows = test::rowsOf(test::answered({"side-effects", job, "--shop", shop}));
    EXPECT_EQ(test::rowWith(rows, "effect", "supply_current").at("state"), "over");
}

TEST(StockVerbs, WrongCallsAreRefused) {
    test::refused({"substitutes", job, "--part", "Z9"}, ExitStatus::callWrong);
    test::refused({"device-pick", job, "--part", "R5"}, ExitStatus::callWrong);
    test::refused({"quote", job, "--shop", "/no/such/folder"}, ExitStatus::fileWrong);
}

// Out as a table, changed in a spreadsheet, and in again.
TEST(DrawerTableVerb, ComesBackAsTheSameDrawer) {
    const test::ScratchFolder folder;
    const std::string table = folder.write("drawer.csv", test::answered({"drawer-table", job}));
    const std::string drawer = folder.path("drawer.json");
    const test::Called merged = test::call({"drawer-merge", job, "--table", table, "--out", drawer});
    ASSERT_EQ(merged.status, ExitStatus::answered) << merged.err;
    EXPECT_THAT(merged.err, testing::HasSubstr(" lots replaced, 0 added."));
    EXPECT_EQ(test::answered({"drawer", job, "--drawer", drawer}), test::answered({"drawer", job}));
}

TEST(DrawerMergeVerb, TakesNewLotsAndNothingOfATableWithABadLine) {
    const test::ScratchFolder folder;
    const std::string more = folder.write("more.csv", "kind,value,quantity\nresistor,2k61,40\n");
    const std::string drawer = folder.path("drawer.json");
    const test::Called merged = test::call({"drawer-merge", job, "--table", more, "--out", drawer});
    ASSERT_EQ(merged.status, ExitStatus::answered) << merged.err;
    EXPECT_THAT(merged.err, testing::HasSubstr("0 lots replaced, 1 added."));
    EXPECT_THAT(test::answered({"drawer", job, "--drawer", drawer}), testing::HasSubstr("R-2k61"));
    const std::string bad = folder.write("bad.csv", "kind,value,quantity\nresistor,2k61,40\nresistor,3k3,some\n");
    const test::Called refused = test::call({"drawer-merge", job, "--table", bad});
    EXPECT_EQ(refused.out, "");
    EXPECT_THAT(refused.err, testing::AllOf(testing::HasSubstr("bad.csv"), testing::HasSubstr("line 3"),
                                            testing::HasSubstr("nothing of the table was taken")));
}

}  // namespace
}  // namespace ohmwright
