/// The open job: snapshots for everyone who reads, edits through undo, the file it lives in.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>
#include <QStringList>
#include <QUndoStack>

#include <filesystem>
#include <memory>

namespace ohmwright {

/// What an edit touched, so that a renamed mod does not start a solve.
enum class JobAspect { everything, electrical, words };

/// Consecutive edits with the same kind and key become one undo step (a knob turned, a value wheeled, a part moved).
enum class MergeKind { never = 0, knob, value, setting, move };

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
    [[nodiscard]] QString path() const { return m_path; }
    /// A pasted netlist lies nowhere else: it is unsaved from its beginning.
    [[nodiscard]] bool isSaved() const { return m_undo.isClean() && !m_isPasted; }
    /// A sentence when the file must not be overwritten (newer version, damaged); else empty.
    [[nodiscard]] QString readOnlyReason() const { return m_readOnlyReason; }
    /// The netlist that the job was made from when it was opened; else empty.
    [[nodiscard]] QString netlistPath() const { return m_netlistPath; }
    /// What its reader said, "line 12: ..."; in the order of the lines.
    [[nodiscard]] const QStringList& netlistNotes() const { return m_netlistNotes; }
    /// "saved 21:58", "not saved yet", "read-only".
    [[nodiscard]] QString saveStateText() const;

    /// Replaces the job; clears undo.
    void setJob(Job job, const QString& path);
    /// A job file, or a netlist (isNetlistFile): that becomes a job without a file of its own yet.
    /// Errors: as readJob and as readNetlist and jobFromNetlist, those at "FILE:LINE: "; nothing is changed then.
    Result<void> open(const QString& path);
    /// The text of a netlist, as a job without a file. Errors: as open, at "pasted text:LINE: ...".
    Result<void> openNetlistText(const QString& text);
    /// Refuses (fileUnreadable) when the file on disk is no longer what was read: nothing of others is overwritten.
    Result<void> save();
    Result<void> saveAs(const QString& path);

    /// Makes an edit one undo step named `text` ("Change C4 to 120n"). An error changes nothing and is announced
    /// through refused(). An edit that changes nothing leaves no step. Returns whether it was taken.
    bool edit(Result<Job> edited, const QString& text, JobAspect aspect = JobAspect::electrical,
              MergeKind merge = MergeKind::never, const QString& mergeKey = {});

signals:
    void jobChanged(ohmwright::JobAspect aspect);
    void refused(const QString& sentence);
    void saveStateChanged();

private:
    friend class EditJob;
    void replaceJob(Job job, const QString& path);
    Result<void> takeNetlist(const std::string& text, const std::string& fileName, const std::string& unitName,
                             const QString& path);
    void show(std::shared_ptr<const Job> job, JobAspect aspect);

    std::shared_ptr<const Job> m_job;
    QUndoStack m_undo;
    QString m_path;
    QString m_savedAt;
    QString m_readOnlyReason;
    QString m_netlistPath;
    QStringList m_netlistNotes;
    std::string m_fileText;
    bool m_isPasted = false;
};

}  // namespace ohmwright
