/// The file that the open job lives in: what was read from it, whose it is, and whether it is still so.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_lock.h"

#include <QDateTime>
#include <QString>
#include <QStringList>

#include <optional>
#include <string>

namespace ohmwright {

enum class FileState {
    sound,           ///< Nothing to say; also without a file.
    notWritable,     ///< It or its folder may not be written: work goes on, and is saved elsewhere.
    heldElsewhere,   ///< Another window has it: it is shown only.
    heldAway,        ///< Another machine has it, or had it when that stopped: likewise.
    leftBehind,      ///< The program that had it is gone: likewise, until it is taken over.
    damaged,         ///< What is sound of it is shown only.
    newer,           ///< A newer program wrote it: what is known of it is shown only.
    earlierVersion,  ///< What stood in a file before: shown only.
    changedOutside,  ///< Somebody else wrote it while it was open: nothing is overwritten before it is decided.
    gone,            ///< It was taken away while it was open; saving writes it anew.
    folderGone,      ///< Its folder was: work is saved elsewhere.
    notSaved,        ///< The system would not take it: a full disk.
};

struct FileCondition {
    FileState state = FileState::sound;
    QString sentence;  ///< Empty when it is sound.
};

/// Whether the job is shown only: every edit is refused with the sentence.
bool isShownOnly(FileState state);

class OpenFile {
public:
    /// Empty while never saved.
    [[nodiscard]] const QString& path() const { return m_path; }
    [[nodiscard]] const FileCondition& condition() const { return m_condition; }
    /// Of a file that was not read whole: every place, a sentence each.
    [[nodiscard]] const QStringList& faults() const { return m_faults; }
    /// When what is in the file was written; not valid while never saved.
    [[nodiscard]] const QDateTime& savedAt() const { return m_savedAt; }

    /// No file: a lock that is held is given back.
    void forget();
    /// A file that is not there yet.
    void willBe(const QString& path);
    /// The file was read, and held `text`. Says at once when it cannot be written.
    void wasRead(const QString& path, std::string text);
    /// Likewise of a file that was not read whole. REQUIRES: `faults` is not empty.
    void wasReadInPart(const QString& path, const QStringList& faults, bool isNewer);
    /// An earlier version was read. @param words  what it is, as a sentence.
    void wasReadToShow(const QString& path, const QString& words);
    /// `text` was written into `path`.
    void wasWritten(const QString& path, std::string text);
    void couldNotBeWritten(const QString& sentence);

    /// Tells others that the job is open here; shown only when they have it.
    void lock(LockWish wish);
    /// The same for a file that is about to be written; it is that of `path()` or another.
    /// @return why it must not be written; empty when it may.
    QString lockForWriting(const QString& path);

    /// Looks at the file on the disk. Returns whether the condition is another one now.
    bool check();
    /// What `check` compares with is what the disk has now: it was decided about.
    void takeAsRead(std::string text);

private:
    void setCondition(FileState state, const QString& sentence);
    [[nodiscard]] FileCondition conditionOnDisk();
    [[nodiscard]] FileCondition conditionOf(const LockAnswer& answer) const;

    QString m_path;
    std::string m_text;
    QDateTime m_savedAt;
    FileCondition m_condition;
    QStringList m_faults;
    std::optional<JobLock> m_lock;
    QString m_lockedPath;
};

}  // namespace ohmwright
