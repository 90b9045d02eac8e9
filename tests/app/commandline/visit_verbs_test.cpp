// Reference: tests/reference/demos/figures.csv for the bias of Small Rooster (base 1.12, emitter 0.46, collector
// 4.43 V).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <tuple>

namespace ohmwright {
namespace {

using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string rooster = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/small-rooster/small-rooster.ohmjob";

void expectSaid(const test::Called& called, const std::string& words) {
    EXPECT_EQ(called.status, ExitStatus::answered) << called.err;
    EXPECT_NE(called.err.find(words), std::string::npos) << called.err;
}

Job jobIn(const std::string& path) {
    const auto loaded = loadJob(path);
    EXPECT_TRUE(loaded) << loaded.error().message;
    return loaded ? loaded->job : Job();
}

TEST(IntakeVerb, ListsWhatToReadWithoutAnyReading) {
    const auto rows = rowsOf(test::answered({"intake", rooster}));
    ASSERT_GE(rows.size(), 3u);
    const test::CsvRow collector = rowWith(rows, "place", "Q1 collector");
    EXPECT_NEAR(numberIn(collector, "nominal"), 4.43, 0.01);
    EXPECT_EQ(collector.at("read"), "");
    EXPECT_EQ(collector.at("verdict"), "not read");
    EXPECT_EQ(rows.front().at("unit"), "A");
}

// The plan is not fitted yet: what comes in is stock.
TEST(IntakeVerb, JudgesReadingsAgainstStock) {
    const test::Called called =
        test::call({"intake", rooster, "--read", "q1 collector=8.9", "--read", "Q1 base=1.13 V"});
    expectSaid(called, "before any mod");
    const auto rows = rowsOf(called.out);
    EXPECT_EQ(rowWith(rows, "place", "Q1 collector").at("verdict"), "outside");
    EXPECT_NEAR(numberIn(rowWith(rows, "place", "Q1 collector"), "read"), 8.9, 1e-12);
    EXPECT_EQ(rowWith(rows, "place", "Q1 base").at("verdict"), "inside");
    EXPECT_EQ(rowWith(rows, "place", "Q1 emitter").at("verdict"), "not read");
}

TEST(IntakeVerb, APlaceThatIsNoneIsNamed) {
    EXPECT_NE(test::refused({"intake", rooster, "--read", "Q7 collector=8.9"}, ExitStatus::callWrong).find("Q7"),
              std::string::npos);
    test::refused({"intake", rooster, "--read", "Q1 collector"}, ExitStatus::callWrong);
    test::refused({"intake", rooster, "--read", "Q1 collector=4k7n"}, ExitStatus::callWrong);
}

/// Small Rooster gone with two readings, and its next visit.
class Stays : public testing::Test {
protected:
    Stays() {
        gone = folder.path("gone.ohmjob");
        next = folder.path("next.ohmjob");
        expectSaid(test::call({"depart", rooster, "--when", "2026-11-24T18:05:00", "--read", "Q1 collector=4.43",
                               "--read", "supply current=0.85m", "--out", gone}),
                   "not proven yet");
        test::answered({"next-visit", gone, "--date", "2027-02-01", "--complaint", "Hums.", "--out", next});
    }

    test::ScratchFolder folder;
    std::string gone, next;
};

TEST_F(Stays, WhatLeavesIsFrozenWithItsReadings) {
    const Job job = jobIn(gone);
    EXPECT_EQ(job.visit.state, VisitState::gone);
    ASSERT_EQ(job.departures.size(), 1u);
    EXPECT_EQ(job.departures[0].when, "2026-11-24T18:05:00");
    ASSERT_EQ(job.departures[0].readings.size(), 2u);
    EXPECT_EQ(job.departures[0].readings[0].net, "c");
    EXPECT_DOUBLE_EQ(job.departures[0].readings[1].value, 0.85e-3);
    EXPECT_NE(test::refused({"depart", gone}, ExitStatus::callWrong).find("frozen"), std::string::npos);
}

TEST_F(Stays, WithoutReadingsTheRecordSaysSo) {
    expectSaid(test::call({"depart", rooster}), "nothing to be compared with");
}

TEST_F(Stays, TheNextVisitBeginsWithTheUnitAsItLeft) {
    const Job job = jobIn(next);
    EXPECT_EQ(job.visit.number, 2);
    EXPECT_EQ(job.visit.complaint, "Hums.");
    EXPECT_TRUE(job.plan.empty());
    EXPECT_DOUBLE_EQ(findPart(job.stock, "c1")->value, 47e-9);  // mod A was on
    test::refused({"next-visit", next}, ExitStatus::callWrong);
}

// The meter and the supply explain 2 % and 20 mV: 0.109 V at 4.43 V.
TEST_F(Stays, AReturnedUnitIsComparedWithItself) {
    const test::Called same = test::call({"returned", next, "--read", "Q1 collector=4.50"});
    expectSaid(same, "Nothing changed");
    const auto rows = rowsOf(same.out);
    EXPECT_EQ(rowWith(rows, "place", "Q1 collector").at("verdict"), "nothing changed");
    EXPECT_NEAR(numberIn(rowWith(rows, "place", "Q1 collector"), "limit"), 0.1086, 1e-4);
    EXPECT_EQ(rowWith(rows, "place", "supply current").at("verdict"), "not read");
    expectSaid(test::call({"returned", next, "--read", "Q1 collector=8.9"}), "somebody was inside");
    test::refused({"returned", rooster, "--read", "Q1 collector=4.5"}, ExitStatus::callWrong);
    test::refused({"returned", next, "--visit", "7"}, ExitStatus::callWrong);
}

TEST_F(Stays, AnEarlierVisitComesOutAgainAsItWas) {
    const Job then = jobIn(gone);
    const std::string earlier = folder.path("earlier.ohmjob");
    test::answered({"visit", next, "--visit", "1", "--out", earlier});
    EXPECT_EQ(jobIn(earlier), then);
    test::refused({"visit", next, "--visit", "2"}, ExitStatus::callWrong);
}

TEST_F(Stays, ACorrectionIsDatedAndTheRecordStays) {
    const std::string noted = folder.path("noted.ohmjob");
    test::answered(
        {"correct", next, "--visit", "1", "--note", "The knob was new.", "--date", "2026-11-26", "--out", noted});
    Job job = jobIn(noted);
    ASSERT_EQ(job.departures[0].notes.size(), 1u);
    EXPECT_EQ(job.departures[0].notes[0], "2026-11-26: The knob was new.");
    job.departures[0].notes.clear();
    EXPECT_EQ(job, jobIn(next));
}

TEST_F(Stays, HistoryTellsTheUnitOutOfAFolder) {
    std::ignore = folder.write("other.ohmjob", test::bytesOf(test::harbourLampPath()));
    std::ignore = folder.write("broken.ohmjob", "{");
    const test::Called called =
        test::call({"history", std::filesystem::path(next).parent_path().string(), "--serial", "sr-1102"});
    expectSaid(called, "broken.ohmjob");
    const auto tables = test::tablesOf(called.out);
    ASSERT_EQ(tables.size(), 2u);
    ASSERT_EQ(tables[0].size(), 2u);
    EXPECT_EQ(tables[0][0].at("left"), "2026-11-24T18:05:00");
    EXPECT_EQ(tables[0][0].at("state"), "gone");
    EXPECT_NE(tables[0][0].at("work").find("4n7 → 47n"), std::string::npos) << tables[0][0].at("work");
    EXPECT_EQ(tables[0][1].at("complaint"), "Hums.");
    EXPECT_EQ(tables[0][1].at("left"), "");
    ASSERT_EQ(tables[1].size(), 1u);
    EXPECT_EQ(tables[1][0].at("part"), "C1");
    EXPECT_EQ(tables[1][0].at("visits_worked"), "1");
}

TEST(CardVerb, WritesWordsReadingsAndState) {
    const test::ScratchFolder folder;
    const std::string out = folder.path("card.ohmjob");
    test::answered({"card", rooster, "--condition", "Scratched lid.", "--agreed", "A.", "--read", "Q1 base=1.12",
                    "--state", "quoted", "--out", out});
    const Job job = jobIn(out);
    EXPECT_EQ(job.visit.state, VisitState::quoted);
    EXPECT_EQ(job.visit.condition, "Scratched lid.");
    EXPECT_EQ(job.visit.agreed, "A.");
    ASSERT_EQ(job.visit.readings.size(), 1u);
    EXPECT_EQ(job.visit.readings[0].net, "b");
    const std::string why = test::refused({"card", out, "--state", "proven"}, ExitStatus::callWrong);
    EXPECT_NE(why.find("not signed yet"), std::string::npos) << why;
    test::refused({"card", rooster, "--state", "gone"}, ExitStatus::callWrong);
}

TEST(ProgressVerb, SaysHowFarEachModIs) {
    const auto rows = rowsOf(test::answered({"progress", rooster, "--variant", "A+B"}));
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].at("progress"), "planned");
    EXPECT_GT(numberIn(rows[0], "steps"), 2.0);
    EXPECT_EQ(rows[0].at("signed"), "0");
    EXPECT_TRUE(rowsOf(test::answered({"progress", rooster, "--variant", "stock"})).empty());
}

TEST(HistoryVerb, AFolderWithoutTheUnitAndNoFolderAreRefused) {
    const test::ScratchFolder folder;
    const std::string inside = std::filesystem::path(folder.path("x")).parent_path().string();
    test::refused({"history", inside, "--serial", "SR-1102"}, ExitStatus::callWrong);
    test::refused({"history", folder.path("none"), "--serial", "SR-1102"}, ExitStatus::fileWrong);
    test::refused({"history", inside}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
