// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/table_plot.h"

#include "app/curves/string_ticks.h"
#include "app/look/level_units.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/measure/curve_read.h"

#include <qcustomplot.h>

#include <QMouseEvent>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int rightMargin = 18;
/// Of the distance between two harmonics.
constexpr double barShare = 0.32;
constexpr double wordsAbove = 8.0;
/// Steps of the cursor over a period, and how much finer Shift makes them.
constexpr double stepsOfPeriod = 64.0;
constexpr double fineShare = 0.25;
constexpr double fineSemitones = 0.1;
/// The column that is drawn.
constexpr std::size_t drawn = 1;

}  // namespace

TablePlot::TablePlot(QWidget* parent)
    : CurvePlot(QString(), parent), m_stock(addCurve()), m_now(addCurve()), m_pinned(plot(), frame()) {
    setObjectName(QStringLiteral("tablePlot"));
    addDrawing(plot(), "axes", [this](QPainter& painter) { paintWordsAround(painter); });
    addDrawing(plot(), marksLayer, [this](QPainter& painter) { paintMarks(painter); });
    addDrawing(plot(), cursorLayer, [this](QPainter& painter) { paintCursor(painter); });
    connect(&LevelUnits::current(), &LevelUnits::changed, this, [this] {
        fill();
        layOut();
        requestReplot();
        announce();
    });
    dressUp();
}

void TablePlot::setCurve(const ComparedCurve* curve, const Setting& setting) {
    const bool isOther = curve != nullptr && !(m_curve && m_curve->stock.kind == curve->stock.kind);
    m_curve = curve != nullptr ? std::optional(*curve) : std::nullopt;
    m_setting = setting;
    if (isOther) {
        placeCursor();
    }
    fill();
    applyAxes();
    requestReplot();
    announce();
}

void TablePlot::setPins(std::vector<PinnedCurve> pins) {
    if (pins.empty() && m_pins.empty()) {
        return;
    }
    m_pins = std::move(pins);
    fill();
    applyPens();
    requestReplot();
    announce();
}

std::optional<CurveKind> TablePlot::kind() const {
    return m_curve ? std::optional(m_curve->stock.kind) : std::nullopt;
}

bool TablePlot::isKind(CurveKind wanted) const {
    return kind() == wanted;
}

void TablePlot::fill() {
    const LevelUnit unit = LevelUnits::current().unit();
    const bool small = m_curve && isInMillivolts(*m_curve);
    m_drawn.reset();
    if (m_curve) {
        m_drawn = asDrawn(*m_curve, unit);
    }
    m_drawnPins.clear();
    for (const PinnedCurve& pin : m_pins) {
        if (isKind(pin.table.kind)) {
            m_drawnPins.push_back({pin.letter, pin.pattern, asDrawn(pin.table, unit, small)});
        }
    }
    if (m_drawn) {
        m_axes = tableAxes(*m_drawn, m_setting, unit);
    }
    const bool isLine = m_drawn && !isKind(CurveKind::harmonics);
    const auto put = [&](QCPGraph& graph, const CurveTable* table) {
        if (table == nullptr) {
            clearPoints(graph);
        } else {
            setPoints(graph, table->columns[0].values, table->columns[drawn].values);
        }
    };
    put(*m_stock, isLine ? &m_drawn->stock : nullptr);
    put(*m_now, isLine ? &m_drawn->now : nullptr);
    m_pinned.show(isLine ? m_drawnPins : std::vector<PinnedCurve>(), std::array{drawn});
    m_pinned.applyPens(state(), !holdsStock());
}

QStringList TablePlot::curvesShown() const {
    QStringList names;
    if (m_curve) {
        names << tr("stock");
        if (!holdsStock()) {
            for (const PinnedCurve& pin : m_drawnPins) {
                names << tr("ghost %1").arg(pin.letter);
            }
            names << tr("now");
        }
    }
    return names;
}

// Cursor ----------------------------------------------------------------------------------------------------------

/// Where a kind is looked at first: the player's level, the first harmonic that is none, the wave's crest.
void TablePlot::placeCursor() {
    constexpr double firstOvertone = 2.0;
    constexpr double firstHz = 110.0;
    switch (m_curve->stock.kind) {
        case CurveKind::ladder:
            setCursorAt(snapped(m_setting.pickVoltsPeak, 0.0, false));
            break;
        case CurveKind::harmonics:
            setCursorAt(firstOvertone);
            break;
        case CurveKind::wave:
            setCursorAt(250.0 / m_setting.toneHz);
            break;
        default:
            setCursorAt(firstHz);
            break;
    }
}

std::optional<PlotRange> TablePlot::cursorWay() const {
    if (!m_curve || m_curve->stock.rowCount() == 0) {
        return std::nullopt;
    }
    const std::vector<double>& axis = m_curve->stock.columns.front().values;
    return PlotRange{axis.front(), axis.back()};
}

double TablePlot::stepped(int steps, bool isFine) const {
    if (isKind(CurveKind::ladder)) {
        const auto row = nearestRow(m_curve->stock, cursorAt());
        const std::vector<double>& axis = m_curve->stock.columns.front().values;
        const int last = static_cast<int>(axis.size()) - 1;
        return row ? axis[static_cast<std::size_t>(std::clamp(static_cast<int>(*row) + steps, 0, last))] : cursorAt();
    }
    if (isKind(CurveKind::harmonics)) {
        return std::round(cursorAt()) + steps;
    }
    if (isKind(CurveKind::wave)) {
        const double step = 1000.0 / m_setting.toneHz / stepsOfPeriod;
        return cursorAt() + steps * (isFine ? fineShare * step : step);
    }
    return isFine ? cursorAt() * std::exp2(fineSemitones * steps / 12.0) : steppedBySemitones(cursorAt(), steps);
}

double TablePlot::snapped(double at, double within, bool isFree) const {
    if (isKind(CurveKind::ladder)) {
        const auto row = nearestRow(m_curve->stock, at);
        return row ? m_curve->stock.columns.front().values[*row] : at;
    }
    if (isKind(CurveKind::harmonics)) {
        return std::round(at);
    }
    return isFree || isKind(CurveKind::wave) ? at : snappedToString(at, (at + within) / at);
}

double TablePlot::toAxis(double at) const {
    return isKind(CurveKind::ladder) ? levelOfPeak(at, LevelUnits::current().unit()) : at;
}

double TablePlot::fromAxis(double x) const {
    return isKind(CurveKind::ladder) ? peakOfLevel(x, LevelUnits::current().unit()) : x;
}

CursorReadout TablePlot::readout() const {
    TableReading reading;
    reading.curve = m_drawn ? &*m_drawn : nullptr;
    reading.pins = &m_drawnPins;
    reading.at = toAxis(cursorAt());
    reading.toneHz = m_setting.toneHz;
    reading.unit = LevelUnits::current().unit();
    reading.holdsStock = holdsStock();
    return tableReadout(kind().value_or(CurveKind::noise), reading);
}

/// Higher harmonics are faint, and a wave's axis has air: above them there is room. Noise may dip to the foot.
TablePlot::NotePlace TablePlot::notePlace() const {
    const bool isAbove = isKind(CurveKind::harmonics) || isKind(CurveKind::wave) || !isFootFree();
    return {frameBox(), isAbove ? Qt::AlignTop : Qt::AlignBottom};
}

/// Whether no curve crosses the lowest line of words, but for its left end, where no note reaches.
bool TablePlot::isFootFree() const {
    constexpr double noteShare = 0.8;
    const QRectF box = frameBox();
    const QCPAxis* along = frame().axis(QCPAxis::atBottom);
    const QCPAxis* up = frame().axis(QCPAxis::atLeft);
    const double foot = box.bottom() - 1.5 * Theme::current().pixels(TextRole::caption);
    const auto isFree = [&](const CurveTable& table) {
        const std::vector<double>& across = table.columns.front().values;
        const std::vector<double>& values = table.columns[drawn].values;
        for (std::size_t k = 0; k < values.size(); ++k) {
            const bool isUnderWords = along->coordToPixel(across[k]) > box.right() - noteShare * box.width();
            if (isUnderWords && std::isfinite(values[k]) && up->coordToPixel(values[k]) > foot) {
                return false;
            }
        }
        return true;
    };
    return !m_drawn || (isFree(m_drawn->stock) && isFree(m_drawn->now));
}

/// The words of the axes lie outside the frame, the vertical one's above it.
bool TablePlot::takesPress(const QMouseEvent& event) {
    const QRectF box = frameBox();
    const double y = event.position().y();
    const bool isOnWords = y < box.top() || y > box.bottom() + axisWordsOffset();
    if (isKind(CurveKind::ladder) && event.button() == Qt::LeftButton && isOnWords) {
        LevelUnits::current().step();
        return true;
    }
    return false;
}

// Looks -----------------------------------------------------------------------------------------------------------

void TablePlot::dressFrames() {
    CurvePlot::dressFrames();
    frame().axis(QCPAxis::atLeft)->grid()->setZeroLinePen(QPen(Theme::current().colours().edge, 1.0));
}

void TablePlot::applyPens() {
    m_stock->setPen(heldStockPen());
    m_now->setPen(penFor(Theme::current().nowPen(), state()));
    m_now->setVisible(!holdsStock());
    m_pinned.applyPens(state(), !holdsStock());
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
        show(QCPAxis::atBottom, QCPAxis::atTop, isOverHz() ? hzShown() : m_axes.x, m_axes.isLogX);
        show(QCPAxis::atLeft, QCPAxis::atRight, m_axes.y, m_axes.isLogY);
        setMarks(*frame().axis(QCPAxis::atBottom), horizontalMarks(m_curve->stock.kind, m_axes, frame().width()));
        setMarks(*frame().axis(QCPAxis::atLeft), verticalMarks(m_axes, frame().height()));
    }
    plot().plotLayout()->update(QCPLayoutElement::upMargins);
    plot().plotLayout()->update(QCPLayoutElement::upLayout);
}

void TablePlot::paintWordsAround(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const QRectF box = frameBox();
    painter.setFont(theme.font(TextRole::body));
    const QFontMetricsF metrics(painter.font());
    painter.setPen(theme.colours().ink3);
    painter.drawText(QRectF(box.left(), box.top() - metrics.height() - wordsAbove, box.width(), metrics.height()),
                     Qt::AlignLeft | Qt::AlignVCenter, m_axes.vertical);
    const QRectF below(box.left(), box.bottom() + axisWordsOffset(), box.width(), metrics.height());
    painter.drawText(
        below, Qt::AlignRight | Qt::AlignVCenter,
        metrics.elidedText(isOverHz() ? hzWords(m_axes.horizontal) : m_axes.horizontal, Qt::ElideRight, below.width()));
}

void TablePlot::paintMarks(QPainter& painter) const {
    if (isKind(CurveKind::harmonics)) {
        paintBars(painter);
    } else if (!holdsStock()) {
        m_pinned.paintLetters(painter, frameBox());
    }
    if (m_curve && state().isCurrent && !m_curve->now.trouble.empty()) {
        painter.setFont(Theme::current().font(TextRole::caption));
        painter.setPen(Theme::current().colours().ink2);
        paintWords(painter, frameBox().adjusted(8.0, 6.0, -8.0, -6.0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                   text(m_curve->now.trouble));
    }
}

void TablePlot::paintCursor(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box = frameBox();
    if (cursorWay()) {
        paintCursorLine(painter, box.bottom());
    }
    const auto ring = [&](const CurveTable& table, const QColor& ink) {
        const double x = toAxis(cursorAt());
        if (const auto value = curveValueAt(table, drawn, x)) {
            const QPointF at(xOf(cursorAt()), frame().axis(QCPAxis::atLeft)->coordToPixel(*value));
            if (box.contains(at)) {
                paintRing(painter, at, QPen(ink));
            }
        }
    };
    if (m_drawn && state().isCurrent && !isKind(CurveKind::harmonics)) {
        ring(m_drawn->stock, colours.stock);
        if (!holdsStock()) {
            ring(m_drawn->now, colours.now);
        }
    }
    paintOver(painter, m_curve.has_value());
}

/// Stock hollow at the left, now filled at the right of each harmonic.
void TablePlot::paintBars(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    painter.setOpacity(state().isCurrent ? 1.0 : static_cast<double>(oldOpacity));
    paintBarsOf(painter, m_curve->stock, holdsStock() ? 0.0 : -barShare / 2.0, colours.stock, false);
    if (!holdsStock()) {
        paintBarsOf(painter, m_curve->now, barShare / 2.0, colours.now, true);
        paintPinnedBars(painter);
    }
    painter.setOpacity(1.0);
}

void TablePlot::paintBarsOf(QPainter& painter, const CurveTable& table, double shift, const QColor& ink,
                            bool isFilled) const {
    const QCPAxis& x = *frame().axis(QCPAxis::atBottom);
    const QCPAxis& y = *frame().axis(QCPAxis::atLeft);
    painter.setPen(QPen(ink, 1.6));
    painter.setBrush(isFilled ? QBrush(ink) : Qt::NoBrush);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const double level = table.columns[drawn].values[row];
        const double at = table.columns[0].values[row] + shift;
        if (std::isfinite(level)) {
            painter.drawRect(QRectF(QPointF(x.coordToPixel(at - barShare / 2.2), y.coordToPixel(level)),
                                    QPointF(x.coordToPixel(at + barShare / 2.2), y.coordToPixel(m_axes.y.low))));
        }
    }
}

/// A line across both bars at the level, its letter beside it.
void TablePlot::paintPinnedBars(QPainter& painter) const {
    const QCPAxis& x = *frame().axis(QCPAxis::atBottom);
    const QCPAxis& y = *frame().axis(QCPAxis::atLeft);
    painter.setFont(Theme::current().font(TextRole::caption, true));
    const double height = QFontMetricsF(painter.font()).height();
    for (const PinnedCurve& pin : m_drawnPins) {
        for (std::size_t row = 0; row < pin.table.rowCount(); ++row) {
            const double level = pin.table.columns[drawn].values[row];
            const double n = pin.table.columns[0].values[row];
            if (!std::isfinite(level)) {
                continue;
            }
            const QPointF left(x.coordToPixel(n - barShare * 1.1), y.coordToPixel(level));
            const QPointF right(x.coordToPixel(n + barShare * 1.1), left.y());
            painter.setPen(penFor(pinnedPen(pin.pattern), state()));
            painter.drawLine(left, right);
            painter.setPen(Theme::current().colours().ink2);
            painter.drawText(QRectF(right.x() + 1.0, right.y() - height / 2.0, height, height),
                             Qt::AlignLeft | Qt::AlignVCenter, pin.letter);
        }
    }
}

}  // namespace ohmwright
