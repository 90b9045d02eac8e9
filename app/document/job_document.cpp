// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/job_document.h"

#include "core/base/said.h"
#include "core/files/atomic_file.h"
#include "core/files/job_file.h"
#include "core/files/netlist_job.h"
#include "core/files/photo_file.h"
#include "core/files/sound_parts.h"

#include <QDateTime>
#include <QFileInfo>
#include <QUndoCommand>
#include <QVariant>

#include <filesystem>
#include <utility>

namespace ohmwright {

/// One undo step: the whole job before and after, so that no inverse is ever written by hand.
class EditJob : public QUndoCommand {
public:
    EditJob(JobDocument& document, std::shared_ptr<const Job> after, const QString& text, JobAspect aspect,
            MergeKind merge, QString mergeKey)
        : QUndoCommand(text),
          m_document(document),
          m_before(document.job()),
          m_after(std::move(after)),
          m_aspect(aspect),
          m_merge(merge),
          m_mergeKey(std::move(mergeKey)) {}

    void undo() override { m_document.show(m_before, m_aspect); }
    void redo() override { m_document.show(m_after, m_aspect); }

    [[nodiscard]] int id() const override { return m_merge == MergeKind::never ? -1 : static_cast<int>(m_merge); }

    bool mergeWith(const QUndoCommand* other) override {
        // The stack compares ids first, and only this class has ids.
        const auto* next = static_cast<const EditJob*>(other);
        if (next->m_mergeKey != m_mergeKey) {
            return false;
        }
        m_after = next->m_after;
        setText(next->text());
        setObsolete(*m_after == *m_before);
        return true;
    }

private:
    JobDocument& m_document;
    std::shared_ptr<const Job> m_before;
    std::shared_ptr<const Job> m_after;
    JobAspect m_aspect;
    MergeKind m_merge;
    QString m_mergeKey;
};

namespace {

std::filesystem::path nativePath(const QString& path) {
    return std::filesystem::path(path.toStdU16String());
}

QString clockText(const QDateTime& when) {
    const QString format = when.date() == QDate::currentDate() ? "HH:mm" : QObject::tr("d MMM HH:mm");
    return QLocale().toString(when, format);
}

/// A pipe or a device may never end, and the window would wait for it.
bool isSpecial(const QString& path) {
    const QFileInfo file(path);
    return file.exists() && !file.isFile() && !file.isDir();
}

QStringList notesOf(const std::vector<NetlistNote>& notes) {
    QStringList words;
    for (const NetlistNote& note : notes) {
        const QString message = QString::fromStdString(note.message);
        const QString line = QObject::tr("line %1: %2").arg(note.line);
        words << (note.line > 0 && !message.startsWith(line.arg(QString())) ? line.arg(message) : message);
    }
    return words;
}

Error fileError(const QString& sentence, const QString& path) {
    return {ErrorCode::fileUnreadable, sentence.toStdString(), path.toStdString()};
}

}  // namespace

JobDocument::JobDocument(QObject* parent) : QObject(parent), m_job(std::make_shared<const Job>()) {
    connect(&m_undo, &QUndoStack::cleanChanged, this, &JobDocument::saveStateChanged);
}

JobDocument::~JobDocument() {
    // The stack empties itself while it dies and would announce a saved job to a window that is half gone.
    m_undo.disconnect(this);
}

bool JobDocument::isSaved() const {
    const FileState state = m_file.condition().state;
    return m_undo.isClean() && !m_isPasted && state != FileState::gone && state != FileState::folderGone;
}

QString JobDocument::saveStateText() const {
    const FileState state = m_file.condition().state;
    if (isShownOnly(state) || state == FileState::notWritable) {
        return tr("read-only");
    }
    if (state == FileState::changedOutside) {
        return tr("changed by another program");
    }
    if (!m_file.savedAt().isValid() || !isSaved()) {
        return tr("not saved yet");
    }
    return tr("saved %1").arg(clockText(m_file.savedAt()));
}

void JobDocument::setJob(Job job, const QString& path) {
    m_netlistPath.clear();
    m_netlistNotes.clear();
    m_file.willBe(path);
    replaceJob(std::move(job));
}

void JobDocument::replaceJob(Job job) {
    m_isPasted = false;
    m_undo.clear();
    show(std::make_shared<const Job>(std::move(job)), JobAspect::everything);
    emit saveStateChanged();
}

Result<void> JobDocument::open(const QString& path, LockWish wish) {
    if (isSpecial(path)) {
        return fileError(tr("%1 cannot be read: it is no ordinary file.").arg(path), path);
    }
    const Result<std::string> text = readWholeFile(nativePath(path));
    if (!text) {
        return text.error();
    }
    if (isNetlistFile(nativePath(path), *text)) {
        const QFileInfo file(path);
        return takeNetlist(*text, file.fileName().toStdString(), file.completeBaseName().toStdString(), path);
    }
    Result<LoadedJob> loaded = loadJob(nativePath(path));
    if (!loaded) {
        return takeSoundParts(path, loaded.error());
    }
    setJob(std::move(loaded->job), {});
    m_file.wasRead(path, std::move(loaded->fileText));
    if (m_locks) {
        m_file.lock(wish);
    }
    emit saveStateChanged();
    return {};
}

Result<void> JobDocument::takeSoundParts(const QString& path, const Error& whole) {
    Result<SoundParts> sound = loadSoundParts(nativePath(path));
    if (!sound) {
        return whole;
    }
    QStringList faults;
    for (const std::string& fault : sound->faults) {
        faults << QString::fromStdString(fault);
    }
    setJob(std::move(sound->job), {});
    m_file.wasReadInPart(path, faults, sound->isNewer);
    emit saveStateChanged();
    return {};
}

Result<void> JobDocument::openToShow(const QString& path, const QString& words) {
    Result<LoadedJob> loaded = loadJob(nativePath(path));
    if (!loaded) {
        return loaded.error();
    }
    setJob(std::move(loaded->job), {});
    m_file.wasReadToShow(path, words);
    emit saveStateChanged();
    return {};
}

Result<void> JobDocument::openNetlistText(const QString& text) {
    Result<void> taken = takeNetlist(text.toStdString(), said("pasted text"), said("Pasted netlist"), {});
    if (taken) {
        m_isPasted = true;
        emit saveStateChanged();
    }
    return taken;
}

Result<void> JobDocument::takeNetlist(const std::string& text, const std::string& fileName, const std::string& unitName,
                                      const QString& path) {
    Result<Netlist> netlist = readNetlist(text);
    if (!netlist) {
        return inNetlistFile(fileName, netlist.error());
    }
    Result<NetlistJob> taken = jobFromNetlist(std::move(*netlist), unitName);
    if (!taken) {
        return inNetlistFile(fileName, taken.error());
    }
    m_netlistPath = path;
    m_netlistNotes = notesOf(taken->notes);
    m_file.forget();
    replaceJob(std::move(taken->job));
    return {};
}

Result<void> JobDocument::save() {
    if (path().isEmpty()) {
        return fileError(tr("This job has no file yet: use Save as and choose where to keep it."), {});
    }
    checkFile();
    switch (const FileCondition& condition = m_file.condition(); condition.state) {
        case FileState::sound:
        case FileState::gone:
        case FileState::notSaved:
            return saveAs(path());
        default:
            return fileError(condition.sentence, path());
    }
}

Result<void> JobDocument::saveAs(const QString& path) {
    if (const QString obstacle = m_locks ? m_file.lockForWriting(path) : QString(); !obstacle.isEmpty()) {
        return fileError(obstacle, path);
    }
    Result<void> saved = saveJob(*m_job, nativePath(path));
    if (!saved) {
        if (path == m_file.path()) {
            m_file.couldNotBeWritten(QString::fromStdString(saved.error().message));
            emit saveStateChanged();
        }
        return saved;
    }
    const QString before = m_file.path();
    m_file.wasWritten(path, writeJob(*m_job));
    m_isPasted = false;
    m_undo.setClean();
    emit saveStateChanged();
    // The job is safe; a photo that stays behind is said, not refused.
    const auto folderOf = [](const QString& file) { return nativePath(file).parent_path(); };
    const Result<void> along =
        before.isEmpty() ? Result<void>() : copyPhotosAlong(m_job->board, folderOf(before), folderOf(path));
    if (!along) {
        emit refused(QString::fromStdString(along.error().message));
    }
    return {};
}

void JobDocument::checkFile() {
    if (m_file.check()) {
        emit saveStateChanged();
    }
}

Result<void> JobDocument::takeFromDisk() {
    Result<LoadedJob> loaded = loadJob(nativePath(path()));
    if (!loaded) {
        return loaded.error();
    }
    edit(std::move(loaded->job), tr("Take what the file holds"), JobAspect::everything);
    m_file.takeAsRead(std::move(loaded->fileText));
    m_undo.setClean();
    emit saveStateChanged();
    return {};
}

bool JobDocument::edit(Result<Job> edited, const QString& text, JobAspect aspect, MergeKind merge,
                       const QString& mergeKey) {
    if (!edited) {
        emit refused(QString::fromStdString(edited.error().message));
        return false;
    }
    if (*edited == *m_job) {
        return true;
    }
    if (!mayEdit()) {
        // A control that was moved shows what is true again; then the reason.
        emit jobChanged(JobAspect::words);
        emit refused(m_file.condition().sentence);
        return false;
    }
    // The stack takes the command as its own.
    m_undo.push(new EditJob(*this, std::make_shared<const Job>(std::move(*edited)), text, aspect, merge, mergeKey));
    return true;
}

void JobDocument::show(std::shared_ptr<const Job> job, JobAspect aspect) {
    m_job = std::move(job);
    emit jobChanged(aspect);
}

}  // namespace ohmwright
