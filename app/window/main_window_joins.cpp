// What the panels, actions and menus of the window ask for, and who answers.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/main_window.h"

#include "app/board/board_place.h"
#include "app/board/board_view.h"
#include "app/checklist/check_list.h"
#include "app/curves/curves_panel.h"
#include "app/drawer/drawer_place.h"
#include "app/history/history_place.h"
#include "app/history/visit_card_view.h"
#include "app/knobs/knob_row.h"
#include "app/look/level_units.h"
#include "app/look/theme.h"
#include "app/map/draw_board.h"
#include "app/map/draw_canvas.h"
#include "app/map/map_export.h"
#include "app/map/map_view.h"
#include "app/map/stage_map.h"
#include "app/mods/job_rail.h"
#include "app/mods/mod_menu.h"
#include "app/papers/papers_place.h"
#include "app/part/part_panel.h"
#include "app/part/target_panel.h"
#include "app/part/walk_panel.h"
#include "app/stages/stage_joiner.h"
#include "app/stages/stage_keeper.h"
#include "app/window/file_band.h"
#include "app/window/header_bar.h"
#include "app/window/help_pages.h"
#include "app/window/lost_work_band.h"
#include "app/window/message_band.h"
#include "app/window/mod_spine.h"
#include "app/window/place_tabs.h"
#include "app/window/start_page.h"
#include "app/window/status_line.h"
#include "app/window/sum_cards.h"

#include <QApplication>
#include <QClipboard>
#include <QMenu>
#include <QMimeData>

namespace ohmwright {

/// A figure that has a sum shows it when it is pressed.
void MainWindow::joinSums() {
    m_sums = new SumCards(m_consequences, *this);
    connect(m_curves, &CurvesPanel::sumsAsked, m_sums, &SumCards::showFigures);
    connect(m_knobs, &KnobRow::sumsAsked, m_sums, &SumCards::showFigures);
    connect(m_part, &PartPanel::sumsAsked, m_sums, &SumCards::showFigures);
    connect(m_part, &PartPanel::partSumsAsked, this,
            [this](const QRect& beside) { m_sums->showPart(m_selection.part(), beside); });
    connect(m_sums, &SumCards::changed, this, [this] { m_part->setPartsWithSums(m_sums->parts()); });
}

void MainWindow::joinShelf() {
    connect(m_start, &StartPage::joinAsked, this, &MainWindow::joinStages);
    connect(m_start, &StartPage::drawAsked, this, &MainWindow::drawNewUnit);
    connect(m_joiner, &StageJoiner::closed, this, &MainWindow::backToPlace);
    connect(m_keeper, &StageKeeper::closed, this, &MainWindow::backToPlace);
    connect(m_keeper, &StageKeeper::kept, m_status, &StatusLine::say);
    connect(m_keeper, &StageKeeper::shopFolderAsked, this, [this] {
        askShopFolder();
        m_keeper->setShopFolder(m_shop.folder());
    });
    connect(m_joiner, &StageJoiner::made, this, [this](const Job& job) {
        if (m_files.mayLeaveJob()) {
            m_files.start(job, tr("Join stages to %1").arg(QString::fromStdString(job.unit.name)));
        }
    });
}

void MainWindow::joinValueDrag() {
    connect(m_map, &StageMap::valueDragBegan, &m_valueDrag, &ValueDrag::begin);
    connect(m_map, &StageMap::valueDragged, &m_valueDrag, &ValueDrag::to);
    connect(m_map, &StageMap::valueDropped, this,
            [this](Qt::KeyboardModifiers modifiers) { m_valueDrag.drop(modifiers & Qt::AltModifier); });
    connect(&m_valueDrag, &ValueDrag::moved, this,
            [this](const QString& value) { m_map->view().showDragWords(value, false); });
    connect(&m_valueDrag, &ValueDrag::ended, this, [this](const QString& sentence) {
        m_map->view().showDragWords(sentence, true);
        m_status->say(sentence);
    });
}

void MainWindow::joinPanels() {
    connect(m_map, &StageMap::valueStepped, this,
            [this](const PartId& part, int steps, Qt::KeyboardModifiers modifiers) {
                m_selection.setPart(part);
                m_part->stepValue(steps, modifiers);
            });
    connect(m_map, &StageMap::typedOnPart, m_part, &PartPanel::beginTyping);
    connect(m_part, &PartPanel::partChosen, this, [this](const PartId& part) {
        m_selection.setPart(part);
        m_map->setFocus();
    });
    connect(m_map, &StageMap::contextMenuAsked, this, [this](const PartId& part, const QPoint& at) {
        m_selection.setPart(part);
        QMenu* menu = m_rail->modMenu().build(part, this);
        menu->addSeparator();
        menu->addAction(m_actions.action("view.owners"));
        menu->popup(at);
    });
    // A value that the menu asks for is asked in the rail: it has to be seen.
    connect(&m_rail->modMenu(), &ModMenu::valueAsked, this, [this] {
        m_isRailUnfolded = true;
        arrange();
    });
    connect(m_spine, &ModSpine::unfoldAsked, this, [this] {
        m_isRailUnfolded = !m_isRailUnfolded;
        arrange();
    });
    connect(m_part, &PartPanel::targetAsked, this, [this] { showTargets(true); });
    connect(m_target, &TargetPanel::closed, this, [this] { showTargets(false); });
    connect(m_part, &PartPanel::differsAsked, this, [this] { showWalk(true, true); });
    connect(m_walk, &WalkPanel::closed, this, [this] { showWalk(false); });
    connect(m_curves, &CurvesPanel::cornerDragged, this, [this](double hz) {
        showTargets(true);
        m_target->wantCorner(hz);
    });
    connect(&m_curves->leaving(), &CurveExport::refused, this, &MainWindow::refuse);
    connect(&m_curves->leaving(), &CurveExport::said, m_status, &StatusLine::say);
    connect(m_board, &BoardPlace::refused, this, &MainWindow::refuse);
    connect(m_checkList, &CheckList::checkShown, m_board, &BoardPlace::showCheck);
    connect(m_checkList, &CheckList::flipAsked, m_board, &BoardPlace::flip);
    connect(m_header, &HeaderBar::leaveBenchAsked, this, &MainWindow::stepOut);
    connect(m_drawer, &DrawerPlace::shopFolderAsked, this, &MainWindow::askShopFolder);
    connect(m_draw, &DrawBoard::refused, this, &MainWindow::refuse);
    connect(m_draw, &DrawBoard::accepted, m_refusal, [this] { m_refusal->setSentence({}); });
    connect(m_draw, &DrawBoard::nothingToSolve, m_curves, &CurvesPanel::setLack);
    connect(m_draw, &DrawBoard::keepAsked, this, &MainWindow::keepStage);
    connect(m_papersPlace, &PapersPlace::refused, this, &MainWindow::refuse);
    connect(m_papersPlace, &PapersPlace::said, m_status, &StatusLine::say);
    connect(m_history, &HistoryPlace::shopFolderAsked, this, &MainWindow::askShopFolder);
    connect(m_header, &HeaderBar::visitStateAsked, this, [this](VisitState state) {
        showPlace(Place::history);
        m_history->card().askState(state);
    });
    connect(m_start, &StartPage::writingChanged, this, &MainWindow::writeAnew);
    connect(m_start, &StartPage::openAsked, &m_files, &JobFiles::askOpen);
    connect(m_start, &StartPage::pasteAsked, &m_files, &JobFiles::pasteNetlist);
    connect(m_start, &StartPage::fileAsked, &m_files, [this](const QString& path) { m_files.open(path); });
    connect(m_start, &StartPage::demoAsked, &m_files, &JobFiles::openDemo);
    connect(&m_header->places(), &PlaceTabs::placeAsked, this, &MainWindow::showPlace);
    connect(&m_files, &JobFiles::opened, this, &MainWindow::followOpening);
    connect(m_lostWork, &LostWorkBand::refused, this, &MainWindow::refuse);
    connect(m_lostWork, &LostWorkBand::wanted, this, [this](const LostWork& lost) {
        if (m_files.mayLeaveJob()) {
            m_files.bringBack(lost.entry);
            m_lostWork->isBack();
        }
    });
    connect(m_fileBand, &FileBand::asked, this, &MainWindow::takeChoice);
    connect(&m_files, &JobFiles::saved, m_refusal, [this] { m_refusal->setSentence({}); });
    connect(&m_files, &JobFiles::refused, this, &MainWindow::refuse);
    connect(&m_files, &JobFiles::said, m_status, &StatusLine::say);
    connect(&m_document, &JobDocument::jobChanged, this, &MainWindow::followDocument);
    connect(&m_document, &JobDocument::saveStateChanged, this, &MainWindow::followDocument);
    connect(&m_document, &JobDocument::refused, this, &MainWindow::refuse);
    connect(&m_shop, &ShopDocument::refused, this, &MainWindow::refuse);
    // What was refused before is no longer the matter once an edit was taken.
    connect(&m_document, &JobDocument::jobChanged, m_refusal, [this] { m_refusal->setSentence({}); });
    connect(&m_solver, &SolverService::stateChanged, this, &MainWindow::followSolver);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        update();
        arrange();
    });
}

void MainWindow::connectActions() {
    connect(&m_menus, &MainMenus::recentAsked, this, [this](const QString& path) {
        if (m_files.mayLeaveJob()) {
            openFile(path);
        }
    });
    connect(&m_menus, &MainMenus::changesAsked, this, [this](QMenu* menu) {
        if (!m_selection.part().empty()) {
            menu->addActions(m_rail->modMenu().build(m_selection.part(), menu)->actions());
        }
    });
    m_actions.attachWindow(this);
    m_actions.attachPanel(m_map);
    m_actions.attachPanel(m_curves);
    const auto on = [this](const char* id, auto&& then) {
        connect(m_actions.action(id), &QAction::triggered, this, std::forward<decltype(then)>(then));
    };
    on("job.join", [this] { joinStages(); });
    on("stage.keep", [this] { keepStage({}); });
    on("job.draw", [this] { drawNewUnit(); });
    on("job.open", [this] { m_files.askOpen(); });
    on("job.pasteNetlist", [this] { m_files.pasteNetlist(); });
    on("job.save", [this] { m_files.save(); });
    on("job.saveAs", [this] { m_files.askSaveAs(); });
    on("job.earlier", [this] { showEarlierVersions(); });
    on("job.exportNetlist", [this] { m_files.askExport(); });
    on("paper.benchSheet", [this] {
        m_papersPlace->choose(PaperKind::bench);
        showPlace(Place::papers);
    });
    on("shop.choose", [this] { askShopFolder(); });
    on("app.settings", [this] { showSettings(); });
    on("app.quit", [this] { close(); });
    on("edit.undo", [this] { m_document.undoStack().undo(); });
    on("edit.redo", [this] { m_document.undoStack().redo(); });
    on("mod.mute", [this] { m_rail->muteSelectedPart(); });
    on("mod.remove", [this] { removeSelectedMod(); });
    m_actions.action("view.keepStill")->setChecked(m_settings.keepsStill());
    m_board->view().setKeepsStill(m_settings.keepsStill());
    on("view.keepStill", [this](bool checked) {
        m_settings.setKeepsStill(checked);
        m_board->view().setKeepsStill(checked);
    });
    on("view.holdStock", [this](bool checked) { checked ? m_hold.latch() : m_hold.letGo(); });
    const auto sheet = [this]() -> PanView& {
        return m_place == Place::draw    ? static_cast<PanView&>(m_draw->canvas())
               : m_place == Place::board ? static_cast<PanView&>(m_board->view())
                                         : m_map->view();
    };
    on("edit.copyDrawing", [this] {
        QApplication::clipboard()->setMimeData(drawingToCopy(m_map->state()));
        m_status->say(tr("The drawing is on the clipboard, as SVG and as a picture."));
    });
    on("job.exportDrawing", [this] { askExportDrawing(); });
    on("paper.drawing", [this] { askPrintDrawing(); });
    on("view.nearer", [sheet] { sheet().zoom(1); });
    on("view.farther", [sheet] { sheet().zoom(-1); });
    on("view.whole", [sheet] { sheet().showWhole(); });
    on("view.probe", [this](bool checked) { m_selection.setProbesVolts(checked); });
    connect(&m_selection, &Selection::probesChanged, m_actions.action("view.probe"),
            [this] { m_actions.action("view.probe")->setChecked(m_selection.probesVolts()); });
    on("view.nextLeg", [this] { m_map->stepLeg(1); });
    on("view.previousLeg", [this] { m_map->stepLeg(-1); });
    connect(m_map, &StageMap::legSaid, m_status, &StatusLine::say);
    on("view.owners", [this](bool checked) { m_selection.setPinsOwners(checked); });
    connect(&m_selection, &Selection::ownersChanged, m_actions.action("view.owners"),
            [this] { m_actions.action("view.owners")->setChecked(m_selection.pinsOwners()); });
    for (const CurveKindName& kind : curveKindNames) {
        on(("curves." + std::string(kind.id)).c_str(), [this, kind = kind.kind] { m_curves->showCurve(kind); });
    }
    on("curves.export", [this] { m_curves->leaving().ask(); });
    on("curves.copy", [this] { m_curves->leaving().copyPicture(); });
    on("curves.pin", [this] { m_curves->pinNow(); });
    on("curves.table", [this] { m_curves->toggleTable(); });
    on("view.walk", [this] { showWalk(true); });
    on("view.differs", [this] { showWalk(true, true); });
    on("view.nextLevelUnit", [] { LevelUnits::current().step(); });
    on("view.sums", [this] {
        m_sums->showPart(m_selection.part(), {m_part->mapToGlobal(QPoint(0, 0)), m_part->size()});
    });
    on("go.nextPanel", [this] { walkPanels(1); });
    on("go.previousPanel", [this] { walkPanels(-1); });
    on("help.shortcuts", [this] { showPage(tr("Keys"), keysPage(), this); });
    on("help.news", [this] { showPage(tr("What is new"), newsPage(), this); });
    on("help.about", [this] { showPage(tr("About Ohmwright"), aboutPage(), this); });
    connect(&m_hold, &StockHold::latchChanged, m_actions.action("view.holdStock"), &QAction::setChecked);
}

}  // namespace ohmwright
