// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_view.h"

#include "app/look/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr double hitRadius = 22.0;  ///< 44 px across (look tokens `hit`).
constexpr int dragFrom = 5;
constexpr double around = 24.0;  ///< Ground seen around the board.

}  // namespace

BoardView::BoardView(QWidget* parent) : PanView(*new QGraphicsScene, parent) {
    scene()->setParent(this);
    // Rings and flags stand in the view, not on the sheet: a moved sheet is painted whole.
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    setAccessibleName(tr("Board"));
    setBackgroundRole(QPalette::Window);
    m_pulse.setInterval(std::max(1, probePulseMilliseconds() / pulseSteps));
    connect(&m_pulse, &QTimer::timeout, this, [this] {
        m_pulseStep = (m_pulseStep + 1) % pulseSteps;
        viewport()->update();
    });
    connect(&Theme::current(), &Theme::changed, this, [this] { viewport()->update(); });
}

// --- what is shown -----------------------------------------------------------------------------------------------

void BoardView::showSheet(BoardSheet sheet, std::shared_ptr<const Circuit> circuit, const BodyLooks& looks) {
    const bool isAnother = sheet.width != m_sheet.width || sheet.height != m_sheet.height ||
                           sheet.ground != m_sheet.ground || sheet.side != m_sheet.side;
    m_sheet = std::move(sheet);
    m_circuit = std::move(circuit);
    m_looks = looks;
    if (isAnother) {
        const double room = std::max(m_sheet.width, m_sheet.height);
        scene()->setSceneRect(-room, -room, m_sheet.width + 2.0 * room, m_sheet.height + 2.0 * room);
        showWhole();
    }
    viewport()->update();
}

void BoardView::showPicture(std::shared_ptr<const PhotoPicture> picture) {
    m_picture = std::move(picture);
    viewport()->update();
}

void BoardView::showHeat(std::map<Leg, int> times) {
    m_heat = std::move(times);
    viewport()->update();
}

void BoardView::setSelected(const PartId& part, const std::optional<Leg>& leg) {
    const bool isAnother = m_leg != leg;
    m_part = part;
    m_leg = leg;
    const PlacedLeg* placed = leg ? m_sheet.find(*leg) : nullptr;
    if (isAnother && placed != nullptr && placed->place != LegPlace::unknown && !showsWhole()) {
        constexpr int room = 60;
        ensureVisible(QRectF(placed->at.x, placed->at.y, 1.0, 1.0), room, room);
    }
    viewport()->update();
}

void BoardView::showProbes(const ShownProbe& red, const ShownProbe& black) {
    m_red = red;
    m_black = black;
    followPulse();
    viewport()->update();
}

void BoardView::setBench(bool isBench) {
    m_isBench = isBench;
    setFocusPolicy(isBench ? Qt::NoFocus : Qt::StrongFocus);
}

void BoardView::setKeepsStill(bool still) {
    m_keepsStill = still;
    followPulse();
    viewport()->update();
}

void BoardView::followPulse() {
    const bool isShown = (m_red.leg && placeOf(*m_red.leg)) || (m_black.leg && placeOf(*m_black.leg));
    if (isShown && !m_keepsStill && isVisible()) {
        m_pulse.start();
    } else {
        m_pulse.stop();
        m_pulseStep = 0;
    }
}

// --- where things are --------------------------------------------------------------------------------------------

QRectF BoardView::whole() const {
    if (m_sheet.width <= 0.0) {
        return {};
    }
    const double room = around * std::max(m_sheet.width, m_sheet.height) / 1000.0;
    return QRectF(0.0, 0.0, m_sheet.width, m_sheet.height).adjusted(-room, -room, room, room);
}

double BoardView::largestFit() const {
    return m_sheet.ground == BoardSheet::Ground::drawn ? 1.5 : 4.0;
}

std::pair<double, double> BoardView::zoomLimits() const {
    return {fitScale(), std::max(4.0, 4.0 * fitScale())};
}

QPointF BoardView::onView(const BoardPoint& at) const {
    return viewportTransform().map(QPointF(at.x, at.y));
}

BoardPoint BoardView::sheetPoint(const QPoint& position) const {
    const QPointF at = viewportTransform().inverted().map(QPointF(position));
    return {at.x(), at.y()};
}

std::optional<QPoint> BoardView::placeOf(const Leg& leg) const {
    const PlacedLeg* placed = m_sheet.find(leg);
    return placed != nullptr && placed->place != LegPlace::unknown ? std::optional<QPoint>(onView(placed->at).toPoint())
                                                                   : std::nullopt;
}

double BoardView::reach() const {
    return hitRadius / std::max(1e-9, transform().m11());
}

std::optional<Leg> BoardView::legUnder(const QPoint& position) const {
    return legNear(m_sheet, sheetPoint(position), reach());
}

// --- the hand ----------------------------------------------------------------------------------------------------

void BoardView::mousePressEvent(QMouseEvent* event) {
    event->accept();
    if (!m_isBench) {
        setFocus(Qt::MouseFocusReason);
    }
    if (event->button() == Qt::MiddleButton) {
        grabSheet(event->pos());
        return;
    }
    if (event->button() != Qt::LeftButton) {
        return;
    }
    const std::optional<Leg> leg = m_isBench ? std::nullopt : legUnder(event->pos());
    if (leg) {
        emit legChosen(*leg);
        m_press = Press{*leg, event->pos(), false, {}};
    } else {
        m_groundPress = event->pos();
    }
}

void BoardView::mouseMoveEvent(QMouseEvent* event) {
    if (dragSheet(event->pos())) {
        return;
    }
    const auto isFar = [event](const QPoint& from) { return (event->pos() - from).manhattanLength() >= dragFrom; };
    if (m_groundPress && isFar(*m_groundPress)) {
        grabSheet(*m_groundPress);
        m_groundPress.reset();
        dragSheet(event->pos());
        keepPlace();
        return;
    }
    if (m_press && m_sheet.mayMark() && (m_press->isDrag || isFar(m_press->at))) {
        m_press->isDrag = true;
        m_press->to = sheetPoint(event->pos());
        viewport()->update();
        return;
    }
    viewport()->setCursor(legUnder(event->pos()) && !m_isBench ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

void BoardView::mouseReleaseEvent(QMouseEvent* event) {
    if (releaseSheet()) {
        return;
    }
    if (m_press) {
        const Press press = *m_press;
        m_press.reset();
        if (press.isDrag) {
            emit markMoved(press.leg, press.to, false);
        }
        viewport()->update();
    } else if (m_groundPress) {
        m_groundPress.reset();
        if (!m_isBench && m_sheet.mayMark()) {
            emit markAsked(sheetPoint(event->pos()));
        }
    }
}

void BoardView::wheelEvent(QWheelEvent* event) {
    event->accept();
    zoomByWheel(*event);
}

void BoardView::keyPressEvent(QKeyEvent* event) {
    const bool isNudge = event->modifiers() & Qt::ControlModifier;
    if ((!isNudge && moveSheetByKey(*event)) || walkByKey(*event) || markByKey(*event) || stepOutByKey(*event)) {
        return;
    }
    const bool isPlain = !(event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier));
    if (event->key() == Qt::Key_X && isPlain) {
        emit flipAsked();
    } else if (isPlain && !event->text().isEmpty() && event->text().front().isLetterOrNumber()) {
        emit nameTyped(event->text());
    } else {
        event->ignore();
    }
}

/// Arrows walk the legs and parts; with Ctrl they move the chosen leg's mark.
bool BoardView::walkByKey(const QKeyEvent& event) {
    const auto arrow = [&event]() -> QPoint {
        switch (event.key()) {
            case Qt::Key_Left:
                return {-1, 0};
            case Qt::Key_Right:
                return {1, 0};
            case Qt::Key_Up:
                return {0, -1};
            case Qt::Key_Down:
                return {0, 1};
            default:
                return {};
        }
    }();
    if (arrow.isNull()) {
        return false;
    }
    if (event.modifiers() & Qt::ControlModifier) {
        nudge(arrow);
    } else if (arrow.x() != 0) {
        emit legStepped(arrow.x());
    } else {
        emit partStepped(arrow.y());
    }
    return true;
}

/// A mark that is being dragged stays where it was; else the chosen leg is given up.
bool BoardView::stepOutByKey(const QKeyEvent& event) {
    if (event.key() != Qt::Key_Escape) {
        return false;
    }
    if (m_press && m_press->isDrag) {
        m_press.reset();
        viewport()->update();
        return true;
    }
    if (m_leg) {
        emit legGivenUp();
        return true;
    }
    return false;
}

/// By so many px of the screen: a nearer board is marked finer.
void BoardView::nudge(const QPoint& by) {
    const PlacedLeg* placed = m_leg ? m_sheet.find(*m_leg) : nullptr;
    if (placed == nullptr || placed->place == LegPlace::unknown || !m_sheet.mayMark()) {
        return;
    }
    const double step = 2.0 / std::max(1e-9, transform().m11());
    emit markMoved(placed->leg, {placed->at.x + by.x() * step, placed->at.y + by.y() * step}, true);
}

bool BoardView::markByKey(const QKeyEvent& event) {
    if (event.key() == Qt::Key_Delete && m_leg) {
        emit unmarkAsked(*m_leg);
        return true;
    }
    if (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) {
        const PlacedLeg* placed = m_leg ? m_sheet.find(*m_leg) : nullptr;
        if (m_sheet.mayMark() && (placed == nullptr || placed->place == LegPlace::unknown)) {
            emit markAsked(sheetPoint(viewport()->rect().center()));
        } else if (placed != nullptr) {
            emit legChosen(placed->leg);
        }
        return true;
    }
    return false;
}

void BoardView::resizeEvent(QResizeEvent* event) {
    PanView::resizeEvent(event);
    follow();
}

void BoardView::showEvent(QShowEvent* event) {
    PanView::showEvent(event);
    followPulse();
}

void BoardView::hideEvent(QHideEvent* event) {
    PanView::hideEvent(event);
    m_pulse.stop();
}

}  // namespace ohmwright
