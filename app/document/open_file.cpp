// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/open_file.h"

#include "core/files/atomic_file.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QLocale>
#include <QSysInfo>

#include <filesystem>
#include <utility>

namespace ohmwright {

namespace {

std::filesystem::path nativePath(const QString& path) {
    return std::filesystem::path(path.toStdU16String());
}

/// Why `path` cannot be written where it lies; sound when it can.
FileCondition writeObstacle(const QString& path) {
    const QFileInfo file(path);
    if (!file.isWritable()) {
        return {
            FileState::notWritable,
            QObject::tr("%1 may not be written. Work goes on; use Save as to keep it elsewhere.").arg(file.fileName())};
    }
    if (!QFileInfo(file.absolutePath()).isWritable()) {
        return {FileState::notWritable,
                QObject::tr("The folder of %1 may not be written. Work goes on; use Save as to keep it elsewhere.")
                    .arg(file.fileName())};
    }
    return {};
}

LockHolder self() {
    return {qEnvironmentVariable("USER").toStdString(), QSysInfo::machineHostName().toStdString(),
            QDateTime::currentDateTime().toString(Qt::ISODate).toStdString()};
}

QString personOf(const LockHolder& holder) {
    return holder.who.empty() ? QObject::tr("somebody") : QString::fromStdString(holder.who).left(60);
}

QString timeOf(const LockHolder& holder) {
    const QDateTime when = QDateTime::fromString(QString::fromStdString(holder.since), Qt::ISODate);
    return when.isValid() ? QLocale().toString(when, QObject::tr("d MMM HH:mm"))
                          : QObject::tr("a time that is not known");
}

}  // namespace

bool isShownOnly(FileState state) {
    switch (state) {
        case FileState::heldElsewhere:
        case FileState::heldAway:
        case FileState::leftBehind:
        case FileState::damaged:
        case FileState::newer:
        case FileState::earlierVersion:
            return true;
        case FileState::sound:
        case FileState::notWritable:
        case FileState::changedOutside:
        case FileState::gone:
        case FileState::folderGone:
        case FileState::notSaved:
            return false;
    }
    return false;
}

void OpenFile::forget() {
    *this = OpenFile();
}

void OpenFile::setCondition(FileState state, const QString& sentence) {
    m_condition = {state, sentence};
}

void OpenFile::willBe(const QString& path) {
    forget();
    m_path = path;
}

void OpenFile::wasRead(const QString& path, std::string text) {
    forget();
    m_path = path;
    m_text = std::move(text);
    m_savedAt = QFileInfo(path).lastModified();
    m_condition = writeObstacle(path);
}

void OpenFile::wasReadInPart(const QString& path, const QStringList& faults, bool isNewer) {
    forget();
    m_path = path;
    m_faults = faults;
    m_savedAt = QFileInfo(path).lastModified();
    const QString name = QFileInfo(path).fileName();
    setCondition(isNewer ? FileState::newer : FileState::damaged,
                 isNewer ? QObject::tr("%1: %2 What is known of it is shown; nothing is changed in the file.")
                               .arg(name, faults.front())
                         : QObject::tr("%1 is damaged. %2 What is sound is shown; nothing is changed in the file.")
                               .arg(name, faults.front()));
}

void OpenFile::wasReadToShow(const QString& path, const QString& sentence) {
    forget();
    m_path = path;
    m_savedAt = QFileInfo(path).lastModified();
    setCondition(FileState::earlierVersion, sentence);
}

void OpenFile::wasWritten(const QString& path, std::string text) {
    m_path = path;
    m_text = std::move(text);
    m_savedAt = QDateTime::currentDateTime();
    m_condition = {};
    m_faults.clear();
}

void OpenFile::couldNotBeWritten(const QString& sentence) {
    setCondition(FileState::notSaved, sentence);
}

// ---- the lock beside it -----------------------------------------------------------------------------------------

FileCondition OpenFile::conditionOf(const LockAnswer& answer) const {
    const QString name = QFileInfo(m_path).fileName();
    const QString who = personOf(answer.holder);
    const QString since = timeOf(answer.holder);
    const QString machine = QString::fromStdString(answer.holder.machine).left(60);
    switch (answer.state) {
        case LockState::heldHere:
            return {
                FileState::heldElsewhere,
                QObject::tr("%1 is open in another window: %2 has it on %3 since %4. It is shown only. Close it there "
                            "and look again, or keep a copy under another name.")
                    .arg(name, who, machine.isEmpty() ? QObject::tr("this machine") : machine, since)};
        case LockState::heldAway:
            return {
                FileState::heldAway,
                QObject::tr("%1 is open on another machine: %2 has it on %3 since %4. It is shown only. Take it over "
                            "when nobody works on it there, or keep a copy under another name.")
                    .arg(name, who, machine, since)};
        case LockState::leftBehind:
            return {
                FileState::leftBehind,
                QObject::tr("%1 was left open by %2 on %3: the program that had it is gone. It is shown only until it "
                            "is taken over.")
                    .arg(name, who, since)};
        case LockState::taken:
            break;
    }
    return {};
}

void OpenFile::lock(LockWish wish) {
    if (m_path.isEmpty() || isShownOnly(m_condition.state) || m_condition.state == FileState::notWritable) {
        return;
    }
    Result<LockAnswer> answer = takeJobLock(nativePath(m_path), self(), wish);
    // Where no lock can be made, a save still sees what others wrote.
    if (!answer) {
        return;
    }
    if (answer->lock) {
        m_lock = std::move(answer->lock);
        m_lockedPath = m_path;
    } else {
        m_condition = conditionOf(*answer);
    }
}

QString OpenFile::lockForWriting(const QString& path) {
    if (m_lock && m_lockedPath == path) {
        return {};
    }
    Result<LockAnswer> answer = takeJobLock(nativePath(path), self(), LockWish::free);
    if (answer && answer->state == LockState::leftBehind) {
        answer = takeJobLock(nativePath(path), self(), LockWish::alsoLeft);
    }
    if (!answer) {
        m_lock.reset();
        return {};
    }
    if (!answer->lock) {
        return QObject::tr("Nothing was saved: %1 is open in another window, %2 has it since %3. Choose another name.")
            .arg(QFileInfo(path).fileName(), personOf(answer->holder), timeOf(answer->holder));
    }
    m_lock = std::move(answer->lock);
    m_lockedPath = path;
    return {};
}

// ---- what others do to it ---------------------------------------------------------------------------------------

FileCondition OpenFile::conditionOnDisk() {
    const QFileInfo file(m_path);
    if (!file.absoluteDir().exists()) {
        return {FileState::folderGone,
                QObject::tr("The folder of %1 is gone: a disk that was taken out, or a folder that "
                            "was moved. Work goes on and is kept aside; use Save as to keep it "
                            "elsewhere.")
                    .arg(file.fileName())};
    }
    if (!file.exists()) {
        return {
            FileState::gone,
            QObject::tr("%1 is no longer in its folder: it was moved or removed. Work goes on and is kept aside; Save "
                        "writes it there anew.")
                .arg(file.fileName())};
    }
    const Result<std::string> text = readWholeFile(nativePath(m_path));
    if (!text) {
        return {FileState::gone, QString::fromStdString(text.error().message)};
    }
    if (*text != m_text) {
        return {FileState::changedOutside,
                QObject::tr(
                    "%1 was changed by another program at %2. Nothing was overwritten: take what the file holds, or "
                    "keep yours under another name.")
                    .arg(file.fileName(), QLocale().toString(file.lastModified(), "HH:mm"))};
    }
    return writeObstacle(m_path);
}

bool OpenFile::check() {
    if (m_path.isEmpty() || isShownOnly(m_condition.state)) {
        return false;
    }
    FileCondition found = conditionOnDisk();
    // A full disk is not seen by looking.
    const bool staysUnsaved = m_condition.state == FileState::notSaved && found.state == FileState::sound;
    const bool isNew = !staysUnsaved && (found.state != m_condition.state || found.sentence != m_condition.sentence);
    if (isNew) {
        m_condition = std::move(found);
    }
    return isNew;
}

void OpenFile::takeAsRead(std::string text) {
    m_text = std::move(text);
    m_savedAt = QFileInfo(m_path).lastModified();
    m_condition = writeObstacle(m_path);
}

}  // namespace ohmwright
