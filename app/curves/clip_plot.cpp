// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_plot.h"

#include "app/look/theme.h"
#include "core/base/number_text.h"

#include <qcustomplot.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr int rightMargin = 18;
constexpr double triangleReach = 6.5;
constexpr double millivoltsPerVolt = 1000.0;
constexpr std::array voltLabelSteps{0.2, 0.4, 1.0, 2.0, 4.0, 10.0, 20.0};
constexpr std::array levelLabelSteps{10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0};

constexpr double wordGap = 7.0;
/// Half a ring and some air [px].
constexpr double ringRoom = 7.0;

QString playerWord() {
    return QStringLiteral("player");
}

AxisMarks voltMarks(const PlotRange& range, double labelled) {
    AxisMarks marks;
    marks.at = multiplesIn(range, labelled);
    const bool isWhole = labelled >= 1.0;
    for (const double volts : marks.at) {
        const std::string figure = formatFixed(volts, isWhole ? 0 : 1, Sign::always);
        marks.labels.push_back(figure == "0.0" ? QStringLiteral("0") : QString::fromStdString(figure));
    }
    return marks;
}

AxisMarks levelMarks(double upToMillivolts, double step) {
    AxisMarks marks;
    marks.at = multiplesIn({0.0, upToMillivolts}, step);
    for (const double level : marks.at) {
        marks.labels.push_back(QString::fromStdString(formatFixed(level, 0)));
    }
    return marks;
}

std::optional<PlotRange> peaksOf(const ClipCurve& clip) {
    constexpr double everywhere = std::numeric_limits<double>::infinity();
    const auto up = extentBetween(clip.pickVoltsPeak, clip.positiveVolts, 0.0, everywhere);
    const auto down = extentBetween(clip.pickVoltsPeak, clip.negativeVolts, 0.0, everywhere);
    if (!up || !down) {
        return up ? up : down;
    }
    return PlotRange{std::min(up->low, down->low), std::max(up->high, down->high)};
}

std::optional<PlotRange> joined(const std::optional<PlotRange>& a, const std::optional<PlotRange>& b) {
    if (!a || !b) {
        return a ? a : b;
    }
    return PlotRange{std::min(a->low, b->low), std::max(a->high, b->high)};
}

std::optional<double> figureValue(const LargeSignalState& state, std::string_view id) {
    const Figure* figure = findFigure(state.figures, id);
    return figure ? figure->value : std::nullopt;
}

bool isActive(PartKind kind) {
    return kind == PartKind::opamp || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

}  // namespace

PlayerPeaks playerPeaks(const LargeSignalState& state) {
    return {figureValue(state, "peak_positive"), figureValue(state, "peak_negative")};
}

QString clipNodeWords(const Circuit& circuit) {
    for (const Part& part : circuit.parts) {
        const auto pin = std::find(part.nets.begin(), part.nets.end(), circuit.ports.clipNode);
        if (!isActive(part.kind) || pin == part.nets.end()) {
            continue;
        }
        const auto index = static_cast<std::size_t>(pin - part.nets.begin());
        const std::string name = index < part.pins.size() && !part.pins[index].empty()
                                     ? "pin " + part.pins[index]
                                     : std::string(pinName(part.kind, static_cast<int>(index)));
        return QString::fromStdString(part.reference + " " + name);
    }
    return QStringLiteral("net ") + QString::fromStdString(circuit.ports.clipNode);
}

void paintThreshold(QPainter& painter, const QPointF& centre, bool isPositive, const QColor& ink, bool isFilled) {
    const double tip = isPositive ? triangleReach : -triangleReach;
    const QPolygonF triangle{{centre.x() - triangleReach, centre.y() - tip * 0.85},
                             {centre.x() + triangleReach, centre.y() - tip * 0.85},
                             {centre.x(), centre.y() + tip * 0.85}};
    painter.setPen(QPen(ink, 1.6, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.setBrush(isFilled ? ink : Theme::current().colours().canvas);
    painter.drawPolygon(triangle);
}

ClipPlot::ClipPlot(QWidget* parent)
    : CurvePlot(QStringLiteral("Clip"), parent), m_stock(addBranches()), m_ghost(addBranches()), m_now(addBranches()) {
    setObjectName(QStringLiteral("clipPlot"));
    addDrawing(plot(), "axes", [this](QPainter& painter) { paintWordsAround(painter); });
    addDrawing(plot(), marksLayer, [this](QPainter& painter) { paintMarks(painter); });
    addDrawing(plot(), cursorLayer, [this](QPainter& painter) { paintOver(painter, m_stockMarks.has_value()); });
    dressUp();
}

ClipPlot::Branches ClipPlot::addBranches() {
    QCPGraph* positive = addCurve();
    return {positive, addCurve()};
}

void ClipPlot::fill(const Branches& branches, const ClipCurve* clip) {
    if (!clip) {
        clearPoints(*branches.positive);
        clearPoints(*branches.negative);
        return;
    }
    setPoints(*branches.positive, clip->pickVoltsPeak, clip->positiveVolts, millivoltsPerVolt);
    setPoints(*branches.negative, clip->pickVoltsPeak, clip->negativeVolts, millivoltsPerVolt);
}

ClipPlot::Marks ClipPlot::marksOf(const LargeSignalState& state) {
    return {state.clip.positive, state.clip.negative, playerPeaks(state)};
}

void ClipPlot::setAnswer(const LargeSignalAnswer* answer) {
    fill(m_stock, answer ? &answer->stock.clip : nullptr);
    fill(m_now, answer ? &answer->now.clip : nullptr);
    fill(m_ghost, answer && answer->ghost ? &answer->ghost->clip : nullptr);
    m_stockMarks = answer ? std::optional(marksOf(answer->stock)) : std::nullopt;
    m_nowMarks = answer ? std::optional(marksOf(answer->now)) : std::nullopt;
    m_peaks.reset();
    m_node.clear();
    if (answer) {
        m_peaks = joined(peaksOf(answer->stock.clip), peaksOf(answer->now.clip));
        m_pickShown = answer->stock.clip.pickVoltsPeak.empty() ? m_pickShown : answer->stock.clip.pickVoltsPeak.back();
        if (answer->job) {
            m_node = clipNodeWords(answer->job->stock);
            m_pickVolts = answer->job->setting.pickVoltsPeak;
            m_toneHz = answer->job->setting.toneHz;
        }
    }
    growRange();
    restLater();
    requestReplot();
}

void ClipPlot::growRange() {
    if (m_peaks) {
        m_shown = clipRange(m_shown, *m_peaks);
    }
    applyRanges();
}

void ClipPlot::resetRange() {
    m_shown = restingClipRange;
    growRange();
    requestReplot();
}

bool ClipPlot::letRangesGo() {
    const PlotRange before = m_shown;
    m_shown = restingClipRange;
    growRange();
    return before != m_shown;
}

double ClipPlot::stepped(int steps, bool isFine) const {
    Q_UNUSED(isFine)
    return cursorAt() + steps;
}

void ClipPlot::applyRanges() {
    const double body = Theme::current().pixels(TextRole::body);
    frame().axis(QCPAxis::atLeft)->setRange(m_shown.low, m_shown.high);
    frame().axis(QCPAxis::atRight)->setRange(m_shown.low, m_shown.high);
    setMarks(*frame().axis(QCPAxis::atLeft),
             voltMarks(m_shown, labelStep(m_shown, frame().height(), 1.25 * body, voltLabelSteps)));
    const PlotRange levels{0.0, m_pickShown * millivoltsPerVolt};
    frame().axis(QCPAxis::atBottom)->setRange(levels.low, levels.high);
    frame().axis(QCPAxis::atTop)->setRange(levels.low, levels.high);
    setMarks(*frame().axis(QCPAxis::atBottom),
             levelMarks(levels.high, labelStep(levels, frame().width(), 3.5 * body, levelLabelSteps)));
}

void ClipPlot::dressFrames() {
    CurvePlot::dressFrames();
    frame().axis(QCPAxis::atLeft)->grid()->setZeroLinePen(QPen(Theme::current().colours().edge, 1.0));
}

void ClipPlot::applyPens() {
    const Theme& theme = Theme::current();
    const auto dress = [](const Branches& branches, const QPen& pen, bool isVisible) {
        for (QCPGraph* graph : {branches.positive, branches.negative}) {
            graph->setPen(pen);
            graph->setVisible(isVisible);
        }
    };
    dress(m_stock, heldStockPen(), true);
    dress(m_ghost, penFor(theme.ghostPen(), state()), !holdsStock());
    dress(m_now, penFor(theme.nowPen(), state()), !holdsStock());
}

void ClipPlot::layOut() {
    frame().setMargins(QMargins(verticalLabelWidth(), roomAboveFrame(), rightMargin, roomBelowAxis()));
    frame().axis(QCPAxis::atTop)->grid()->setVisible(false);
    frame().axis(QCPAxis::atRight)->grid()->setVisible(false);
    plot().plotLayout()->update(QCPLayoutElement::upMargins);
    plot().plotLayout()->update(QCPLayoutElement::upLayout);
    applyRanges();
}

QStringList ClipPlot::curvesShown() const {
    QStringList names;
    const auto addIf = [&names](const Branches& branches, const char* name) {
        if (branches.positive->visible() && !branches.positive->data()->isEmpty()) {
            names << QLatin1String(name);
        }
    };
    addIf(m_stock, "stock");
    addIf(m_ghost, "ghost");
    addIf(m_now, "now");
    return names;
}

QString ClipPlot::title() const {
    const QString what = QStringLiteral("peak + and peak −");
    return m_node.isEmpty() ? what : what + QStringLiteral(", ") + m_node;
}

QPointF ClipPlot::pointOf(double pickVolts, double volts) const {
    return {frame().axis(QCPAxis::atBottom)->coordToPixel(pickVolts * millivoltsPerVolt),
            frame().axis(QCPAxis::atLeft)->coordToPixel(volts)};
}

void ClipPlot::paintWordsAround(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const QRectF box = frameBox();
    painter.setFont(theme.font(TextRole::body));
    const double line = QFontMetricsF(painter.font()).height();
    painter.setPen(theme.colours().ink3);
    painter.drawText(QRectF(0.0, box.top() - line - 8.0, box.left() - 7.0, line), Qt::AlignRight | Qt::AlignVCenter,
                     QStringLiteral("V"));
    const QString level = QStringLiteral("pick level, mVpk, %1").arg(QString::fromStdString(formatFrequency(m_toneHz)));
    painter.drawText(QRectF(0.0, box.bottom() + axisWordsOffset(), box.right(), line),
                     Qt::AlignRight | Qt::AlignVCenter, level);
    painter.setPen(theme.colours().ink2);
    const QRectF above(box.left(), box.top() - line - 8.0, box.width() + rightMargin, line);
    painter.drawText(above, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(painter.font()).elidedText(title(), Qt::ElideRight, above.width()));
}

void ClipPlot::paintMarks(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box = frameBox();
    if (m_stockMarks && m_pickVolts <= m_pickShown) {
        const double x = std::floor(pointOf(m_pickVolts, 0.0).x()) + 0.5;
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setPen(QPen(colours.ink, 1.0, Qt::DotLine));
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
        painter.setRenderHint(QPainter::Antialiasing, true);
        painter.setFont(Theme::current().font(TextRole::body));
        painter.setPen(colours.ink2);
        painter.drawText(playerBox(x), Qt::AlignCenter, playerWord());
    }
    if (state().isCurrent && m_stockMarks) {
        paintMarksOf(painter, *m_stockMarks, false);
        if (!holdsStock()) {
            paintMarksOf(painter, *m_nowMarks, true);
        }
    }
}

/// Beside the player's line: above 0 V, or at an edge where the branches lie too close for a word between them.
QRectF ClipPlot::playerBox(double lineX) const {
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    const QRectF box = frameBox();
    const double width = metrics.horizontalAdvance(playerWord()) + 1.0;
    const bool fitsRight = lineX + wordGap + width < box.right();
    const double left = fitsRight ? lineX + wordGap : lineX - wordGap - width;
    double nearest = std::numeric_limits<double>::infinity();
    for (const auto* marks : {&m_stockMarks, &m_nowMarks}) {
        if (*marks && (*marks)->peaks.positive) {
            nearest = std::min(nearest, *(*marks)->peaks.positive);
        }
    }
    const double zero = pointOf(0.0, 0.0).y();
    const double branch = std::isfinite(nearest) ? pointOf(0.0, nearest).y() : box.top();
    const bool fitsBetween = zero - branch > metrics.height() + ringRoom;
    const double top = fitsBetween ? zero - metrics.height() - 1.0 : box.bottom() - metrics.height() - 1.0;
    return {left, top, width, metrics.height()};
}

void ClipPlot::paintMarksOf(QPainter& painter, const Marks& marks, bool isNow) const {
    const ThemeColours& colours = Theme::current().colours();
    const QColor ink = isNow ? colours.now : colours.stock;
    const QRectF box = frameBox();
    for (const auto* threshold : {&marks.positive, &marks.negative}) {
        if (*threshold && box.contains(pointOf((*threshold)->pickVoltsPeak, (*threshold)->volts))) {
            paintThreshold(painter, pointOf((*threshold)->pickVoltsPeak, (*threshold)->volts),
                           threshold == &marks.positive, ink, isNow);
        }
    }
    for (const auto* peak : {&marks.peaks.positive, &marks.peaks.negative}) {
        if (*peak && box.contains(pointOf(m_pickVolts, **peak))) {
            paintRing(painter, pointOf(m_pickVolts, **peak), QPen(ink));
        }
    }
}

}  // namespace ohmwright
