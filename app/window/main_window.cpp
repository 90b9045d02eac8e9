// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/main_window.h"

#include "app/board/board_place.h"
#include "app/board/board_view.h"
#include "app/checklist/check_list.h"
#include "app/consequences/effect_strip.h"
#include "app/curves/curves_panel.h"
#include "app/drawer/drawer_place.h"
#include "app/history/history_place.h"
#include "app/knobs/knob_row.h"
#include "app/look/sign_text.h"
#include "app/look/theme.h"
#include "app/map/draw_board.h"
#include "app/map/stage_map.h"
#include "app/mods/job_rail.h"
#include "app/papers/papers_place.h"
#include "app/part/part_panel.h"
#include "app/part/target_panel.h"
#include "app/part/walk_panel.h"
#include "app/stages/stage_joiner.h"
#include "app/stages/stage_keeper.h"
#include "app/window/file_band.h"
#include "app/window/header_bar.h"
#include "app/window/help_pages.h"
#include "app/window/left_rail.h"
#include "app/window/lost_work_band.h"
#include "app/window/message_band.h"
#include "app/window/mod_spine.h"
#include "app/window/panel_focus.h"
#include "app/window/place_tabs.h"
#include "app/window/settings_page.h"
#include "app/window/start_page.h"
#include "app/window/status_line.h"
#include "core/base/number_text.h"
#include "core/bench/high_voltage.h"
#include "core/circuit/supply_volts.h"
#include "core/files/part_data.h"
#include "core/plan/edits.h"

#include <QAbstractSpinBox>
#include <QApplication>
#include <QCloseEvent>
#include <QContextMenuEvent>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QPainter>
#include <QScreen>
#include <QSplitter>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTextEdit>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

// Static libraries drop resources nobody asks for; the macro has to stand outside any namespace.
static void initialiseWindowResources() {
    Q_INIT_RESOURCE(window);
}

namespace ohmwright {

namespace {

/// Keyboards without a menu key have these two; the toolkit knows the menu key alone here.
bool asksForMenu(const QKeyEvent& event) {
    return event.key() == Qt::Key_F10 && event.modifiers() == Qt::ShiftModifier && !event.isAutoRepeat();
}

/// As the menu key does.
void openMenuOf(QWidget& widget) {
    const QPoint at = widget.inputMethodQuery(Qt::ImCursorRectangle).toRect().center();
    QContextMenuEvent asked(QContextMenuEvent::Keyboard, at, widget.mapToGlobal(at));
    QCoreApplication::sendEvent(&widget, &asked);
}

/// Where the window folds (look tokens `fold`).
constexpr int narrowBelow = 1480;
constexpr int lowBelow = 860;

QByteArray resourceText(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// The user's own, whatever is opened.
QString journalFolder() {
    return QDir(QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation)).filePath("journal");
}

/// "3 notes on moss.cir. line 4: 1M is read as milli ..."
QString notesSentence(const QString& fileName, const QStringList& notes) {
    if (notes.isEmpty()) {
        return {};
    }
    return notes.size() == 1 ? QString("%1, %2").arg(fileName, notes.front())
                             : QObject::tr("%1 notes on %2, the first: %3")
                                   .arg(QString::number(notes.size()), fileName, notes.front());
}

}  // namespace

MainWindow::MainWindow(QWidget* parent)
    : QWidget(parent),
      m_solver(m_document, m_selection),
      m_consequences(m_document, m_solver, m_shop),
      m_paperService(m_document, m_solver, m_shop),
      m_files(m_document, m_selection, m_settings, *this),
      m_journal(m_document, journalFolder()),
      m_menus(m_actions, m_settings),
      m_hold(m_selection) {
    initialiseWindowResources();
    setAcceptDrops(true);
    setMinimumSize(960, 600);
    build();
    loadModels();
    joinPanels();
    joinSums();
    joinShelf();
    joinValueDrag();
    m_menus.fill(m_header->menuBar(), m_widgets);
    connectActions();
    putInFront(m_place);
    followDocument();
    followSolver();
    followShop();
    resize(QSize(1600, 1000).boundedTo(screen()->availableSize()));
    if (const QByteArray geometry = m_settings.windowGeometry(); !geometry.isEmpty()) {
        restoreGeometry(geometry);
    }
    qApp->installEventFilter(this);
    m_lostWork->offer();
}

MainWindow::~MainWindow() {
    qApp->removeEventFilter(this);
    // The panels hold references to the members below: they go first.
    delete m_content;
}

QString MainWindow::refusal() const {
    return m_refusal->sentence();
}

QString MainWindow::notice() const {
    return m_notes->sentence();
}

// --- building ----------------------------------------------------------------------------------------------------

void MainWindow::build() {
    m_content = new QWidget(this);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_content);

    m_header = new HeaderBar(m_actions, m_hold, m_content);
    m_status = new StatusLine(m_solver, m_content);
    m_places = new QStackedWidget(m_content);
    m_start = new StartPage(m_settings, m_places);
    m_places->addWidget(m_start);
    m_joiner = new StageJoiner(m_places);
    m_places->addWidget(m_joiner);
    m_keeper = new StageKeeper(m_places);
    m_places->addWidget(m_keeper);
    addPlace(Place::map, buildWork());
    m_draw = new DrawBoard(m_document, m_selection, m_solver, m_places);
    addPlace(Place::draw, m_draw);
    m_boardRoom = new QWidget(m_places);
    auto* boardRoom = new QVBoxLayout(m_boardRoom);
    boardRoom->setContentsMargins(0, 0, 0, 0);
    m_board = new BoardPlace(m_document, m_selection, m_boardRoom);
    boardRoom->addWidget(m_board);
    addPlace(Place::board, m_boardRoom);
    m_checkList = new CheckList(m_document, m_bench, m_places);
    m_checkList->setWho(qEnvironmentVariable("USER"));
    addPlace(Place::checkList, m_checkList);
    m_drawer = new DrawerPlace(m_document, m_selection, m_shop, m_places);
    addPlace(Place::drawer, m_drawer);
    m_papersPlace = new PapersPlace(m_document, m_paperService, m_places);
    addPlace(Place::papers, m_papersPlace);
    m_history = new HistoryPlace(m_document, m_shop, m_bench, m_places);
    addPlace(Place::history, m_history);

    // Panels meet at lines of 1 px: the ground shows through between them.
    auto* layout = new QVBoxLayout(m_content);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(m_header);
    addBands(*layout);
    layout->addWidget(m_places, 1);
    layout->addWidget(m_status);
}

void MainWindow::addBands(QVBoxLayout& layout) {
    using Stays = MessageBand::Stays;
    m_highVoltage = new MessageBand(SignKind::stop, Stays::whileTrue, m_content);
    m_lostWork = new LostWorkBand(m_journal, m_content);
    m_fileBand = new FileBand(m_document, m_journal, m_content);
    m_refusal = new MessageBand(SignKind::care, Stays::untilDismissed, m_content);
    m_notes = new MessageBand(SignKind::care, Stays::untilDismissed, m_content);
    for (MessageBand* band :
         std::initializer_list<MessageBand*>{m_highVoltage, m_lostWork, m_fileBand, m_refusal, m_notes}) {
        layout.addWidget(band);
    }
    connect(m_notes, &MessageBand::moreAsked, this, [this] {
        const QString heading = tr("Notes of the netlist");
        showPage(heading, notesPage(heading, m_document.netlistNotes()), this);
    });
}

QWidget* MainWindow::buildWork() {
    auto* work = new QWidget(m_places);
    m_spine = new ModSpine(m_document, m_solver, work);
    m_leftRail = new LeftRail(m_document, m_selection, m_solver, m_consequences, work);
    m_rail = &m_leftRail->jobRail();
    m_centre = new QSplitter(Qt::Vertical, work);
    m_map = new StageMap(m_document, m_selection, m_solver, m_centre);
    m_curves = new CurvesPanel(m_document, m_selection, m_solver, m_centre);
    m_part = new PartPanel(m_document, m_selection, m_solver, m_shop, work);
    m_target = new TargetPanel(m_document, m_selection, m_shop, work);
    m_target->hide();
    m_walk = new WalkPanel(m_document, m_selection, work);
    m_walk->hide();
    m_knobs = new KnobRow(m_document, m_selection, work);
    m_knobs->followSwitches(m_consequences);
    m_curves->followSwitches(m_consequences);
    m_effects = new EffectStrip(m_consequences, work);

    m_centre->addWidget(m_map);
    m_centre->addWidget(m_curves);
    m_centre->setHandleWidth(1);
    m_centre->setChildrenCollapsible(false);
    m_centre->setStretchFactor(0, 5);
    m_centre->setStretchFactor(1, 4);

    auto* middle = new QHBoxLayout;
    middle->setSpacing(1);
    middle->addWidget(m_spine);
    middle->addWidget(m_leftRail);
    middle->addWidget(m_centre, 1);
    middle->addWidget(m_part);
    middle->addWidget(m_target);
    middle->addWidget(m_walk);
    auto* layout = new QVBoxLayout(work);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addLayout(middle, 1);
    layout->addWidget(m_knobs);
    layout->addWidget(m_effects);
    return work;
}

void MainWindow::loadModels() {
    const QByteArray text = resourceText(":/window/models.json");
    const Result<PartLibrary> library = readModels({text.constData(), static_cast<std::size_t>(text.size())});
    if (!library) {
        refuse(QString::fromStdString(library.error().message));
        return;
    }
    m_part->setModels(library->models);
    m_walk->setModels(library->models);
    m_draw->setModels(library->models);
    m_rail->setModels(library->models);
}

// --- following ---------------------------------------------------------------------------------------------------

bool MainWindow::hasJob() const {
    return !m_document.job()->stock.parts.empty();
}

void MainWindow::followDocument() {
    const auto job = m_document.job();
    const bool isOpen = hasJob();
    if (isOpen != m_hadJob) {
        putInFront(m_place);
    }
    m_header->setVisit(job->visit);
    m_start->setRecentFiles(m_settings.recentFiles());
    const double supply = highestSupplyVolts(job->stock, job->setting);
    m_highVoltage->setSentence(
        supply > highVolts
            ? tr("High voltage: %1 V in this unit. Discharge, then measure, before anything is touched; for "
                 "licensed or suitably trained people only.")
                  .arg(QString::fromStdString(formatFigure(supply)))
            : QString());

    followActions();
    const QString unit = QString::fromStdString(job->unit.name).left(60);
    setWindowTitle(isOpen ? tr("%1[*] \u2013 Ohmwright").arg(unit.isEmpty() ? tr("Unnamed unit") : unit)
                          : QString("Ohmwright"));
    setWindowModified(isOpen && !m_document.isSaved());
    if (!isOpen) {
        m_actions.action("paper.benchSheet")->setEnabled(false);
    }
}

/// What can be done where the window stands; what only fits the plan's map is dead while the unit is drawn.
void MainWindow::followActions() {
    // Behind the shelf's pages the job is out of sight: nothing there is undone or changed unseen.
    const bool isShown = m_places->currentWidget() != m_joiner && m_places->currentWidget() != m_keeper;
    QUndoStack& undo = m_document.undoStack();
    const auto step = [this](const char* id, bool can, const QString& words) {
        m_actions.action(id)->setEnabled(can);
        m_actions.action(id)->setToolTip(words.isEmpty() ? m_actions.wordsWithKeys(id)
                                                         : m_actions.wordsWithKeys(id) + ": " + words);
    };
    step("edit.undo", isShown && undo.canUndo(), undo.undoText());
    step("edit.redo", isShown && undo.canRedo(), undo.redoText());
    for (const char* id : {"view.nearer", "view.farther", "view.whole"}) {
        const bool hasSheet = m_place == Place::map || m_place == Place::board ? hasJob() : m_place == Place::draw;
        m_actions.action(id)->setEnabled(isShown && hasSheet);
    }
    for (const char* id :
         {"job.save", "job.saveAs", "job.earlier", "job.exportDrawing", "paper.drawing", "edit.copyDrawing",
          "job.exportNetlist", "stage.keep", "view.holdStock", "curves.table", "curves.export", "curves.copy"}) {
        m_actions.action(id)->setEnabled(hasJob() && isShown);
    }
    for (const CurveKindName& kind : curveKindNames) {
        m_actions.action(("curves." + std::string(kind.id)).c_str())->setEnabled(hasJob() && isShown);
    }
    for (const char* id : {"mod.mute", "mod.remove", "curves.pin", "view.owners", "view.probe", "view.sums",
                           "view.walk", "view.differs", "view.nextLeg", "view.previousLeg"}) {
        m_actions.action(id)->setEnabled(hasJob() && isShown && m_place != Place::draw);
    }
}

void MainWindow::followSolver() {
    const QString fault = m_solver.fault();
    const bool canPrint = hasJob() && m_solver.isCurrent();
    m_actions.action("paper.benchSheet")->setEnabled(canPrint);
    // The sentence itself stands on the map, at the fault's place.
    m_header->setSheetObstacle(!hasJob() || canPrint ? QString() : fault.isEmpty() ? tr("solving") : tr("not solved"));
}

void MainWindow::showSettings() {
    auto* page = new SettingsPage(m_settings, this);
    page->setAttribute(Qt::WA_DeleteOnClose);
    connect(page, &SettingsPage::writingChanged, this, &MainWindow::writeAnew);
    connect(page, &SettingsPage::shopFolderAsked, page, [this, page] {
        askShopFolder();
        page->follow();
    });
    page->show();
}

void MainWindow::writeAnew() {
    emit m_document.jobChanged(JobAspect::words);
}

void MainWindow::refuse(const QString& sentence) {
    m_refusal->setSentence(sentence);
}

void MainWindow::showWalk(bool shown, bool isOfOnePart) {
    const bool hasPart = findPart(m_document.job()->stock, m_selection.part()) != nullptr;
    if (shown && isOfOnePart && !hasPart) {
        refuse(tr("Select the part that differs from the drawing first: press it on the map, or go there with Tab."));
        return;
    }
    if (shown) {
        showTargets(false);
        showPlace(Place::map);
        m_part->hide();
        m_walk->show();
        if (isOfOnePart) {
            m_walk->beginDiffers();
        } else {
            m_walk->begin();
        }
    } else if (!m_walk->isHidden()) {
        m_walk->hide();
        m_part->show();
        m_map->setFocus();
    }
}

void MainWindow::showTargets(bool shown) {
    if (shown != m_target->isHidden()) {
        return;
    }
    showWalk(false);
    m_part->setVisible(!shown);
    m_target->setVisible(shown);
    if (shown) {
        m_target->begin();
    } else {
        m_map->setFocus();
    }
}

void MainWindow::showNotes() {
    const QStringList& notes = m_document.netlistNotes();
    m_notes->setSentence(notesSentence(QFileInfo(m_document.netlistPath()).fileName(), notes));
    m_notes->setMore(notes.size() > 1 ? tr("Show all %1").arg(notes.size()) : QString());
}

// --- places ------------------------------------------------------------------------------------------------------

void MainWindow::addPlace(Place place, QWidget* widget) {
    m_widgets[place] = widget;
    m_places->addWidget(widget);
    m_header->places().add(place);
    QAction* action = m_actions.action(placeAction(place));
    connect(action, &QAction::triggered, this, [this, place] { showPlace(place); });
}

void MainWindow::showPlace(Place place) {
    if (!m_widgets.contains(place)) {
        return;
    }
    putInFront(place);
    // Who goes to a place by a key goes on there by keys.
    if (place == Place::map || place == Place::draw) {
        (place == Place::map ? static_cast<QWidget*>(m_map) : m_draw)->setFocus();
    } else if (place == Place::board) {
        m_board->view().setFocus();
    } else {
        focusPanel({m_widgets.at(place)}, 1);
    }
}

/// The keyboard stays where it is.
void MainWindow::putInFront(Place place) {
    m_place = place;
    m_hadJob = hasJob();
    m_header->places().setPlace(place);
    // A unit is drawn from nothing: its place needs no job.
    const bool isShown = m_hadJob || place == Place::draw;
    m_places->setCurrentWidget(isShown ? m_widgets.at(place) : m_start);
    m_header->setJobOpen(isShown);
    m_header->setBenchMode(m_hadJob && place == Place::checkList);
    // The curves follow the drawing: one panel, in the place that is open.
    if (place == Place::draw) {
        m_draw->setCurves(m_curves);
    } else if (place == Place::map && m_centre->indexOf(m_curves) < 0) {
        m_centre->addWidget(m_curves);
        m_centre->setSizes(centreShares());
    }
    putBoard(place);
    m_status->setHintsShown(isShown && place == Place::map);
    followActions();
    arrange();
}

/// One board, in its own place or left of the step.
void MainWindow::putBoard(Place place) {
    m_board->setBench(place == Place::checkList);
    if (place == Place::checkList) {
        m_checkList->setBeside(m_board);
    } else if (place == Place::board) {
        m_boardRoom->layout()->addWidget(m_board);
        m_board->show();
    }
}

void MainWindow::drawNewUnit() {
    if (m_files.mayLeaveJob()) {
        m_document.setJob({}, {});
        showPlace(Place::draw);
    }
}

void MainWindow::joinStages(const QString& first) {
    m_places->setCurrentWidget(m_joiner);
    m_header->setBenchMode(false);
    m_joiner->begin(m_shop.folder().isEmpty() ? m_settings.shopFolder() : m_shop.folder(), first);
    followActions();
    arrange();
}

void MainWindow::keepStage(const std::vector<PartId>& parts) {
    if (!hasJob()) {
        return;
    }
    m_places->setCurrentWidget(m_keeper);
    m_header->setBenchMode(false);
    m_keeper->begin(m_document.job()->stock, parts, m_shop.folder());
    followActions();
    arrange();
}

void MainWindow::backToPlace() {
    putInFront(m_place);
    (m_place == Place::map ? static_cast<QWidget*>(m_map) : m_places->currentWidget())->setFocus();
}

// --- mods and panels ---------------------------------------------------------------------------------------------

void MainWindow::removeSelectedMod() {
    const auto job = m_document.job();
    const auto found = std::find_if(job->plan.begin(), job->plan.end(),
                                    [this](const Mod& mod) { return targetOf(mod.change) == m_selection.part(); });
    if (found == job->plan.end()) {
        refuse(tr("No mod is planned on the selected part: there is nothing to take out."));
        return;
    }
    m_document.edit(removeMod(*job, found->id), tr("Remove mod %1").arg(QString::fromStdString(found->letter)));
}

void MainWindow::walkPanels(int step) {
    if (m_places->currentWidget() == m_widgets.at(Place::draw)) {
        std::vector<QWidget*> panels = m_draw->panels();
        panels.push_back(m_curves);
        focusPanel(panels, step);
    } else if (hasJob() && m_places->currentWidget() == m_boardRoom) {
        std::vector<QWidget*> panels = m_board->panels();
        panels.insert(panels.begin(), &m_header->places());
        focusPanel(panels, step);
    } else if (hasJob() && m_places->currentWidget() != m_widgets.at(Place::map)) {
        focusPanel({&m_header->places(), m_places->currentWidget()}, step);
    } else if (hasJob()) {
        focusPanel({m_spine, m_leftRail, m_map, m_curves, m_part, m_target, m_walk, m_knobs, m_effects}, step);
    }
}

/// Of map and curves. A low window gives the map its height first: words without room are left out there.
QList<int> MainWindow::centreShares() const {
    return m_isLow ? QList<int>{630, 370} : QList<int>{500, 400};
}

void MainWindow::arrange() {
    // Larger text needs the room of a larger window.
    const double scale = Theme::current().textScale();
    const bool isNarrow = width() < scale * narrowBelow;
    const bool isLow = height() < scale * lowBelow;
    m_spine->setVisible(isNarrow);
    m_spine->setUnfolded(m_isRailUnfolded);
    m_leftRail->setVisible(!isNarrow || m_isRailUnfolded);
    m_header->setFolded(isNarrow || isLow);
    if (isLow != m_isLow) {
        m_isLow = isLow;
        m_centre->setSizes(centreShares());
    }
    m_knobs->setFolded(isLow);
    m_effects->setFolded(isNarrow || isLow);
    m_effects->setClaimsShown(!m_leftRail->isVisibleTo(this));
    m_map->setLevelRailShown(!isLow);
    m_curves->setNarrow(isNarrow || isLow);
    m_status->setVisible(!isLow && !m_header->isBenchMode());
    // In the middle of a resize the layouts count as done, and a new size of what folds would not be asked for.
    for (QWidget* folding : std::initializer_list<QWidget*>{m_knobs, m_effects, m_map, m_curves, m_header}) {
        folding->updateGeometry();
    }
}

// --- events ------------------------------------------------------------------------------------------------------

void MainWindow::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

void MainWindow::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

bool MainWindow::focusNextPrevChild(bool next) {
    return focusStop(*this, next ? 1 : -1);
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!m_files.mayLeaveJob()) {
        event->ignore();
        return;
    }
    m_settings.setWindowGeometry(saveGeometry());
    event->accept();
}

void MainWindow::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    // The release of a held key goes to another window then.
    if (event->type() == QEvent::ActivationChange && !isActiveWindow()) {
        m_hold.release();
    }
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    if (urls.size() == 1 && isOpenable(urls.first().toLocalFile())) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = event->mimeData()->urls().value(0).toLocalFile();
    event->acceptProposedAction();
    if (m_files.mayLeaveJob()) {
        openFile(path);
    }
}

bool MainWindow::lettersAct() const {
    const QWidget* focus = QApplication::focusWidget();
    if (!focus || focus->window() != this || !hasJob()) {
        return false;
    }
    if (qobject_cast<const QLineEdit*>(focus) || qobject_cast<const QAbstractSpinBox*>(focus) ||
        qobject_cast<const QTextEdit*>(focus)) {
        return false;
    }
    const std::array<const QWidget*, 4> panels{m_map, m_curves, m_rail, m_spine};
    return std::any_of(panels.begin(), panels.end(),
                       [focus](const QWidget* panel) { return panel == focus || panel->isAncestorOf(focus); });
}

bool MainWindow::pressLetter(const QKeyEvent& event) {
    if (event.key() == Qt::Key_S && event.modifiers() == Qt::NoModifier) {
        if (!event.isAutoRepeat()) {
            m_hold.press();
        }
        return true;
    }
    if (event.modifiers() == Qt::ShiftModifier && event.key() >= Qt::Key_A && event.key() <= Qt::Key_F &&
        !event.isAutoRepeat()) {
        m_rail->toggleMod(QChar('A' + event.key() - Qt::Key_A));
        return true;
    }
    return event.key() == Qt::Key_Escape && stepOut();
}

bool MainWindow::stepOut() {
    if (m_valueDrag.isActive()) {
        m_valueDrag.cancel();
    } else if (m_header->isBenchMode()) {
        showPlace(Place::map);
        m_map->setFocus();
    } else if (m_hold.isLatched()) {
        m_hold.letGo();
    } else if (m_selection.ghost()) {
        m_selection.setGhost(std::nullopt);
    } else if (m_map->hasLitLeg()) {
        m_map->putOutLeg();
    } else if (m_selection.pinsOwners()) {
        m_selection.setPinsOwners(false);
    } else if (m_selection.probesVolts()) {
        m_selection.setProbesVolts(false);
    } else if (!m_refusal->sentence().isEmpty()) {
        m_refusal->setSentence({});
    } else if (!m_selection.part().empty()) {
        m_selection.setPart({});
    } else {
        return false;
    }
    return true;
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
    const bool isOwnKey = watched == QApplication::focusWidget();
    if (event->type() == QEvent::KeyPress && watched == m_checkList &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        return stepOut();
    }
    if (event->type() == QEvent::KeyPress && isOwnKey && asksForMenu(*static_cast<QKeyEvent*>(event))) {
        openMenuOf(*QApplication::focusWidget());
        return true;
    }
    if (event->type() == QEvent::KeyPress && isOwnKey && lettersAct()) {
        return pressLetter(*static_cast<QKeyEvent*>(event));
    }
    if (event->type() == QEvent::KeyRelease && m_hold.isDown()) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_S && !key->isAutoRepeat()) {
            m_hold.release();
            return isOwnKey;
        }
    }
    return false;
}

}  // namespace ohmwright
