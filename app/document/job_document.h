/// The open job: snapshots for everyone who reads, edits through undo, the file it lives in.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/document/open_file.h"
#include "core/base/result.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>
#include <QStringList>
#include <QUndoStack>

#include <memory>
#include <string>

namespace ohmwright {

/// What an edit touched, so that a renamed mod does not start a solve.
enum class JobAspect { everything, electrical, words };

/// Consecutive edits with the same kind and key become one undo step (a knob turned, a value wheeled, a part moved).
enum class MergeKind { never = 0, knob, value, setting, move, words };

/// All members on the GUI thread. A snapshot handed out never changes.
class JobDocument : public QObject {
    Q_OBJECT
public:
    explicit JobDocument(QObject* parent = nullptr);
    ~JobDocument() override;

    /// Never null.
    [[nodiscard]] std::shared_ptr<const Job> job() const { return m_job; }
    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }

    /// Empty while never saved.
    [[nodiscard]] QString path() const { return m_file.path(); }
    /// A pasted netlist lies nowhere else, nor does a job whose file was taken away: they are unsaved.
    [[nodiscard]] bool isSaved() const;
    [[nodiscard]] const FileCondition& fileCondition() const { return m_file.condition(); }
    /// Of a file that was not read whole: every place, a sentence each.
    [[nodiscard]] const QStringList& fileFaults() const { return m_file.faults(); }
    /// Whether the job may be changed; else it is shown only, and the condition of its file says why.
    [[nodiscard]] bool mayEdit() const { return !isShownOnly(m_file.condition().state); }
    /// The netlist that the job was made from when it was opened; else empty.
    [[nodiscard]] QString netlistPath() const { return m_netlistPath; }
    /// What its reader said, "line 12: ..."; in the order of the lines.
    [[nodiscard]] const QStringList& netlistNotes() const { return m_netlistNotes; }
    /// "saved 21:58", "not saved yet", "read-only", "changed by another program".
    [[nodiscard]] QString saveStateText() const;

    /// Replaces the job by one that no file holds yet; clears undo.
    /// @param path  where it is to be saved; empty: that is asked for then.
    void setJob(Job job, const QString& path);
    /// From now on the open job's file is locked, so that others are told who has it.
    void lockFiles() { m_locks = true; }
    /// A job file, or a netlist (isNetlistFile): that becomes a job without a file of its own yet. Of a damaged file,
    /// and of a newer program's, what is sound is shown only; so is a file that others have, unless `wish` takes it
    /// over. Errors: as readSoundParts and as readNetlist and jobFromNetlist, those at "FILE:LINE: "; nothing is
    /// changed then.
    Result<void> open(const QString& path, LockWish wish = LockWish::free);
    /// What stood in a job's file before, shown only. @param words  what it is, as a sentence. Errors: as loadJob.
    Result<void> openToShow(const QString& path, const QString& words);
    /// The text of a netlist, as a job without a file. Errors: as open, at "pasted text:LINE: ...".
    Result<void> openNetlistText(const QString& text);
    /// Refuses (fileUnreadable) when the file on disk is no longer what was read: nothing of others is overwritten.
    Result<void> save();
    /// Refuses (fileUnreadable) what others have open.
    Result<void> saveAs(const QString& path);
    /// Whether others changed the file or took it away; its condition says so then.
    void checkFile();
    /// What others wrote becomes an undo step over what is open. Errors: as loadJob; nothing is changed then.
    Result<void> takeFromDisk();

    /// Refused while the job is shown only. Makes an edit one undo step named `text` ("Change C4 to 120n"). An error
    /// changes nothing and is announced through refused(). An edit that changes nothing leaves no step. Returns whether
    /// it was taken.
    bool edit(Result<Job> edited, const QString& text, JobAspect aspect = JobAspect::electrical,
              MergeKind merge = MergeKind::never, const QString& mergeKey = {});

signals:
    void jobChanged(ohmwright::JobAspect aspect);
    void refused(const QString& sentence);
    void saveStateChanged();

private:
    friend class EditJob;
    void replaceJob(Job job);
    Result<void> takeSoundParts(const QString& path, const Error& whole);
    Result<void> takeNetlist(const std::string& text, const std::string& fileName, const std::string& unitName,
                             const QString& path);
    void show(std::shared_ptr<const Job> job, JobAspect aspect);

    std::shared_ptr<const Job> m_job;
    QUndoStack m_undo;
    OpenFile m_file;
    QString m_netlistPath;
    QStringList m_netlistNotes;
    bool m_isPasted = false;
    bool m_locks = false;
};

}  // namespace ohmwright
