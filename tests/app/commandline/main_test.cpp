// SPDX-License-Identifier: GPL-3.0-or-later
// The program itself, as a shell would run it.
#include "tests/app/commandline/called.h"

#include <QProcess>
#include <QProcessEnvironment>
#include <QStringList>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

struct Outcome {
    int status = -1;
    std::string out;
    std::string err;
};

/// Without a display, and without the platform that the tests themselves use.
Outcome run(const QStringList& args) {
    QProcess program;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.remove("QT_QPA_PLATFORM");
    environment.remove("DISPLAY");
    environment.remove("WAYLAND_DISPLAY");
    program.setProcessEnvironment(environment);
    program.start(OHMWRIGHT_CLI, args);
    EXPECT_TRUE(program.waitForFinished(60000)) << program.errorString().toStdString();
    EXPECT_EQ(program.exitStatus(), QProcess::NormalExit);
    return {program.exitCode(), program.readAllStandardOutput().toStdString(),
            program.readAllStandardError().toStdString()};
}

const QString job = QString::fromStdString(test::harbourLampPath());

TEST(Program, AnswersAsTheCallInsideDoes) {
    const Outcome answer = run({"response", job, "--at", "82.41,1k"});
    EXPECT_EQ(answer.status, 0);
    EXPECT_EQ(answer.err, "");
    EXPECT_EQ(answer.out, test::answered({"response", test::harbourLampPath(), "--at", "82.41,1k"}));
}

TEST(Program, ExitsWithTheStatusesOfItsHelp) {
    EXPECT_EQ(run({"--version"}).status, 0);
    EXPECT_EQ(run({"--help"}).status, 0);
    EXPECT_EQ(run({"frob"}).status, 2);
    EXPECT_EQ(run({"bias", "/no/such.ohmjob"}).status, 3);
    EXPECT_EQ(run({"bias", "netlist.cir"}).status, 3);

    const test::ScratchFolder folder;
    Job broken = test::harbourLamp();
    findPart(broken.stock, "r5")->nets = {"adrift", "nowhere"};
    const Outcome unsolvable = run({"bias", QString::fromStdString(folder.write("broken.ohmjob", writeJob(broken)))});
    EXPECT_EQ(unsolvable.status, 4);
    EXPECT_EQ(unsolvable.out, "");
    EXPECT_THAT(unsolvable.err, StartsWith("ohmwright-cli: "));
}

TEST(Program, PrintsASheetWithoutADisplay) {
    const test::ScratchFolder folder;
    const std::string pdf = folder.path("sheet.pdf");
    const Outcome sheet = run({"sheet", job, "--kind", "bench", "--out", QString::fromStdString(pdf)});
    EXPECT_EQ(sheet.status, 0) << sheet.err;
    EXPECT_EQ(sheet.out, "");
    EXPECT_EQ(sheet.err, "");
    EXPECT_THAT(test::bytesOf(pdf), StartsWith("%PDF-"));
}

}  // namespace
}  // namespace ohmwright
