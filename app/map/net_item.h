/// The wires of one net with its junctions, ground and supply signs and terminals.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

#include <QGraphicsItem>

namespace ohmwright {

class NetItem : public QGraphicsItem {
public:
    explicit NetItem(DrawnNet net);

    [[nodiscard]] const NetName& net() const { return m_net.net; }
    /// Distance of a point from the nearest wire [px]; infinite for a net without wires.
    [[nodiscard]] double distanceTo(const QPointF& point) const;
    /// Where a remark about the net stands: a meeting point, else the middle of its first wire.
    [[nodiscard]] std::optional<QPointF> anchor() const;

    void setPointedAt(bool pointedAt);
    void setFaulty(bool faulty);

    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    void paintGround(QPainter& painter, const QPointF& at) const;

    DrawnNet m_net;
    QRectF m_bounds;
    bool m_isPointedAt = false;
    bool m_isFaulty = false;
};

/// The name of the net under the pointer.
class NetNameItem : public QGraphicsItem {
public:
    NetNameItem();

    void show(const QString& name, const QPointF& pointer, const QRectF& sheet);
    [[nodiscard]] QRectF boundingRect() const override { return m_box; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    QString m_name;
    QRectF m_box;
};

/// Octagon and sentence beside the place of a fault.
class FaultItem : public QGraphicsItem {
public:
    FaultItem();

    /// @param place  absent: the fault has no place on the map and stands at its upper edge.
    void show(const QString& sentence, std::optional<QPointF> place, const QRectF& sheet);
    [[nodiscard]] QRectF boundingRect() const override { return m_box.adjusted(-2, -2, 2, 2); }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    QString m_sentence;
    QRectF m_box;
};

}  // namespace ohmwright
