// What is painted on the board's face: its ground, the marks, the lit net, heat, the chosen leg and the probes.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_view.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double probeRing = 17.0;

/// What is drawn on a board or its photo is the same in either theme: its ground is.
const ThemeColours& onBoard() {
    static const ThemeColours colours = coloursOf(ThemeKind::light);
    return colours;
}

/// The middle of a leg's body; on a photo, which knows no bodies, of the legs that are marked.
BoardPoint bodyOf(const BoardSheet& sheet, const Leg& leg) {
    const auto isHere = [&leg](const LegMark& mark) { return mark.leg == leg; };
    for (const DrawnBody& each : sheet.drawn.bodies) {
        if (std::any_of(each.legs.begin(), each.legs.end(), isHere)) {
            return each.body.centre();
        }
    }
    BoardPoint sum;
    int legs = 0;
    for (const PlacedLeg& each : sheet.legs) {
        if (each.leg.part == leg.part && each.place != LegPlace::unknown) {
            sum = {sum.x + each.at.x, sum.y + each.at.y};
            ++legs;
        }
    }
    return legs == 0 ? sum : BoardPoint{sum.x / legs, sum.y / legs};
}

}  // namespace

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
    painter->setRenderHint(QPainter::Antialiasing);
    const QTransform onSheet = painter->transform();
    painter->resetTransform();
    paintMarks(*painter);
    paintNet(*painter);
    if (m_sheet.ground == BoardSheet::Ground::drawn && m_circuit) {
        // A lit net runs under the names: they stay readable.
        painter->setTransform(onSheet);
        paintDrawnNames(*painter, m_sheet, *m_circuit);
        painter->resetTransform();
    }
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

/// Beside the leg where its body does not lie, which carries words of its own, and clear of a ring or bracket.
std::optional<QRectF> BoardView::heatBadgeOf(const Leg& leg) const {
    constexpr double ringRoom = 23.0;
    constexpr double padRoom = 8.0;
    constexpr double aside = 9.0;
    const PlacedLeg* placed = m_sheet.find(leg);
    if (!m_heat.contains(leg) || placed == nullptr || placed->place == LegPlace::unknown) {
        return std::nullopt;
    }
    const bool isRinged = leg == m_red.leg || leg == m_black.leg || leg.part == m_part;
    const double room = isRinged ? ringRoom : padRoom;
    const BoardPoint body = bodyOf(m_sheet, leg);
    const QSizeF size(24.0, 16.0);
    const double left = placed->at.x < body.x ? -aside - size.width() : aside;
    const double top = placed->at.y > body.y ? room : -room - size.height();
    return QRectF(onView(placed->at) + QPointF(left, top), size);
}

/// How many visits the iron came to a pad in; a worn one carries the sign of care.
void BoardView::paintHeat(QPainter& painter) const {
    constexpr int usualLife = 2;
    const ThemeColours& c = Theme::current().colours();
    painter.setFont(Theme::current().font(TextRole::caption, true));
    for (const auto& [leg, times] : m_heat) {
        const std::optional<QRectF> badge = heatBadgeOf(leg);
        if (!badge) {
            continue;
        }
        if (times > usualLife) {
            paintCareSign(painter, QRectF(badge->topLeft(), QSizeF(18.0, badge->height())));
            continue;
        }
        painter.setPen(QPen(c.edge, 1.0));
        painter.setBrush(c.raised);
        painter.drawRoundedRect(*badge, 3.0, 3.0);
        painter.setPen(c.ink);
        painter.drawText(*badge, Qt::AlignCenter, tr("%1×", "times heated").arg(times));
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

}  // namespace ohmwright
