/// The window: header, bands, map over curves between the rails, knob row, status line. Joins the panels, which do
/// not know each other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/action_table.h"
#include "app/look/settings.h"
#include "app/papers/bench_sheet.h"
#include "app/window/stock_hold.h"

#include <QDir>
#include <QWidget>

class QMenu;
class QSplitter;
class QStackedWidget;
class QVBoxLayout;

namespace ohmwright {

class CurvesPanel;
class HeaderBar;
class JobRail;
class KnobRow;
class MessageBand;
class ModSpine;
class PartPanel;
class StageMap;
class StartPage;
class StatusLine;

class MainWindow : public QWidget {
    Q_OBJECT
public:
    explicit MainWindow(QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Opens a job file, or a netlist as a new job; what cannot be opened is said in a band and the open job stays.
    /// Does not ask about unsaved work.
    bool openFile(const QString& path);
    /// The bundled demo job as a new, unsaved one.
    bool openDemo();
    /// Writes the bench sheet of the job as it is; refused in words while the figures are not current.
    bool writeSheet(const QString& path, PaperSize paper);

    enum class ExportedState { now, stock };
    /// Writes the circuit, settings put in, as a netlist; refused in words where the plan makes no circuit.
    bool exportNetlist(const QString& path, ExportedState state);

    [[nodiscard]] JobDocument& document() { return m_document; }
    [[nodiscard]] Selection& selection() { return m_selection; }
    [[nodiscard]] SolverService& solver() { return m_solver; }
    [[nodiscard]] const ActionTable& actions() const { return m_actions; }
    [[nodiscard]] StageMap& map() { return *m_map; }
    [[nodiscard]] CurvesPanel& curves() { return *m_curves; }
    [[nodiscard]] PartPanel& partPanel() { return *m_part; }
    /// The last refusal that stands in its band; empty when none does.
    [[nodiscard]] QString refusal() const;
    /// What the netlist's reader had to say, as it stands in its band; empty when nothing does.
    [[nodiscard]] QString notice() const;

protected:
    void paintEvent(QPaintEvent* event) override;
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
    void joinPanels();
    void loadModels();
    void fillMenus();
    QMenu* recentMenu();
    QMenu* themeMenu();
    QMenu* textSizeMenu();
    void fillModMenu(QMenu& menu);
    void connectActions();
    void followDocument();
    void followSolver();

    void askOpen();
    void askSaveAs();
    void askSheet();
    void askExport();
    void showNotes();
    [[nodiscard]] QString nameForFile() const;
    [[nodiscard]] QDir folderForFile() const;
    bool save();
    /// True when there is nothing to lose, or it was saved or given up.
    bool mayLeaveJob();
    void refuse(const QString& sentence);
    void say(const QString& words);
    void removeSelectedMod();
    void walkPanels(int step);
    void arrange();
    [[nodiscard]] bool hasJob() const;
    [[nodiscard]] bool lettersAct() const;
    bool pressLetter(const QKeyEvent& event);
    bool stepOut();

    Settings m_settings;
    JobDocument m_document;
    Selection m_selection;
    SolverService m_solver;
    ActionTable m_actions;
    StockHold m_hold;

    QWidget* m_content = nullptr;
    HeaderBar* m_header = nullptr;
    MessageBand* m_highVoltage = nullptr;
    MessageBand* m_readOnly = nullptr;
    MessageBand* m_refusal = nullptr;
    MessageBand* m_notes = nullptr;
    QStackedWidget* m_places = nullptr;
    StartPage* m_start = nullptr;
    QWidget* m_work = nullptr;
    ModSpine* m_spine = nullptr;
    JobRail* m_rail = nullptr;
    StageMap* m_map = nullptr;
    CurvesPanel* m_curves = nullptr;
    PartPanel* m_part = nullptr;
    KnobRow* m_knobs = nullptr;
    StatusLine* m_status = nullptr;
    bool m_isRailUnfolded = false;
};

}  // namespace ohmwright
