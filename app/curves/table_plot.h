/// Level, harmonics, time and noise: stock dashed, now solid, out of the tables that core makes of them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/cursor_readout.h"
#include "app/curves/curve_plot.h"
#include "app/curves/pinned_lines.h"
#include "app/curves/table_axes.h"

#include <optional>
#include <vector>

namespace ohmwright {

/// The cursor steps by a rung of levels, a harmonic, a sixty-fourth of the period (with Shift a quarter of that), a
/// semitone (with Shift a tenth of that): what it reads of levels and harmonics was solved there.
class TablePlot : public CurvePlot {
    Q_OBJECT
public:
    explicit TablePlot(QWidget* parent = nullptr);

    /// Null empties the plot.
    void setCurve(const ComparedCurve* curve, const Setting& setting);
    void setPins(std::vector<PinnedCurve> pins);
    [[nodiscard]] QStringList curvesShown() const override;
    [[nodiscard]] const TableAxes& axes() const { return m_axes; }
    [[nodiscard]] QString cursorSentence() const override { return readout().sentence; }
    /// What is drawn and pinned, in the units of the axes.
    [[nodiscard]] const std::optional<ComparedCurve>& drawnTables() const { return m_drawn; }
    [[nodiscard]] const std::vector<PinnedCurve>& drawnPins() const { return m_drawnPins; }
    /// Of the cursor, without conditions.
    [[nodiscard]] CursorReadout readout() const;
    /// The kind that is drawn; absent while there is none.
    [[nodiscard]] std::optional<CurveKind> kind() const;

private:
    void applyPens() override;
    void layOut() override;
    void dressFrames() override;
    [[nodiscard]] std::optional<PlotRange> cursorWay() const override;
    [[nodiscard]] double stepped(int steps, bool isFine) const override;
    [[nodiscard]] double snapped(double at, double within, bool isFree) const override;
    [[nodiscard]] double toAxis(double at) const override;
    [[nodiscard]] double fromAxis(double x) const override;
    [[nodiscard]] bool isOverHz() const override { return isKind(CurveKind::noise); }
    bool takesPress(const QMouseEvent& event) override;
    [[nodiscard]] NotePlace notePlace() const override;
    [[nodiscard]] bool isFootFree() const;

    void fill();
    void placeCursor();
    void applyAxes();
    void paintWordsAround(QPainter& painter) const;
    void paintMarks(QPainter& painter) const;
    void paintCursor(QPainter& painter) const;
    void paintBars(QPainter& painter) const;
    void paintBarsOf(QPainter& painter, const CurveTable& table, double shift, const QColor& ink, bool isFilled) const;
    void paintPinnedBars(QPainter& painter) const;
    [[nodiscard]] bool isKind(CurveKind kind) const;

    QCPGraph* m_stock;
    QCPGraph* m_now;
    PinnedLines m_pinned;
    std::optional<ComparedCurve> m_curve;  ///< As core measures it.
    std::optional<ComparedCurve> m_drawn;  ///< Its levels in the unit chosen.
    std::vector<PinnedCurve> m_pins;
    std::vector<PinnedCurve> m_drawnPins;
    Setting m_setting;
    TableAxes m_axes;
};

}  // namespace ohmwright
