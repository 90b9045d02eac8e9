// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_plot.h"

#include "app/curves/clip_node.h"
#include "app/curves/table_axes.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/measure/curve_read.h"

#include <qcustomplot.h>

#include <QKeyEvent>
#include <QMouseEvent>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr int rightMargin = 18;
constexpr double triangleReach = 6.5;
constexpr std::array voltLabelSteps{0.2, 0.4, 1.0, 2.0, 4.0, 10.0, 20.0};
constexpr std::array levelLabelSteps{10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0};

constexpr std::array decibelLabelSteps{5.0, 10.0, 20.0};
/// Of the cursor over the axis.
constexpr double coarseSteps = 50.0;
constexpr double fineSteps = 250.0;
constexpr std::size_t positiveColumn = 1;
constexpr std::size_t negativeColumn = 2;

constexpr double wordGap = 7.0;
/// Half a ring and some air [px].
constexpr double ringRoom = 7.0;

QString playerWord() {
    return QObject::tr("player");
}

AxisMarks voltMarks(const PlotRange& range, double labelled) {
    AxisMarks marks;
    marks.at = multiplesIn(range, labelled);
    const bool isWhole = labelled >= 1.0;
    for (const double volts : marks.at) {
        const std::string figure = formatFixed(volts, isWhole ? 0 : 1, Sign::always);
        marks.labels.push_back(figure == formatFixed(0.0, 1) ? QStringLiteral("0") : QString::fromStdString(figure));
    }
    return marks;
}

AxisMarks levelMarks(const PlotRange& levels, double step) {
    AxisMarks marks;
    marks.at = multiplesIn(levels, step);
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

}  // namespace

PlayerPeaks playerPeaks(const LargeSignalState& state) {
    return {figureValue(state, "peak_positive"), figureValue(state, "peak_negative")};
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
    : CurvePlot(tr("Clip"), parent),
      m_stock(addBranches()),
      m_ghost(addBranches()),
      m_now(addBranches()),
      m_pinned(plot(), frame()) {
    setObjectName(QStringLiteral("clipPlot"));
    addDrawing(plot(), "axes", [this](QPainter& painter) { paintWordsAround(painter); });
    addDrawing(plot(), marksLayer, [this](QPainter& painter) { paintMarks(painter); });
    addDrawing(plot(), cursorLayer, [this](QPainter& painter) { paintCursor(painter); });
    setCursorAt(m_pickVolts);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, [this] {
        fill();
        layOut();
        requestReplot();
        announce();
    });
    dressUp();
}

ClipPlot::Branches ClipPlot::addBranches() {
    QCPGraph* positive = addCurve();
    return {positive, addCurve()};
}

/// In decibels the point of no signal lies nowhere.
void ClipPlot::fill() {
    const auto draw = [this](QCPGraph& graph, const std::optional<CurveTable>& table, std::size_t column) {
        std::vector<double> x;
        std::vector<double> y;
        for (std::size_t row = 0; table && row < table->rowCount(); ++row) {
            const double at = toAxis(table->columns[0].values[row]);
            if (std::isfinite(at)) {
                x.push_back(at);
                y.push_back(table->columns[column].values[row]);
            }
        }
        setPoints(graph, x, y);
    };
    for (const auto& [branches, table] :
         {std::pair(m_stock, &m_stockTable), std::pair(m_ghost, &m_ghostTable), std::pair(m_now, &m_nowTable)}) {
        draw(*branches.positive, *table, positiveColumn);
        draw(*branches.negative, *table, negativeColumn);
    }
    m_pinned.show(drawnPins(), std::array{positiveColumn, negativeColumn});
    m_pinned.applyPens(state(), !holdsStock());
}

void ClipPlot::setPins(std::vector<PinnedCurve> pins) {
    if (pins.empty() && m_pins.empty()) {
        return;
    }
    m_pins = std::move(pins);
    fill();
    requestReplot();
    announce();
}

ClipPlot::Marks ClipPlot::marksOf(const LargeSignalState& state) {
    return {state.clip.positive, state.clip.negative, playerPeaks(state)};
}

void ClipPlot::setAnswer(const LargeSignalAnswer* answer) {
    const NetName node = answer && answer->job ? answer->job->stock.ports.clipNode : NetName();
    const auto tableOf = [&node](const LargeSignalState* solved) {
        return solved != nullptr ? std::optional(tableOfClip(solved->clip, node)) : std::nullopt;
    };
    m_stockTable = tableOf(answer ? &answer->stock : nullptr);
    m_nowTable = tableOf(answer ? &answer->now : nullptr);
    m_ghostTable = tableOf(answer && answer->ghost ? &*answer->ghost : nullptr);
    m_stockMarks = answer ? std::optional(marksOf(answer->stock)) : std::nullopt;
    m_nowMarks = answer ? std::optional(marksOf(answer->now)) : std::nullopt;
    m_peaks.reset();
    m_node.clear();
    if (answer) {
        m_peaks = joined(peaksOf(answer->stock.clip), peaksOf(answer->now.clip));
        m_pickShown = answer->stock.clip.pickVoltsPeak.empty() ? m_pickShown : answer->stock.clip.pickVoltsPeak.back();
        if (answer->job) {
            m_node = clipNodeWords(answer->job->stock);
            // The cursor stands at the player's level and goes with it until it is moved.
            const bool isAtPlayer = cursorAt() == m_pickVolts;
            m_pickVolts = answer->job->setting.pickVoltsPeak;
            if (isAtPlayer) {
                setCursorAt(m_pickVolts);
            }
            m_toneHz = answer->job->setting.toneHz;
        }
    }
    fill();
    growRange();
    restLater();
    requestReplot();
    announce();
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

// Cursor ----------------------------------------------------------------------------------------------------------

std::optional<PlotRange> ClipPlot::cursorWay() const {
    const PlotRange shown = levelsShown();
    return m_stockTable ? std::optional(PlotRange{fromAxis(shown.low), fromAxis(shown.high)}) : std::nullopt;
}

double ClipPlot::stepped(int steps, bool isFine) const {
    const PlotRange shown = levelsShown();
    const double step = (shown.high - shown.low) / (isFine ? fineSteps : coarseSteps);
    return fromAxis(std::max(toAxis(cursorAt()), shown.low) + steps * step);
}

double ClipPlot::snapped(double at, double within, bool isFree) const {
    return !isFree && std::abs(at - m_pickVolts) <= within ? m_pickVolts : at;
}

double ClipPlot::toAxis(double at) const {
    return levelOfPeak(at, LevelUnits::current().unit());
}

double ClipPlot::fromAxis(double x) const {
    return peakOfLevel(x, LevelUnits::current().unit());
}

ComparedCurve ClipPlot::drawnTables() const {
    const LevelUnit unit = LevelUnits::current().unit();
    return {inLevelUnit(*m_stockTable, unit), inLevelUnit(m_nowTable.value_or(*m_stockTable), unit)};
}

std::vector<PinnedCurve> ClipPlot::drawnPins() const {
    std::vector<PinnedCurve> pins = m_pins;
    for (PinnedCurve& pin : pins) {
        pin.table = inLevelUnit(std::move(pin.table), LevelUnits::current().unit());
    }
    return pins;
}

CursorReadout ClipPlot::readout() const {
    TableReading reading;
    reading.unit = LevelUnits::current().unit();
    reading.at = toAxis(cursorAt());
    reading.toneHz = m_toneHz;
    reading.holdsStock = holdsStock();
    if (!m_stockTable) {
        return tableReadout(CurveKind::clip, reading);
    }
    const ComparedCurve drawn = drawnTables();
    const std::optional<CurveTable> ghost =
        m_ghostTable ? std::optional(inLevelUnit(*m_ghostTable, reading.unit)) : std::nullopt;
    const std::vector<PinnedCurve> pins = drawnPins();
    reading.curve = &drawn;
    reading.ghost = ghost ? &*ghost : nullptr;
    reading.pins = &pins;
    return tableReadout(CurveKind::clip, reading);
}

/// Between the branches, which lie far apart at the right.
ClipPlot::NotePlace ClipPlot::notePlace() const {
    const QRectF box = frameBox();
    return {QRectF(QPointF(box.left(), pointOf(m_pickShown, 0.0).y()), box.bottomRight()), Qt::AlignTop};
}

/// The words of the level's axis change its unit.
bool ClipPlot::takesPress(const QMouseEvent& event) {
    const bool isOnWords = event.position().y() > frameBox().bottom() + axisWordsOffset();
    if (event.button() == Qt::LeftButton && isOnWords) {
        LevelUnits::current().step();
        return true;
    }
    return false;
}

PlotRange ClipPlot::levelsShown() const {
    return {lowestClipLevel(m_pickShown, LevelUnits::current().unit()), toAxis(m_pickShown)};
}

bool ClipPlot::takesKey(const QKeyEvent& event) {
    const bool isEqual = event.key() == Qt::Key_E && event.modifiers() == Qt::NoModifier;
    if (isEqual) {
        setEqualScales(!m_hasEqualScales);
    }
    return isEqual;
}

void ClipPlot::setEqualScales(bool equal) {
    m_hasEqualScales = equal;
    layOut();
    requestReplot();
}

std::pair<double, double> ClipPlot::voltsPerPixel() const {
    const QCPRange along = frame().axis(QCPAxis::atBottom)->range();
    const QCPRange up = frame().axis(QCPAxis::atLeft)->range();
    const bool isInVolts = !isDecibels(LevelUnits::current().unit());
    return {isInVolts ? (fromAxis(along.upper) - fromAxis(along.lower)) / frame().width() : 0.0,
            up.size() / frame().height()};
}

/// The axis that shows fewer volts a px grows: levels upwards, volts about their middle.
void ClipPlot::makeScalesEqual(PlotRange& levels, PlotRange& volts) const {
    const double along = (fromAxis(levels.high) - fromAxis(levels.low)) / std::max(1, frame().width());
    const double up = (volts.high - volts.low) / std::max(1, frame().height());
    const double wanted = std::max(along, up);
    levels.high = toAxis(fromAxis(levels.low) + wanted * frame().width());
    const double middle = (volts.low + volts.high) / 2.0;
    const double reach = wanted * frame().height() / 2.0;
    volts = {middle - reach, middle + reach};
}

void ClipPlot::applyRanges() {
    const double body = Theme::current().pixels(TextRole::body);
    PlotRange levels = levelsShown();
    PlotRange volts = m_shown;
    if (m_hasEqualScales && !isDecibels(LevelUnits::current().unit())) {
        makeScalesEqual(levels, volts);
    }
    frame().axis(QCPAxis::atLeft)->setRange(volts.low, volts.high);
    frame().axis(QCPAxis::atRight)->setRange(volts.low, volts.high);
    setMarks(*frame().axis(QCPAxis::atLeft),
             voltMarks(volts, labelStep(volts, frame().height(), 1.25 * body, voltLabelSteps)));
    frame().axis(QCPAxis::atBottom)->setRange(levels.low, levels.high);
    frame().axis(QCPAxis::atTop)->setRange(levels.low, levels.high);
    const bool isInDb = isDecibels(LevelUnits::current().unit());
    const double step = isInDb ? labelStep(levels, frame().width(), 3.5 * body, decibelLabelSteps)
                               : labelStep(levels, frame().width(), 3.5 * body, levelLabelSteps);
    setMarks(*frame().axis(QCPAxis::atBottom), levelMarks(levels, step));
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
    m_pinned.applyPens(state(), !holdsStock());
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
            names << saidText(name);
        }
    };
    addIf(m_stock, toSay("stock"));
    names << m_pinned.names();
    addIf(m_ghost, toSay("ghost"));
    addIf(m_now, toSay("now"));
    return names;
}

QString ClipPlot::title() const {
    const QString what = tr("peak + and peak −");
    return m_node.isEmpty() ? what : what + QStringLiteral(", ") + m_node;
}

QPointF ClipPlot::pointOf(double pickVolts, double volts) const {
    return {xOf(pickVolts), frame().axis(QCPAxis::atLeft)->coordToPixel(volts)};
}

void ClipPlot::paintWordsAround(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const QRectF box = frameBox();
    painter.setFont(theme.font(TextRole::body));
    const double line = QFontMetricsF(painter.font()).height();
    painter.setPen(theme.colours().ink3);
    painter.drawText(QRectF(0.0, box.top() - line - 8.0, box.left() - 7.0, line), Qt::AlignRight | Qt::AlignVCenter,
                     QStringLiteral("V"));
    const QString level =
        tr("pick level, %1, %2")
            .arg(unitName(LevelUnits::current().unit()), QString::fromStdString(formatFrequency(m_toneHz)));
    painter.drawText(QRectF(0.0, box.bottom() + axisWordsOffset(), box.right(), line),
                     Qt::AlignRight | Qt::AlignVCenter, level);
    painter.setPen(theme.colours().ink2);
    const QRectF above(box.left(), box.top() - line - 8.0, box.width() + rightMargin, line);
    painter.drawText(above, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(painter.font()).elidedText(title(), Qt::ElideRight, above.width()));
}

void ClipPlot::paintCursor(QPainter& painter) const {
    const QRectF box = frameBox();
    // At the player's level his own line and rings say it.
    if (m_stockTable && cursorAt() != m_pickVolts) {
        paintCursorLine(painter, box.bottom());
        const auto ring = [&](const CurveTable& table, const QColor& ink) {
            for (const std::size_t column : {positiveColumn, negativeColumn}) {
                const auto volts = curveValueAt(table, column, cursorAt());
                if (volts && state().isCurrent && box.contains(pointOf(cursorAt(), *volts))) {
                    paintRing(painter, pointOf(cursorAt(), *volts), QPen(ink));
                }
            }
        };
        ring(*m_stockTable, Theme::current().colours().stock);
        if (m_nowTable && !holdsStock()) {
            ring(*m_nowTable, Theme::current().colours().now);
        }
    }
    paintOver(painter, m_stockMarks.has_value());
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
    if (!holdsStock()) {
        m_pinned.paintLetters(painter, box);
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
