// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/journal.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

namespace ohmwright::test {
namespace {

class JournalTest : public testing::Test {
protected:
    void change(JobDocument& document, double farads) {
        ASSERT_TRUE(document.edit(setPartValue(*document.job(), "c4", farads), "Change C4"));
    }
    [[nodiscard]] QStringList journals() const { return QDir(folder.path()).entryList({"*.journal"}, QDir::Files); }

    /// What a window that is killed in the middle of its work leaves behind: another process, as it is in life.
    void killedWith(double farads) {
        const pid_t child = fork();
        if (child == 0) {
            JobDocument document;
            document.setJob(harbourLamp(), {});
            Journal journal(document, folder.path());
            document.edit(setPartValue(*document.job(), "c4", farads), "Change C4");
            journal.write();
            journal.finish();
            std::raise(SIGKILL);
        }
        int status = 0;
        ASSERT_EQ(waitpid(child, &status, 0), child);
        ASSERT_TRUE(WIFSIGNALED(status));
    }

    QTemporaryDir folder;
};

TEST_F(JournalTest, AnEditIsKeptWithinSecondsAndASaveTakesItAway) {
    OpenJob open;
    Journal journal(open.document, folder.path());
    change(open.document, 150e-9);
    EXPECT_TRUE(QTest::qWaitFor([this] { return journals().size() == 1; }, 2 * Journal::mostMilliseconds));
    ASSERT_TRUE(open.document.saveAs(folder.filePath("lamp.ohmjob")));
    EXPECT_TRUE(QTest::qWaitFor([this] { return journals().isEmpty(); }, 2 * Journal::mostMilliseconds));
}

// A kill right after a save must not offer what was kept before the save as if it were newer.
TEST_F(JournalTest, ASaveTakesItAwayAtOnce) {
    OpenJob open;
    Journal journal(open.document, folder.path());
    change(open.document, 150e-9);
    journal.write();
    journal.finish();
    ASSERT_EQ(journals().size(), 1);
    change(open.document, 120e-9);
    ASSERT_TRUE(open.document.saveAs(folder.filePath("lamp.ohmjob")));
    EXPECT_TRUE(journals().isEmpty());
}

// A knob that is turned for a minute must not put the write off until it rests.
TEST_F(JournalTest, GoesOnWritingWhileEditsGoOn) {
    OpenJob open;
    Journal journal(open.document, folder.path());
    for (int step = 0; step < 35 && journals().isEmpty(); ++step) {
        change(open.document, (100 + step) * 1e-9);
        QTest::qWait(100);
    }
    EXPECT_EQ(journals().size(), 1);
}

TEST_F(JournalTest, AWindowThatIsClosedLeavesNothingBehind) {
    {
        OpenJob open;
        Journal journal(open.document, folder.path());
        change(open.document, 150e-9);
        journal.write();
    }
    EXPECT_TRUE(journals().isEmpty());
}

TEST_F(JournalTest, WhatAKilledWindowLeftIsFoundAndForgottenOnce) {
    killedWith(150e-9);
    OpenJob open;
    const Journal journal(open.document, folder.path());
    const std::vector<LostWork> lost = journal.lostWork();
    ASSERT_EQ(lost.size(), 1U);
    EXPECT_EQ(lost[0].entry.job.unit.name, "Harbour Lamp");
    EXPECT_EQ(lost[0].entry.job, *setPartValue(harbourLamp(), "c4", 150e-9));
    Journal::forget(lost[0]);
    EXPECT_TRUE(journal.lostWork().empty());
}

TEST_F(JournalTest, WhatIsNotWantedLiesInTheWastebasketAndCanBeTakenBack) {
    killedWith(150e-9);
    OpenJob open;
    const Journal journal(open.document, folder.path());
    const std::vector<LostWork> lost = journal.lostWork();
    ASSERT_EQ(lost.size(), 1U);
    const QString place = Journal::throwAway(lost[0]);
    ASSERT_FALSE(place.isEmpty());
    EXPECT_TRUE(journal.lostWork().empty());
    ASSERT_TRUE(QFile::rename(place, lost[0].file));
    ASSERT_EQ(journal.lostWork().size(), 1U);
    EXPECT_EQ(journal.lostWork()[0].entry.job, lost[0].entry.job);
    LostWork gone = lost[0];
    gone.file += ".gone";
    EXPECT_TRUE(Journal::throwAway(gone).isEmpty());
}

TEST_F(JournalTest, TheWorkOfAWindowThatLivesIsItsOwn) {
    OpenJob one;
    Journal mine(one.document, folder.path());
    change(one.document, 150e-9);
    mine.write();
    mine.finish();
    ASSERT_EQ(journals().size(), 1);
    OpenJob other;
    const Journal second(other.document, folder.path());
    EXPECT_TRUE(second.lostWork().empty());
}

TEST_F(JournalTest, ADamagedJournalHidesNoOther) {
    killedWith(150e-9);
    QFile damaged(folder.filePath("damaged.journal"));
    ASSERT_TRUE(damaged.open(QIODevice::WriteOnly) && damaged.write("{") == 1);
    damaged.close();
    OpenJob open;
    const Journal journal(open.document, folder.path());
    EXPECT_EQ(journal.lostWork().size(), 1U);
    EXPECT_TRUE(damaged.exists()) << "what cannot be read is not thrown away";
}

TEST_F(JournalTest, AFolderThatCannotBeIsSaid) {
    QFile inTheWay(folder.filePath("file"));
    ASSERT_TRUE(inTheWay.open(QIODevice::WriteOnly));
    OpenJob open;
    Journal journal(open.document, folder.filePath("file/journal"));
    change(open.document, 150e-9);
    journal.write();
    EXPECT_TRUE(journal.trouble().contains("cannot be kept aside")) << journal.trouble().toStdString();
}

}  // namespace
}  // namespace ohmwright::test
