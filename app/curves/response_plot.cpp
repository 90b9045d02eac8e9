// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_plot.h"

#include "app/curves/curve_thinning.h"
#include "app/curves/string_ticks.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"

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
/// Half of the diamond's 14 px (look tokens, plot.markers).
constexpr double diamondReach = 7.0;
/// The pointer takes the filled corner from this far, along and across together [px].
constexpr double cornerReach = 14.0;
/// The pointer takes a string from this far [px].
constexpr double snapPixels = 4.0;
/// How long a value must rest before the axes let go of what they have grown.
constexpr int restMilliseconds = 800;
constexpr int wheelNotch = 120;
/// Of the grey that two stock units differ by.
constexpr float spreadOpacity = 0.28F;

constexpr std::array gainLabelSteps{6.0, 12.0, 24.0, 60.0, 120.0};
constexpr std::array differenceLabelSteps{3.0, 6.0, 12.0, 24.0, 60.0, 120.0};

struct HzLabel {
    double hz;
    const char* text;
};
constexpr std::array<HzLabel, 10> hzLabels{{{20, "20"},
                                            {50, "50"},
                                            {100, "100"},
                                            {200, "200"},
                                            {500, "500"},
                                            {1000, "1k"},
                                            {2000, "2k"},
                                            {5000, "5k"},
                                            {10000, "10k"},
                                            {20000, "20k"}}};

/// 1-2-5 when there is room for ten labels over `pixels`, else the decades.
AxisMarks frequencyMarks(double pixels) {
    constexpr double roomPerDigit = 11.5;
    const bool isTight = pixels < roomPerDigit * Theme::current().pixels(TextRole::body) * 2.2;
    AxisMarks marks;
    for (const HzLabel& label : hzLabels) {
        const bool isDecade = label.text[0] == '1';
        if (!isTight || isDecade) {
            marks.at.push_back(label.hz);
            marks.labels.push_back(QLatin1String(label.text));
        }
    }
    for (double decade = 10.0; decade < highestHz; decade *= 10.0) {
        for (int digit = 1; digit <= 9; ++digit) {
            const double hz = decade * digit;
            const bool isLabelled = std::find(marks.at.begin(), marks.at.end(), hz) != marks.at.end();
            if (hz > lowestHz && hz < highestHz && !isLabelled) {
                marks.between.push_back(hz);
            }
        }
    }
    return marks;
}

AxisMarks decibelMarks(const PlotRange& range, double gridStep, double labelled, Sign sign) {
    AxisMarks marks;
    marks.at = multiplesIn(range, labelled);
    for (const double value : marks.at) {
        marks.labels.push_back(QString::fromStdString(formatFixed(value, 0, sign)));
    }
    marks.between = multiplesIn(range, gridStep);
    return marks;
}

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

/// A twentieth of a pixel on a full screen (12 px a dB): nobody sees what is left out.
constexpr double unseenDb = 0.004;

void drawResponse(QCPGraph& graph, std::span<const double> hz, std::span<const double> decibels) {
    std::vector<double> decades(hz.size());
    std::transform(hz.begin(), hz.end(), decades.begin(), [](double each) { return std::log10(each); });
    std::vector<double> x;
    std::vector<double> y;
    for (const std::size_t i : pointsToDraw(decades, decibels, unseenDb)) {
        x.push_back(hz[i]);
        y.push_back(decibels[i]);
    }
    setPoints(graph, x, y);
}

/// The curve as it is drawn [px].
QPolygonF polylineOf(const QCPGraph& graph) {
    QPolygonF line;
    for (const QCPGraphData& point : *graph.data()) {
        if (std::isfinite(point.value)) {
            line << QPointF(graph.keyAxis()->coordToPixel(point.key), graph.valueAxis()->coordToPixel(point.value));
        }
    }
    return line;
}

bool isSame(const std::optional<ResponseCurve>& shown, const ResponseCurve* wanted) {
    return shown.has_value() == (wanted != nullptr) &&
           (!wanted || (shown->hz == wanted->hz && shown->gainDb == wanted->gainDb));
}

std::optional<ResponseCurve> copyOf(const ResponseCurve* curve) {
    return curve ? std::optional(*curve) : std::nullopt;
}

}  // namespace

ResponsePlot::ResponsePlot(QWidget* parent) : QWidget(parent), m_plot(new QCustomPlot(this)) {
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
    addCurves();
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

void ResponsePlot::addCurves() {
    const auto add = [this](QCPAxisRect* rect) {
        QCPGraph* graph = m_plot->addGraph(rect->axis(QCPAxis::atBottom), rect->axis(QCPAxis::atLeft));
        graph->setLayer(QStringLiteral("main"));
        graph->setSelectable(QCP::stNone);
        return graph;
    };
    // Later ones lie above earlier ones: bands, stock, ghost, now.
    m_bandLow = add(m_frame);
    m_bandHigh = add(m_frame);
    m_spreadLow = add(m_strip);
    m_spreadHigh = add(m_strip);
    for (QCPGraph* edge : {m_bandLow, m_bandHigh, m_spreadLow, m_spreadHigh}) {
        edge->setPen(Qt::NoPen);
    }
    m_bandHigh->setChannelFillGraph(m_bandLow);
    m_spreadHigh->setChannelFillGraph(m_spreadLow);
    m_stock = add(m_frame);
    m_ghost = add(m_frame);
    m_now = add(m_frame);
    m_ghostLess = add(m_strip);
    m_nowLess = add(m_strip);
}

void ResponsePlot::addDrawings() {
    addDrawing(*m_plot, "background", [this](QPainter& painter) { paintShade(painter); });
    addDrawing(*m_plot, "axes", [this](QPainter& painter) { paintAxisWords(painter); });
    addDrawing(*m_plot, marksLayer, [this](QPainter& painter) { paintCorners(painter); });
    addDrawing(*m_plot, cursorLayer, [this](QPainter& painter) { paintCursor(painter); });
}

// Answers ---------------------------------------------------------------------------------------------------------

void ResponsePlot::setAnswer(const LinearAnswer* answer) {
    const ResponseCurve* stock = answer ? &answer->stock.response : nullptr;
    const ResponseCurve* now = answer ? &answer->now.response : nullptr;
    const ResponseCurve* ghost = answer && answer->ghost ? &answer->ghost->response : nullptr;
    // Moving the cursor asks for new figures of the same curves; they need not be drawn again.
    const bool isOld = isSame(m_stockCurve, stock) && isSame(m_nowCurve, now) && isSame(m_ghostCurve, ghost) &&
                       m_nowBand == (answer ? answer->nowBandDb : std::vector<double>());
    m_stockCurve = copyOf(stock);
    m_nowCurve = copyOf(now);
    m_ghostCurve = copyOf(ghost);
    if (isOld) {
        return;
    }
    m_nowBand = answer ? answer->nowBandDb : std::vector<double>();
    m_stockBand = answer ? answer->stockBandDb : std::vector<double>();
    m_corners.clear();
    if (answer) {
        const std::optional<Corner> nowCorner = cornerOf(answer->now, true);
        const std::optional<Corner> stockCorner = cornerOf(answer->stock, false);
        if (nowCorner) {
            m_corners.push_back(*nowCorner);
        }
        if (stockCorner) {
            m_corners.push_back(*stockCorner);
        }
    }
    fillCurves();
    growRanges();
    m_rest.start();
    requestReplot();
    announce();
}

std::optional<ResponsePlot::Corner> ResponsePlot::cornerOf(const LinearState& state, bool isNow) const {
    const Figure* tag = findFigure(state.figures, "gain_leg_corner");
    if (!tag || !tag->value) {
        return std::nullopt;
    }
    const std::optional<double> gain = gainAt(state.response, *tag->value);
    if (!gain) {
        return std::nullopt;
    }
    return Corner{isNow, *tag->value, *gain,
                  QStringLiteral("corner %1").arg(QString::fromStdString(formatFrequency(*tag->value))), std::nullopt};
}

void ResponsePlot::fillCurves() {
    const auto fill = [](QCPGraph& graph, const std::optional<ResponseCurve>& curve) {
        if (curve) {
            drawResponse(graph, curve->hz, curve->gainDb);
        } else {
            clearPoints(graph);
        }
    };
    fill(*m_stock, m_stockCurve);
    fill(*m_now, m_nowCurve);
    fill(*m_ghost, m_ghostCurve);
    const auto fillLess = [this](QCPGraph& graph, const std::optional<ResponseCurve>& curve) {
        if (!curve || !m_stockCurve) {
            clearPoints(graph);
            return std::vector<double>();
        }
        std::vector<double> difference = differenceDb(*curve, *m_stockCurve);
        drawResponse(graph, curve->hz, difference);
        return difference;
    };
    m_nowDifference = fillLess(*m_nowLess, m_nowCurve);
    m_ghostDifference = fillLess(*m_ghostLess, m_ghostCurve);
    fillBands();
}

void ResponsePlot::fillBands() {
    const auto fill = [](QCPGraph& low, QCPGraph& high, const std::optional<ResponseCurve>& curve,
                         const std::vector<double>& band, bool aboutCurve) {
        if (!curve || band.size() != curve->hz.size()) {
            clearPoints(low);
            clearPoints(high);
            return;
        }
        std::vector<double> under;
        std::vector<double> over;
        for (std::size_t i = 0; i < band.size(); ++i) {
            const double middle = aboutCurve ? curve->gainDb[i] : 0.0;
            under.push_back(middle - band[i]);
            over.push_back(middle + band[i]);
        }
        setPoints(low, curve->hz, under);
        setPoints(high, curve->hz, over);
    };
    fill(*m_bandLow, *m_bandHigh, m_nowCurve, m_nowBand, true);
    fill(*m_spreadLow, *m_spreadHigh, m_stockCurve, m_stockBand, false);
}

// Ranges ----------------------------------------------------------------------------------------------------------

void ResponsePlot::growRanges() {
    const auto extent = [](const std::optional<ResponseCurve>& curve) {
        return curve ? extentBetween(curve->hz, curve->gainDb, lowestHz, guitarToHz) : std::nullopt;
    };
    std::vector<PlotRange> others;
    for (const auto* curve : {&m_nowCurve, &m_ghostCurve}) {
        if (const auto values = extent(*curve)) {
            others.push_back(*values);
        }
    }
    if (const auto stock = extent(m_stockCurve)) {
        m_gainShown = gainRange(m_gainShown, *stock, others);
    }
    const auto growDifference = [this](const std::optional<ResponseCurve>& curve, std::span<const double> values) {
        if (const auto span = curve ? extentBetween(curve->hz, values, lowestHz, guitarToHz) : std::nullopt) {
            m_differenceShown = differenceRange(m_differenceShown, *span);
        }
    };
    growDifference(m_nowCurve, m_nowDifference);
    growDifference(m_ghostCurve, m_ghostDifference);
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
    const Theme& theme = Theme::current();
    QPen stock = theme.stockPen();
    if (m_holdsStock) {
        stock.setWidthF(theme.nowPen().widthF());
    }
    m_stock->setPen(penFor(stock, m_state));
    m_now->setPen(penFor(theme.nowPen(), m_state));
    m_ghost->setPen(penFor(theme.ghostPen(), m_state));
    QPen nowLess = theme.nowPen();
    nowLess.setWidthF(2.2);
    m_nowLess->setPen(penFor(nowLess, m_state));
    m_ghostLess->setPen(penFor(theme.ghostPen(), m_state));
    QColor spread = theme.colours().stock;
    spread.setAlphaF(spreadOpacity);
    m_bandHigh->setBrush(m_state.isCurrent ? QBrush(theme.colours().band) : QBrush(Qt::NoBrush));
    m_spreadHigh->setBrush(m_state.isCurrent ? QBrush(spread) : QBrush(Qt::NoBrush));
    for (QCPGraph* graph : {m_now, m_ghost, m_nowLess, m_ghostLess, m_bandLow, m_bandHigh}) {
        graph->setVisible(!m_holdsStock);
    }
    for (QCPGraph* graph : {m_spreadLow, m_spreadHigh}) {
        graph->setVisible(!m_holdsStock && m_showsDifference);
    }
    m_nowLess->setVisible(!m_holdsStock && m_showsDifference);
    m_ghostLess->setVisible(!m_holdsStock && m_showsDifference);
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
    const auto held =
        std::find_if(m_corners.begin(), m_corners.end(), [](const Corner& corner) { return corner.isNow; });
    if (event.button() == Qt::LeftButton && held != m_corners.end() && !m_holdsStock) {
        const QPointF off = event.position() - pointOf(held->hz, held->gainDb);
        if (std::abs(off.x()) + std::abs(off.y()) <= cornerReach) {
            m_draggedHz = held->hz;
            m_wasDragged = false;
            return;
        }
    }
    const auto words = std::find_if(m_corners.begin(), m_corners.end(), [&](const Corner& corner) {
        return corner.label && corner.label->box.contains(event.position());
    });
    if (event.button() == Qt::LeftButton && words != m_corners.end()) {
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
    requestReplot();
    if (!m_wasDragged && !m_corners.empty()) {
        pressCorner(m_corners.front());
    }
}

void ResponsePlot::pressCorner(const Corner& corner) {
    const QRectF diamond(pointOf(corner.hz, corner.gainDb) - QPointF(cornerReach, cornerReach),
                         QSizeF(2.0 * cornerReach, 2.0 * cornerReach));
    const QRect box = (corner.label ? diamond.united(corner.label->box) : diamond).toRect();
    emit cornerPressed({mapToGlobal(box.topLeft()), box.size()});
}

void ResponsePlot::dragCorner(double x) {
    const QRectF frame = frameBox();
    const double hz = m_frame->axis(QCPAxis::atBottom)->pixelToCoord(std::clamp(x, frame.left(), frame.right()));
    m_draggedHz = hz;
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
            if (!m_corners.empty()) {
                pressCorner(m_corners.front());
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
    reading.hasGhost = m_ghostCurve.has_value();
    reading.stockDb = m_stockCurve ? gainAt(*m_stockCurve, m_cursorHz) : std::nullopt;
    reading.nowDb = m_nowCurve ? gainAt(*m_nowCurve, m_cursorHz) : std::nullopt;
    reading.ghostDb = m_ghostCurve ? gainAt(*m_ghostCurve, m_cursorHz) : std::nullopt;
    return reading;
}

QStringList ResponsePlot::cornerWords() const {
    QStringList words;
    for (const Corner& corner : m_corners) {
        if (corner.label) {
            words << corner.words;
        }
    }
    return words;
}

std::vector<QRectF> ResponsePlot::cornerBoxes() const {
    std::vector<QRectF> boxes;
    for (const Corner& corner : m_corners) {
        if (corner.label) {
            boxes.push_back(corner.label->box);
        }
    }
    return boxes;
}

QStringList ResponsePlot::curvesShown() const {
    QStringList names;
    const auto addIf = [&names](const QCPGraph* graph, const char* name) {
        if (graph->visible() && !graph->data()->isEmpty()) {
            names << QLatin1String(name);
        }
    };
    addIf(m_stock, "stock");
    addIf(m_ghost, "ghost");
    addIf(m_now, "now");
    return names;
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
        const QString words = m_ghostCurve && !m_holdsStock ? QStringLiteral("now and ghost less stock")
                                                            : QStringLiteral("now less stock");
        painter.setPen(theme.colours().ink2);
        painter.drawText(stripBox().adjusted(0.0, 4.0, -7.0, 0.0), Qt::AlignRight | Qt::AlignTop, words);
        if (!m_stockBand.empty() && !m_holdsStock && m_state.isCurrent) {
            painter.drawText(stripBox().adjusted(0.0, 0.0, -7.0, -3.0), Qt::AlignRight | Qt::AlignBottom,
                             QStringLiteral("grey: spread of stock"));
        }
    }
}

void ResponsePlot::placeCorners() {
    std::vector<QPolygonF> lines;
    for (const QCPGraph* graph : {m_stock, m_ghost, m_now}) {
        if (graph->visible()) {
            lines.push_back(polylineOf(*graph));
        }
    }
    std::vector<CornerLabelRequest> requests;
    std::vector<Corner*> asked;
    for (Corner& corner : m_corners) {
        corner.label.reset();
        const bool isTwin =
            !corner.isNow && !m_holdsStock && m_corners.front().isNow && m_corners.front().words == corner.words;
        if (isTwin || (m_holdsStock && corner.isNow)) {
            continue;
        }
        const QFontMetricsF metrics(Theme::current().font(TextRole::body, corner.isNow));
        requests.push_back(
            {pointOf(corner.hz, corner.gainDb), {metrics.horizontalAdvance(corner.words) + 1.0, metrics.height()}});
        asked.push_back(&corner);
    }
    const auto placed = placeLabels(frameBox(), requests, lines);
    for (std::size_t i = 0; i < placed.size(); ++i) {
        asked[i]->label = placed[i];
    }
}

void ResponsePlot::paintCorners(QPainter& painter) {
    if (!m_state.isCurrent) {
        return;
    }
    placeCorners();
    const ThemeColours& colours = Theme::current().colours();
    painter.setClipRect(frameBox().adjusted(-diamondReach, -diamondReach, diamondReach, diamondReach));
    for (const Corner& corner : m_corners) {
        if (!corner.label) {
            continue;
        }
        painter.setPen(QPen(corner.isNow ? colours.now : colours.stock, 1.3));
        painter.setBrush(Qt::NoBrush);
        const QPointF from = pointOf(corner.hz, corner.gainDb);
        painter.drawPolyline(QPolygonF{{from, corner.label->elbow, corner.label->leaderEnd}});
        painter.setFont(Theme::current().font(TextRole::body, corner.isNow));
        painter.drawText(corner.label->box, Qt::AlignLeft | Qt::AlignVCenter, corner.words);
    }
    // The filled diamond above the hollow one, where both stand at one place.
    for (auto corner = m_corners.rbegin(); corner != m_corners.rend(); ++corner) {
        if (m_holdsStock && corner->isNow) {
            continue;
        }
        // A dragged corner leaves its curve: what it will be is not known before the answer.
        const QPointF at = pointOf(corner->isNow && m_draggedHz ? *m_draggedHz : corner->hz, corner->gainDb);
        const double reach = corner->isNow ? diamondReach + 1.0 : diamondReach;
        painter.setPen(corner->isNow ? QPen(colours.canvas, 1.5) : QPen(colours.stock, 1.6));
        painter.setBrush(corner->isNow ? colours.now : colours.canvas);
        painter.drawPolygon(QPolygonF{
            {at.x(), at.y() - reach}, {at.x() + reach, at.y()}, {at.x(), at.y() + reach}, {at.x() - reach, at.y()}});
    }
    painter.setClipping(false);
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
    paintStamp(painter, box, m_state, m_stockCurve.has_value());
    if (hasFocus()) {
        paintFocus(painter, QRectF(rect()));
    }
}

}  // namespace ohmwright
