// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/job_document.h"

#include "core/files/job_file.h"

#include <gtest/gtest.h>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>

namespace ohmwright {
namespace {

Job jobNamed(const std::string& unit) {
    Job job;
    job.unit.name = unit;
    return job;
}

Job withCustomer(Job job, const std::string& name) {
    job.customer.name = name;
    return job;
}

void writeText(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    file.write(bytes);
}

QByteArray textOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

TEST(JobDocument, SnapshotsNeverChangeUnderTheirReader) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    const auto before = document.job();
    ASSERT_TRUE(document.edit(withCustomer(*before, "A. N."), "Change customer"));
    EXPECT_EQ(before->customer.name, "");
    EXPECT_EQ(document.job()->customer.name, "A. N.");
}

TEST(JobDocument, UndoReturnsExactlyAndSaysWhatItTouched) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    const Job before = *document.job();
    document.edit(withCustomer(before, "A. N."), "Change customer", JobAspect::words);
    EXPECT_EQ(document.undoStack().undoText(), "Change customer");

    QSignalSpy changes(&document, &JobDocument::jobChanged);
    document.undoStack().undo();
    EXPECT_EQ(*document.job(), before);
    ASSERT_EQ(changes.count(), 1);
    EXPECT_EQ(changes.at(0).at(0).value<JobAspect>(), JobAspect::words);
    document.undoStack().redo();
    EXPECT_EQ(document.job()->customer.name, "A. N.");
}

TEST(JobDocument, TurningAKnobIsOneStepAndTurningItBackIsNone) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    const auto turnTo = [&](double position) {
        Job job = *document.job();
        job.setting.knobs["drive"] = position;
        document.edit(job, "Turn Drive", JobAspect::electrical, MergeKind::knob, "drive");
    };
    Job start = *document.job();
    start.setting.knobs["drive"] = 5.0;
    document.setJob(start, {});
    turnTo(5.5);
    turnTo(6.0);
    EXPECT_EQ(document.undoStack().count(), 1);
    turnTo(5.0);
    EXPECT_EQ(document.undoStack().count(), 0);
    EXPECT_EQ(*document.job(), start);
    EXPECT_TRUE(document.undoStack().isClean());
}

TEST(JobDocument, EditsOfDifferentThingsStayApart) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    for (const char* knob : {"drive", "level"}) {
        Job job = *document.job();
        job.setting.knobs[knob] = 7.0;
        document.edit(job, "Turn", JobAspect::electrical, MergeKind::knob, knob);
    }
    EXPECT_EQ(document.undoStack().count(), 2);
}

TEST(JobDocument, RefusedEditChangesNothingAndIsSaid) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    QSignalSpy refusals(&document, &JobDocument::refused);
    const auto before = document.job();
    EXPECT_FALSE(document.edit(Error{ErrorCode::invalidInput, "C4 cannot be 0 F: type a value.", "C4"}, "Change C4"));
    ASSERT_EQ(refusals.count(), 1);
    EXPECT_EQ(refusals.at(0).at(0).toString(), "C4 cannot be 0 F: type a value.");
    EXPECT_EQ(document.job(), before);
    EXPECT_EQ(document.undoStack().count(), 0);
}

TEST(JobDocument, SaysNothingWhileItDies) {
    int announced = 0;
    {
        JobDocument document;
        document.setJob(jobNamed("Harbour Lamp"), {});
        document.edit(withCustomer(*document.job(), "A. N."), "Change customer");
        QObject::connect(&document, &JobDocument::saveStateChanged, [&announced] { ++announced; });
    }
    EXPECT_EQ(announced, 0);
}

TEST(JobDocument, EditThatChangesNothingLeavesNoStep) {
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    EXPECT_TRUE(document.edit(*document.job(), "Change nothing"));
    EXPECT_EQ(document.undoStack().count(), 0);
}

TEST(JobDocument, SaveStateIsSaidInWords) {
    const QTemporaryDir folder;
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    EXPECT_EQ(document.saveStateText(), "not saved yet");
    const QString path = folder.filePath("lamp.ohmjob");
    ASSERT_TRUE(document.saveAs(path));
    EXPECT_TRUE(document.saveStateText().startsWith("saved "));
    document.edit(withCustomer(*document.job(), "A. N."), "Change customer", JobAspect::words);
    EXPECT_EQ(document.saveStateText(), "not saved yet");
    document.undoStack().undo();
    EXPECT_TRUE(document.saveStateText().startsWith("saved "));
}

TEST(JobDocument, WhatIsSavedOpensEqual) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("Möwe \u03A9 \u201Ctwo\u201D.ohmjob");
    JobDocument written;
    written.setJob(withCustomer(jobNamed("Harbour Lamp"), "A. N."), {});
    ASSERT_TRUE(written.saveAs(path));
    JobDocument read;
    const Result<void> opened = read.open(path);
    ASSERT_TRUE(opened) << opened.error().message;
    EXPECT_EQ(*read.job(), *written.job());
    EXPECT_EQ(read.undoStack().count(), 0);
    EXPECT_TRUE(read.isSaved());
}

TEST(JobDocument, AFileChangedByOthersIsNotOverwritten) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("lamp.ohmjob");
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    ASSERT_TRUE(document.saveAs(path));
    const QByteArray theirs = QByteArray::fromStdString(writeJob(jobNamed("Harbour Lamp, their note")));
    writeText(path, theirs);

    document.edit(withCustomer(*document.job(), "A. N."), "Change customer", JobAspect::words);
    const Result<void> saved = document.save();
    ASSERT_FALSE(saved);
    EXPECT_EQ(saved.error().code, ErrorCode::fileUnreadable);
    EXPECT_NE(saved.error().message.find("lamp.ohmjob was changed"), std::string::npos) << saved.error().message;
    EXPECT_EQ(textOf(path), theirs);
    EXPECT_FALSE(document.isSaved());
    EXPECT_EQ(document.job()->customer.name, "A. N.");
}

TEST(JobDocument, AFileThatWasTakenAwayIsWrittenAnew) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("lamp.ohmjob");
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    ASSERT_TRUE(document.saveAs(path));
    ASSERT_TRUE(QFile::remove(path));
    EXPECT_TRUE(document.save());
    EXPECT_TRUE(QFile::exists(path));
}

TEST(JobDocument, SavingWithoutAFileOrIntoNoFolderKeepsTheWork) {
    const QTemporaryDir folder;
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    EXPECT_FALSE(document.save());
    const Result<void> saved = document.saveAs(folder.filePath("no such folder/lamp.ohmjob"));
    ASSERT_FALSE(saved);
    EXPECT_EQ(saved.error().code, ErrorCode::fileUnreadable);
    EXPECT_EQ(document.path(), "");
    EXPECT_EQ(document.job()->unit.name, "Harbour Lamp");
}

TEST(JobDocument, OpeningADamagedFileLeavesTheOpenJob) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("half.ohmjob");
    writeText(path, "{ \"format\": ");
    JobDocument document;
    document.setJob(jobNamed("Harbour Lamp"), {});
    const auto before = document.job();
    const Result<void> opened = document.open(path);
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().code, ErrorCode::fileDamaged);
    EXPECT_EQ(document.job(), before);
    EXPECT_EQ(document.path(), "");
}

}  // namespace
}  // namespace ohmwright
