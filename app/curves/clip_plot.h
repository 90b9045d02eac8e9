/// Peak + and peak − at the clip node against pick level, with clip thresholds and the player's level.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/cursor_readout.h"
#include "app/curves/curve_plot.h"
#include "app/curves/pinned_lines.h"
#include "core/plan/compare.h"

#include <optional>
#include <utility>

namespace ohmwright {

/// Peaks at the player's level [V], signed; from the figures, not from the drawn curve.
struct PlayerPeaks {
    std::optional<double> positive;
    std::optional<double> negative;
};
PlayerPeaks playerPeaks(const LargeSignalState& state);

/// Triangle of 12 px standing on its tip above 0 V, on its base below; filled for now, hollow for stock.
void paintThreshold(QPainter& painter, const QPointF& centre, bool isPositive, const QColor& ink, bool isFilled);

/// The cursor steps by a fiftieth of the axis, with Shift by a fifth of that.
class ClipPlot : public CurvePlot {
    Q_OBJECT
public:
    explicit ClipPlot(QWidget* parent = nullptr);

    /// Null empties the plot. Copies what it shows.
    void setAnswer(const LargeSignalAnswer* answer);
    void setPins(std::vector<PinnedCurve> pins);
    void resetRange();
    /// As many volts a px along as up, so that the slope of a branch on the screen is its gain; levels in decibels have
    /// no such scale and keep theirs. Also by the key E.
    void setEqualScales(bool equal);
    [[nodiscard]] bool hasEqualScales() const { return m_hasEqualScales; }
    /// Volts a px of both axes, along and up; the first is 0 while levels are in decibels.
    [[nodiscard]] std::pair<double, double> voltsPerPixel() const;

    [[nodiscard]] const PlotRange& voltsShown() const { return m_shown; }
    [[nodiscard]] QStringList curvesShown() const override;
    [[nodiscard]] QString cursorSentence() const override { return readout().sentence; }
    /// Of the cursor, without conditions.
    [[nodiscard]] CursorReadout readout() const;
    /// What is drawn and pinned, levels in the unit chosen. REQUIRES of the first: an answer.
    [[nodiscard]] ComparedCurve drawnTables() const;
    [[nodiscard]] std::vector<PinnedCurve> drawnPins() const;
    /// Highest pick level of the curve [V peak], and where it is probed.
    [[nodiscard]] double pickShown() const { return m_pickShown; }
    [[nodiscard]] const QString& node() const { return m_node; }
    /// "peak + and peak −, U1A pin 1"
    [[nodiscard]] QString title() const;

private:
    /// The two half-waves of one state.
    struct Branches {
        QCPGraph* positive = nullptr;
        QCPGraph* negative = nullptr;
    };
    /// What is kept of a state to draw its marks.
    struct Marks {
        std::optional<ClipThreshold> positive;
        std::optional<ClipThreshold> negative;
        PlayerPeaks peaks;
    };

    void applyPens() override;
    void layOut() override;
    void dressFrames() override;
    bool letRangesGo() override;
    [[nodiscard]] std::optional<PlotRange> cursorWay() const override;
    [[nodiscard]] double stepped(int steps, bool isFine) const override;
    [[nodiscard]] double snapped(double at, double within, bool isFree) const override;
    [[nodiscard]] double toAxis(double at) const override;
    [[nodiscard]] double fromAxis(double x) const override;
    bool takesPress(const QMouseEvent& event) override;
    bool takesKey(const QKeyEvent& event) override;
    [[nodiscard]] NotePlace notePlace() const override;

    void applyRanges();
    void makeScalesEqual(PlotRange& levels, PlotRange& volts) const;
    void growRange();
    [[nodiscard]] Branches addBranches();
    void fill();
    [[nodiscard]] PlotRange levelsShown() const;
    void paintCursor(QPainter& painter) const;
    static Marks marksOf(const LargeSignalState& state);

    void paintWordsAround(QPainter& painter) const;
    void paintMarks(QPainter& painter) const;
    void paintMarksOf(QPainter& painter, const Marks& marks, bool isNow) const;
    [[nodiscard]] QPointF pointOf(double pickVolts, double volts) const;
    [[nodiscard]] QRectF playerBox(double lineX) const;

    Branches m_stock;
    Branches m_ghost;
    Branches m_now;
    PinnedLines m_pinned;
    std::optional<CurveTable> m_stockTable;  ///< Pick levels in volts peak.
    std::optional<CurveTable> m_nowTable;
    std::optional<CurveTable> m_ghostTable;
    std::vector<PinnedCurve> m_pins;
    std::optional<Marks> m_stockMarks;
    std::optional<Marks> m_nowMarks;
    QString m_node;
    PlotRange m_shown = restingClipRange;
    std::optional<PlotRange> m_peaks;
    double m_pickShown = 0.2;
    double m_pickVolts = 0.1;
    double m_toneHz = 220.0;
    bool m_hasEqualScales = false;
};

}  // namespace ohmwright
