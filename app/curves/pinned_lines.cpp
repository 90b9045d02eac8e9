// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/pinned_lines.h"

#include "app/look/theme.h"

#include <qcustomplot.h>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// The last point of a line that is inside the frame [px]; absent where none is.
std::optional<QPointF> rightEnd(const QCPGraph& graph, const QRectF& box) {
    std::optional<QPointF> end;
    for (const QCPGraphData& point : *graph.data()) {
        const QPointF at(graph.keyAxis()->coordToPixel(point.key), graph.valueAxis()->coordToPixel(point.value));
        if (std::isfinite(point.value) && box.contains(at)) {
            end = at;
        }
    }
    return end;
}

}  // namespace

QPen pinnedPen(int pattern) {
    QPen pen = Theme::current().throwPen(pattern);
    pen.setColor(Theme::current().colours().ghost);
    return pen;
}

void PinnedLines::show(const std::vector<PinnedCurve>& pins, std::span<const std::size_t> columns) {
    for (const Line& line : m_lines) {
        m_plot.removeGraph(line.graph);
    }
    m_lines.clear();
    for (const PinnedCurve& pin : pins) {
        for (const std::size_t column : columns) {
            if (column >= pin.table.columns.size()) {
                continue;
            }
            QCPGraph* graph = m_plot.addGraph(m_frame.axis(QCPAxis::atBottom), m_frame.axis(QCPAxis::atLeft));
            graph->setLayer(QLatin1String(pinsLayer));
            graph->setSelectable(QCP::stNone);
            setPoints(*graph, pin.table.columns.front().values, pin.table.columns[column].values);
            m_lines.push_back({column == columns.front() ? pin.letter : QString(), pin.pattern, graph});
        }
    }
}

void PinnedLines::applyPens(const PlotState& state, bool isVisible) {
    for (const Line& line : m_lines) {
        line.graph->setPen(penFor(pinnedPen(line.pattern), state));
        line.graph->setVisible(isVisible);
    }
}

void PinnedLines::paintLetters(QPainter& painter, const QRectF& box) const {
    painter.setFont(Theme::current().font(TextRole::body, true));
    painter.setPen(Theme::current().colours().ink2);
    const QFontMetricsF metrics(painter.font());
    std::vector<QRectF> taken;
    for (const Line& line : m_lines) {
        const std::optional<QPointF> end = line.graph->visible() ? rightEnd(*line.graph, box) : std::nullopt;
        if (line.letter.isEmpty() || !end) {
            continue;
        }
        const double width = metrics.horizontalAdvance(line.letter) + 2.0;
        QRectF place(std::min(end->x(), box.right() - 2.0) - width, end->y() - metrics.height() - 1.0, width,
                     metrics.height());
        place.moveTop(std::clamp(place.top(), box.top(), std::max(box.top(), box.bottom() - place.height())));
        // Ends that meet put their letters side by side.
        for (const QRectF& other : taken) {
            if (place.intersects(other)) {
                place.moveRight(other.left() - 2.0);
            }
        }
        taken.push_back(place);
        paintWords(painter, place, Qt::AlignCenter, line.letter);
    }
}

QStringList PinnedLines::names() const {
    QStringList names;
    for (const Line& line : m_lines) {
        if (line.graph->visible() && !line.letter.isEmpty()) {
            names << QObject::tr("ghost %1").arg(line.letter);
        }
    }
    return names;
}

}  // namespace ohmwright
