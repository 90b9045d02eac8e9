// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_journal.h"

#include "core/files/atomic_file.h"
#include "tests/support/demo_job.h"
#include "tests/support/temporary_folder.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

namespace ohmwright {
namespace {

TEST(JobJournal, KeepsTheWholeJobItsFileAndItsTime) {
    const TemporaryFolder folder;
    const JournalEntry entry{test::harbourLamp(), "/shop/harbour-lamp.ohmjob", "2026-11-29T21:58:03"};
    ASSERT_TRUE(saveJournal(entry, folder / "a.journal"));
    const Result<JournalEntry> again = loadJournal(folder / "a.journal");
    ASSERT_TRUE(again) << again.error().message;
    EXPECT_EQ(again->job, entry.job);
    EXPECT_EQ(again->path, entry.path);
    EXPECT_EQ(again->when, entry.when);
}

TEST(JobJournal, CutOffAnywhereItIsRefusedInWordsThatNameTheFile) {
    const TemporaryFolder folder;
    ASSERT_TRUE(saveJournal({test::harbourLamp(), "", ""}, folder / "a.journal"));
    const std::string whole = *readWholeFile(folder / "a.journal");
    for (std::size_t length = 0; length + 2 < whole.size(); length += 997) {
        ASSERT_TRUE(replaceFile(folder / "cut.journal", whole.substr(0, length)));
        const Result<JournalEntry> cut = loadJournal(folder / "cut.journal");
        ASSERT_FALSE(cut) << length;
        EXPECT_NE(cut.error().message.find("cut.journal"), std::string::npos) << cut.error().message;
    }
}

TEST(JobJournal, OneOfANewerVersionIsNotGuessedAt) {
    const TemporaryFolder folder;
    ASSERT_TRUE(saveJournal({test::harbourLamp(), "", ""}, folder / "a.journal"));
    std::string text = *readWholeFile(folder / "a.journal");
    const std::size_t at = text.find("\"version\": 1");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 12, "\"version\": 9");
    ASSERT_TRUE(replaceFile(folder / "a.journal", text));
    const Result<JournalEntry> newer = loadJournal(folder / "a.journal");
    ASSERT_FALSE(newer);
    EXPECT_EQ(newer.error().code, ErrorCode::fileNewer);
}

TEST(JobJournal, WithoutItsFolderNothingIsWrittenAndTheReasonSaid) {
    const TemporaryFolder folder;
    const Result<void> written = saveJournal({test::harbourLamp(), "", ""}, folder / "gone" / "a.journal");
    ASSERT_FALSE(written);
    EXPECT_FALSE(written.error().message.empty());
}

}  // namespace
}  // namespace ohmwright
