/// Gain against frequency: stock, now and ghost, their corners, the difference below, and the cursor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/corner_marks.h"
#include "app/curves/curve_reading.h"
#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"
#include "app/curves/throw_curves.h"

#include <QStringList>
#include <QTimer>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QMouseEvent;
class QWheelEvent;

namespace ohmwright {

class ResponseCurves;

/// One focus stop. Arrows move the cursor by semitones (with Shift by a tenth of that), Home and End to the ends
/// of the axis, the wheel as the arrows; click and drag put it under the pointer, snapping to open strings
/// unless Alt is held.
class ResponsePlot : public QWidget {
    Q_OBJECT
public:
    explicit ResponsePlot(QWidget* parent = nullptr);
    ~ResponsePlot() override;

    /// Null empties the plot. Copies what it shows.
    void setAnswer(const LinearAnswer* answer);
    /// The other throws of fitted switches, each with its name on it.
    void setThrows(std::vector<ThrowCurve> throws);
    void setCursorHz(double hz);
    void setHoldsStock(bool holds);
    void setState(const PlotState& state);
    [[nodiscard]] const PlotState& state() const { return m_state; }
    void setDifferenceShown(bool shown);
    /// Forgets how far the axes have grown: for another job.
    void resetRange();

    [[nodiscard]] double cursorHz() const { return m_cursorHz; }
    [[nodiscard]] const PlotRange& gainShown() const { return m_gainShown; }
    [[nodiscard]] const PlotRange& differenceShown() const { return m_differenceShown; }
    [[nodiscard]] CursorReading reading() const;
    /// Words of the corner markers that are on the plot: "corner 340 Hz".
    [[nodiscard]] QStringList cornerWords() const;
    /// Where they stand [px of this widget], in the same order.
    [[nodiscard]] std::vector<QRectF> cornerBoxes() const;
    /// Names of the curves drawn, back to front.
    [[nodiscard]] QStringList curvesShown() const;
    /// Where the names of throws stand [px of this widget].
    [[nodiscard]] const std::vector<QRectF>& throwNameBoxes() const { return m_throwNames; }
    /// x of a frequency [px of this widget].
    [[nodiscard]] double xOf(double hz) const;

    /// Draws at once instead of with the next turn of the event loop.
    void replotNow();

signals:
    void cursorMoved(double hz);
    /// The filled corner was dragged to a frequency: told while it moves.
    void cornerDragged(double hz);
    /// A corner, its words, or Enter: its sum is wanted.
    /// @param box  of the corner, on the screen.
    void cornerPressed(const QRect& box);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    void addDrawings();
    void applyTheme();
    void applyPens();
    void applyRanges();
    void divideHeight();
    void growRanges();
    void settle();
    void requestReplot();
    void replotCursor();
    void announce();

    void pressPointer(const QMouseEvent& event);
    void followPointer(const QMouseEvent& event);
    void releasePointer();
    void pressCorner(const CornerMark& corner);
    void dragCorner(double x);
    void followWheel(const QWheelEvent& event);
    void moveCursor(double hz);

    void paintShade(QPainter& painter) const;
    void paintAxisWords(QPainter& painter) const;
    void paintMarks(QPainter& painter);
    void paintThrowNames(QPainter& painter);
    void paintCursor(QPainter& painter) const;
    void paintStrings(QPainter& painter) const;

    [[nodiscard]] QRectF frameBox() const;
    [[nodiscard]] QRectF stripBox() const;
    [[nodiscard]] QPointF pointOf(double hz, double gainDb) const;

    QCustomPlot* m_plot;
    QCPAxisRect* m_frame;
    QCPAxisRect* m_strip;
    std::unique_ptr<ResponseCurves> m_curves;
    CornerMarks m_corners;
    std::vector<QRectF> m_throwNames;
    PlotState m_state;
    PlotRange m_gainShown = restingGainRange;
    PlotRange m_differenceShown = restingDifferenceRange;
    QTimer m_rest;
    std::optional<double> m_draggedHz;  ///< Where the filled corner is held while it is dragged.
    bool m_wasDragged = false;          ///< It moved since it was taken hold of.
    double m_cursorHz = 110.0;
    double m_wheelRest = 0.0;
    bool m_holdsStock = false;
    bool m_showsDifference = true;
};

}  // namespace ohmwright
