// Runs the window tests offscreen, with the program's own look.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/theme.h"

#include <gtest/gtest.h>
#include <QApplication>
#include <QFile>
#include <QTemporaryDir>

namespace {

/// The shop's folder lies among the user's documents unless another is chosen: those of the tests are their own.
void keepDocumentsIn(const QTemporaryDir& folder) {
    QFile places(folder.filePath("user-dirs.dirs"));
    if (places.open(QIODevice::WriteOnly)) {
        places.write(QString("XDG_DOCUMENTS_DIR=\"%1\"\n").arg(folder.filePath("Documents")).toLocal8Bit());
    }
}

}  // namespace

int main(int argc, char** argv) {
    // gtest_discover_tests runs the binary at build time without the tests' environment.
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    // Tests run side by side, each a process: with one settings file they would read each other's.
    const QTemporaryDir settings;
    qputenv("XDG_CONFIG_HOME", settings.path().toLocal8Bit());
    qputenv("XDG_DATA_HOME", settings.path().toLocal8Bit());
    keepDocumentsIn(settings);
    testing::InitGoogleTest(&argc, argv);
    QApplication application(argc, argv);
    QApplication::setOrganizationName("ohmwright-tests");
    QApplication::setApplicationName("Ohmwright");
    ohmwright::Theme::install();
    return RUN_ALL_TESTS();
}
