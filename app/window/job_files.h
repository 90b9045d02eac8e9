/// Opening, saving and writing out: the files of the open job, and the questions they ask.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_lock.h"
#include "core/plan/job.h"

#include <QDir>
#include <QObject>
#include <QString>

class QWidget;

namespace ohmwright {

class JobDocument;
class Selection;
class Settings;
struct JournalEntry;

/// Whether a dropped file may be opened, by its name.
bool isOpenable(const QString& path);

enum class ExportedState { now, stock };

class JobFiles : public QObject {
    Q_OBJECT
public:
    /// @param window  what the questions stand over.
    JobFiles(JobDocument& document, Selection& selection, Settings& settings, QWidget& window);

    /// What cannot be opened is refused in words, and the open job stays. Does not ask about unsaved work.
    bool open(const QString& path, LockWish wish = LockWish::free);
    /// The bundled demo job as a new, unsaved one.
    /// @param id  of demo_jobs.h.
    bool openDemo(const QString& id);
    /// The netlist on the clipboard as a new job; what is none is refused in words. Asks about unsaved work.
    bool pasteNetlist();
    /// A new job without a file; undone, no job is open. Does not ask about unsaved work.
    void start(const Job& job, const QString& text);
    /// Unsaved work of an earlier run on top of its file, so that undo leads to what the file holds; without one as a
    /// new job. Does not ask about unsaved work.
    void bringBack(const JournalEntry& entry);
    /// Into the job's own file; asks for one where there is none.
    bool save();
    /// What others wrote becomes an undo step; refused in words where it is no job.
    bool takeFromDisk();
    /// True when there is nothing to lose, or it was saved or given up.
    bool mayLeaveJob();
    /// The circuit with its settings put in; refused in words where the plan makes no circuit.
    bool exportNetlist(const QString& path, ExportedState state);

    void askOpen();
    void askSaveAs();
    void askExport();

    /// Where a new paper of this job belongs, and what its name begins with.
    [[nodiscard]] QDir folder() const;
    [[nodiscard]] QString nameForFile() const;

signals:
    void opened();
    /// Into the job's own file.
    void saved();
    void refused(const QString& sentence);
    void said(const QString& words);

private:
    [[nodiscard]] QString placeForFile() const;
    /// Says it; false.
    bool refuse(const QString& sentence);

    JobDocument& m_document;
    Selection& m_selection;
    Settings& m_settings;
    QWidget& m_window;
};

}  // namespace ohmwright
