// A netlist opened as a job: what the document then says of itself, and what it refuses.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/job_document.h"
#include "core/plan/edits.h"

#include <gtest/gtest.h>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>

#include <sys/stat.h>

namespace ohmwright {
namespace {

const char* const mossEngine = OHMWRIGHT_SOURCE_DIR "/tests/reference/netlists/demos/moss-engine-stock.cir";

class NetlistDocument : public testing::Test {
protected:
    QString fileWith(const QString& name, const QByteArray& text) {
        const QString path = folder.filePath(name);
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(text);
        return path;
    }

    QTemporaryDir folder;
    JobDocument document;
};

TEST_F(NetlistDocument, BecomesAJobWithoutAFileOfItsOwn) {
    QSignalSpy changes(&document, &JobDocument::jobChanged);
    ASSERT_TRUE(document.open(mossEngine));
    EXPECT_EQ(document.path(), "");
    EXPECT_EQ(document.netlistPath(), mossEngine);
    EXPECT_TRUE(document.isSaved()) << "nothing is lost by leaving it";
    EXPECT_EQ(document.saveStateText(), "not saved yet");
    EXPECT_EQ(document.fileCondition().sentence, "");
    EXPECT_EQ(document.job()->unit.name.substr(0, 18), "Moss Engine, stock");
    ASSERT_NE(findPart(document.job()->stock, "C1"), nullptr);
    EXPECT_DOUBLE_EQ(findPart(document.job()->stock, "C1")->value, 2.2e-6);
    EXPECT_EQ(changes.count(), 1);
}

TEST_F(NetlistDocument, SaveAsksForAFileAndTheJobReopensEqual) {
    ASSERT_TRUE(document.open(mossEngine));
    const Result<void> saved = document.save();
    ASSERT_FALSE(saved);
    EXPECT_NE(saved.error().message.find("Save as"), std::string::npos);
    ASSERT_TRUE(document.edit(setPartValue(*document.job(), "C1", 1e-6), "Change C1 to 1µ"));
    EXPECT_FALSE(document.isSaved());
    const QString path = folder.filePath("moss.ohmjob");
    ASSERT_TRUE(document.saveAs(path));
    EXPECT_EQ(document.path(), path);
    EXPECT_TRUE(document.isSaved());
    const Job before = *document.job();
    JobDocument again;
    const Result<void> opened = again.open(path);
    ASSERT_TRUE(opened) << opened.error().message;
    EXPECT_EQ(*again.job(), before);
    EXPECT_EQ(again.netlistPath(), "");
}

TEST_F(NetlistDocument, IsKnownByItsNameInAnyCaseOrByItsText) {
    const QByteArray text = "Half\nV1 in 0 AC 1\nR1 in out 1k\nR2 out 0 1k\n.end\n";
    for (const char* name : {"half.CIR", "half.txt", "half"}) {
        const Result<void> opened = document.open(fileWith(name, text));
        ASSERT_TRUE(opened) << opened.error().message;
        EXPECT_EQ(document.job()->unit.name, "Half");
        EXPECT_EQ(document.path(), "");
    }
    EXPECT_FALSE(document.open(fileWith("half.ohmjob", text))) << "a job file holds a job";
}

TEST_F(NetlistDocument, KeepsTheReadersNotesUntilAnotherJobIsOpened) {
    ASSERT_TRUE(document.open(fileWith("milli.cir", "Milli\nV1 in 0 AC 1\nR1 in out 1M\nR2 out 0 1k\n.end\n")));
    ASSERT_EQ(document.netlistNotes().size(), 1);
    EXPECT_TRUE(document.netlistNotes().front().startsWith("line 3: "))
        << document.netlistNotes().front().toStdString();
    ASSERT_TRUE(document.open(mossEngine));
    EXPECT_TRUE(document.netlistNotes().isEmpty());
}

TEST_F(NetlistDocument, AnErrorNamesFileAndLineAndTheOpenJobStays) {
    ASSERT_TRUE(document.open(mossEngine));
    const auto before = document.job();
    const Result<void> wrong = document.open(fileWith("wrong.cir", "t\nV1 in 0 AC 1\nR1 in out\n.end\n"));
    ASSERT_FALSE(wrong);
    EXPECT_EQ(wrong.error().message.substr(0, 13), "wrong.cir:3: ") << wrong.error().message;
    const Result<void> endless = document.open(fileWith("ends.cir", "t\nV1 in 0 AC 1\nR1 in 0 1k\n.end\n"));
    ASSERT_FALSE(endless);
    EXPECT_EQ(endless.error().message.substr(0, 10), "ends.cir: ") << endless.error().message;
    EXPECT_EQ(document.job(), before);
    EXPECT_EQ(document.netlistPath(), mossEngine);
}

TEST_F(NetlistDocument, APipeIsRefusedAtOnce) {
    const QString path = folder.filePath("pipe.cir");
    ASSERT_EQ(::mkfifo(path.toStdString().c_str(), 0600), 0);
    const Result<void> opened = document.open(path);
    ASSERT_FALSE(opened);
    EXPECT_NE(opened.error().message.find("no ordinary file"), std::string::npos);
}

TEST_F(NetlistDocument, AMissingFileIsNamed) {
    const Result<void> opened = document.open(folder.filePath("gone.cir"));
    ASSERT_FALSE(opened);
    EXPECT_NE(opened.error().message.find("gone.cir"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright
