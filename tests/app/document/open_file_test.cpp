// Two windows on one file, files that others write or take away, files that are not whole.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/open_file.h"

#include "app/document/job_document.h"
#include "core/files/job_file.h"
#include "core/plan/edits.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

namespace ohmwright::test {
namespace {

void writeText(const QString& path, const std::string& text) {
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    ASSERT_EQ(file.write(text.data(), static_cast<qint64>(text.size())), static_cast<qint64>(text.size()));
}

std::string textOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll().toStdString() : std::string();
}

Job withC4(double farads) {
    return *setPartValue(harbourLamp(), "c4", farads);
}

struct Window {
    Window() { document.lockFiles(); }
    bool open(const QString& path, LockWish wish = LockWish::free) { return document.open(path, wish).hasValue(); }
    bool change(double farads) { return document.edit(setPartValue(*document.job(), "c4", farads), "Change C4"); }
    [[nodiscard]] FileState state() const { return document.fileCondition().state; }
    [[nodiscard]] std::string sentence() const { return document.fileCondition().sentence.toStdString(); }

    JobDocument document;
};

class OpenFileTest : public testing::Test {
protected:
    OpenFileTest() { EXPECT_TRUE(saveJob(harbourLamp(), path.toStdString())); }

    QTemporaryDir folder;
    QString path = folder.filePath("lamp.ohmjob");
};

#define EXPECT_SAYS(sentence, words) EXPECT_NE((sentence).find(words), std::string::npos) << (sentence)

TEST_F(OpenFileTest, TheSecondWindowShowsTheJobAndRefusesEveryEditUntilItIsSavedAsAnother) {
    Window first;
    ASSERT_TRUE(first.open(path));
    Window second;
    ASSERT_TRUE(second.open(path));
    EXPECT_EQ(second.state(), FileState::heldElsewhere);
    EXPECT_SAYS(second.sentence(), "lamp.ohmjob is open in another window");
    QSignalSpy refused(&second.document, &JobDocument::refused);
    EXPECT_FALSE(second.change(150e-9));
    ASSERT_EQ(refused.size(), 1);
    EXPECT_SAYS(refused[0][0].toString().toStdString(), "is open in another window");
    EXPECT_EQ(*second.document.job(), harbourLamp());
    EXPECT_EQ(second.document.saveStateText(), "read-only");
    ASSERT_FALSE(second.document.save());
    ASSERT_TRUE(second.document.saveAs(folder.filePath("copy.ohmjob")));
    EXPECT_TRUE(second.change(150e-9));
    EXPECT_TRUE(second.document.save());
    EXPECT_TRUE(first.change(100e-9));
    EXPECT_TRUE(first.document.save());
    EXPECT_EQ(textOf(folder.filePath("copy.ohmjob")), writeJob(withC4(150e-9)));
    EXPECT_EQ(textOf(path), writeJob(withC4(100e-9)));
}

TEST_F(OpenFileTest, OnceTheFirstHasClosedOrOpenedAnotherTheSecondGetsIt) {
    Window second;
    {
        Window first;
        ASSERT_TRUE(first.open(path));
        ASSERT_TRUE(second.open(path, LockWish::alsoLeft));
        EXPECT_EQ(second.state(), FileState::heldElsewhere) << "what lives is not taken over";
    }
    ASSERT_TRUE(second.open(path));
    EXPECT_EQ(second.state(), FileState::sound);
    EXPECT_TRUE(second.change(150e-9));
    second.document.setJob(harbourLamp(), {});
    EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files), QStringList{"lamp.ohmjob"}) << "the lock is given back";
}

TEST_F(OpenFileTest, AJobIsNotSavedOverOneThatIsOpenElsewhere) {
    Window first;
    ASSERT_TRUE(first.open(path));
    Window other;
    other.document.setJob(withC4(150e-9), {});
    const Result<void> saved = other.document.saveAs(path);
    ASSERT_FALSE(saved);
    EXPECT_SAYS(saved.error().message, "lamp.ohmjob is open in another window");
    EXPECT_EQ(textOf(path), writeJob(harbourLamp()));
}

TEST_F(OpenFileTest, WhatAKilledWindowLeftOpenIsSaidAndTakenOver) {
    const pid_t child = fork();
    if (child == 0) {
        Window killed;
        killed.open(path);
        std::raise(SIGKILL);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    Window next;
    ASSERT_TRUE(next.open(path));
    EXPECT_EQ(next.state(), FileState::leftBehind);
    EXPECT_SAYS(next.sentence(), "was left open by");
    EXPECT_FALSE(next.change(150e-9));
    ASSERT_TRUE(next.open(path, LockWish::alsoLeft));
    EXPECT_TRUE(next.change(150e-9));
    EXPECT_TRUE(next.document.save());
}

TEST_F(OpenFileTest, AnotherMachinesLockIsSaidWithItsNameAndTime) {
    writeText(path + ".lock",
              "{\"format\": \"ohmwright-lock\", \"version\": 1, \"who\": \"Mara\", \"machine\": \"bench-2\", "
              "\"since\": \"2026-11-29T20:00:00\"}");
    Window window;
    ASSERT_TRUE(window.open(path));
    EXPECT_EQ(window.state(), FileState::heldAway);
    EXPECT_SAYS(window.sentence(), "Mara has it on bench-2 since 29 Nov 20:00");
}

TEST_F(OpenFileTest, ADamagedFileIsShownWithItsPlacesAndNeverSavedOver) {
    std::string text = writeJob(harbourLamp());
    text.replace(text.find("5.6e-08"), 7, "\"a lot\"");
    writeText(path, text);
    Window window;
    ASSERT_TRUE(window.open(path));
    EXPECT_EQ(window.state(), FileState::damaged);
    EXPECT_SAYS(window.sentence(), "lamp.ohmjob is damaged. In line ");
    EXPECT_SAYS(window.sentence(), "circuit/parts/c4/value");
    EXPECT_EQ(window.document.fileFaults().size(), 1);
    EXPECT_FALSE(window.document.edit(harbourLamp(), "Put C4 back"));
    EXPECT_FALSE(window.document.save());
    EXPECT_EQ(textOf(path), text);
}

TEST_F(OpenFileTest, ANewerProgramsFileIsShownOnly) {
    std::string text = writeJob(harbourLamp());
    text.replace(text.find("\"version\": 1"), 12, "\"version\": 7");
    writeText(path, text);
    Window window;
    ASSERT_TRUE(window.open(path));
    EXPECT_EQ(window.state(), FileState::newer);
    EXPECT_SAYS(window.sentence(), "format version 7");
    EXPECT_FALSE(window.change(150e-9));
    EXPECT_FALSE(window.document.save());
    EXPECT_EQ(textOf(path), text);
}

TEST_F(OpenFileTest, AFileThatOthersWroteIsSaidAndTakenAsAStepThatUndoLeavesAgain) {
    Window window;
    ASSERT_TRUE(window.open(path));
    ASSERT_TRUE(window.change(150e-9));
    writeText(path, writeJob(withC4(22e-9)));
    window.document.checkFile();
    EXPECT_EQ(window.state(), FileState::changedOutside);
    EXPECT_SAYS(window.sentence(), "was changed by another program");
    EXPECT_EQ(window.document.saveStateText(), "changed by another program");
    EXPECT_FALSE(window.document.save());
    EXPECT_EQ(textOf(path), writeJob(withC4(22e-9))) << "not overwritten";
    ASSERT_TRUE(window.document.takeFromDisk());
    EXPECT_EQ(*window.document.job(), withC4(22e-9));
    EXPECT_TRUE(window.document.isSaved());
    EXPECT_EQ(window.state(), FileState::sound);
    window.document.undoStack().undo();
    EXPECT_EQ(*window.document.job(), withC4(150e-9)) << "nothing is lost";
    EXPECT_FALSE(window.document.isSaved());
    EXPECT_TRUE(window.document.save());
    EXPECT_EQ(textOf(path), writeJob(withC4(150e-9)));
}

TEST_F(OpenFileTest, WhatOthersWroteThatIsNoJobIsNotTaken) {
    Window window;
    ASSERT_TRUE(window.open(path));
    writeText(path, "half a jo");
    window.document.checkFile();
    EXPECT_EQ(window.state(), FileState::changedOutside);
    EXPECT_FALSE(window.document.takeFromDisk());
    EXPECT_EQ(*window.document.job(), harbourLamp());
}

TEST_F(OpenFileTest, AFileThatIsTakenAwayIsUnsavedAndWrittenAnew) {
    Window window;
    ASSERT_TRUE(window.open(path));
    ASSERT_TRUE(QFile::remove(path));
    window.document.checkFile();
    EXPECT_EQ(window.state(), FileState::gone);
    EXPECT_FALSE(window.document.isSaved());
    EXPECT_EQ(window.document.saveStateText(), "not saved yet");
    EXPECT_TRUE(window.document.save());
    EXPECT_EQ(textOf(path), writeJob(harbourLamp()));
    EXPECT_TRUE(window.document.isSaved());
}

TEST_F(OpenFileTest, AFolderThatIsTakenAwaySendsTheWorkElsewhere) {
    const QString inside = folder.filePath("stick/lamp.ohmjob");
    ASSERT_TRUE(QDir(folder.path()).mkdir("stick"));
    ASSERT_TRUE(saveJob(harbourLamp(), inside.toStdString()));
    Window window;
    ASSERT_TRUE(window.open(inside));
    ASSERT_TRUE(QDir(folder.filePath("stick")).removeRecursively());
    window.document.checkFile();
    EXPECT_EQ(window.state(), FileState::folderGone);
    const Result<void> saved = window.document.save();
    ASSERT_FALSE(saved);
    EXPECT_SAYS(saved.error().message, "The folder of lamp.ohmjob is gone");
    EXPECT_TRUE(window.change(150e-9)) << "work goes on";
    EXPECT_TRUE(window.document.saveAs(folder.filePath("elsewhere.ohmjob")));
    EXPECT_EQ(window.state(), FileState::sound);
}

// The system takes no byte more: as a full disk is for a program. The whole process is under the limit, so it is
// another.
TEST_F(OpenFileTest, AFullDiskLeavesTheOldFileAndSaysSoUntilASaveGoesThrough) {
    const pid_t child = fork();
    if (child == 0) {
        Window window;
        std::signal(SIGXFSZ, SIG_IGN);
        int failures = window.open(path) && window.change(150e-9) ? 0 : 1;
        rlimit limit = {};
        getrlimit(RLIMIT_FSIZE, &limit);
        const rlimit full{1024, limit.rlim_max};
        setrlimit(RLIMIT_FSIZE, &full);
        const Result<void> saved = window.document.save();
        failures += !saved && window.state() == FileState::notSaved && !window.document.isSaved() ? 0 : 2;
        failures += window.sentence().find("make room") != std::string::npos ? 0 : 4;
        failures += textOf(path) == writeJob(harbourLamp()) ? 0 : 8;
        window.document.checkFile();
        failures += window.state() == FileState::notSaved && window.change(120e-9) ? 0 : 16;
        setrlimit(RLIMIT_FSIZE, &limit);
        failures += window.document.save() && window.state() == FileState::sound ? 0 : 32;
        _exit(failures);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_EQ(textOf(path), writeJob(withC4(120e-9)));
}

}  // namespace
}  // namespace ohmwright::test
