/// Gain against frequency: stock, now and ghost, their corners, the difference below, and the cursor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/corner_marks.h"
#include "app/curves/cursor_readout.h"
#include "app/curves/curve_plot.h"
#include "app/curves/curve_reading.h"
#include "app/curves/pinned_lines.h"
#include "app/curves/throw_curves.h"

#include <memory>
#include <optional>
#include <vector>

namespace ohmwright {

class ResponseCurves;

/// The cursor steps by semitones, with Shift by a tenth of that, and snaps to open strings unless Alt is held. The
/// filled corner is dragged; with the keyboard Alt and an arrow ask for it a semitone away.
class ResponsePlot : public CurvePlot {
    Q_OBJECT
public:
    explicit ResponsePlot(QWidget* parent = nullptr);
    ~ResponsePlot() override;

    /// Null empties the plot. Copies what it shows.
    void setAnswer(const LinearAnswer* answer);
    void setPins(std::vector<PinnedCurve> pins);
    [[nodiscard]] const std::vector<PinnedCurve>& pins() const { return m_pins; }
    /// The other throws of fitted switches, each with its name on it.
    void setThrows(std::vector<ThrowCurve> throws);
    void setCursorHz(double hz);
    void setDifferenceShown(bool shown);
    /// Forgets how far the axes have grown: for another job.
    void resetRange();

    [[nodiscard]] double cursorHz() const { return cursorAt(); }
    [[nodiscard]] const PlotRange& gainShown() const { return m_gainShown; }
    [[nodiscard]] const PlotRange& differenceShown() const { return m_differenceShown; }
    [[nodiscard]] CursorReading reading() const;
    /// Words of the corner markers that are on the plot: "corner 340 Hz".
    [[nodiscard]] QStringList cornerWords() const;
    /// Where they stand [px of this widget], in the same order.
    [[nodiscard]] std::vector<QRectF> cornerBoxes() const;
    /// Where a level at a frequency stands [px].
    [[nodiscard]] QPointF pointOf(double hz, double gainDb) const;
    [[nodiscard]] QStringList curvesShown() const override;
    [[nodiscard]] QString cursorSentence() const override;
    /// Where the names of throws stand [px of this widget].
    [[nodiscard]] const std::vector<QRectF>& throwNameBoxes() const { return m_throwNames; }

signals:
    /// The filled corner was dragged to a frequency: told while it moves.
    void cornerDragged(double hz);
    /// A corner, its words, or Enter: its sum is wanted.
    /// @param box  of the corner, on the screen.
    void cornerPressed(const QRect& box);

private:
    void applyPens() override;
    void layOut() override;
    void dressFrames() override;
    bool letRangesGo() override;
    [[nodiscard]] std::optional<PlotRange> cursorWay() const override;
    [[nodiscard]] double stepped(int steps, bool isFine) const override;
    [[nodiscard]] double snapped(double at, double within, bool isFree) const override;
    bool takesPress(const QMouseEvent& event) override;
    bool takesMove(const QMouseEvent& event) override;
    void takeRelease(const QMouseEvent& event) override;
    [[nodiscard]] bool isOverHz() const override { return true; }
    bool takesKey(const QKeyEvent& event) override;

    void addDrawings();
    void applyRanges();
    void growRanges();
    void pressCorner(const CornerMark& corner);
    void dragCorner(double x);

    void paintShade(QPainter& painter) const;
    void paintAxisWords(QPainter& painter) const;
    void paintMarks(QPainter& painter);
    void paintThrowNames(QPainter& painter);
    void paintCursor(QPainter& painter) const;
    void paintStrings(QPainter& painter) const;

    [[nodiscard]] QRectF stripBox() const;

    QCPAxisRect* m_strip;
    std::unique_ptr<ResponseCurves> m_curves;
    PinnedLines m_pinned;
    std::vector<PinnedCurve> m_pins;
    CornerMarks m_corners;
    std::vector<QRectF> m_throwNames;
    PlotRange m_gainShown = restingGainRange;
    PlotRange m_differenceShown = restingDifferenceRange;
    std::optional<double> m_draggedHz;  ///< Where the filled corner is held while it is dragged.
    bool m_wasDragged = false;          ///< It moved since it was taken hold of.
    bool m_showsDifference = true;
};

}  // namespace ohmwright
