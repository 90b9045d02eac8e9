// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/owner_item.h"

#include "app/look/owned_scale.h"
#include "app/look/theme.h"
#include "app/map/free_place.h"
#include "app/map/part_item.h"

#include <QPainter>

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

constexpr double plateRim = 10.0;  // tokens influence.rule: body plus 10 px
constexpr double figureGap = 4.0;
constexpr double haloRoom = 4.0;

LabelBlock blockOf(const QString& figure) {
    return {{{{figure, LabelInk::value}}, {}}};
}

/// The box of a part's own symbol, or of the one that is fitted to it.
struct Place {
    const DrawnPart* host = nullptr;
    const DrawnSymbol* symbol = nullptr;
};

Place placeOf(const MapLayout& layout, const Owner& owner) {
    if (const DrawnPart* own = layout.part(owner.part)) {
        return {own, &own->symbols.front()};
    }
    for (const DrawnPart& host : layout.parts) {
        for (const DrawnSymbol& symbol : host.symbols) {
            if (symbol.fitted && symbol.fitted->reference == owner.reference) {
                return {&host, &symbol};
            }
        }
    }
    return {};
}

/// Under the part's value first, then beside its words, then round its body.
std::vector<QRectF> figurePlaces(const MapLayout& layout, const Place& place, const QSizeF& size, const QRectF& plate) {
    std::vector<QRectF> boxes;
    const MapLabel* label = place.symbol->fitted ? nullptr : layout.labelOf(place.host->id);
    if (label && !label->label.boxes.empty()) {
        const QRectF words = boundsOf(label->label.boxes);
        const QRectF value = label->label.boxes.back();
        double x = value.center().x() - size.width() / 2;
        if (words.left() >= plate.center().x()) {
            x = value.left();
        } else if (words.right() <= plate.center().x()) {
            x = value.right() - size.width();
        }
        boxes.emplace_back(QPointF(x, value.bottom() + 1.0), size);
        boxes.emplace_back(QPointF(value.right() + figureGap, value.center().y() - size.height() / 2), size);
        boxes.emplace_back(QPointF(x, words.top() - size.height() - 1.0), size);
        boxes.emplace_back(QPointF(value.left() - figureGap - size.width(), value.center().y() - size.height() / 2),
                           size);
    }
    const QRectF body = place.symbol->place.mapRect(place.symbol->symbol.bodyBox);
    for (const double gap : {figureGap, plateRim + 2.0}) {
        const std::vector<QRectF> round = boxesRound(body, size, gap);
        boxes.insert(boxes.end(), round.begin(), round.end());
    }
    return boxes;
}

}  // namespace

PartId drawnOwner(const MapLayout& layout, const Owner& owner) {
    const DrawnPart* host = placeOf(layout, owner).host;
    return host ? host->id : PartId();
}

std::vector<OwnerMark> markOwners(const MapLayout& layout, const std::vector<Owner>& owners, double textScale) {
    const LabelWriter writer(textScale);
    Obstacles drawn = layout.obstacles;
    std::vector<OwnerMark> marks;
    for (const Owner& owner : owners) {
        const Place place = placeOf(layout, owner);
        if (!place.host) {
            continue;
        }
        OwnerMark mark{place.host->id, owner.dbPerTenPercent, {}, ownedFigure(owner.dbPerTenPercent), {}};
        mark.plate = place.symbol->place.mapRect(place.symbol->symbol.bodyBox)
                         .adjusted(-plateRim, -plateRim, plateRim, plateRim);
        const QSizeF size = writer.lineBoxes(blockOf(mark.figure), {{0, 0}, LabelAlign::left}).front().size();
        mark.figureBox = takeFreeBox(figurePlaces(layout, place, size, mark.plate), drawn);
        marks.push_back(std::move(mark));
    }
    return marks;
}

OwnerLayer::OwnerLayer(Shows shows) : m_shows(shows) {
    setZValue(shows == Shows::plates ? layer::plate : layer::label);
}

void OwnerLayer::setMarks(std::vector<OwnerMark> marks, double textScale) {
    prepareGeometryChange();
    m_marks = std::move(marks);
    m_textScale = textScale;
    m_bounds = {};
    for (const OwnerMark& mark : m_marks) {
        const QRectF box = m_shows == Shows::plates ? mark.plate : mark.figureBox;
        m_bounds = m_bounds.united(box.adjusted(-haloRoom, -haloRoom, haloRoom, haloRoom));
    }
    update();
}

void OwnerLayer::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    painter->setRenderHint(QPainter::Antialiasing);
    const LabelWriter writer(m_textScale);
    for (const OwnerMark& mark : m_marks) {
        if (m_shows == Shows::plates) {
            painter->setPen(Qt::NoPen);
            painter->setBrush(plateColour(mark.dbPerTenPercent));
            painter->drawRoundedRect(mark.plate, radius::plate, radius::plate);
        } else {
            // The box that a place gives begins 1 px above it (LabelWriter::lineBoxes).
            writer.paint(*painter, blockOf(mark.figure), {mark.figureBox.topLeft() + QPointF(0, 1), LabelAlign::left});
        }
    }
}

}  // namespace ohmwright
