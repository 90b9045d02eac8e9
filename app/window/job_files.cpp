// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/job_files.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/settings.h"
#include "app/window/demo_jobs.h"
#include "core/files/atomic_file.h"
#include "core/files/job_file.h"
#include "core/files/job_journal.h"
#include "core/files/netlist.h"
#include "core/plan/apply.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QLineEdit>
#include <QMessageBox>
#include <QPushButton>
#include <QWidget>

#include <filesystem>
#include <utility>

namespace ohmwright {

namespace {

QString netlistFilter(bool isStock) {
    return isStock ? JobFiles::tr("Netlist of stock (*.cir)") : JobFiles::tr("Netlist of now (*.cir)");
}

QString withSuffix(const QString& path, const QString& suffix) {
    return QFileInfo(path).suffix().isEmpty() ? path + suffix : path;
}

/// What is typed into a field that takes its text when it is left counts as if it had been left.
void takeWhatIsTyped() {
    if (auto* field = qobject_cast<QLineEdit*>(QApplication::focusWidget())) {
        emit field->editingFinished();
    }
}

QPushButton* standardButton(QMessageBox& box, QMessageBox::StandardButton which, const QString& words) {
    QPushButton* button = box.addButton(which);
    button->setText(words);
    return button;
}

}  // namespace

bool isOpenable(const QString& path) {
    return path.endsWith(".ohmjob", Qt::CaseInsensitive) || path.endsWith(".cir", Qt::CaseInsensitive);
}

JobFiles::JobFiles(JobDocument& document, Selection& selection, Settings& settings, QWidget& window)
    : QObject(&window), m_document(document), m_selection(selection), m_settings(settings), m_window(window) {
    document.lockFiles();
}

bool JobFiles::refuse(const QString& sentence) {
    emit refused(sentence);
    return false;
}

bool JobFiles::open(const QString& path, LockWish wish) {
    m_selection.setGhost(std::nullopt);
    const Result<void> read = m_document.open(path, wish);
    if (!read) {
        m_settings.removeRecentFile(path);
        return refuse(QString::fromStdString(read.error().message));
    }
    m_settings.addRecentFile(QFileInfo(path).absoluteFilePath());
    emit opened();
    return true;
}

bool JobFiles::openDemo(const QString& id) {
    Result<Job> job = readDemoJob(id);
    if (!job) {
        return refuse(QString::fromStdString(job.error().message));
    }
    m_document.setJob(std::move(*job), {});
    emit opened();
    return true;
}

bool JobFiles::pasteNetlist() {
    const QString text = QGuiApplication::clipboard()->text();
    if (text.trimmed().isEmpty()) {
        return refuse(
            tr("There is no text to paste: copy the netlist where it stands, all of it with its title, first."));
    }
    if (!mayLeaveJob()) {
        return false;
    }
    m_selection.setGhost(std::nullopt);
    const Result<void> read = m_document.openNetlistText(text);
    if (!read) {
        return refuse(QString::fromStdString(read.error().message));
    }
    emit opened();
    return true;
}

void JobFiles::start(const Job& job, const QString& text) {
    m_selection.setGhost(std::nullopt);
    m_document.setJob({}, {});
    if (m_document.edit(job, text, JobAspect::everything)) {
        emit opened();
    }
}

void JobFiles::bringBack(const JournalEntry& entry) {
    const QString step = tr("Bring back unsaved work");
    // The window that left the work left its file open, too.
    const bool isOpen = !entry.path.empty() && open(QString::fromStdString(entry.path), LockWish::alsoLeft);
    if (!isOpen || !m_document.edit(entry.job, step, JobAspect::everything)) {
        start(entry.job, step);
    }
}

void JobFiles::askOpen() {
    if (!mayLeaveJob()) {
        return;
    }
    const QString path =
        QFileDialog::getOpenFileName(&m_window, tr("Open a job or a netlist"), folder().path(),
                                     tr("Jobs and netlists (*.ohmjob *.cir *.OHMJOB *.CIR);;All files (*)"));
    if (!path.isEmpty()) {
        open(path);
    }
}

QString JobFiles::nameForFile() const {
    // A netlist's title may be a paragraph: its file has the shorter name.
    if (!m_document.netlistPath().isEmpty()) {
        return QFileInfo(m_document.netlistPath()).completeBaseName();
    }
    return QString::fromStdString(m_document.job()->unit.name).simplified().replace('/', '-');
}

QDir JobFiles::folder() const {
    const QString& file = m_document.path().isEmpty() ? m_document.netlistPath() : m_document.path();
    return file.isEmpty() ? QDir() : QFileInfo(file).dir();
}

void JobFiles::askSaveAs() {
    const QString chosen =
        QFileDialog::getSaveFileName(&m_window, tr("Save the job as"), placeForFile(), tr("Jobs (*.ohmjob)"));
    if (chosen.isEmpty()) {
        return;
    }
    const QString path = withSuffix(chosen, ".ohmjob");
    if (const Result<void> written = m_document.saveAs(path); !written) {
        refuse(QString::fromStdString(written.error().message));
        return;
    }
    m_settings.addRecentFile(QFileInfo(path).absoluteFilePath());
    emit saved();
}

/// Beside what is not to be written over, under a name of its own.
QString JobFiles::placeForFile() const {
    const QFileInfo file(m_document.path());
    const FileState state = m_document.fileCondition().state;
    if (state == FileState::changedOutside) {
        return file.dir().filePath(tr("%1 mine.ohmjob").arg(file.completeBaseName()));
    }
    if (isShownOnly(state)) {
        return file.dir().filePath(tr("%1 copy.ohmjob").arg(file.completeBaseName()));
    }
    return m_document.path().isEmpty() ? folder().filePath(nameForFile() + ".ohmjob") : m_document.path();
}

bool JobFiles::save() {
    takeWhatIsTyped();
    if (m_document.path().isEmpty()) {
        askSaveAs();
        return m_document.isSaved() && !m_document.path().isEmpty();
    }
    if (const Result<void> written = m_document.save(); !written) {
        const QString sentence = QString::fromStdString(written.error().message);
        // What stands in the file's band is not said twice.
        return sentence == m_document.fileCondition().sentence ? false : refuse(sentence);
    }
    emit saved();
    return true;
}

bool JobFiles::takeFromDisk() {
    m_selection.setGhost(std::nullopt);
    const Result<void> taken = m_document.takeFromDisk();
    return taken ? true : refuse(QString::fromStdString(taken.error().message));
}

bool JobFiles::mayLeaveJob() {
    takeWhatIsTyped();
    if (m_document.isSaved()) {
        return true;
    }
    const QString unit = QString::fromStdString(m_document.job()->unit.name).left(60);
    QMessageBox box(QMessageBox::NoIcon, tr("Unsaved job"),
                    unit.isEmpty() ? tr("The unit that is open has changes that are not saved yet.")
                                   : tr("%1 has changes that are not saved yet.").arg(unit),
                    QMessageBox::NoButton, &m_window);
    box.setInformativeText(tr("Without saving they are lost."));
    QPushButton* keep = standardButton(box, QMessageBox::Save, tr("Save"));
    standardButton(box, QMessageBox::Discard, tr("Discard the changes"));
    standardButton(box, QMessageBox::Cancel, tr("Go on working"));
    box.setDefaultButton(keep);
    switch (box.exec()) {
        case QMessageBox::Save:
            return save();
        case QMessageBox::Discard:
            return true;
        default:
            return false;
    }
}

void JobFiles::askExport() {
    QString filter = netlistFilter(m_selection.holdsStock());
    const QString chosen =
        QFileDialog::getSaveFileName(&m_window, tr("Export netlist"), folder().filePath(nameForFile() + " export.cir"),
                                     QString("%1;;%2").arg(netlistFilter(false), netlistFilter(true)), &filter);
    if (!chosen.isEmpty()) {
        exportNetlist(withSuffix(chosen, ".cir"),
                      filter == netlistFilter(true) ? ExportedState::stock : ExportedState::now);
    }
}

bool JobFiles::exportNetlist(const QString& path, ExportedState state) {
    const Job& job = *m_document.job();
    const bool isStock = state == ExportedState::stock;
    const Result<Circuit> circuit = isStock ? Result<Circuit>(job.stock) : nowCircuit(job);
    if (!circuit) {
        return refuse(tr("No netlist was written: %1").arg(QString::fromStdString(circuit.error().message)));
    }
    const QString title = QString("%1, %2").arg(QString::fromStdString(job.unit.name).simplified(),
                                                isStock ? QString("stock") : QString("now"));
    const Result<void> written = replaceFile(std::filesystem::path(path.toStdU16String()),
                                             writeNetlist(*circuit, job.setting, title.toStdString()));
    if (!written) {
        return refuse(QString::fromStdString(written.error().message));
    }
    emit said(tr("netlist written: %1").arg(path));
    return true;
}

}  // namespace ohmwright
