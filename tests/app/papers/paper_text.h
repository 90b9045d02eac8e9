/// A paper as a person reads it: its PDF, drawn out with pdftotext.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"
#include "core/bench/paper_answers.h"
#include "core/files/job_file.h"

#include <gtest/gtest.h>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <memory>
#include <stdexcept>
#include <string>

namespace ohmwright::test {

/// The demo with its own mods on.
inline Job demoJob(const std::string& name) {
    const auto loaded = loadJob(OHMWRIGHT_SOURCE_DIR "/demo-projects/" + name + "/" + name + ".ohmjob");
    EXPECT_TRUE(loaded);
    return loaded ? loaded->job : Job{};
}

inline Job withOnly(Job job, const std::string& letters) {
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

inline PaperAnswers answersOf(PaperKind kind, const Job& job) {
    PaperRequest request;
    request.kind = kind;
    request.job = std::make_shared<const Job>(job);
    Result<PaperAnswers> answers = answersOfPaper(request);
    if (!answers) {
        throw std::runtime_error(answers.error().message);
    }
    return *std::move(answers);
}

inline QString run(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.start(program, arguments);
    EXPECT_TRUE(process.waitForFinished()) << program.toStdString() << " is missing: install poppler-utils";
    return QString::fromUtf8(process.readAllStandardOutput());
}

inline void writePdf(const Paper& paper, const QString& path) {
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(pdfOf(paper));
}

/// Runs of spaces and line ends as one space.
inline QString pdfTextOf(const Paper& paper) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("paper.pdf");
    writePdf(paper, path);
    return run("pdftotext", {"-layout", path, "-"}).replace(QRegularExpression("\\s+"), " ");
}

}  // namespace ohmwright::test
