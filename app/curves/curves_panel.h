/// The curves: any two kinds side by side, the cursor column between them; in a narrow panel one at a time.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/pin_service.h"
#include "app/curves/cursor_readout.h"
#include "app/curves/curve_export.h"
#include "app/curves/curve_tabs.h"
#include "app/curves/throw_curves.h"
#include "core/plan/compare.h"

#include <QWidget>

#include <array>
#include <memory>
#include <vector>

class QBoxLayout;
class QGridLayout;

namespace ohmwright {

class ClipFigures;
class ClipPlot;
class ConsequenceService;
class CursorColumn;
class CurvePane;
class CurvePlot;
class JobDocument;
class PinStrip;
class ResponsePlot;
class Selection;
class SolverService;
enum class JobAspect;

/// Which of the two panes.
enum class CurveSide { left, right };
inline constexpr std::array bothSides{CurveSide::left, CurveSide::right};

/// Follows document, selection and solver by itself. Keys while it has the focus: 1 to 7 show a kind at the right (one
/// that is shown already gets the keyboard), with Alt at the left; the rest is the plots'.
class CurvesPanel : public QWidget {
    Q_OBJECT
public:
    CurvesPanel(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent = nullptr);

    /// For a small window: one kind at a time, and the difference strip goes. A panel under 760 px is narrow by itself.
    void setNarrow(bool narrow);
    [[nodiscard]] bool isNarrow() const;
    /// At the right, unless it is at the left already; gives it the keyboard.
    void showCurve(CurveKind kind);
    /// At one side; a kind that stands at the other one changes places. Gives it the keyboard.
    void showCurveAt(CurveKind kind, CurveSide side);
    [[nodiscard]] CurveKind kindAt(CurveSide side) const { return m_kinds[index(side)]; }
    /// The values of the kind that was chosen last instead of its drawing, and back.
    void toggleTable();
    [[nodiscard]] CurvePane& pane(CurveSide side = CurveSide::right) { return *m_panes[index(side)]; }
    /// Whether all that is shown belongs to the job as it is.
    [[nodiscard]] bool isCurrent() const;
    /// What a drawing that was begun still wants before it can be solved; empty when nothing.
    void setLack(const QString& sentence);
    /// Keeps now, with its setting, to be compared with; an undo step. What speaks against it is refused by the
    /// document.
    void pinNow();
    [[nodiscard]] PinService& pins() { return m_pins; }
    /// The curve that was chosen last, ready to leave.
    [[nodiscard]] ShownCurve shownCurve() const;
    [[nodiscard]] CurveExport& leaving() { return *m_export; }
    /// Draws the other throws of the switches that the plan fits, from then on.
    void followSwitches(ConsequenceService& consequences);

    /// What the solver's signals call; null empties that half. Copies what it shows.
    void setAnswers(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal);

    /// Writes response.png and clip.png as they are now, in the theme in force; needs no display.
    /// @return false when there is nothing current to write, or a file cannot be written.
    [[nodiscard]] bool savePictures(const QString& folder) const;

signals:
    /// The filled corner was dragged on the response: where it shall be.
    void cornerDragged(double hz);
    /// The sum behind a figure is wanted; names as look/sum_notes.h has them, and what was pressed, on the screen.
    void sumsAsked(const QStringList& figures, const QRect& beside);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void build();
    void follow();
    void followJob(JobAspect aspect);
    void followState();
    void showLinear(std::shared_ptr<const LinearAnswer> answer);
    void showLargeSignal(std::shared_ptr<const LargeSignalAnswer> answer);
    void showReading();
    void showThrows();
    void followPins();
    void showPins();
    [[nodiscard]] std::vector<PinnedCurve> pinnedOf(CurveKind kind) const;
    void showRows();
    [[nodiscard]] std::vector<LegendEntry> legend() const;
    void showHold();
    void showState(bool mayStamp);
    [[nodiscard]] QString lack() const;
    static std::size_t index(CurveSide side) { return static_cast<std::size_t>(side); }
    void followPlots();
    void followFocus(const QWidget* plot);
    void showMenu(CurvePlot& plot, const QPoint& at);
    [[nodiscard]] QString obstacle(CurveKind kind) const;
    [[nodiscard]] std::optional<ComparedCurve> curveOf(CurveKind kind) const;
    [[nodiscard]] CurveSheet sheetOf(CurveKind kind, const ComparedCurve& curve) const;
    void askSide(CurveKind kind, const QPoint& at);
    void arrange();
    [[nodiscard]] bool isTable(CurveSide side) const;
    [[nodiscard]] QWidget* widgetAt(CurveSide side) const;
    /// What the cursor column reads; null where neither pane has a cursor.
    [[nodiscard]] CurvePlot* readPlot() const;
    [[nodiscard]] CursorReadout readoutOf(const CurvePlot& plot) const;
    [[nodiscard]] bool saveResponse(const QString& path) const;
    [[nodiscard]] bool saveClip(const QString& path) const;
    [[nodiscard]] bool isLinearOfJob() const;
    [[nodiscard]] bool isLargeSignalOfJob() const;

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    PinService m_pins;
    CurveTabs* m_tabs;
    PinStrip* m_strip;
    CurveExport* m_export;
    ResponsePlot* m_response;
    CursorColumn* m_cursor;
    QWidget* m_rightRule;
    QWidget* m_clipPage;
    ClipPlot* m_clip;
    ClipFigures* m_figures;
    std::array<CurvePane*, 2> m_panes;  ///< Whatever is neither the response nor clip, drawn.
    QGridLayout* m_body;
    QBoxLayout* m_clipLayout;
    std::shared_ptr<const LinearAnswer> m_linear;
    std::shared_ptr<const LargeSignalAnswer> m_largeSignal;
    ConsequenceService* m_consequences = nullptr;
    std::vector<ThrowCurve> m_throws;
    QString m_standing;  ///< The throw that now stands at; empty without a switch.
    std::array<CurveKind, 2> m_kinds{CurveKind::response, CurveKind::clip};  ///< Left, right.
    std::array<bool, 2> m_tables{false, false};                              ///< As their values.
    CurveSide m_side = CurveSide::left;  ///< Chosen last: what a narrow panel shows and the cursor column reads.
    QString m_lack;
    bool m_asksNarrow = false;
    bool m_isArrangedNarrow = false;
};

}  // namespace ohmwright
