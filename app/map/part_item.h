/// A part's symbol in the scene, with what mods hang on it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

#include <QGraphicsItem>

namespace ohmwright {

/// Layers of the map by z: plate 0, wire 1, body 2, label 3, bracket 4.
namespace layer {
inline constexpr double plate = 0.0;
inline constexpr double wire = 1.0;
inline constexpr double body = 2.0;
inline constexpr double joint = 2.5;  ///< Terminals lie over the leads that end in them.
inline constexpr double label = 3.0;
inline constexpr double bracket = 4.0;
}  // namespace layer

class PartItem : public QGraphicsItem {
public:
    /// @param textScale  of the map's words (MapScene::setLabelScale).
    explicit PartItem(DrawnPart part, double textScale = 1.0);

    [[nodiscard]] const DrawnPart& part() const { return m_part; }
    /// Drawn in oxblood while a fault is reported here.
    void setFaulty(bool faulty);

    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    void paintSymbols(QPainter& painter) const;
    void paintFittings(QPainter& painter) const;
    void paintGaps(QPainter& painter) const;
    void paintPlus(QPainter& painter) const;
    void paintInnerText(QPainter& painter) const;

    DrawnPart m_part;
    double m_textScale;
    QRectF m_bounds;
    bool m_isFaulty = false;
};

/// Where the brackets of a selected part stand.
QRectF bracketBox(const DrawnPart& part);

/// Four corner brackets round the selected part.
class BracketItem : public QGraphicsItem {
public:
    BracketItem();

    void setPart(const DrawnPart& part);
    [[nodiscard]] QRectF boundingRect() const override { return m_box.adjusted(-3, -3, 3, 3); }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    QRectF m_box;
};

}  // namespace ohmwright
