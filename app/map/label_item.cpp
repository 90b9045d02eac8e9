// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/label_item.h"

#include "app/look/painters.h"
#include "app/map/part_item.h"

#include <QPainter>

#include <algorithm>
#include <utility>

namespace ohmwright {

LabelItem::LabelItem(LabelWriter writer, LabelBlock block, LabelPlace place, const std::vector<QRectF>& boxes)
    : m_writer(writer), m_block(std::move(block)), m_place(place) {
    setZValue(layer::label);
    // Its halo is the outline of every letter, stroked: too slow for every frame in which something else moves.
    setCacheMode(DeviceCoordinateCache);
    for (const QRectF& box : boxes) {
        m_bounds = m_bounds.united(box.adjusted(-5, -5, 5, 5));
    }
}

void LabelItem::setMarks(std::vector<ModMark> marks, std::vector<QRectF> boxes) {
    prepareGeometryChange();
    m_marks = std::move(marks);
    m_markBoxes = std::move(boxes);
    for (const QRectF& box : m_markBoxes) {
        m_bounds = m_bounds.united(box.adjusted(-2, -2, 2, 2));
    }
}

void LabelItem::paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) {
    m_writer.paint(*painter, m_block, m_place);
    for (std::size_t i = 0; i < std::min(m_marks.size(), m_markBoxes.size()); ++i) {
        paintRevisionTriangle(*painter, m_markBoxes[i], m_marks[i].letter,
                              m_marks[i].on ? TriangleState::active : TriangleState::off);
    }
}

}  // namespace ohmwright
