// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_view.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QWheelEvent>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double hitRadius = 22.0;  ///< 44 px across (look tokens `hit`).
constexpr int dragFrom = 5;
constexpr int keyPan = 60;
constexpr double around = 24.0;  ///< Ground seen around the board.
constexpr double probeRing = 17.0;
constexpr int pulseSteps = 18;

/// What is drawn on a board or its photo is the same in either theme: its ground is.
const ThemeColours& onBoard() {
    static const ThemeColours colours = coloursOf(ThemeKind::light);
    return colours;
}

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

// --- painting ----------------------------------------------------------------------------------------------------

void BoardView::drawBackground(QPainter* painter, const QRectF& rect) {
    painter->fillRect(rect, Theme::current().colours().app);
    if (m_sheet.width <= 0.0 || !m_circuit) {
        return;
    }
    if (m_sheet.ground == BoardSheet::Ground::drawn) {
        paintDrawnBoard(*painter, m_sheet, *m_circuit, m_looks);
    } else {
        paintPhoto(*painter);
    }
}

void BoardView::paintPhoto(QPainter& painter) {
    const QRectF box(0.0, 0.0, m_sheet.width, m_sheet.height);
    if (!m_picture || m_picture->levels.empty()) {
        painter.fillRect(box, Theme::current().colours().panel);
        return;
    }
    const QImage& level = m_picture->levelFor(transform().m11() * devicePixelRatioF());
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    if (m_sheet.ground == BoardSheet::Ground::photoThrough) {
        painter.translate(m_sheet.width, 0.0);
        painter.scale(-1.0, 1.0);
    }
    painter.drawImage(box, level);
    painter.restore();
}

/// Marks keep their size on the screen however near the board is.
void BoardView::drawForeground(QPainter* painter, const QRectF&) {
    painter->save();
    painter->resetTransform();
    painter->setRenderHint(QPainter::Antialiasing);
    paintMarks(*painter);
    paintNet(*painter);
    paintHeat(*painter);
    paintSelected(*painter);
    QRectF taken;
    paintProbe(*painter, m_black, false, taken);
    paintProbe(*painter, m_red, true, taken);
    painter->restore();
}

void BoardView::paintMarks(QPainter& painter) const {
    if (m_sheet.ground == BoardSheet::Ground::drawn) {
        return;
    }
    const ThemeColours& c = onBoard();
    constexpr double radius = 7.0;
    painter.setBrush(Qt::NoBrush);
    for (const PlacedLeg& leg : m_sheet.legs) {
        if (leg.place == LegPlace::unknown) {
            continue;
        }
        painter.setPen(QPen(c.ink, 4.0));
        painter.drawEllipse(onView(leg.at), radius, radius);
        painter.setPen(QPen(c.raised, 2.0, leg.place == LegPlace::carried ? Qt::DotLine : Qt::SolidLine));
        painter.drawEllipse(onView(leg.at), radius, radius);
    }
}

std::vector<QPointF> BoardView::litPlaces() const {
    const PlacedLeg* chosen = m_leg ? m_sheet.find(*m_leg) : nullptr;
    std::vector<QPointF> places;
    for (const PlacedLeg& leg : m_sheet.legs) {
        if (chosen != nullptr && leg.net == chosen->net && leg.place != LegPlace::unknown) {
            places.push_back(onView(leg.at));
        }
    }
    return places;
}

/// The legs of the chosen one's net, joined by the shortest tree: white, and dashes of iris on it.
void BoardView::paintNet(QPainter& painter) const {
    const ThemeColours& c = onBoard();
    const std::vector<QPointF> places = litPlaces();
    std::vector<std::size_t> joined, open;
    for (std::size_t k = 0; k < places.size(); ++k) {
        (k == 0 ? joined : open).push_back(k);
    }
    QPainterPath tree;
    const auto distance = [&places](std::size_t one, std::size_t other) {
        const QPointF by = places[one] - places[other];
        return std::hypot(by.x(), by.y());
    };
    while (!open.empty()) {
        std::size_t from = joined.front();
        auto to = open.begin();
        for (const std::size_t one : joined) {
            for (auto other = open.begin(); other != open.end(); ++other) {
                if (distance(one, *other) < distance(from, *to)) {
                    from = one;
                    to = other;
                }
            }
        }
        tree.moveTo(places[from]);
        tree.lineTo(places[*to]);
        joined.push_back(*to);
        open.erase(to);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.raised, 6.5, Qt::SolidLine, Qt::RoundCap));
    painter.drawPath(tree);
    QPen dashes(c.now, 3.0, Qt::CustomDashLine, Qt::FlatCap);
    dashes.setDashPattern({2.6, 1.6});
    painter.setPen(dashes);
    painter.drawPath(tree);
    for (const QPointF& at : places) {
        painter.setPen(QPen(c.raised, 6.5));
        painter.drawEllipse(at, 10.0, 10.0);
        painter.setPen(QPen(c.now, 3.0));
        painter.drawEllipse(at, 10.0, 10.0);
    }
}

/// How many visits the iron came to a pad in; a worn one carries the sign of care.
void BoardView::paintHeat(QPainter& painter) const {
    constexpr int usualLife = 2;
    const ThemeColours& c = Theme::current().colours();
    painter.setFont(Theme::current().font(TextRole::caption, true));
    for (const auto& [leg, times] : m_heat) {
        const PlacedLeg* placed = m_sheet.find(leg);
        if (placed == nullptr || placed->place == LegPlace::unknown) {
            continue;
        }
        const QPointF at = onView(placed->at) + QPointF(9.0, -24.0);
        const QRectF box(at, QSizeF(24.0, 16.0));
        if (times > usualLife) {
            paintCareSign(painter, QRectF(at, QSizeF(18.0, 16.0)));
            continue;
        }
        painter.setPen(QPen(c.edge, 1.0));
        painter.setBrush(c.raised);
        painter.drawRoundedRect(box, 3.0, 3.0);
        painter.setPen(c.ink);
        painter.drawText(box, Qt::AlignCenter, tr("%1×", "times heated").arg(times));
    }
}

void BoardView::paintSelected(QPainter& painter) const {
    const PlacedLeg* placed = m_leg ? m_sheet.find(*m_leg) : nullptr;
    for (const PlacedLeg& leg : m_sheet.legs) {
        const bool isOfPart = leg.leg.part == m_part && leg.place != LegPlace::unknown;
        if (!isOfPart) {
            continue;
        }
        const bool isLeg = placed != nullptr && placed->leg == leg.leg;
        const double half = isLeg ? 19.0 : 14.0;
        const BoardPoint at = m_press && m_press->isDrag && m_press->leg == leg.leg ? m_press->to : leg.at;
        const QPointF place = onView(at);
        const QRectF box(place.x() - half, place.y() - half, 2.0 * half, 2.0 * half);
        painter.setBrush(Qt::NoBrush);
        // Brackets in ink are seen on a bright photo only: they stand on white.
        painter.setPen(QPen(onBoard().raised, isLeg ? 5.0 : 3.0));
        painter.drawRoundedRect(box, 2.0, 2.0);
        painter.setPen(QPen(onBoard().ink, isLeg ? 2.5 : 1.2));
        painter.drawRoundedRect(box, 2.0, 2.0);
        if (isLeg && m_press && m_press->isDrag) {
            painter.drawLine(place - QPointF(26.0, 0.0), place + QPointF(26.0, 0.0));
            painter.drawLine(place - QPointF(0.0, 26.0), place + QPointF(0.0, 26.0));
        }
    }
}

void BoardView::paintProbe(QPainter& painter, const ShownProbe& probe, bool isRed, QRectF& taken) const {
    const std::optional<QPoint> at = probe.leg ? placeOf(*probe.leg) : std::nullopt;
    if (!at) {
        return;
    }
    const ThemeColours& c = onBoard();
    const QColor own = isRed ? c.stop : c.ink;
    const QPointF centre(*at);
    // The pulse goes out and comes back; without motion it stands half way.
    const double phase = m_pulse.isActive() ? std::abs(2.0 * m_pulseStep / pulseSteps - 1.0) : 0.5;
    QColor veil = own;
    veil.setAlphaF(0.28F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(veil);
    painter.drawEllipse(centre, probeRing + 6.0 + 10.0 * phase, probeRing + 6.0 + 10.0 * phase);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.raised, 9.0));
    painter.drawEllipse(centre, probeRing - 2.0, probeRing - 2.0);
    painter.setPen(QPen(own, 5.0));
    painter.drawEllipse(centre, probeRing - 2.0, probeRing - 2.0);
    if (!isRed) {
        painter.setPen(QPen(c.raised, 1.5));
        painter.setBrush(own);
        painter.drawEllipse(centre, 5.0, 5.0);
    }

    const QFont font = Theme::current().font(TextRole::panelTitle, true);
    const QSizeF size(QFontMetricsF(font).horizontalAdvance(probe.words) + 28.0, 36.0);
    const QRectF room = QRectF(viewport()->rect()).adjusted(6.0, 6.0, -6.0, -6.0);
    QRectF flag;
    // Right below first, then round the leg, until it lies on no other flag and in sight.
    for (const QPointF& by : std::array{QPointF(70, 32), QPointF(70, -68), QPointF(-70 - size.width(), 32),
                                        QPointF(-70 - size.width(), -68), QPointF(70, 84)}) {
        flag = QRectF(centre + by, size);
        if (room.contains(flag) && !flag.intersects(taken)) {
            break;
        }
    }
    flag.moveLeft(std::clamp(flag.left(), room.left(), std::max(room.left(), room.right() - flag.width())));
    flag.moveTop(std::clamp(flag.top(), room.top(), std::max(room.top(), room.bottom() - flag.height())));
    taken = flag;
    const QPointF near(std::clamp(centre.x(), flag.left(), flag.right()),
                       std::clamp(centre.y(), flag.top(), flag.bottom()));
    const QPointF away = near - centre;
    const double length = std::hypot(away.x(), away.y());
    if (length > probeRing) {
        const QPointF edge = centre + away * (probeRing / length);
        painter.setPen(QPen(c.raised, 6.0));
        painter.drawLine(edge, near);
        painter.setPen(QPen(own, 3.5));
        painter.drawLine(edge, near);
    }
    painter.setPen(QPen(c.raised, 2.0));
    painter.setBrush(own);
    painter.drawRoundedRect(flag, radius::field, radius::field);
    painter.setFont(font);
    painter.setPen(c.raised);
    painter.drawText(flag, Qt::AlignCenter, probe.words);
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
    if (moveByKey(*event) || markByKey(*event)) {
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

/// The sheet itself, as on the map.
bool BoardView::moveByKey(const QKeyEvent& event) {
    const bool isShifted = event.modifiers() & Qt::ShiftModifier;
    switch (event.key()) {
        case Qt::Key_Plus:
            zoom(1);
            return true;
        case Qt::Key_Minus:
            zoom(-1);
            return true;
        case Qt::Key_Home:
            showWhole();
            return true;
        case Qt::Key_Left:
        case Qt::Key_Right:
            if (event.modifiers() & Qt::ControlModifier) {
                nudge({event.key() == Qt::Key_Left ? -1 : 1, 0});
            } else if (isShifted) {
                pan({event.key() == Qt::Key_Left ? keyPan : -keyPan, 0});
            } else {
                emit legStepped(event.key() == Qt::Key_Left ? -1 : 1);
            }
            return true;
        case Qt::Key_Up:
        case Qt::Key_Down:
            if (event.modifiers() & Qt::ControlModifier) {
                nudge({0, event.key() == Qt::Key_Up ? -1 : 1});
            } else if (isShifted) {
                pan({0, event.key() == Qt::Key_Up ? keyPan : -keyPan});
            } else {
                emit partStepped(event.key() == Qt::Key_Up ? -1 : 1);
            }
            return true;
        default:
            return false;
    }
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
