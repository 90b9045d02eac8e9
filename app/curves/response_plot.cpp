// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_plot.h"

#include "app/curves/curve_names.h"
#include "app/curves/response_axes.h"
#include "app/curves/response_curves.h"
#include "app/curves/string_ticks.h"
#include "app/look/theme.h"

#include <qcustomplot.h>

#include <QAccessible>
#include <QAccessibleWidget>
#include <QApplication>
#include <QKeyEvent>
#include <QVBoxLayout>

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
/// The pointer takes a string from this far [px].
constexpr double snapPixels = 4.0;
/// How long a value must rest before the axes let go of what they have grown.
constexpr int restMilliseconds = 800;
constexpr int wheelNotch = 120;

constexpr std::array gainLabelSteps{6.0, 12.0, 24.0, 60.0, 120.0};
constexpr std::array differenceLabelSteps{3.0, 6.0, 12.0, 24.0, 60.0, 120.0};

/// Says its cursor's read-out as its value.
class ResponsePlotAccessible : public QAccessibleWidget {
public:
    explicit ResponsePlotAccessible(ResponsePlot* plot)
        : QAccessibleWidget(plot, QAccessible::Chart, QStringLiteral("Response")), m_response(plot) {}

    QString text(QAccessible::Text kind) const override {
        if (kind == QAccessible::Value || kind == QAccessible::Description) {
            return readingSentence(m_response->reading());
        }
        return QAccessibleWidget::text(kind);
    }

private:
    ResponsePlot* m_response;
};

QAccessibleInterface* responseAccessible(const QString& key, QObject* object) {
    Q_UNUSED(key)
    auto* plot = qobject_cast<ResponsePlot*>(object);
    return plot ? new ResponsePlotAccessible(plot) : nullptr;
}

}  // namespace

ResponsePlot::ResponsePlot(QWidget* parent)
    : QWidget(parent),
      m_plot(new QCustomPlot(this)),
      m_corners([this](double hz, double gainDb) { return pointOf(hz, gainDb); }) {
    static const bool isAnnounced = (QAccessible::installFactory(responseAccessible), true);
    Q_UNUSED(isAnnounced)
    setObjectName(QStringLiteral("responsePlot"));
    setAccessibleName(QStringLiteral("Response"));
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", false);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_plot);

    dressPlot(*m_plot);
    m_frame = addFrame(*m_plot);
    m_strip = addFrame(*m_plot);
    for (QCPAxisRect* rect : {m_frame, m_strip}) {
        for (const auto side : {QCPAxis::atBottom, QCPAxis::atTop}) {
            rect->axis(side)->setScaleType(QCPAxis::stLogarithmic);
            rect->axis(side)->setRange(lowestHz, highestHz);
        }
    }
    m_curves = std::make_unique<ResponseCurves>(*m_plot, *m_frame, *m_strip);
    addDrawings();
    m_rest.setSingleShot(true);
    m_rest.setInterval(restMilliseconds);
    connect(&m_rest, &QTimer::timeout, this, &ResponsePlot::settle);
    connect(m_plot, &QCustomPlot::mousePress, this, [this](QMouseEvent* event) { pressPointer(*event); });
    connect(m_plot, &QCustomPlot::mouseRelease, this, [this](QMouseEvent*) { releasePointer(); });
    connect(m_plot, &QCustomPlot::mouseMove, this, [this](QMouseEvent* event) { followPointer(*event); });
    connect(m_plot, &QCustomPlot::mouseWheel, this, [this](QWheelEvent* event) { followWheel(*event); });
    connect(&Theme::current(), &Theme::changed, this, &ResponsePlot::applyTheme);
    applyTheme();
}

ResponsePlot::~ResponsePlot() = default;

void ResponsePlot::addDrawings() {
    addDrawing(*m_plot, "background", [this](QPainter& painter) { paintShade(painter); });
    addDrawing(*m_plot, "axes", [this](QPainter& painter) { paintAxisWords(painter); });
    addDrawing(*m_plot, marksLayer, [this](QPainter& painter) { paintMarks(painter); });
    addDrawing(*m_plot, cursorLayer, [this](QPainter& painter) { paintCursor(painter); });
}

// Answers ---------------------------------------------------------------------------------------------------------

void ResponsePlot::setAnswer(const LinearAnswer* answer) {
    if (!m_curves->show(answer)) {
        return;
    }
    m_corners.show(answer);
    growRanges();
    m_rest.start();
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
    m_rest.start();
    requestReplot();
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

void ResponsePlot::settle() {
    if (QGuiApplication::mouseButtons() != Qt::NoButton) {
        m_rest.start();
        return;
    }
    const bool wasQuick = m_plot->plottingHints().testFlag(QCP::phFastPolylines);
    const auto before = std::pair(m_gainShown, m_differenceShown);
    m_gainShown = restingGainRange;
    m_differenceShown = restingDifferenceRange;
    growRanges();
    if (wasQuick || before != std::pair(m_gainShown, m_differenceShown)) {
        requestReplot();
    }
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
    show(*m_frame, m_gainShown, gainStepDb, gainLabelSteps, Sign::minusOnly, lineHeight);
    for (QCPAxisRect* rect : {m_frame, m_strip}) {
        setMarks(*rect->axis(QCPAxis::atBottom), frequencyMarks(m_frame->width()));
    }
    show(*m_strip, m_differenceShown, differenceStepDb, differenceLabelSteps, Sign::always, 1.6 * lineHeight);
}

// Looks -----------------------------------------------------------------------------------------------------------

void ResponsePlot::applyTheme() {
    dressFrame(*m_frame);
    dressFrame(*m_strip);
    m_strip->axis(QCPAxis::atLeft)->grid()->setZeroLinePen(QPen(Theme::current().colours().edge, 1.0));
    applyPens();
    divideHeight();
    requestReplot();
}

void ResponsePlot::applyPens() {
    m_curves->applyPens({m_state, m_holdsStock, m_showsDifference});
}

void ResponsePlot::divideHeight() {
    const double scale = Theme::current().textScale();
    const int top = static_cast<int>(std::lround(roomForStrings * scale));
    const int below = roomBelowAxis();
    const int left = verticalLabelWidth();
    const int gap = m_showsDifference ? roomBetween : 0;
    const int inner = std::max(leastInner, height() - top - below - 2 * gap);
    const double strip = m_showsDifference ? std::round(inner * stripShare) : 0.0;
    m_strip->setVisible(m_showsDifference);
    m_frame->setMargins(QMargins(left, top, rightMargin, m_showsDifference ? gap : below));
    m_strip->setMargins(QMargins(left, gap, rightMargin, m_showsDifference ? below : 0));
    const double upper = top + inner - strip + (m_showsDifference ? gap : below);
    const double lower = m_showsDifference ? gap + strip + below : 1.0e-3;
    m_plot->plotLayout()->setRowStretchFactors({upper, lower});
    m_frame->axis(QCPAxis::atBottom)->setTickLabels(!m_showsDifference);
    for (QCPAxis* axis : m_strip->axes()) {
        axis->setVisible(m_showsDifference);
        axis->grid()->setVisible(m_showsDifference);
    }
    for (const auto side : {QCPAxis::atTop, QCPAxis::atRight}) {
        m_frame->axis(side)->grid()->setVisible(false);
        m_strip->axis(side)->grid()->setVisible(false);
    }
    m_plot->plotLayout()->update(QCPLayoutElement::upMargins);
    m_plot->plotLayout()->update(QCPLayoutElement::upLayout);
    applyRanges();
}

void ResponsePlot::setHoldsStock(bool holds) {
    if (holds == m_holdsStock) {
        return;
    }
    m_holdsStock = holds;
    m_corners.setHoldsStock(holds);
    applyPens();
    requestReplot();
    announce();
}

void ResponsePlot::setState(const PlotState& state) {
    if (state == m_state) {
        return;
    }
    m_state = state;
    applyPens();
    requestReplot();
}

void ResponsePlot::setDifferenceShown(bool shown) {
    if (shown == m_showsDifference) {
        return;
    }
    m_showsDifference = shown;
    applyPens();
    divideHeight();
    requestReplot();
}

void ResponsePlot::requestReplot() {
    const bool isDragged = QGuiApplication::mouseButtons() != Qt::NoButton;
    m_plot->setPlottingHint(QCP::phFastPolylines, isDragged);
    if (isVisible()) {
        m_plot->replot(QCustomPlot::rpQueuedReplot);
    }
}

void ResponsePlot::replotNow() {
    m_plot->replot(QCustomPlot::rpImmediateRefresh);
}

void ResponsePlot::replotCursor() {
    if (isVisible()) {
        m_plot->layer(QLatin1String(cursorLayer))->replot();
    }
}

void ResponsePlot::announce() {
    setAccessibleDescription(readingSentence(reading()));
    QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&changed);
}

// Cursor ----------------------------------------------------------------------------------------------------------

void ResponsePlot::setCursorHz(double hz) {
    if (hz == m_cursorHz || !(hz > 0.0)) {
        return;
    }
    m_cursorHz = hz;
    replotCursor();
    announce();
}

void ResponsePlot::moveCursor(double hz) {
    const double kept = std::clamp(hz, lowestHz, highestHz);
    if (kept == m_cursorHz) {
        return;
    }
    setCursorHz(kept);
    emit cursorMoved(kept);
}

void ResponsePlot::pressPointer(const QMouseEvent& event) {
    setFocus(Qt::MouseFocusReason);
    const bool isPress = event.button() == Qt::LeftButton;
    const CornerMark* held = isPress ? m_corners.draggableAt(event.position()) : nullptr;
    if (held != nullptr) {
        m_draggedHz = held->hz;
        m_wasDragged = false;
        return;
    }
    const CornerMark* words = isPress ? m_corners.wordsAt(event.position()) : nullptr;
    if (words != nullptr) {
        pressCorner(*words);
        return;
    }
    followPointer(event);
}

void ResponsePlot::releasePointer() {
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

void ResponsePlot::pressCorner(const CornerMark& corner) {
    const QRect box = m_corners.boxOf(corner).toRect();
    emit cornerPressed({mapToGlobal(box.topLeft()), box.size()});
}

void ResponsePlot::dragCorner(double x) {
    const QRectF frame = frameBox();
    const double hz = m_frame->axis(QCPAxis::atBottom)->pixelToCoord(std::clamp(x, frame.left(), frame.right()));
    m_draggedHz = hz;
    m_corners.hold(hz);
    m_wasDragged = true;
    requestReplot();
    emit cornerDragged(hz);
}

void ResponsePlot::followPointer(const QMouseEvent& event) {
    if (!(event.buttons() & Qt::LeftButton)) {
        return;
    }
    if (m_draggedHz) {
        dragCorner(event.position().x());
        return;
    }
    const QCPAxis* axis = m_frame->axis(QCPAxis::atBottom);
    const double x = event.position().x();
    const double hz = axis->pixelToCoord(x);
    const double reach = axis->pixelToCoord(x + snapPixels) / hz;
    moveCursor(event.modifiers() & Qt::AltModifier ? hz : snappedToString(hz, reach));
}

void ResponsePlot::followWheel(const QWheelEvent& event) {
    m_wheelRest += event.angleDelta().y();
    const int steps = static_cast<int>(m_wheelRest / wheelNotch);
    m_wheelRest -= steps * wheelNotch;
    if (steps != 0) {
        moveCursor(steppedBySemitones(m_cursorHz, steps));
    }
}

void ResponsePlot::keyPressEvent(QKeyEvent* event) {
    const bool isFine = event->modifiers() & Qt::ShiftModifier;
    const double fine = std::exp2(0.1 / 12.0);
    switch (event->key()) {
        case Qt::Key_Right:
            moveCursor(isFine ? m_cursorHz * fine : steppedBySemitones(m_cursorHz, 1));
            return;
        case Qt::Key_Left:
            moveCursor(isFine ? m_cursorHz / fine : steppedBySemitones(m_cursorHz, -1));
            return;
        case Qt::Key_Home:
            moveCursor(lowestHz);
            return;
        case Qt::Key_End:
            moveCursor(highestHz);
            return;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (!m_corners.marks().empty()) {
                pressCorner(m_corners.marks().front());
            }
            return;
        default:
            QWidget::keyPressEvent(event);
    }
}

void ResponsePlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    replotCursor();
}

void ResponsePlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    replotCursor();
}

void ResponsePlot::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    divideHeight();
}

void ResponsePlot::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    divideHeight();
    requestReplot();
}

// What is read from it --------------------------------------------------------------------------------------------

CursorReading ResponsePlot::reading() const {
    CursorReading reading;
    reading.hz = m_cursorHz;
    reading.holdsStock = m_holdsStock;
    reading.hasGhost = m_curves->ghost().has_value();
    reading.stockDb = m_curves->stock() ? gainAt(*m_curves->stock(), m_cursorHz) : std::nullopt;
    reading.nowDb = m_curves->now() ? gainAt(*m_curves->now(), m_cursorHz) : std::nullopt;
    reading.ghostDb = m_curves->ghost() ? gainAt(*m_curves->ghost(), m_cursorHz) : std::nullopt;
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

QStringList ResponsePlot::curvesShown() const {
    return m_curves->namesShown();
}

double ResponsePlot::xOf(double hz) const {
    return m_frame->axis(QCPAxis::atBottom)->coordToPixel(hz);
}

QRectF ResponsePlot::frameBox() const {
    return m_frame->rect();
}

QRectF ResponsePlot::stripBox() const {
    return m_strip->rect();
}

QPointF ResponsePlot::pointOf(double hz, double gainDb) const {
    return {xOf(hz), m_frame->axis(QCPAxis::atLeft)->coordToPixel(gainDb)};
}

// Drawings --------------------------------------------------------------------------------------------------------

void ResponsePlot::paintShade(QPainter& painter) const {
    const QRectF box = frameBox();
    painter.fillRect(QRectF(QPointF(xOf(guitarFromHz), box.top()), QPointF(xOf(guitarToHz), box.bottom())),
                     Theme::current().colours().fretShade);
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
                     Qt::AlignRight | Qt::AlignVCenter, QStringLiteral("Hz, log"));
    if (m_showsDifference) {
        const QString words = m_curves->ghost() && !m_holdsStock ? QStringLiteral("now and ghost less stock")
                                                                 : QStringLiteral("now less stock");
        painter.setPen(theme.colours().ink2);
        painter.drawText(stripBox().adjusted(0.0, 4.0, -7.0, 0.0), Qt::AlignRight | Qt::AlignTop, words);
    }
}

void ResponsePlot::paintMarks(QPainter& painter) {
    m_throwNames.clear();
    if (!m_state.isCurrent) {
        return;
    }
    std::vector<QPolygonF> lines = m_curves->polylines();
    const std::vector<QPolygonF> throws = m_curves->throwLines();
    lines.insert(lines.end(), throws.begin(), throws.end());
    m_corners.paint(painter, frameBox(), lines);
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
    const StringTick* under = stringNear(m_cursorHz, 1.002);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(theme.colours().gridMajor, 1.0));
    painter.drawLine(QPointF(xOf(stringTicks.front().hz), bracket), QPointF(xOf(stringTicks.back().hz), bracket));
    double taken = 0.0;
    for (const StringTick& tick : stringTicks) {
        const double x = std::floor(xOf(tick.hz)) + 0.5;
        painter.setPen(QPen(theme.colours().edge, 1.0));
        painter.drawLine(QPointF(x, bracket - 3.0), QPointF(x, top));
        const bool isUnder = &tick == under;
        painter.setFont(theme.font(TextRole::body, isUnder));
        painter.setPen(isUnder ? theme.colours().ink : theme.colours().ink2);
        const QFontMetricsF metrics(painter.font());
        const double width = metrics.horizontalAdvance(QLatin1String(tick.mark));
        if (x - width / 2.0 < taken + 2.0 && !isUnder) {
            continue;
        }
        painter.drawText(QRectF(x - width, bracket - 4.0 - metrics.height(), 2.0 * width, metrics.height()),
                         Qt::AlignHCenter | Qt::AlignBottom, QLatin1String(tick.mark));
        taken = x + width / 2.0;
    }
    painter.setRenderHint(QPainter::Antialiasing, true);
}

void ResponsePlot::paintCursor(QPainter& painter) const {
    paintStrings(painter);
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box = frameBox();
    const double x = std::floor(xOf(m_cursorHz)) + 0.5;
    const double bottom = m_showsDifference ? stripBox().bottom() : box.bottom();
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(colours.ink, 1.0));
    painter.drawLine(QPointF(x, box.top() - 4.0), QPointF(x, bottom));
    painter.setRenderHint(QPainter::Antialiasing, true);
    const CursorReading read = reading();
    const auto ring = [&](const std::optional<double>& gain, const QColor& colour) {
        const QPointF at = pointOf(m_cursorHz, gain.value_or(0.0));
        if (gain && m_state.isCurrent && box.contains(at)) {
            paintRing(painter, at, QPen(colour));
        }
    };
    ring(read.stockDb, colours.stock);
    if (!m_holdsStock) {
        ring(read.nowDb, colours.now);
    }
    paintStamp(painter, box, m_state, m_curves->stock().has_value());
    if (hasFocus()) {
        paintFocus(painter, QRectF(rect()));
    }
}

}  // namespace ohmwright
