/// Pinned states on a plot: each in dashes of its own, its letter at the right end.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/cursor_readout.h"
#include "app/curves/plot_frame.h"

#include <QPen>
#include <QRectF>

#include <span>
#include <vector>

class QCPAxisRect;
class QCPGraph;
class QCustomPlot;

namespace ohmwright {

/// The pen of a pinned state: the colour of ghosts, one of four dash patterns.
QPen pinnedPen(int pattern);

class PinnedLines {
public:
    PinnedLines(QCustomPlot& plot, QCPAxisRect& frame) : m_plot(plot), m_frame(frame) {}

    /// @param columns  of the tables that are drawn, each as a line; the letter stands at the first one.
    void show(const std::vector<PinnedCurve>& pins, std::span<const std::size_t> columns);
    void applyPens(const PlotState& state, bool isVisible);
    /// Letters inside `box`, clear of each other.
    void paintLetters(QPainter& painter, const QRectF& box) const;
    /// "ghost A", in the order of pinning.
    [[nodiscard]] QStringList names() const;

private:
    struct Line {
        QString letter;  ///< Empty on the second line of a state.
        int pattern = 0;
        QCPGraph* graph = nullptr;
    };

    QCustomPlot& m_plot;
    QCPAxisRect& m_frame;
    std::vector<Line> m_lines;
};

}  // namespace ohmwright
