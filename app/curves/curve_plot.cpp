// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_plot.h"

#include "app/look/spoken_events.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"

#include <qcustomplot.h>

#include <QAccessible>
#include <QAccessibleWidget>
#include <QContextMenuEvent>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QNativeGestureEvent>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// The pointer takes a place on the axis from this far [px].
constexpr double snapPixels = 4.0;
/// How long a value must rest before the axes let go of what they have grown.
constexpr int restMilliseconds = 800;
constexpr int wheelNotch = 120;
/// Of the axis' length in octaves, a step.
constexpr double zoomStep = 1.25;
/// The narrowest part of a frequency axis: an octave.
constexpr double leastZoom = 2.0;
/// So near to the whole axis it is the whole axis.
constexpr double almost = 0.999;

}  // namespace

/// Says its cursor's read-out as its value; the cursor's place is the number, which can be set.
class CurvePlotAccessible : public QAccessibleWidget, public QAccessibleValueInterface {
public:
    explicit CurvePlotAccessible(CurvePlot* plot) : QAccessibleWidget(plot, QAccessible::Chart), m_curves(plot) {}

    QString text(QAccessible::Text kind) const override {
        if (kind == QAccessible::Value || kind == QAccessible::Description) {
            return m_curves->cursorSentence();
        }
        return QAccessibleWidget::text(kind);
    }
    void* interface_cast(QAccessible::InterfaceType type) override {
        return type == QAccessible::ValueInterface ? static_cast<QAccessibleValueInterface*>(this)
                                                   : QAccessibleWidget::interface_cast(type);
    }
    [[nodiscard]] QVariant currentValue() const override { return m_curves->cursorAt(); }
    void setCurrentValue(const QVariant& value) override { m_curves->moveCursor(value.toDouble()); }
    [[nodiscard]] QVariant minimumValue() const override {
        const std::optional<PlotRange> way = m_curves->cursorWay();
        return way ? QVariant(way->low) : QVariant();
    }
    [[nodiscard]] QVariant maximumValue() const override {
        const std::optional<PlotRange> way = m_curves->cursorWay();
        return way ? QVariant(way->high) : QVariant();
    }
    [[nodiscard]] QVariant minimumStepSize() const override { return {}; }

private:
    CurvePlot* m_curves;
};

namespace {

QAccessibleInterface* plotAccessible(const QString& key, QObject* object) {
    Q_UNUSED(key)
    auto* plot = qobject_cast<CurvePlot*>(object);
    return plot ? new CurvePlotAccessible(plot) : nullptr;
}

}  // namespace

CurvePlot::CurvePlot(const QString& name, QWidget* parent) : QWidget(parent), m_plot(new QCustomPlot(this)) {
    static const bool isAnnounced = (QAccessible::installFactory(plotAccessible), true);
    Q_UNUSED(isAnnounced)
    setAccessibleName(name);
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", false);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_plot);
    dressPlot(*m_plot);
    m_frame = addFrame(*m_plot);
    m_rest.setSingleShot(true);
    m_rest.setInterval(restMilliseconds);
    connect(&m_rest, &QTimer::timeout, this, &CurvePlot::settle);
    m_plot->installEventFilter(this);
    connect(m_plot, &QCustomPlot::mousePress, this, [this](QMouseEvent* event) {
        setFocus(Qt::MouseFocusReason);
        if (!takesPress(*event)) {
            followPointer(*event);
            if (event->button() == Qt::LeftButton) {
                emit cursorHeld(true);
            }
        }
    });
    connect(m_plot, &QCustomPlot::mouseRelease, this, [this](QMouseEvent* event) {
        emit cursorHeld(false);
        takeRelease(*event);
    });
    connect(m_plot, &QCustomPlot::mouseMove, this, [this](QMouseEvent* event) {
        if (!takesMove(*event)) {
            followPointer(*event);
        }
    });
    connect(m_plot, &QCustomPlot::mouseWheel, this, [this](QWheelEvent* event) { followWheel(*event); });
    connect(&Theme::current(), &Theme::changed, this, &CurvePlot::dressUp);
}

// What a plot of its own may leave as it is ----------------------------------------------------------------------

void CurvePlot::dressFrames() {
    dressFrame(*m_frame);
}

double CurvePlot::snapped(double at, double within, bool isFree) const {
    Q_UNUSED(within)
    Q_UNUSED(isFree)
    return at;
}

bool CurvePlot::takesPress(const QMouseEvent& event) {
    Q_UNUSED(event)
    return false;
}

bool CurvePlot::takesMove(const QMouseEvent& event) {
    Q_UNUSED(event)
    return false;
}

void CurvePlot::takeRelease(const QMouseEvent& event) {
    Q_UNUSED(event)
}

bool CurvePlot::takesKey(const QKeyEvent& event) {
    Q_UNUSED(event)
    return false;
}

// Looks -----------------------------------------------------------------------------------------------------------

void CurvePlot::dressUp() {
    dressFrames();
    applyPens();
    layOut();
    requestReplot();
}

void CurvePlot::setHoldsStock(bool holds) {
    if (holds == m_holdsStock) {
        return;
    }
    m_holdsStock = holds;
    applyPens();
    requestReplot();
    announce();
}

void CurvePlot::setState(const PlotState& state) {
    if (state == m_state) {
        return;
    }
    m_state = state;
    applyPens();
    requestReplot();
}

void CurvePlot::setNote(const QString& sentence) {
    if (sentence != m_note) {
        m_note = sentence;
        requestReplot();
        emit readingChanged();
    }
}

QCPGraph* CurvePlot::addCurve() {
    QCPGraph* graph = m_plot->addGraph(m_frame->axis(QCPAxis::atBottom), m_frame->axis(QCPAxis::atLeft));
    graph->setLayer(QStringLiteral("main"));
    graph->setSelectable(QCP::stNone);
    return graph;
}

/// Alone, stock is as bold as now.
QPen CurvePlot::heldStockPen() const {
    QPen pen = Theme::current().stockPen();
    if (m_holdsStock) {
        pen.setWidthF(Theme::current().nowPen().widthF());
    }
    return penFor(pen, m_state);
}

/// Without room for all of it, it stands in the cursor column alone: it must not cover the marks.
void CurvePlot::paintNote(QPainter& painter) const {
    constexpr double inset = 6.0;
    constexpr double mostOfFrame = 0.8;
    painter.setFont(Theme::current().font(TextRole::caption));
    const NotePlace place = notePlace();
    const QRectF box = place.box.adjusted(inset, 2.0, -inset, -2.0);
    if (!m_note.isEmpty() && QFontMetricsF(painter.font()).horizontalAdvance(m_note) <= mostOfFrame * box.width()) {
        painter.setPen(Theme::current().colours().ink3);
        paintWords(painter, box, static_cast<int>(Qt::AlignRight | place.line), m_note);
    }
}

void CurvePlot::paintOver(QPainter& painter, bool hasAnswer) const {
    if (hasAnswer && m_state.isCurrent) {
        paintNote(painter);
    }
    paintStamp(painter, frameBox(), m_state, hasAnswer);
    if (hasFocus()) {
        paintFocus(painter, QRectF(rect()));
    }
}

void CurvePlot::paintCursorLine(QPainter& painter, double bottom) const {
    constexpr double above = 4.0;
    const QRectF box = frameBox();
    const double x = std::floor(xOf(m_cursorAt)) + 0.5;
    if (x < box.left() || x > box.right() + 1.0) {
        return;
    }
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(Theme::current().colours().ink, 1.0));
    painter.drawLine(QPointF(x, box.top() - above), QPointF(x, bottom));
    painter.setRenderHint(QPainter::Antialiasing, true);
}

void CurvePlot::requestReplot() {
    m_plot->setPlottingHint(QCP::phFastPolylines, QGuiApplication::mouseButtons() != Qt::NoButton);
    if (isVisible()) {
        m_plot->replot(QCustomPlot::rpQueuedReplot);
    }
}

void CurvePlot::replotNow() {
    m_plot->replot(QCustomPlot::rpImmediateRefresh);
}

void CurvePlot::replotCursor() {
    if (isVisible()) {
        m_plot->layer(QLatin1String(cursorLayer))->replot();
    }
}

void CurvePlot::restLater() {
    m_rest.start();
}

void CurvePlot::settle() {
    if (QGuiApplication::mouseButtons() != Qt::NoButton) {
        m_rest.start();
        return;
    }
    const bool wasQuick = m_plot->plottingHints().testFlag(QCP::phFastPolylines);
    if (letRangesGo() || wasQuick) {
        requestReplot();
    }
}

// Cursor ----------------------------------------------------------------------------------------------------------

void CurvePlot::setCursorAt(double at) {
    if (at == m_cursorAt || !std::isfinite(at)) {
        return;
    }
    m_cursorAt = at;
    keepCursorInSight();
    replotCursor();
    announce();
}

/// A zoomed axis goes with the cursor that leaves it.
void CurvePlot::keepCursorInSight() {
    const bool isInside = m_cursorAt >= m_hzShown.low && m_cursorAt <= m_hzShown.high;
    if (isOverHz() && isZoomed() && !isInside) {
        const double ratio = m_hzShown.high / m_hzShown.low;
        showHz(m_cursorAt < m_hzShown.low ? PlotRange{m_cursorAt, m_cursorAt * ratio}
                                          : PlotRange{m_cursorAt / ratio, m_cursorAt});
    }
}

void CurvePlot::moveCursor(double at) {
    const std::optional<PlotRange> way = cursorWay();
    if (!way) {
        return;
    }
    const double kept = std::clamp(at, way->low, way->high);
    if (kept != m_cursorAt) {
        setCursorAt(kept);
        emit cursorMoved(kept);
    }
}

void CurvePlot::announce() {
    setAccessibleDescription(cursorSentence());
    QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
    tellListeners(changed);
    QAccessibleValueChangeEvent moved(this, m_cursorAt);
    tellListeners(moved);
    emit readingChanged();
}

bool CurvePlot::isZoomed() const {
    return m_hzShown != wholeHz;
}

void CurvePlot::showHz(const PlotRange& range) {
    const double widest = wholeHz.high / wholeHz.low;
    const double ratio = std::clamp(range.high / range.low, leastZoom, widest);
    if (!(range.low > 0.0) || !std::isfinite(ratio)) {
        return;
    }
    const double low = std::clamp(range.low, wholeHz.low, std::max(wholeHz.low, wholeHz.high / ratio));
    PlotRange kept{low, low * ratio};
    if (ratio > widest * almost) {
        kept = wholeHz;
    }
    if (kept == m_hzShown) {
        return;
    }
    m_hzShown = kept;
    layOut();
    requestReplot();
    emit zoomed();
}

void CurvePlot::zoomAbout(double hz, double factor) {
    if (isOverHz()) {
        showHz({hz / std::pow(hz / m_hzShown.low, 1.0 / factor), hz * std::pow(m_hzShown.high / hz, 1.0 / factor)});
    }
}

QString CurvePlot::hzWords(const QString& words) const {
    return isZoomed() ? tr("%1, %2 to %3, 0 shows all")
                            .arg(words, QString::fromStdString(formatFrequency(m_hzShown.low)),
                                 QString::fromStdString(formatFrequency(m_hzShown.high)))
                      : words;
}

double CurvePlot::hzUnder(double x) const {
    const QRectF box = frameBox();
    return m_frame->axis(QCPAxis::atBottom)->pixelToCoord(std::clamp(x, box.left(), box.right()));
}

void CurvePlot::followPointer(const QMouseEvent& event) {
    if (!(event.buttons() & Qt::LeftButton)) {
        return;
    }
    const QCPAxis* axis = m_frame->axis(QCPAxis::atBottom);
    const double x = event.position().x();
    const double at = fromAxis(axis->pixelToCoord(x));
    const double within = std::abs(fromAxis(axis->pixelToCoord(x + snapPixels)) - at);
    moveCursor(snapped(at, within, event.modifiers() & Qt::AltModifier));
}

void CurvePlot::followWheel(const QWheelEvent& event) {
    m_wheelRest += event.angleDelta().y();
    const int steps = static_cast<int>(m_wheelRest / wheelNotch);
    m_wheelRest -= steps * wheelNotch;
    if (event.modifiers() & Qt::ControlModifier) {
        if (steps != 0) {
            zoomAbout(hzUnder(event.position().x()), std::pow(zoomStep, steps));
        }
        return;
    }
    if (steps != 0) {
        moveCursor(stepped(steps, event.modifiers() & Qt::ShiftModifier));
    }
}

void CurvePlot::keyPressEvent(QKeyEvent* event) {
    const std::optional<PlotRange> way = cursorWay();
    const bool isFine = event->modifiers() & Qt::ShiftModifier;
    if (takesKey(*event)) {
        return;
    }
    const bool isPlain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier));
    if (isOverHz() && isPlain && (event->key() == Qt::Key_Plus || event->key() == Qt::Key_Minus)) {
        zoomAbout(std::clamp(m_cursorAt, m_hzShown.low, m_hzShown.high),
                  event->key() == Qt::Key_Plus ? zoomStep : 1.0 / zoomStep);
        return;
    }
    if (isOverHz() && isPlain && event->key() == Qt::Key_0) {
        showHz(wholeHz);
        return;
    }
    if (way && event->key() == Qt::Key_Right) {
        moveCursor(stepped(1, isFine));
    } else if (way && event->key() == Qt::Key_Left) {
        moveCursor(stepped(-1, isFine));
    } else if (way && event->key() == Qt::Key_Home) {
        moveCursor(way->low);
    } else if (way && event->key() == Qt::Key_End) {
        moveCursor(way->high);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void CurvePlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    replotCursor();
    emit focused();
}

void CurvePlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    replotCursor();
}

bool CurvePlot::event(QEvent* event) {
    if (event->type() == QEvent::NativeGesture) {
        const auto* gesture = static_cast<QNativeGestureEvent*>(event);
        if (gesture->gestureType() == Qt::ZoomNativeGesture) {
            zoomAbout(hzUnder(gesture->position().x()), 1.0 + gesture->value());
            return true;
        }
    }
    return QWidget::event(event);
}

void CurvePlot::contextMenuEvent(QContextMenuEvent* event) {
    emit menuAsked(event->reason() == QContextMenuEvent::Keyboard ? mapToGlobal(frameBox().center().toPoint())
                                                                  : event->globalPos());
}

/// The library's widget takes a double click for a press of its own.
bool CurvePlot::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_plot && event->type() == QEvent::MouseButtonDblClick && isOverHz() && isZoomed()) {
        showHz(wholeHz);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void CurvePlot::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layOut();
}

void CurvePlot::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    layOut();
    requestReplot();
}

double CurvePlot::xOf(double at) const {
    return m_frame->axis(QCPAxis::atBottom)->coordToPixel(toAxis(at));
}

QRectF CurvePlot::frameBox() const {
    return m_frame->rect();
}

}  // namespace ohmwright
