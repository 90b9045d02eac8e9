/// Keeps unsaved work aside while it is worked on, so that a crash takes nothing older than a few seconds.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/job_journal.h"

#include <QObject>
#include <QString>
#include <QTimer>

#include <memory>
#include <vector>

class QLockFile;

namespace ohmwright {

class JobDocument;

/// What an earlier run of the program left behind.
struct LostWork {
    QString file;  ///< The journal.
    JournalEntry entry;
};

class Journal : public QObject {
    Q_OBJECT
public:
    /// How old what is kept may be at most while edits go on [ms]; a write takes some milliseconds more.
    static constexpr int mostMilliseconds = 2000;

    /// @param folder  made when it is not there. Where it cannot be written, nothing is kept and `trouble` says so.
    Journal(JobDocument& document, const QString& folder, QObject* parent = nullptr);
    /// The window was closed in good order: what was to be saved is saved, and nothing is left behind.
    ~Journal() override;

    /// Writes now what is unsaved; takes the journal away when nothing is.
    void write();
    /// Waits until what write() began is on the disk.
    void finish();
    /// A sentence when work cannot be kept aside; else empty.
    [[nodiscard]] const QString& trouble() const { return m_trouble; }
    /// Unsaved work of windows that are gone, newest first; of windows that live it is theirs. Journals that cannot be
    /// read are left where they are.
    [[nodiscard]] std::vector<LostWork> lostWork() const;
    /// Once it was brought back.
    static void forget(const LostWork& lost);
    /// Once it is not wanted: into the desktop's wastebasket, from where it can be taken back. Its place there; empty
    /// where there is no wastebasket for it, and it stays.
    [[nodiscard]] static QString throwAway(const LostWork& lost);

signals:
    void troubleChanged();

private:
    struct Writer;
    void follow();
    void setTrouble(const QString& sentence);

    JobDocument& m_document;
    QString m_folder;
    QString m_file;
    std::unique_ptr<QLockFile> m_lock;
    std::unique_ptr<Writer> m_writer;
    QTimer m_due;
    QString m_trouble;
};

}  // namespace ohmwright
