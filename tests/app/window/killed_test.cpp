// The program itself is killed at random moments while a hand edits and saves in it. Whatever the moment: the job's
// file can be read, nothing older than five seconds is lost, and what is not in the file is offered at the next start.
// OHMWRIGHT_KILLS=200 asks for more of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "core/files/job_journal.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QFile>
#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <iostream>
#include <thread>
#include <vector>

namespace ohmwright::test {
namespace {

constexpr qint64 mostLostMilliseconds = 5000;
constexpr int longestMilliseconds = 7000;  // Of work before the kill: a few of the journal's intervals.
constexpr int patienceMilliseconds = 120'000;

qint64 millisecondsNow() {
    using std::chrono::steady_clock;
    return std::chrono::duration_cast<std::chrono::milliseconds>(steady_clock::now().time_since_epoch()).count();
}

/// "#17." in the visit's words; 0 before the first.
int numberIn(const Job& job) {
    return QString::fromStdString(job.visit.agreed).remove('#').remove('.').toInt();
}

struct Edit {
    int number = 0;
    qint64 at = 0;
};

class KilledTest : public testing::Test {
protected:
    void start(QProcess& program, const QString& task, int seed) {
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("QT_QPA_PLATFORM", "offscreen");
        environment.insert("QT_PLUGIN_PATH", OHMWRIGHT_HAND_FOLDER);
        environment.insert("QT_QPA_GENERIC_PLUGINS", "ohmwright-hand");
        environment.insert("OHMWRIGHT_HAND_LOG", log);
        environment.insert("OHMWRIGHT_HAND_TASK", task);
        environment.insert("OHMWRIGHT_HAND_SEED", QString::number(seed));
        for (const char* each : {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"}) {
            environment.insert(each, home);
        }
        program.setProcessEnvironment(environment);
        program.setProcessChannelMode(QProcess::ForwardedErrorChannel);
        program.start(OHMWRIGHT_PROGRAM, task.isEmpty() ? QStringList{path} : QStringList());
        ASSERT_TRUE(program.waitForStarted(patienceMilliseconds));
    }

    [[nodiscard]] std::vector<Edit> edits() const {
        QFile file(log);
        std::vector<Edit> found;
        if (!file.open(QIODevice::ReadOnly)) {
            return found;
        }
        for (const QByteArray& line : file.readAll().split('\n')) {
            const QList<QByteArray> words = line.split(' ');
            if (words.size() == 2 && words[0].toInt() > 0) {
                found.push_back({words[0].toInt(), words[1].toLongLong()});
            }
        }
        return found;
    }
    [[nodiscard]] int numberInFile() const {
        const Result<LoadedJob> loaded = loadJob(path.toStdString());
        EXPECT_TRUE(loaded) << loaded.error().message;
        return loaded ? numberIn(loaded->job) : -1;
    }
    /// The newest of the journals; -1 when there is none.
    [[nodiscard]] int numberInJournal() const {
        int newest = -1;
        const QDir journals(home + "/ohmwright/ohmwright/journal");
        for (const QString& name : journals.entryList({"*.journal"}, QDir::Files)) {
            const Result<JournalEntry> entry = loadJournal(journals.filePath(name).toStdString());
            EXPECT_TRUE(entry) << entry.error().message;
            newest = std::max(newest, entry ? numberIn(entry->job) : -1);
        }
        return newest;
    }

    /// Starts the program, kills it after so many milliseconds of work, and looks at what is left.
    void killAndLook(int seed, QRandomGenerator& chance) {
        QFile::remove(log);
        ASSERT_TRUE(saveJob(harbourLamp(), path.toStdString()));
        QProcess program;
        start(program, {}, seed);
        const qint64 patience = millisecondsNow() + patienceMilliseconds;
        while (edits().empty() && millisecondsNow() < patience) {
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(chance.bounded(longestMilliseconds)));
        program.kill();
        ASSERT_TRUE(program.waitForFinished(patienceMilliseconds));
        const qint64 killedAt = millisecondsNow();
        const std::vector<Edit> made = edits();
        ASSERT_FALSE(made.empty());
        const int inFile = numberInFile();
        const int kept = std::max(inFile, numberInJournal());
        const auto lost =
            std::find_if(made.begin(), made.end(), [kept](const Edit& edit) { return edit.number > kept; });
        const qint64 age = lost == made.end() ? 0 : killedAt - lost->at;
        EXPECT_LE(age, mostLostMilliseconds) << "seed " << seed << ": edit " << kept + 1 << " of " << made.size();
        oldest = std::max(oldest, age);
        saved += inFile > 0 ? 1 : 0;
        bringBack(inFile, kept);
    }

    /// The next start offers what is not in the file, and a save puts it there.
    void bringBack(int inFile, int kept) {
        QFile::remove(log);
        QProcess program;
        start(program, "bring back", 0);
        ASSERT_TRUE(program.waitForFinished(patienceMilliseconds));
        EXPECT_EQ(program.exitStatus(), QProcess::NormalExit);
        EXPECT_EQ(numberInFile(), kept) << "what was newer than the file is back in it";
        offered += kept > inFile ? 1 : 0;
        EXPECT_EQ(numberInJournal(), -1) << "nothing is left over";
    }

    QTemporaryDir folder;
    QString home = folder.filePath("home");
    QString path = folder.filePath("lamp.ohmjob");
    QString log = folder.filePath("hand.log");
    qint64 oldest = 0;  ///< Of what was lost [ms].
    int saved = 0;      ///< Kills after which the file held an edit.
    int offered = 0;    ///< Kills after which a journal held a newer one than the file.
};

TEST_F(KilledTest, NothingOlderThanFiveSecondsIsLostAtAnyMoment) {
    constexpr int fewKills = 6;
    const int asked = qEnvironmentVariableIntValue("OHMWRIGHT_KILLS");
    QRandomGenerator chance(20261129);
    const int kills = asked > 0 ? asked : fewKills;
    for (int kill = 0; kill < kills && !HasFatalFailure(); ++kill) {
        killAndLook(kill, chance);
    }
    std::cout << kills << " kills; the oldest edit that was lost was " << oldest << " ms old; saved " << saved
              << " times, brought back " << offered << " times\n";
    EXPECT_GT(saved + offered, 0) << "the hand did no work";
}

}  // namespace
}  // namespace ohmwright::test
