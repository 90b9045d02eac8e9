/// What the plots share: frame, grid, axis labels, hand-drawn layers, the stamp over an old answer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPen>
#include <QPointF>
#include <QRectF>
#include <QString>

#include <functional>
#include <memory>
#include <span>
#include <vector>

class QCPAxis;
class QCPAxisRect;
class QCPGraph;
class QCPLayerable;
class QCustomPlot;
class QPainter;

namespace ohmwright {

/// Layers of a plot from below: "background", "grid", pins, "main" (curves), "axes", marks, and the cursor, which is
/// buffered so that moving it repaints nothing else.
inline constexpr const char* pinsLayer = "pins";  ///< Below the curves of stock and now.
inline constexpr const char* marksLayer = "marks";
inline constexpr const char* cursorLayer = "cursor";

/// Canvas background, no interactions of the library's own, the layers above; no axis rect yet.
void dressPlot(QCustomPlot& plot);

/// Adds an axis rect with a frame and a grid below the others; its margins are fixed.
QCPAxisRect* addFrame(QCustomPlot& plot);

/// Pens, fonts and colours of the theme in force.
void dressFrame(QCPAxisRect& frame);

/// Ticks that carry a label, and ticks that only draw a grid line.
struct AxisMarks {
    std::vector<double> at;
    std::vector<QString> labels;  ///< As many as `at`.
    std::vector<double> between;
};
void setMarks(QCPAxis& axis, const AxisMarks& marks);

/// Runs `paint` whenever the layer is drawn; the plot owns what is returned.
QCPLayerable* addDrawing(QCustomPlot& plot, const char* layer, std::function<void(QPainter&)> paint);

/// REQUIRES: x ascending, as long as y. NaN in y leaves a gap.
void setPoints(QCPGraph& graph, std::span<const double> x, std::span<const double> y, double xFactor = 1.0);
void clearPoints(QCPGraph& graph);

/// Whether the answers shown belong to the job as it is.
struct PlotState {
    bool isCurrent = true;
    QString fault;  ///< A sentence, or empty.
    QString lack;   ///< What is still wanted before anything can be solved, a sentence; else empty. No fault.

    friend bool operator==(const PlotState&, const PlotState&) = default;
};

/// Of a curve or figure that is not current (look tokens, plot.notCurrent).
inline constexpr float oldOpacity = 0.35F;

/// Grey that two stock units differ by.
QColor spreadFill();

/// 35 % of the pen when the answer is old.
QPen penFor(QPen pen, const PlotState& state);

/// "not current" across `area`, the fault's sentence below it; "solving" while there is nothing to show yet, and what
/// is lacking where that is known.
void paintStamp(QPainter& painter, const QRectF& area, const PlotState& state, bool hasAnswer);

/// 2 px of ink just inside the plot.
void paintFocus(QPainter& painter, const QRectF& area);

/// Hollow circle of 9 px on a curve.
void paintRing(QPainter& painter, const QPointF& centre, const QPen& pen);

/// Words on a patch of canvas, so that lines behind them do not cross the letters.
void paintWords(QPainter& painter, const QRectF& box, int flags, const QString& words);

/// Below the frame: tick labels, then the axis' name [px]; and where that name's line starts.
int roomBelowAxis();
double axisWordsOffset();
/// Above the frame: one line of words [px].
int roomAboveFrame();

/// Space for the widest label of the vertical axis [px], text size included.
int verticalLabelWidth();

}  // namespace ohmwright
