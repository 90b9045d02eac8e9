// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/table_plot.h"

#include "app/curves/response_axes.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"

#include <qcustomplot.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr int rightMargin = 18;
constexpr double millivoltsPerVolt = 1000.0;
constexpr double lowestHz = 20.0;
constexpr double highestHz = 20000.0;
/// Lower end of the harmonics [dB of the fundamental], as core leaves nothing below it.
constexpr double faintestDb = -90.0;
constexpr double everywhere = std::numeric_limits<double>::infinity();
/// Of the distance between two harmonics.
constexpr double barShare = 0.32;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

std::vector<double> positiveOf(const std::vector<double>& values) {
    std::vector<double> kept;
    std::copy_if(values.begin(), values.end(), std::back_inserter(kept), [](double value) { return value > 0.0; });
    return kept;
}

/// Lowest and highest of the drawn column in both states.
PlotRange extentOf(const ComparedCurve& curve, const PlotRange& otherwise) {
    std::optional<PlotRange> extent;
    for (const CurveTable* table : {&curve.stock, &curve.now}) {
        const std::vector<double>& values = table->columns[1].values;
        const std::vector<double> at(values.size(), 0.0);
        if (const auto own = extentBetween(at, values, -everywhere, everywhere)) {
            extent = extent ? PlotRange{std::min(extent->low, own->low), std::max(extent->high, own->high)} : own;
        }
    }
    return extent.value_or(otherwise);
}

/// Whole decades about the values.
PlotRange decadesAbout(const ComparedCurve& curve) {
    double low = everywhere;
    double high = 0.0;
    for (const CurveTable* table : {&curve.stock, &curve.now}) {
        for (const double value : positiveOf(table->columns[1].values)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
    return high > 0.0
               ? PlotRange{std::pow(10.0, std::floor(std::log10(low))), std::pow(10.0, std::ceil(std::log10(high)))}
               : PlotRange{1.0, 1000.0};
}

/// The largest of 1, 2, 5 times a power of ten that divides the range into four steps or more.
double roundStep(double span) {
    constexpr double fewest = 4.0;
    const double raw = span / fewest;
    const double decade = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double digit : {5.0, 2.0}) {
        if (decade * digit <= raw) {
            return decade * digit;
        }
    }
    return decade;
}

/// "0.25", "10", "−0.1": as many decimals as the step needs.
AxisMarks linearMarks(const PlotRange& range) {
    const double step = roundStep(range.high - range.low);
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    AxisMarks marks;
    marks.at = multiplesIn(range, step);
    for (const double value : marks.at) {
        marks.labels.push_back(text(formatFixed(std::abs(value) < step / 2.0 ? 0.0 : value, decimals)));
    }
    return marks;
}

/// 1, 10, 100 ... with 2 and 5 between where `all` is asked for.
AxisMarks decadeMarks(const PlotRange& range, bool all) {
    AxisMarks marks;
    constexpr double slack = 1.0 + 1e-9;
    for (double decade = std::pow(10.0, std::floor(std::log10(range.low))); decade <= range.high * slack;
         decade *= 10.0) {
        for (int digit = 1; digit <= 9; ++digit) {
            const double at = decade * digit;
            if (at * slack < range.low || at > range.high * slack) {
                continue;
            }
            if (digit == 1 || (all && (digit == 2 || digit == 5))) {
                marks.at.push_back(at);
                marks.labels.push_back(QString::number(at, 'g', 4));
            } else {
                marks.between.push_back(at);
            }
        }
    }
    return marks;
}

}  // namespace

TableAxes tableAxes(const ComparedCurve& curve, const Setting& setting) {
    TableAxes axes;
    const QString tone = text(formatFrequency(setting.toneHz));
    switch (curve.stock.kind) {
        case CurveKind::ladder:
            axes = {TablePlot::tr("dBV"), TablePlot::tr("pick level, mVpk, %1").arg(tone), {}, {}, true, false,
                    millivoltsPerVolt};
            axes.x = {lowestLadderVolts * millivoltsPerVolt, highestLadderVolts * millivoltsPerVolt};
            axes.y = grownToHold({-60.0, -6.0}, extentOf(curve, {-60.0, -6.0}), gainStepDb);
            break;
        case CurveKind::harmonics:
            axes = {TablePlot::tr("dB"),
                    TablePlot::tr("harmonic of %1 at the player's level, dB of the first").arg(tone)};
            axes.x = {0.4, shownHarmonics + 0.6};
            axes.y = {faintestDb, 0.0};
            break;
        case CurveKind::wave: {
            axes = {TablePlot::tr("V"), TablePlot::tr("ms, one period of %1 at the player's level").arg(tone)};
            axes.x = {0.0, 1000.0 / setting.toneHz};
            const PlotRange extent = extentOf(curve, {-0.1, 0.1});
            const double reach = 1.08 * std::max({std::abs(extent.low), std::abs(extent.high), 1e-6});
            axes.y = {-reach, reach};
            break;
        }
        default:
            axes = {TablePlot::tr("nV/√Hz"), TablePlot::tr("Hz, noise density at the output"), {}, {}, true, true};
            axes.x = {lowestHz, highestHz};
            axes.y = decadesAbout(curve);
            break;
    }
    return axes;
}

TablePlot::TablePlot(QWidget* parent) : CurvePlot(QString(), parent), m_stock(addCurve()), m_now(addCurve()) {
    setObjectName(QStringLiteral("tablePlot"));
    addDrawing(plot(), "axes", [this](QPainter& painter) { paintWordsAround(painter); });
    addDrawing(plot(), marksLayer, [this](QPainter& painter) { paintBars(painter); });
    addDrawing(plot(), cursorLayer, [this](QPainter& painter) { paintOver(painter, m_curve.has_value()); });
    dressUp();
}

void TablePlot::setCurve(const ComparedCurve* curve, const Setting& setting) {
    m_curve = curve != nullptr ? std::optional(*curve) : std::nullopt;
    if (m_curve) {
        m_axes = tableAxes(*m_curve, setting);
    }
    fill();
    applyAxes();
    requestReplot();
}

void TablePlot::fill() {
    const bool isLine = m_curve && m_curve->stock.kind != CurveKind::harmonics;
    const auto put = [&](QCPGraph& graph, const CurveTable* table) {
        if (table == nullptr) {
            clearPoints(graph);
        } else {
            setPoints(graph, table->columns[0].values, table->columns[1].values, m_axes.xFactor);
        }
    };
    put(*m_stock, isLine ? &m_curve->stock : nullptr);
    put(*m_now, isLine ? &m_curve->now : nullptr);
}

QStringList TablePlot::curvesShown() const {
    QStringList names;
    if (m_curve) {
        names << QStringLiteral("stock");
        if (!holdsStock()) {
            names << QStringLiteral("now");
        }
    }
    return names;
}

double TablePlot::stepped(int steps, bool isFine) const {
    Q_UNUSED(isFine)
    return cursorAt() + steps;
}

void TablePlot::dressFrames() {
    CurvePlot::dressFrames();
    frame().axis(QCPAxis::atLeft)->grid()->setZeroLinePen(QPen(Theme::current().colours().edge, 1.0));
}

void TablePlot::applyPens() {
    m_stock->setPen(heldStockPen());
    m_now->setPen(penFor(Theme::current().nowPen(), state()));
    m_now->setVisible(!holdsStock());
}

void TablePlot::layOut() {
    applyAxes();
}

void TablePlot::applyAxes() {
    frame().setMargins(QMargins(verticalLabelWidth(), roomAboveFrame(), rightMargin, roomBelowAxis()));
    const auto show = [this](QCPAxis::AxisType side, QCPAxis::AxisType other, const PlotRange& range, bool isLog) {
        for (const QCPAxis::AxisType each : {side, other}) {
            frame().axis(each)->setScaleType(isLog ? QCPAxis::stLogarithmic : QCPAxis::stLinear);
            frame().axis(each)->setRange(range.low, range.high);
        }
        frame().axis(other)->grid()->setVisible(false);
    };
    if (m_curve) {
        show(QCPAxis::atBottom, QCPAxis::atTop, m_axes.x, m_axes.isLogX);
        show(QCPAxis::atLeft, QCPAxis::atRight, m_axes.y, m_axes.isLogY);
        const CurveKind kind = m_curve->stock.kind;
        const bool isNoise = kind == CurveKind::noise;
        AxisMarks below = isNoise ? frequencyMarks(frame().width()) : linearMarks(m_axes.x);
        if (kind == CurveKind::ladder) {
            below = decadeMarks(m_axes.x, true);
        } else if (kind == CurveKind::harmonics) {
            below = {};
            for (int n = 1; n <= shownHarmonics; ++n) {
                below.at.push_back(n);
                below.labels.push_back(QString::number(n));
            }
        }
        setMarks(*frame().axis(QCPAxis::atBottom), below);
        setMarks(*frame().axis(QCPAxis::atLeft), isNoise ? decadeMarks(m_axes.y, false) : linearMarks(m_axes.y));
    }
    plot().plotLayout()->update(QCPLayoutElement::upMargins);
    plot().plotLayout()->update(QCPLayoutElement::upLayout);
}

void TablePlot::paintWordsAround(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const QRectF box = frame().rect();
    painter.setFont(theme.font(TextRole::body));
    const QFontMetricsF metrics(painter.font());
    painter.setPen(theme.colours().ink3);
    painter.drawText(QRectF(box.left(), box.top() - metrics.height() - 8.0, box.width(), metrics.height()),
                     Qt::AlignLeft | Qt::AlignVCenter, m_axes.vertical);
    const QRectF below(box.left(), box.bottom() + axisWordsOffset(), box.width(), metrics.height());
    painter.drawText(below, Qt::AlignRight | Qt::AlignVCenter,
                     metrics.elidedText(m_axes.horizontal, Qt::ElideRight, below.width()));
}

/// Stock hollow at the left, now filled at the right of each harmonic.
void TablePlot::paintBars(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box = frame().rect();
    if (m_curve && m_curve->stock.kind == CurveKind::harmonics) {
        painter.setOpacity(state().isCurrent ? 1.0 : static_cast<double>(oldOpacity));
        paintBarsOf(painter, m_curve->stock, holdsStock() ? 0.0 : -barShare / 2.0, colours.stock, false);
        if (!holdsStock()) {
            paintBarsOf(painter, m_curve->now, barShare / 2.0, colours.now, true);
        }
        painter.setOpacity(1.0);
    }
    if (m_curve && state().isCurrent && !m_curve->now.trouble.empty()) {
        painter.setFont(Theme::current().font(TextRole::caption));
        painter.setPen(colours.ink2);
        paintWords(painter, box.adjusted(8.0, 6.0, -8.0, -6.0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                   text(m_curve->now.trouble));
    }
}

void TablePlot::paintBarsOf(QPainter& painter, const CurveTable& table, double shift, const QColor& ink,
                            bool isFilled) const {
    const QCPAxis& x = *frame().axis(QCPAxis::atBottom);
    const QCPAxis& y = *frame().axis(QCPAxis::atLeft);
    painter.setPen(QPen(ink, 1.6));
    painter.setBrush(isFilled ? QBrush(ink) : Qt::NoBrush);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const double level = table.columns[1].values[row];
        const double at = table.columns[0].values[row] + shift;
        if (std::isfinite(level)) {
            painter.drawRect(QRectF(QPointF(x.coordToPixel(at - barShare / 2.2), y.coordToPixel(level)),
                                    QPointF(x.coordToPixel(at + barShare / 2.2), y.coordToPixel(m_axes.y.low))));
        }
    }
}

}  // namespace ohmwright
