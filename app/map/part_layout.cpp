// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_layout.h"

#include "app/look/theme.h"
#include "app/map/map_geometry.h"

#include <QLineF>

#include <algorithm>
#include <cmath>

namespace ohmwright {
namespace {

constexpr double pitch = space::mapPitch;
constexpr double acrossOffset = 24.0;  // clear of the host's plates
constexpr double bridgeOffset = 14.0;
constexpr double smallSymbolLength = 30.0;
constexpr int smallSymbolSpan = 2;
constexpr double plusAlong = 13.0;
constexpr double plusBeside = 9.5;
constexpr double shortestLeadForGap = 13.5;
constexpr double gapStart = 5.0;
constexpr double gapLength = 8.0;
constexpr double gapRoom = 14.0;

QPointF unit(const QPointF& vector) {
    const double length = std::hypot(vector.x(), vector.y());
    return length > 0.0 ? vector / length : QPointF(1, 0);
}

/// The side of an axis that is drawn to the right of an upright part, below a level one.
QPointF besideOf(const QPointF& along) {
    return std::abs(along.x()) >= std::abs(along.y()) ? QPointF(0, 1) : QPointF(1, 0);
}

/// Takes a frame in which a part runs `length` px along x from the origin, to run from `a` to `b`.
QTransform spanning(const QPointF& a, const QPointF& b, double length) {
    const QLineF line(a, b);
    QTransform transform;
    transform.translate(a.x(), a.y());
    transform.rotate(-line.angle());
    transform.scale(line.length() / length, line.length() / length);
    return transform;
}

QRectF boxOf(const DrawnSymbol& drawn) {
    return drawn.place.mapRect(drawn.symbol.bodyBox);
}

/// Direction and length of the lead at a pin, towards the body.
QLineF leadAt(const DrawnSymbol& drawn, const QPointF& pin) {
    for (const QLineF& piece : piecesOf(drawn.place.map(drawn.symbol.leads))) {
        if (QLineF(piece.p1(), pin).length() < 0.5) {
            return piece;
        }
        if (QLineF(piece.p2(), pin).length() < 0.5) {
            return {piece.p2(), piece.p1()};
        }
    }
    return {pin, drawn.place.map(drawn.symbol.bodyBox.center())};
}

void addSmall(const FittedLink& link, const QPointF& from, const QPointF& to, DrawnPart& drawn) {
    const double length = smallSymbolSpan * pitch;
    drawn.symbols.push_back({symbolOf(link.part.kind, smallSymbolSpan),
                             link.reversed ? spanning(to, from, length) : spanning(from, to, length), true, link.part});
}

/// A part with three legs keeps its symbol: what is in series with a leg stands on its pin.
void addInSeriesAtPins(DrawnPart& drawn) {
    const QPointF middle = drawn.symbols.front().place.map(drawn.symbols.front().symbol.bodyBox.center());
    for (const FittedView& fitted : drawn.view.fitted) {
        if (fitted.across) {
            continue;
        }
        const QPointF pin = drawn.pins[static_cast<std::size_t>(fitted.pinA)];
        const QPointF half = unit(pin - middle) * (smallSymbolLength / 2);
        const QPointF level = std::abs(half.x()) > std::abs(half.y()) ? QPointF(half.x(), 0) : QPointF(0, half.y());
        const QPointF share = level * 2 / static_cast<double>(fitted.links.size());
        QPointF at = pin - level;
        for (const FittedLink& link : fitted.links) {
            addSmall(link, at, at + share, drawn);
            at += share;
        }
    }
}

/// Shares the host's span evenly between the host and what is in series with it.
void addInSeries(const Part& host, DrawnPart& drawn) {
    std::vector<const FittedLink*> before;
    std::vector<const FittedLink*> after;
    for (const FittedView& fitted : drawn.view.fitted) {
        if (!fitted.across && static_cast<std::size_t>(fitted.pinA) < drawn.pins.size()) {
            std::vector<const FittedLink*>& side = fitted.pinA == 0 ? before : after;
            for (const FittedLink& link : fitted.links) {
                side.push_back(&link);
            }
        }
    }
    if (before.empty() && after.empty()) {
        return;
    }
    if (drawn.pins.size() != 2) {
        addInSeriesAtPins(drawn);
        return;
    }
    const QPointF share =
        (drawn.pins.back() - drawn.pins.front()) / static_cast<double>(before.size() + after.size() + 1);
    QPointF at = drawn.pins.front();
    for (const FittedLink* link : before) {
        addSmall(*link, at, at + share, drawn);
        at += share;
    }
    Part small = host;
    small.placement = Placement{{0, 0}, 0, false, smallSymbolSpan, LabelSide::automatic};
    drawn.symbols.front() = {symbolOf(small), spanning(at, at + share, smallSymbolSpan * pitch), drawn.view.swapped,
                             std::nullopt};
    at += share;
    for (const FittedLink* link : after) {
        addSmall(*link, at, at + share, drawn);
        at += share;
    }
}

void addAcross(const FittedView& fitted, const QRectF& sheet, DrawnPart& drawn) {
    const auto pins = drawn.pins.size();
    const auto a = static_cast<std::size_t>(fitted.reversed ? fitted.pinB : fitted.pinA);
    const auto b = static_cast<std::size_t>(fitted.reversed ? fitted.pinA : fitted.pinB);
    if (a >= pins || b >= pins) {
        return;
    }
    const QPointF along = unit(drawn.pins[b] - drawn.pins[a]);
    QPointF offset = besideOf(along) * acrossOffset;
    if (!sheet.contains(drawn.pins[a] + offset * 1.5)) {
        offset = -offset;
    }
    const QPointF from = drawn.pins[a] + offset;
    const QPointF to = drawn.pins[b] + offset;
    const auto links = static_cast<double>(fitted.links.size());
    const double length = std::min(smallSymbolLength, QLineF(from, to).length() / links);
    const QPointF first = (from + to) / 2 - along * (length * links / 2);
    QPointF at = first;
    for (const FittedLink& link : fitted.links) {
        addSmall(link, at, at + along * length, drawn);
        at += along * length;
    }
    for (const QLineF& lead :
         {QLineF(drawn.pins[a], from), QLineF(from, first), QLineF(at, to), QLineF(to, drawn.pins[b])}) {
        drawn.fittedLeads.push_back(lead);
    }
}

void addFitted(const Part& host, const QRectF& sheet, DrawnPart& drawn) {
    addInSeries(host, drawn);
    for (const FittedView& fitted : drawn.view.fitted) {
        if (fitted.across) {
            addAcross(fitted, sheet, drawn);
        }
    }
}

void addGap(DrawnPart& drawn, std::size_t pin) {
    const QPointF at = drawn.pins[pin];
    const QLineF lead = leadAt(drawn.symbols.front(), at);
    const QPointF inwards = unit(lead.p2() - lead.p1());
    if (lead.length() < shortestLeadForGap && drawn.pins.size() == 2 && drawn.symbols.size() == 1) {
        // The leads are too short to be cut: the symbol makes room.
        const QPointF inner = at + inwards * gapRoom;
        DrawnSymbol& symbol = drawn.symbols.front();
        const double length = QLineF(drawn.pins[0], drawn.pins[1]).length();
        symbol.place = pin == 0 ? spanning(inner, drawn.pins[1], length) : spanning(drawn.pins[0], inner, length);
    }
    drawn.gaps.emplace_back(at + inwards * gapStart, at + inwards * (gapStart + gapLength));
}

void addLiftedAndBridged(DrawnPart& drawn) {
    for (const int pin : drawn.view.liftedPins) {
        if (static_cast<std::size_t>(pin) < drawn.pins.size()) {
            addGap(drawn, static_cast<std::size_t>(pin));
        }
    }
    for (const auto& [a, b] : drawn.view.bridges) {
        if (static_cast<std::size_t>(std::max(a, b)) >= drawn.pins.size()) {
            continue;
        }
        const QPointF from = drawn.pins[static_cast<std::size_t>(a)];
        const QPointF to = drawn.pins[static_cast<std::size_t>(b)];
        const QPointF offset = besideOf(to - from) * bridgeOffset;
        drawn.bridges.emplace_back(from + offset, to + offset);
        drawn.bridgeLeads.emplace_back(from, from + offset);
        drawn.bridgeLeads.emplace_back(to, to + offset);
    }
}

void addPlus(const MapState& state, const Part& part, DrawnPart& drawn) {
    if (!isPolarised(part)) {
        return;
    }
    const std::optional<double> first = biasOf(state, part.nets[0]);
    const std::optional<double> second = biasOf(state, part.nets[1]);
    const bool isFirstPlus = !first || !second || *first >= *second;
    const QPointF along = unit(drawn.pins[1] - drawn.pins[0]) * (isFirstPlus ? -plusAlong : plusAlong);
    // Above a level part, to the right of an upright one.
    const QPointF beside = besideOf(along);
    const QPointF aside = beside.x() > 0 ? beside * plusBeside : -beside * plusBeside;
    drawn.plus = boxOf(drawn.symbols.front()).center() + along + aside;
}

}  // namespace

DrawnPart layOutPart(const MapState& state, const Part& part, const QRectF& sheet) {
    DrawnPart drawn;
    drawn.id = part.id;
    drawn.view = viewOf(*state.job, part, state.holdsStock);
    for (int pin = 0; pin < drawnPinCount(part.kind); ++pin) {
        drawn.pins.push_back(pinPosition(part, pin));
    }
    drawn.symbols.push_back({symbolOf(part, symbolStandard(), hasTurnedModel(state.job->stock, part)),
                             placementTransform(*part.placement), drawn.view.swapped, std::nullopt});
    if (part.kind == PartKind::opamp) {
        drawn.innerText = drawn.view.reference;
    }
    addFitted(part, sheet, drawn);
    addLiftedAndBridged(drawn);
    for (const DrawnSymbol& symbol : drawn.symbols) {
        drawn.body = drawn.body.united(boxOf(symbol));
    }
    addPlus(state, part, drawn);
    return drawn;
}

}  // namespace ohmwright
