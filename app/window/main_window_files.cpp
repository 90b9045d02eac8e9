// The window's files: what is opened, shown beside, exported, and the shop that a job belongs to.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/main_window.h"

#include "app/map/map_export.h"
#include "app/map/stage_map.h"
#include "app/papers/ask_printer.h"
#include "app/papers/papers_place.h"
#include "app/window/earlier_versions.h"
#include "app/window/file_band.h"
#include "app/window/help_pages.h"
#include "app/window/message_band.h"
#include "app/window/status_line.h"

#include <QFileDialog>
#include <QFileInfo>

namespace ohmwright {

bool MainWindow::openFile(const QString& path) {
    return m_files.open(path);
}

bool MainWindow::openDemo(const QString& id) {
    return m_files.openDemo(id);
}

bool MainWindow::exportNetlist(const QString& path, ExportedState state) {
    return m_files.exportNetlist(path, state);
}

void MainWindow::showEarlierVersions() {
    auto* versions = new EarlierVersions(m_document, this);
    versions->setAttribute(Qt::WA_DeleteOnClose);
    connect(versions, &EarlierVersions::showAsked, this, [this](const QString& path, const QString& words) {
        constexpr QPoint aside(60, 60);
        auto* beside = new MainWindow;
        beside->setAttribute(Qt::WA_DeleteOnClose);
        if (const Result<void> shown = beside->document().openToShow(path, words); !shown) {
            refuse(QString::fromStdString(shown.error().message));
            delete beside;
            return;
        }
        beside->move(pos() + aside);
        beside->show();
        beside->followOpening();
    });
    versions->show();
}

void MainWindow::showFaults() {
    const QString heading = tr("What is not as it should be in %1").arg(QFileInfo(m_document.path()).fileName());
    showPage(heading, notesPage(heading, m_document.fileFaults()), this);
}

void MainWindow::takeChoice(FileChoice choice) {
    switch (choice) {
        case FileChoice::lookAgain:
            m_files.open(m_document.path());
            break;
        case FileChoice::takeOver:
            m_files.open(m_document.path(), LockWish::alsoLeft);
            break;
        case FileChoice::takeFromDisk:
            m_files.takeFromDisk();
            break;
        case FileChoice::save:
            m_files.save();
            break;
        case FileChoice::saveAs:
            m_files.askSaveAs();
            break;
        case FileChoice::showFaults:
            showFaults();
            break;
    }
}

void MainWindow::askExportDrawing() {
    const QString name = QString::fromStdString(m_document.job()->unit.name);
    const QString path = QFileDialog::getSaveFileName(
        this, tr("Export the drawing"), (name.isEmpty() ? tr("drawing") : QString(name).replace('/', '-')) + ".svg",
        tr("Drawing, SVG (*.svg);;Drawing, PDF (*.pdf);;Picture, PNG (*.png)"));
    if (!path.isEmpty()) {
        exportDrawing(path);
    }
}

/// The same paper as the sheets', lying or standing as the drawing does.
void MainWindow::askPrintDrawing() {
    askPrinter(this, {tr("Print the drawing"), m_papersPlace->paperSize(), orientationFor(m_map->state())},
               [this](QPagedPaintDevice& printer) { printDrawing(printer); });
}

bool MainWindow::printDrawing(QPagedPaintDevice& device) {
    if (!ohmwright::printDrawing(m_map->state(), device)) {
        refuse(tr("The drawing was not printed: the printer cannot be reached. Export it as PDF instead."));
        return false;
    }
    m_status->say(tr("The drawing is printed."));
    return true;
}

bool MainWindow::exportDrawing(const QString& path) {
    const QString obstacle = saveDrawing(m_map->state(), path);
    if (!obstacle.isEmpty()) {
        refuse(obstacle);
        return false;
    }
    m_status->say(tr("The drawing is written to %1.").arg(QFileInfo(path).fileName()));
    return true;
}

void MainWindow::followOpening() {
    m_refusal->setSentence({});
    followShop();
    showTargets(false);
    showWalk(false);
    m_selection.setPart({});
    showPlace(Place::map);
    showNotes();
    followSolver();
    m_map->setFocus();
}

void MainWindow::followShop() {
    const auto own = shopFolderOf(std::filesystem::path(m_document.path().toStdU16String()));
    const QString folder = own.empty() ? m_settings.shopFolder() : QString::fromStdU16String(own.u16string());
    if (folder != m_shop.folder()) {
        m_shop.open(folder);
    }
    if (const QStringList faults = m_shop.faults(); !faults.isEmpty()) {
        refuse(faults.join(' '));
    }
}

void MainWindow::askShopFolder() {
    const QString chosen = QFileDialog::getExistingDirectory(
        this, tr("The shop's folder: drawer, rates, words and jobs"), m_settings.shopFolder());
    if (!chosen.isEmpty()) {
        m_settings.setShopFolder(chosen);
        m_shop.open(chosen);
        followShop();
    }
}

}  // namespace ohmwright
