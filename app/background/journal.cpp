// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/journal.h"

#include "app/document/job_document.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QLockFile>
#include <QThreadPool>
#include <QUuid>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

QString suffix() {
    return QString::fromUtf8(journalSuffix.data(), static_cast<qsizetype>(journalSuffix.size()));
}

std::filesystem::path nativePath(const QString& path) {
    return std::filesystem::path(path.toStdU16String());
}

QString lockOf(const QString& journal) {
    return journal + ".lock";
}

/// A lock is its process', however long that lives; one whose process is gone is taken over at once.
std::unique_ptr<QLockFile> lockFile(const QString& journal) {
    auto lock = std::make_unique<QLockFile>(lockOf(journal));
    lock->setStaleLockTime(0);
    return lock;
}

}  // namespace

/// One thread, so that a later state never stands under an earlier one.
struct Journal::Writer {
    Writer() { pool.setMaxThreadCount(1); }

    QThreadPool pool;
};

Journal::Journal(JobDocument& document, const QString& folder, QObject* parent)
    : QObject(parent),
      m_document(document),
      m_folder(folder),
      m_file(QDir(folder).filePath(QUuid::createUuid().toString(QUuid::WithoutBraces) + suffix())),
      m_writer(std::make_unique<Writer>()) {
    const bool isThere = QDir().mkpath(folder);
    m_lock = lockFile(m_file);
    if (!isThere || !m_lock->tryLock(0)) {
        setTrouble(tr("Unsaved work cannot be kept aside: %1 cannot be written. Save often.").arg(folder));
    }
    m_due.setSingleShot(true);
    // Half of it: on a machine that is busy, the window and the writer come late to their turn.
    m_due.setInterval(mostMilliseconds / 2);
    connect(&m_due, &QTimer::timeout, this, &Journal::write);
    connect(&document, &JobDocument::jobChanged, this, &Journal::follow);
    connect(&document, &JobDocument::saveStateChanged, this, &Journal::follow);
}

Journal::~Journal() {
    m_writer->pool.waitForDone();
    QFile::remove(m_file);
}

/// Not put off by the next edit: what is kept is never older than the interval. After a save nothing is kept, at once:
/// it would be offered as newer than the file.
void Journal::follow() {
    if (m_document.isSaved()) {
        write();
        return;
    }
    if (!m_due.isActive()) {
        m_due.start();
    }
}

void Journal::write() {
    m_due.stop();
    if (!m_lock->isLocked()) {
        return;
    }
    if (m_document.isSaved()) {
        m_writer->pool.waitForDone();
        QFile::remove(m_file);
        return;
    }
    const QString when = QDateTime::currentDateTime().toString(Qt::ISODate);
    auto work = [this, job = m_document.job(), path = m_document.path().toStdString(), when = when.toStdString(),
                 file = nativePath(m_file)] {
        const Result<void> written = saveJournal({*job, path, when}, file);
        const QString trouble =
            written ? QString()
                    : tr("Unsaved work cannot be kept aside: %1").arg(QString::fromStdString(written.error().message));
        QMetaObject::invokeMethod(
            this, [this, trouble] { setTrouble(trouble); }, Qt::QueuedConnection);
    };
    m_writer->pool.start(std::move(work));
}

void Journal::finish() {
    m_writer->pool.waitForDone();
}

void Journal::setTrouble(const QString& sentence) {
    if (sentence != m_trouble) {
        m_trouble = sentence;
        emit troubleChanged();
    }
}

std::vector<LostWork> Journal::lostWork() const {
    std::vector<LostWork> lost;
    const QStringList names = QDir(m_folder).entryList({"*" + suffix()}, QDir::Files);
    for (const QString& name : names) {
        const QString file = QDir(m_folder).filePath(name);
        const std::unique_ptr<QLockFile> lock = lockFile(file);
        if (file == m_file || !lock->tryLock(0)) {
            continue;
        }
        if (Result<JournalEntry> entry = loadJournal(nativePath(file))) {
            lost.push_back({file, *std::move(entry)});
        }
    }
    std::sort(lost.begin(), lost.end(),
              [](const LostWork& a, const LostWork& b) { return a.entry.when > b.entry.when; });
    return lost;
}

void Journal::forget(const LostWork& lost) {
    QFile::remove(lost.file);
    QFile::remove(lockOf(lost.file));
}

QString Journal::throwAway(const LostWork& lost) {
    QString place;
    if (!QFile::moveToTrash(lost.file, &place)) {
        return {};
    }
    QFile::remove(lockOf(lost.file));
    return place;
}

}  // namespace ohmwright
