/// The window: header, bands, map over curves between the rails, knob row, status line. Joins the panels, which do
/// not know each other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/bench_service.h"
#include "app/background/consequence_service.h"
#include "app/background/file_watch.h"
#include "app/background/journal.h"
#include "app/background/paper_service.h"
#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/action_table.h"
#include "app/look/settings.h"
#include "app/part/value_drag.h"
#include "app/window/job_files.h"
#include "app/window/main_menus.h"
#include "app/window/place.h"
#include "app/window/stock_hold.h"

#include <QWidget>

#include <map>

class QPagedPaintDevice;
class QSplitter;
class QStackedWidget;
class QVBoxLayout;

namespace ohmwright {

class BoardPlace;
class CheckList;
class CurvesPanel;
class DrawBoard;
class DrawerPlace;
class EffectStrip;
class FileBand;
class HeaderBar;
enum class FileChoice;
class HistoryPlace;
class JobRail;
class KnobRow;
class LeftRail;
class LostWorkBand;
class MessageBand;
class ModSpine;
class PapersPlace;
class PartPanel;
class StageJoiner;
class StageKeeper;
class StageMap;
class StartPage;
class StatusLine;
class SumCards;
class TargetPanel;
class WalkPanel;

class MainWindow : public QWidget {
    Q_OBJECT
public:
    explicit MainWindow(QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens a job file, or a netlist as a new job; what cannot be opened is said in a band and the open job stays.
    /// Does not ask about unsaved work.
    bool openFile(const QString& path);
    /// A bundled demo job as a new, unsaved one.
    /// @param id  of demo_jobs.h.
    bool openDemo(const QString& id = QStringLiteral("harbour-lamp"));
    /// Fills the window with a place; does nothing where this window has no such place. Without a job the start page
    /// stays, and the place comes with the job.
    void showPlace(Place place);
    [[nodiscard]] Place place() const { return m_place; }
    /// An empty drawing in the place where units are drawn; asks about unsaved work first.
    void drawNewUnit();
    /// Shows the shelf of stages in the places' room; a unit that is made there becomes the open job.
    void joinStages(const QString& first = {});
    /// Asks, in the places' room, how a part of the stock drawing is kept for the shelf.
    /// @param parts  that are chosen; empty: a stage of the drawing is offered.
    void keepStage(const std::vector<PartId>& parts);
    /// Writes the circuit, settings put in, as a netlist; refused in words where the plan makes no circuit.
    bool exportNetlist(const QString& path, ExportedState state);
    /// The map in print ink, SVG, PDF or PNG by the suffix; refused in words where it cannot be written.
    bool exportDrawing(const QString& path);
    /// The same on one page of a printer or PDF.
    bool printDrawing(QPagedPaintDevice& device);

    [[nodiscard]] JobDocument& document() { return m_document; }
    [[nodiscard]] Selection& selection() { return m_selection; }
    /// The shop of the open job: the folder that it lies in, else the one of the settings.
    [[nodiscard]] ShopDocument& shop() { return m_shop; }
    [[nodiscard]] ConsequenceService& consequences() { return m_consequences; }
    [[nodiscard]] SolverService& solver() { return m_solver; }
    [[nodiscard]] const ActionTable& actions() const { return m_actions; }
    [[nodiscard]] StageMap& map() { return *m_map; }
    [[nodiscard]] DrawBoard& drawBoard() { return *m_draw; }
    [[nodiscard]] CurvesPanel& curves() { return *m_curves; }
    [[nodiscard]] BoardPlace& boardPlace() { return *m_board; }
    [[nodiscard]] CheckList& checkList() { return *m_checkList; }
    [[nodiscard]] PartPanel& partPanel() { return *m_part; }
    [[nodiscard]] StageJoiner& stageJoiner() { return *m_joiner; }
    [[nodiscard]] StageKeeper& stageKeeper() { return *m_keeper; }
    [[nodiscard]] DrawerPlace& drawerPlace() { return *m_drawer; }
    [[nodiscard]] PapersPlace& papers() { return *m_papersPlace; }
    [[nodiscard]] HistoryPlace& history() { return *m_history; }
    [[nodiscard]] TargetPanel& targetPanel() { return *m_target; }
    [[nodiscard]] WalkPanel& walkPanel() { return *m_walk; }
    /// The last refusal that stands in its band; empty when none does.
    [[nodiscard]] QString refusal() const;
    /// What the netlist's reader had to say, as it stands in its band; empty when nothing does.
    [[nodiscard]] QString notice() const;

protected:
    void paintEvent(QPaintEvent* event) override;
    /// As one reads: header, mods, map, curves, part, knobs, side effects.
    bool focusNextPrevChild(bool next) override;
    void resizeEvent(QResizeEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void changeEvent(QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void build();
    void addBands(QVBoxLayout& layout);
    QWidget* buildWork();
    /// Gives the place its tab and its action.
    void addPlace(Place place, QWidget* widget);
    void joinPanels();
    void joinSums();
    void joinShelf();
    void joinValueDrag();
    void loadModels();
    void connectActions();
    void followOpening();
    /// Reads the shop that the open job belongs to.
    void followShop();
    void askShopFolder();
    void askExportDrawing();
    void askPrintDrawing();
    void putInFront(Place place);
    void putBoard(Place place);
    void backToPlace();
    void showTargets(bool shown);
    /// In the part panel's place: the walk from its beginning, or the selected part's differences.
    void showWalk(bool shown, bool isOfOnePart = false);
    void showNotes();
    void showEarlierVersions();
    void showFaults();
    void takeChoice(FileChoice choice);
    void followDocument();
    void followActions();
    void followSolver();

    void showSettings();
    /// Values are written in another style: what stands is written anew, nothing was edited.
    void writeAnew();
    void refuse(const QString& sentence);
    void removeSelectedMod();
    void walkPanels(int step);
    void arrange();
    [[nodiscard]] QList<int> centreShares() const;
    [[nodiscard]] bool hasJob() const;
    [[nodiscard]] bool lettersAct() const;
    bool pressLetter(const QKeyEvent& event);
    bool stepOut();

    Settings m_settings;
    JobDocument m_document;
    Selection m_selection;
    ShopDocument m_shop;
    SolverService m_solver;
    BenchService m_bench{m_document};
    ValueDrag m_valueDrag{m_document, m_shop};
    ConsequenceService m_consequences;
    PaperService m_paperService;
    JobFiles m_files;
    Journal m_journal;
    FileWatch m_fileWatch{m_document};
    ActionTable m_actions;
    MainMenus m_menus;
    StockHold m_hold;

    QWidget* m_content = nullptr;
    HeaderBar* m_header = nullptr;
    MessageBand* m_highVoltage = nullptr;
    LostWorkBand* m_lostWork = nullptr;
    FileBand* m_fileBand = nullptr;
    MessageBand* m_refusal = nullptr;
    MessageBand* m_notes = nullptr;
    QStackedWidget* m_places = nullptr;
    StartPage* m_start = nullptr;
    StageJoiner* m_joiner = nullptr;
    StageKeeper* m_keeper = nullptr;
    std::map<Place, QWidget*> m_widgets;
    Place m_place = Place::map;
    ModSpine* m_spine = nullptr;
    LeftRail* m_leftRail = nullptr;
    JobRail* m_rail = nullptr;
    QSplitter* m_centre = nullptr;
    StageMap* m_map = nullptr;
    DrawBoard* m_draw = nullptr;
    CurvesPanel* m_curves = nullptr;
    PartPanel* m_part = nullptr;
    DrawerPlace* m_drawer = nullptr;
    HistoryPlace* m_history = nullptr;
    TargetPanel* m_target = nullptr;  ///< In the part panel's place while parts are sought.
    WalkPanel* m_walk = nullptr;      ///< Likewise while the board is looked at.
    KnobRow* m_knobs = nullptr;
    QWidget* m_boardRoom = nullptr;  ///< The board's own place; at the bench it stands in the check list.
    BoardPlace* m_board = nullptr;
    CheckList* m_checkList = nullptr;
    PapersPlace* m_papersPlace = nullptr;
    EffectStrip* m_effects = nullptr;
    StatusLine* m_status = nullptr;
    SumCards* m_sums = nullptr;
    bool m_isRailUnfolded = false;
    bool m_isLow = false;
    bool m_hadJob = false;  ///< When a place was last put in front.
};

}  // namespace ohmwright
