// The program as it is called: its answers without a display, and its pictures.
// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <QDir>
#include <QFileInfo>
#include <QImage>
#include <QProcess>
#include <QTemporaryDir>

namespace ohmwright {
namespace {

struct Called {
    explicit Called(const QStringList& arguments) {
        QProcess process;
        // Without a platform or display: what has to be answered before a window is made shows here.
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.remove("DISPLAY");
        environment.remove("WAYLAND_DISPLAY");
        environment.remove("QT_QPA_PLATFORM");
        process.setProcessEnvironment(environment);
        process.start(OHMWRIGHT_PROGRAM, arguments);
        EXPECT_TRUE(process.waitForFinished(180'000));
        code = process.exitStatus() == QProcess::NormalExit ? process.exitCode() : -1;
        out = QString::fromUtf8(process.readAllStandardOutput());
        error = QString::fromUtf8(process.readAllStandardError());
    }
    int code = -1;
    QString out;
    QString error;
};

TEST(Program, HelpAndVersionNeedNoDisplay) {
    const Called help({"--help"});
    EXPECT_EQ(help.code, 0);
    EXPECT_TRUE(help.out.contains("ohmwright --pictures DIR")) << help.out.toStdString();
    const Called version({"--version"});
    EXPECT_EQ(version.code, 0);
    EXPECT_TRUE(version.out.startsWith("ohmwright 0.")) << version.out.toStdString();
}

TEST(Program, AWrongCallIsAnsweredInWords) {
    for (const QStringList& arguments :
         {QStringList("--colour"), QStringList("--pictures"), QStringList({"--pictures", "somewhere"}),
          QStringList({"a.ohmjob", "b.ohmjob"})}) {
        const Called called(arguments);
        EXPECT_EQ(called.code, 2) << arguments.join(' ').toStdString();
        EXPECT_FALSE(called.error.isEmpty());
        EXPECT_TRUE(called.out.isEmpty());
    }
}

TEST(Program, AMissingJobIsNamed) {
    const QTemporaryDir folder;
    const Called called({"--pictures", folder.path(), "/no such folder/lamp.ohmjob"});
    EXPECT_EQ(called.code, 3);
    EXPECT_TRUE(called.error.contains("lamp.ohmjob")) << called.error.toStdString();
}

TEST(Program, PicturesShowTheWindowItsCurvesAndTheSheet) {
    const QTemporaryDir folder;
    const QString target = folder.filePath("new folder");
    const Called called(
        {"--pictures", target, QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob"});
    EXPECT_EQ(called.code, 0) << called.error.toStdString();
    const QDir pictures(target);
    EXPECT_EQ(QImage(pictures.filePath("window-light.png")).size(), QSize(1600, 1000));
    EXPECT_EQ(QImage(pictures.filePath("window-dark.png")).size(), QSize(1600, 1000));
    EXPECT_EQ(QImage(pictures.filePath("window-small.png")).size(), QSize(1366, 768));
    // Light and dark are light and dark.
    EXPECT_GT(qGray(QImage(pictures.filePath("window-light.png")).pixel(800, 20)), 200);
    EXPECT_LT(qGray(QImage(pictures.filePath("window-dark.png")).pixel(800, 20)), 60);
    EXPECT_FALSE(QImage(pictures.filePath("response.png")).isNull());
    EXPECT_FALSE(QImage(pictures.filePath("clip.png")).isNull());
    EXPECT_GT(QFileInfo(pictures.filePath("bench-sheet.pdf")).size(), 10'000);
}

}  // namespace
}  // namespace ohmwright
