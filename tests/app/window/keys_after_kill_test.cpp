// The program is killed in the middle of work; the next start, by the keyboard alone: the work is brought back,
// nothing that was frozen has changed, and the way-back sheet is read.
// Expected values: the demo's own circuit and plan, and tests/reference/demos/figures.csv.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/keys_alone.h"

#include "core/files/job_file.h"
#include "core/files/job_journal.h"
#include "core/plan/apply.h"
#include "tests/support/demo_job.h"

#include <gmock/gmock.h>
#include <QProcess>
#include <QStandardPaths>

#include <chrono>
#include <thread>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;

/// What the killed program leaves on this machine is looked for under its name.
struct UnderTheProgramsName {
    UnderTheProgramsName() {
        QCoreApplication::setOrganizationName("ohmwright");
        QCoreApplication::setApplicationName("ohmwright");
    }
};

class KeysAfterKill : UnderTheProgramsName, public KeysAlone {
protected:
    static constexpr auto mostLost = std::chrono::seconds(5);

    /// The keys that lead from the start of the program to a part of the map.
    [[nodiscard]] QStringList keysTo(const char* reference) {
        QStringList keys;
        for (int step = 0; step < mostStops && window->selection().part() != idOf(reference); ++step) {
            key(Qt::Key_Right);
            keys << "Right";
        }
        EXPECT_EQ(window->selection().part(), idOf(reference));
        return keys;
    }

    /// The program itself opens the job, has these keys pressed, and is killed five seconds after the last.
    void pressAndKill(const QStringList& keys) {
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("QT_QPA_PLATFORM", "offscreen");
        environment.insert("QT_PLUGIN_PATH", OHMWRIGHT_HAND_FOLDER);
        environment.insert("QT_QPA_GENERIC_PLUGINS", "ohmwright-hand");
        environment.insert("OHMWRIGHT_HAND_LOG", log);
        environment.insert("OHMWRIGHT_HAND_KEYS", keys.join(' '));
        QProcess program;
        program.setProcessEnvironment(environment);
        program.setProcessChannelMode(QProcess::ForwardedErrorChannel);
        program.start(OHMWRIGHT_PROGRAM, {path});
        ASSERT_TRUE(program.waitForStarted(patience));
        const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(patience);
        while (QFileInfo(log).size() == 0 && std::chrono::steady_clock::now() < until) {
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        ASSERT_GT(QFileInfo(log).size(), 0) << "the keys were not pressed";
        std::this_thread::sleep_for(mostLost);
        program.kill();
        ASSERT_TRUE(program.waitForFinished(patience));
    }

    QString log = folder.filePath("hand.log");
};

TEST_F(KeysAfterKill, TheWorkIsBroughtBackAndTheWayBackIsRead) {
    const Job saved = job();
    // From where a start leaves the keyboard: the other three mods, the part, a value into it.
    const QStringList walk = keysTo("C4");
    startAnew();
    pressAndKill(QStringList{"Shift+B", "Shift+C", "Shift+D"} + walk + QStringList{"1", "5", "0", "N", "Return"});
    ASSERT_EQ(loadJob(path.toStdString())->job, saved) << "nothing was saved";

    startAnew();
    EXPECT_TRUE(reads("with unsaved work on Harbour Lamp."));
    ASSERT_TRUE(tabTo("Bring it back"));
    key(Qt::Key_Space);
    ASSERT_TRUE(waitForAnswers());
    EXPECT_DOUBLE_EQ(findPart(*nowCircuit(job()), "c4")->value, 150e-9);
    for (const char* letter : {"A", "B", "C", "D"}) {
        EXPECT_TRUE(isOn(letter)) << letter;
    }
    EXPECT_EQ(job().visit.state, VisitState::draft);
    EXPECT_EQ(job().visit, saved.visit);
    EXPECT_EQ(job().departures, saved.departures);
    EXPECT_EQ(job().stock, saved.stock);

    ASSERT_TRUE(panelTo("StageMap"));
    key(Qt::Key_S, Qt::ControlModifier);
    EXPECT_EQ(loadJob(path.toStdString())->job, job());

    std::string sheet;
    openWayBackOfAllMods(sheet);
    // The readings are those of stock: 3.91 mA, and -8.27 dB at 110 Hz (now it would be about 0 dB).
    EXPECT_THAT(sheet, HasSubstr("Current  3.79 to 4.04 mA"));
    EXPECT_THAT(sheet, HasSubstr("tone of 110 Hz, instrument to output: −10.0 dB to −6.5 dB"));
}

}  // namespace
}  // namespace ohmwright::test
