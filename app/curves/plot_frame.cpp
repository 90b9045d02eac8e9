// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/plot_frame.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <qcustomplot.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// Diameter of the ring where the cursor meets a curve (look tokens, plot.markers) [px].
constexpr double ringSize = 9.0;
constexpr double ringPen = 2.0;
constexpr double focusPen = 2.0;
constexpr int tickLabelPadding = 4;

double lineHeight() {
    return QFontMetricsF(Theme::current().font(TextRole::body)).height();
}

/// Ticks exactly where they were asked for; the library's own tickers count in tens.
class ListTicker : public QCPAxisTicker {
public:
    void setMarks(const AxisMarks& marks) {
        m_ticks = QVector<double>(marks.at.begin(), marks.at.end());
        m_labels = QVector<QString>(marks.labels.begin(), marks.labels.end());
        m_between = QVector<double>(marks.between.begin(), marks.between.end());
    }

    void generate(const QCPRange& range, const QLocale& locale, QChar formatChar, int precision, QVector<double>& ticks,
                  QVector<double>* subTicks, QVector<QString>* tickLabels) override {
        Q_UNUSED(range)
        Q_UNUSED(locale)
        Q_UNUSED(formatChar)
        Q_UNUSED(precision)
        ticks = m_ticks;
        if (subTicks) {
            *subTicks = m_between;
        }
        if (tickLabels) {
            *tickLabels = m_labels;
        }
    }

private:
    QVector<double> m_ticks;
    QVector<QString> m_labels;
    QVector<double> m_between;
};

class PaintedLayer : public QCPLayerable {
public:
    PaintedLayer(QCustomPlot& plot, const QString& layer, std::function<void(QPainter&)> paint)
        : QCPLayerable(&plot, layer), m_paint(std::move(paint)) {}

private:
    void applyDefaultAntialiasingHint(QCPPainter* painter) const override { painter->setAntialiasing(true); }
    void draw(QCPPainter* painter) override { m_paint(*painter); }

    std::function<void(QPainter&)> m_paint;
};

void dressAxis(QCPAxis& axis) {
    const ThemeColours& colours = Theme::current().colours();
    axis.setBasePen(QPen(colours.edge, 1.0));
    axis.setTickPen(Qt::NoPen);
    axis.setSubTickPen(Qt::NoPen);
    axis.setTickLength(0, 0);
    axis.setSubTickLength(0, 0);
    axis.setTickLabelFont(Theme::current().font(TextRole::body));
    axis.setTickLabelColor(colours.ink2);
    axis.setTickLabelPadding(tickLabelPadding);
    axis.grid()->setPen(QPen(colours.grid, 1.0));
    axis.grid()->setSubGridPen(QPen(colours.grid, 1.0));
    axis.grid()->setSubGridVisible(true);
    axis.grid()->setZeroLinePen(axis.orientation() == Qt::Vertical && axis.scaleType() == QCPAxis::stLinear
                                    ? QPen(colours.gridMajor, 1.0)
                                    : Qt::NoPen);
    // Straight lines stay crisp, and are drawn several times faster.
    axis.grid()->setAntialiased(false);
    axis.grid()->setAntialiasedSubGrid(false);
    axis.grid()->setAntialiasedZeroLine(false);
    axis.setAntialiased(false);
}

}  // namespace

void dressPlot(QCustomPlot& plot) {
    plot.plotLayout()->clear();
    plot.plotLayout()->setRowSpacing(0);
    plot.setInteractions(QCP::Interactions());
    plot.setFocusPolicy(Qt::NoFocus);
    plot.addLayer(QLatin1String(pinsLayer), plot.layer(QStringLiteral("main")), QCustomPlot::limBelow);
    plot.addLayer(QLatin1String(marksLayer));
    plot.addLayer(QLatin1String(cursorLayer));
    // Nothing lives on the library's own overlay; left buffered it would cost a pixmap and split ours.
    plot.layer(QStringLiteral("overlay"))->setMode(QCPLayer::lmLogical);
    plot.layer(QLatin1String(cursorLayer))->setMode(QCPLayer::lmBuffered);
}

QCPAxisRect* addFrame(QCustomPlot& plot) {
    auto* frame = new QCPAxisRect(&plot);
    plot.plotLayout()->addElement(plot.plotLayout()->rowCount(), 0, frame);
    frame->setupFullAxesBox(true);
    frame->setAutoMargins(QCP::msNone);
    // The library asks for 50 px otherwise, more than a folded window has.
    frame->setMinimumSize(QSize(0, 0));
    for (QCPAxis* axis : frame->axes()) {
        axis->setLayer(QStringLiteral("axes"));
        axis->grid()->setLayer(QStringLiteral("grid"));
        axis->setTicker(QSharedPointer<ListTicker>::create());
    }
    frame->axis(QCPAxis::atTop)->setTicks(false);
    frame->axis(QCPAxis::atTop)->setTickLabels(false);
    frame->axis(QCPAxis::atRight)->setTicks(false);
    frame->axis(QCPAxis::atRight)->setTickLabels(false);
    return frame;
}

void dressFrame(QCPAxisRect& frame) {
    for (QCPAxis* axis : frame.axes()) {
        dressAxis(*axis);
    }
    frame.parentPlot()->setBackground(QBrush(Theme::current().colours().canvas));
}

void setMarks(QCPAxis& axis, const AxisMarks& marks) {
    axis.ticker().staticCast<ListTicker>()->setMarks(marks);
}

QCPLayerable* addDrawing(QCustomPlot& plot, const char* layer, std::function<void(QPainter&)> paint) {
    return new PaintedLayer(plot, QLatin1String(layer), std::move(paint));
}

void setPoints(QCPGraph& graph, std::span<const double> x, std::span<const double> y, double xFactor) {
    QVector<QCPGraphData> points;
    points.reserve(static_cast<qsizetype>(x.size()));
    for (std::size_t i = 0; i < std::min(x.size(), y.size()); ++i) {
        points.append(QCPGraphData(x[i] * xFactor, std::isfinite(y[i]) ? y[i] : qQNaN()));
    }
    graph.data()->set(points, true);
}

void clearPoints(QCPGraph& graph) {
    graph.data()->clear();
}

QColor spreadFill() {
    constexpr float opacity = 0.28F;
    QColor fill = Theme::current().colours().stock;
    fill.setAlphaF(opacity);
    return fill;
}

QPen penFor(QPen pen, const PlotState& state) {
    if (!state.isCurrent) {
        QColor colour = pen.color();
        colour.setAlphaF(colour.alphaF() * oldOpacity);
        pen.setColor(colour);
    }
    return pen;
}

void paintStamp(QPainter& painter, const QRectF& area, const PlotState& state, bool hasAnswer) {
    const Theme& theme = Theme::current();
    const bool waits = !hasAnswer && state.fault.isEmpty();
    if (state.isCurrent && hasAnswer) {
        return;
    }
    if (!state.lack.isEmpty()) {
        painter.setFont(theme.font(TextRole::body));
        painter.setPen(theme.colours().ink3);
        paintWords(painter, area.adjusted(12.0, 4.0, -12.0, -4.0), Qt::AlignCenter | Qt::TextWordWrap, state.lack);
        return;
    }
    painter.save();
    painter.setFont(theme.font(waits ? TextRole::body : TextRole::screenTitle, !waits));
    painter.setPen(waits ? theme.colours().ink3 : theme.colours().stop);
    const QString stamp =
        waits ? QObject::tr("solving") : (hasAnswer ? QObject::tr("not current") : QObject::tr("no answer"));
    const QFontMetricsF large(painter.font());
    const QFontMetricsF small(theme.font(TextRole::body));
    constexpr double margin = 12.0;
    const double room = std::max(0.0, area.width() - 2.0 * margin);
    const double textWidth = std::min(room, 46.0 * small.averageCharWidth());
    const QRectF sentence = state.fault.isEmpty()
                                ? QRectF()
                                : small.boundingRect(QRectF(0.0, 0.0, textWidth, area.height()),
                                                     Qt::AlignHCenter | Qt::TextWordWrap, state.fault);
    const double height = large.height() + sentence.height();
    QRectF line(area.left() + margin, area.center().y() - height / 2.0, room, large.height());
    paintWords(painter, line, Qt::AlignCenter, stamp);
    if (!state.fault.isEmpty()) {
        painter.setFont(theme.font(TextRole::body));
        const QRectF below(area.center().x() - textWidth / 2.0, line.bottom(), textWidth,
                           area.bottom() - line.bottom() - 2.0);
        paintWords(painter, below, Qt::AlignHCenter | Qt::AlignTop | Qt::TextWordWrap, state.fault);
    }
    painter.restore();
}

void paintFocus(QPainter& painter, const QRectF& area) {
    const QColor ink = Theme::current().colours().focus;
    // The library draws a layer clipped one row short at the bottom.
    const QRectF box = area.adjusted(0.0, 0.0, 0.0, -1.0);
    painter.fillRect(QRectF(box.left(), box.top(), box.width(), focusPen), ink);
    painter.fillRect(QRectF(box.left(), box.bottom() - focusPen, box.width(), focusPen), ink);
    painter.fillRect(QRectF(box.left(), box.top(), focusPen, box.height()), ink);
    painter.fillRect(QRectF(box.right() - focusPen, box.top(), focusPen, box.height()), ink);
}

void paintRing(QPainter& painter, const QPointF& centre, const QPen& pen) {
    painter.setPen(QPen(pen.color(), ringPen));
    painter.setBrush(Theme::current().colours().canvas);
    painter.drawEllipse(centre, ringSize / 2.0, ringSize / 2.0);
}

void paintWords(QPainter& painter, const QRectF& box, int flags, const QString& words) {
    constexpr double patch = 2.0;
    QColor under = Theme::current().colours().canvas;
    under.setAlphaF(0.9F);
    const QRectF taken = painter.boundingRect(box, flags, words).adjusted(-patch, 0.0, patch, 0.0);
    painter.fillRect(taken.intersected(box.adjusted(-patch, 0.0, patch, 0.0)), under);
    painter.drawText(box, flags, words);
}

int roomBelowAxis() {
    return static_cast<int>(std::ceil(axisWordsOffset() + lineHeight() + 2.0));
}

double axisWordsOffset() {
    return lineHeight() + tickLabelPadding;
}

int roomAboveFrame() {
    return static_cast<int>(std::ceil(lineHeight())) + 9;
}

int verticalLabelWidth() {
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    return static_cast<int>(std::ceil(metrics.horizontalAdvance(QStringLiteral("−120")))) + 12;
}

}  // namespace ohmwright
