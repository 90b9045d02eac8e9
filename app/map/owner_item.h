/// Who owns the cursor's frequency, on the map: plates behind the symbols and signed figures at the values.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"
#include "core/plan/owners.h"

#include <QGraphicsItem>

#include <vector>

namespace ohmwright {

/// One owner where it is drawn. Boxes in scene px.
struct OwnerMark {
    PartId part;  ///< The part on the board; of a fitted one its host.
    double dbPerTenPercent = 0.0;
    QRectF plate;
    QString figure;  ///< "+0.76"
    QRectF figureBox;
};

/// The owners that stand on the map, in the order given; the figures keep off each other and off all that is drawn, as
/// far as there is room.
std::vector<OwnerMark> markOwners(const MapLayout& layout, const std::vector<Owner>& owners, double textScale);

/// The part on the map that an owner belongs to: itself, or what it is fitted to; empty when it is not drawn.
PartId drawnOwner(const MapLayout& layout, const Owner& owner);

/// All plates, or all figures: they lie in different layers of the map.
class OwnerLayer : public QGraphicsItem {
public:
    enum class Shows { plates, figures };
    explicit OwnerLayer(Shows shows);

    void setMarks(std::vector<OwnerMark> marks, double textScale);
    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    Shows m_shows;
    std::vector<OwnerMark> m_marks;
    double m_textScale = 1.0;
    QRectF m_bounds;
};

}  // namespace ohmwright
