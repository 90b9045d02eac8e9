// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_plot.h"

#include "app/curves/curve_names.h"
#include "app/curves/response_axes.h"
#include "app/curves/response_curves.h"
#include "app/curves/string_ticks.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <qcustomplot.h>

#include <QKeyEvent>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

// Sizes in px at text size 100 %.
constexpr int roomForStrings = 28;
constexpr int roomBetween = 7;
constexpr int rightMargin = 18;
constexpr double stripShare = 0.31;
/// Below this the frames are drawn and nothing else can be read anyway.
constexpr int leastInner = 40;
constexpr double firstCursorHz = 110.0;

constexpr std::array gainLabelSteps{6.0, 12.0, 24.0, 60.0, 120.0};
constexpr std::array differenceLabelSteps{3.0, 6.0, 12.0, 24.0, 60.0, 120.0};

}  // namespace

ResponsePlot::ResponsePlot(QWidget* parent)
    : CurvePlot(tr("Response"), parent),
      m_strip(addFrame(plot())),
      m_pinned(plot(), frame()),
      m_corners([this](double hz, double gainDb) { return pointOf(hz, gainDb); }) {
    setObjectName(QStringLiteral("responsePlot"));
    for (QCPAxisRect* rect : {&frame(), m_strip}) {
        for (const auto side : {QCPAxis::atBottom, QCPAxis::atTop}) {
            rect->axis(side)->setScaleType(QCPAxis::stLogarithmic);
            rect->axis(side)->setRange(lowestHz, highestHz);
        }
    }
    m_curves = std::make_unique<ResponseCurves>(plot(), frame(), *m_strip);
    addDrawings();
    setCursorAt(firstCursorHz);
    dressUp();
}

ResponsePlot::~ResponsePlot() = default;

void ResponsePlot::addDrawings() {
    addDrawing(plot(), "background", [this](QPainter& painter) { paintShade(painter); });
    addDrawing(plot(), "axes", [this](QPainter& painter) { paintAxisWords(painter); });
    addDrawing(plot(), marksLayer, [this](QPainter& painter) { paintMarks(painter); });
    addDrawing(plot(), cursorLayer, [this](QPainter& painter) { paintCursor(painter); });
}

// Answers ---------------------------------------------------------------------------------------------------------

void ResponsePlot::setAnswer(const LinearAnswer* answer) {
    if (!m_curves->show(answer)) {
        return;
    }
    m_corners.show(answer);
    growRanges();
    restLater();
    requestReplot();
    announce();
}

void ResponsePlot::setThrows(std::vector<ThrowCurve> throws) {
    if (throws.empty() && m_curves->throws().empty()) {
        return;
    }
    m_curves->showThrows(std::move(throws));
    applyPens();
    growRanges();
    restLater();
    requestReplot();
}

void ResponsePlot::setPins(std::vector<PinnedCurve> pins) {
    if (pins.empty() && m_pins.empty()) {
        return;
    }
    m_pins = std::move(pins);
    m_pinned.show(m_pins, std::array{std::size_t{1}});
    applyPens();
    requestReplot();
    announce();
}

// Ranges ----------------------------------------------------------------------------------------------------------

void ResponsePlot::growRanges() {
    m_gainShown = m_curves->grownGain(m_gainShown);
    m_differenceShown = m_curves->grownDifference(m_differenceShown);
    applyRanges();
}

void ResponsePlot::resetRange() {
    m_gainShown = restingGainRange;
    m_differenceShown = restingDifferenceRange;
    growRanges();
    requestReplot();
}

bool ResponsePlot::letRangesGo() {
    const auto before = std::pair(m_gainShown, m_differenceShown);
    m_gainShown = restingGainRange;
    m_differenceShown = restingDifferenceRange;
    growRanges();
    return before != std::pair(m_gainShown, m_differenceShown);
}

void ResponsePlot::applyRanges() {
    const double lineHeight = 1.25 * Theme::current().pixels(TextRole::body);
    const auto show = [](QCPAxisRect& rect, const PlotRange& range, double grid, std::span<const double> steps,
                         Sign sign, double room) {
        rect.axis(QCPAxis::atLeft)->setRange(range.low, range.high);
        rect.axis(QCPAxis::atRight)->setRange(range.low, range.high);
        const double labelled = labelStep(range, rect.height(), room, steps);
        setMarks(*rect.axis(QCPAxis::atLeft), decibelMarks(range, grid, labelled, sign));
    };
    show(frame(), m_gainShown, gainStepDb, gainLabelSteps, Sign::minusOnly, lineHeight);
    for (QCPAxisRect* rect : {&frame(), m_strip}) {
        rect->axis(QCPAxis::atBottom)->setRange(hzShown().low, hzShown().high);
        rect->axis(QCPAxis::atTop)->setRange(hzShown().low, hzShown().high);
        setMarks(*rect->axis(QCPAxis::atBottom), frequencyMarks(frame().width()));
    }
    show(*m_strip, m_differenceShown, differenceStepDb, differenceLabelSteps, Sign::always, 1.6 * lineHeight);
}

// Looks -----------------------------------------------------------------------------------------------------------

void ResponsePlot::dressFrames() {
    CurvePlot::dressFrames();
    dressFrame(*m_strip);
    m_strip->axis(QCPAxis::atLeft)->grid()->setZeroLinePen(QPen(Theme::current().colours().edge, 1.0));
}

void ResponsePlot::applyPens() {
    m_corners.setHoldsStock(holdsStock());
    m_pinned.applyPens(state(), !holdsStock());
    m_curves->applyPens({state(), holdsStock(), m_showsDifference});
}

void ResponsePlot::layOut() {
    const double scale = Theme::current().textScale();
    const int top = static_cast<int>(std::lround(roomForStrings * scale));
    const int below = roomBelowAxis();
    const int left = verticalLabelWidth();
    const int gap = m_showsDifference ? roomBetween : 0;
    const int inner = std::max(leastInner, height() - top - below - 2 * gap);
    const double strip = m_showsDifference ? std::round(inner * stripShare) : 0.0;
    m_strip->setVisible(m_showsDifference);
    frame().setMargins(QMargins(left, top, rightMargin, m_showsDifference ? gap : below));
    m_strip->setMargins(QMargins(left, gap, rightMargin, m_showsDifference ? below : 0));
    const double upper = top + inner - strip + (m_showsDifference ? gap : below);
    const double lower = m_showsDifference ? gap + strip + below : 1.0e-3;
    plot().plotLayout()->setRowStretchFactors({upper, lower});
    frame().axis(QCPAxis::atBottom)->setTickLabels(!m_showsDifference);
    for (QCPAxis* axis : m_strip->axes()) {
        axis->setVisible(m_showsDifference);
        axis->grid()->setVisible(m_showsDifference);
    }
    for (const auto side : {QCPAxis::atTop, QCPAxis::atRight}) {
        frame().axis(side)->grid()->setVisible(false);
        m_strip->axis(side)->grid()->setVisible(false);
    }
    plot().plotLayout()->update(QCPLayoutElement::upMargins);
    plot().plotLayout()->update(QCPLayoutElement::upLayout);
    applyRanges();
}

void ResponsePlot::setDifferenceShown(bool shown) {
    if (shown == m_showsDifference) {
        return;
    }
    m_showsDifference = shown;
    applyPens();
    layOut();
    requestReplot();
}

// Cursor ----------------------------------------------------------------------------------------------------------

void ResponsePlot::setCursorHz(double hz) {
    if (hz > 0.0) {
        setCursorAt(hz);
    }
}

std::optional<PlotRange> ResponsePlot::cursorWay() const {
    return PlotRange{lowestHz, highestHz};
}

double ResponsePlot::stepped(int steps, bool isFine) const {
    constexpr double fineSemitones = 0.1;
    return isFine ? cursorHz() * std::exp2(fineSemitones * steps / 12.0) : steppedBySemitones(cursorHz(), steps);
}

double ResponsePlot::snapped(double at, double within, bool isFree) const {
    return isFree ? at : snappedToString(at, (at + within) / at);
}

bool ResponsePlot::takesPress(const QMouseEvent& event) {
    const bool isPress = event.button() == Qt::LeftButton;
    const CornerMark* held = isPress ? m_corners.draggableAt(event.position()) : nullptr;
    if (held != nullptr) {
        m_draggedHz = held->hz;
        m_wasDragged = false;
        return true;
    }
    const CornerMark* words = isPress ? m_corners.wordsAt(event.position()) : nullptr;
    if (words != nullptr) {
        pressCorner(*words);
        return true;
    }
    return false;
}

bool ResponsePlot::takesMove(const QMouseEvent& event) {
    const bool drags = m_draggedHz && (event.buttons() & Qt::LeftButton);
    if (drags) {
        dragCorner(event.position().x());
    }
    return drags;
}

void ResponsePlot::takeRelease(const QMouseEvent& event) {
    Q_UNUSED(event)
    if (!m_draggedHz) {
        return;
    }
    m_draggedHz.reset();
    m_corners.hold({});
    requestReplot();
    if (!m_wasDragged && !m_corners.marks().empty()) {
        pressCorner(m_corners.marks().front());
    }
}

bool ResponsePlot::takesKey(const QKeyEvent& event) {
    const bool isArrow = event.key() == Qt::Key_Left || event.key() == Qt::Key_Right;
    const bool hasCorner = !m_corners.marks().empty() && m_corners.marks().front().isNow;
    if (isArrow && hasCorner && (event.modifiers() & Qt::AltModifier)) {
        emit cornerDragged(m_corners.marks().front().hz * std::exp2((event.key() == Qt::Key_Left ? -1.0 : 1.0) / 12.0));
        return true;
    }
    const bool isEnter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
    if (isEnter && !m_corners.marks().empty()) {
        pressCorner(m_corners.marks().front());
    }
    return isEnter;
}

void ResponsePlot::pressCorner(const CornerMark& corner) {
    const QRect box = m_corners.boxOf(corner).toRect();
    emit cornerPressed({mapToGlobal(box.topLeft()), box.size()});
}

void ResponsePlot::dragCorner(double x) {
    const QRectF box = frameBox();
    const double hz = frame().axis(QCPAxis::atBottom)->pixelToCoord(std::clamp(x, box.left(), box.right()));
    m_draggedHz = hz;
    m_corners.hold(hz);
    m_wasDragged = true;
    requestReplot();
    emit cornerDragged(hz);
}

// What is read from it --------------------------------------------------------------------------------------------

CursorReading ResponsePlot::reading() const {
    CursorReading reading;
    reading.hz = cursorHz();
    reading.holdsStock = holdsStock();
    reading.hasGhost = m_curves->ghost().has_value();
    reading.stockDb = m_curves->stock() ? gainAt(*m_curves->stock(), cursorHz()) : std::nullopt;
    reading.nowDb = m_curves->now() ? gainAt(*m_curves->now(), cursorHz()) : std::nullopt;
    reading.ghostDb = m_curves->ghost() ? gainAt(*m_curves->ghost(), cursorHz()) : std::nullopt;
    return reading;
}

QStringList ResponsePlot::cornerWords() const {
    QStringList words;
    for (const CornerMark& corner : m_corners.marks()) {
        if (corner.label) {
            words << corner.words;
        }
    }
    return words;
}

std::vector<QRectF> ResponsePlot::cornerBoxes() const {
    std::vector<QRectF> boxes;
    for (const CornerMark& corner : m_corners.marks()) {
        if (corner.label) {
            boxes.push_back(corner.label->box);
        }
    }
    return boxes;
}

QString ResponsePlot::cursorSentence() const {
    return responseReadout(reading(), m_pins).sentence;
}

QStringList ResponsePlot::curvesShown() const {
    return m_pinned.names() + m_curves->namesShown();
}

QRectF ResponsePlot::stripBox() const {
    return m_strip->rect();
}

QPointF ResponsePlot::pointOf(double hz, double gainDb) const {
    return {xOf(hz), frame().axis(QCPAxis::atLeft)->coordToPixel(gainDb)};
}

// Drawings --------------------------------------------------------------------------------------------------------

void ResponsePlot::paintShade(QPainter& painter) const {
    const QRectF box = frameBox();
    const QRectF guitar(QPointF(xOf(guitarFromHz), box.top()), QPointF(xOf(guitarToHz), box.bottom()));
    painter.fillRect(guitar.intersected(box), Theme::current().colours().fretShade);
}

void ResponsePlot::paintAxisWords(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const QRectF box = frameBox();
    painter.setFont(theme.font(TextRole::body));
    painter.setPen(theme.colours().ink3);
    const double line = QFontMetricsF(painter.font()).height();
    painter.drawText(QRectF(0.0, box.top() - line - 9.0, box.left() - 7.0, line), Qt::AlignRight | Qt::AlignVCenter,
                     QStringLiteral("dB"));
    const double lowest = m_showsDifference ? stripBox().bottom() : box.bottom();
    painter.drawText(QRectF(box.left(), lowest + axisWordsOffset(), box.width(), line),
                     Qt::AlignRight | Qt::AlignVCenter, hzWords(tr("Hz, log")));
    if (m_showsDifference) {
        const QString words =
            m_curves->ghost() && !holdsStock() ? tr("now and ghost less stock") : tr("now less stock");
        painter.setPen(theme.colours().ink2);
        painter.drawText(stripBox().adjusted(0.0, 4.0, -7.0, 0.0), Qt::AlignRight | Qt::AlignTop, words);
    }
}

void ResponsePlot::paintMarks(QPainter& painter) {
    m_throwNames.clear();
    if (!state().isCurrent) {
        return;
    }
    std::vector<QPolygonF> lines = m_curves->polylines();
    const std::vector<QPolygonF> throws = m_curves->throwLines();
    lines.insert(lines.end(), throws.begin(), throws.end());
    m_corners.paint(painter, frameBox(), lines);
    if (!holdsStock()) {
        m_pinned.paintLetters(painter, frameBox());
    }
    paintThrowNames(painter);
}

void ResponsePlot::paintThrowNames(QPainter& painter) {
    const std::vector<QPolygonF> lines = m_curves->throwLines();
    const QFont font = Theme::current().font(TextRole::caption);
    const QFontMetricsF metrics(font);
    std::vector<NamedCurve> named;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        named.push_back({lines[at], {metrics.horizontalAdvance(m_curves->throws()[at].name) + 1.0, metrics.height()}});
    }
    const auto placed = placeNames(frameBox(), named, m_curves->polylines(), cornerBoxes());
    painter.setFont(font);
    painter.setPen(Theme::current().colours().now);
    for (std::size_t at = 0; at < placed.size(); ++at) {
        if (placed[at]) {
            painter.drawText(*placed[at], Qt::AlignLeft | Qt::AlignVCenter, m_curves->throws()[at].name);
            m_throwNames.push_back(*placed[at]);
        }
    }
}

void ResponsePlot::paintStrings(QPainter& painter) const {
    const Theme& theme = Theme::current();
    const double top = frameBox().top();
    const double bracket = std::floor(top - 4.0) + 0.5;
    const StringTick* under = stringNear(cursorHz(), 1.002);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(theme.colours().gridMajor, 1.0));
    const QRectF box = frameBox();
    const auto kept = [&box](double x) { return std::clamp(x, box.left(), box.right()); };
    painter.drawLine(QPointF(kept(xOf(stringTicks.front().hz)), bracket),
                     QPointF(kept(xOf(stringTicks.back().hz)), bracket));
    double taken = 0.0;
    for (const StringTick& tick : stringTicks) {
        const double x = std::floor(xOf(tick.hz)) + 0.5;
        if (x < box.left() || x > box.right() + 1.0) {
            continue;
        }
        painter.setPen(QPen(theme.colours().edge, 1.0));
        painter.drawLine(QPointF(x, bracket - 3.0), QPointF(x, top));
        const bool isUnder = &tick == under;
        painter.setFont(theme.font(TextRole::body, isUnder));
        painter.setPen(isUnder ? theme.colours().ink : theme.colours().ink2);
        const QFontMetricsF metrics(painter.font());
        const double width = metrics.horizontalAdvance(saidText(tick.mark));
        if (x - width / 2.0 < taken + 2.0 && !isUnder) {
            continue;
        }
        painter.drawText(QRectF(x - width, bracket - 4.0 - metrics.height(), 2.0 * width, metrics.height()),
                         Qt::AlignHCenter | Qt::AlignBottom, saidText(tick.mark));
        taken = x + width / 2.0;
    }
    painter.setRenderHint(QPainter::Antialiasing, true);
}

void ResponsePlot::paintCursor(QPainter& painter) const {
    paintStrings(painter);
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box = frameBox();
    paintCursorLine(painter, m_showsDifference ? stripBox().bottom() : box.bottom());
    const CursorReading read = reading();
    const auto ring = [&](const std::optional<double>& gain, const QColor& colour) {
        const QPointF at = pointOf(cursorHz(), gain.value_or(0.0));
        if (gain && state().isCurrent && box.contains(at)) {
            paintRing(painter, at, QPen(colour));
        }
    };
    ring(read.stockDb, colours.stock);
    if (!holdsStock()) {
        ring(read.nowDb, colours.now);
    }
    paintOver(painter, m_curves->stock().has_value());
}

}  // namespace ohmwright
