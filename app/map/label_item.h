/// Words and revision triangles: the label layer of the map.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

#include <QGraphicsItem>

namespace ohmwright {

/// One block of words, with the triangles that belong to it.
class LabelItem : public QGraphicsItem {
public:
    /// @param writer  of the text scale that the layout was made at.
    LabelItem(LabelWriter writer, LabelBlock block, LabelPlace place, const std::vector<QRectF>& boxes);

    void setMarks(std::vector<ModMark> marks, std::vector<QRectF> boxes);

    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    LabelWriter m_writer;
    LabelBlock m_block;
    LabelPlace m_place;
    std::vector<ModMark> m_marks;
    std::vector<QRectF> m_markBoxes;
    QRectF m_bounds;
};

}  // namespace ohmwright
