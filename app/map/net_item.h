/// One net in the scene: wires, ground and supply signs, junctions, terminals, and remarks about it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_layout.h"

#include <QFont>
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
    DrawnNet m_net;
    QRectF m_bounds;
    bool m_isPointedAt = false;
    bool m_isFaulty = false;
};

/// Junction dots and terminals of one net.
class JointItem : public QGraphicsItem {
public:
    explicit JointItem(const DrawnNet& net);

    [[nodiscard]] QRectF boundingRect() const override { return m_bounds; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    std::vector<QPointF> m_junctions;
    std::vector<QPointF> m_terminals;
    QRectF m_bounds;
};

/// The name of the net under the pointer.
class NetNameItem : public QGraphicsItem {
public:
    NetNameItem();

    /// @param scale  of the map's words (MapScene::setLabelScale).
    void show(const QString& name, const QPointF& pointer, const QRectF& sheet, double scale);
    [[nodiscard]] const QString& words() const { return m_name; }
    [[nodiscard]] QRectF boundingRect() const override { return m_box; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    QString m_name;
    QFont m_font;
    QRectF m_box;
};

/// Octagon and sentence beside the place of a fault.
class FaultItem : public QGraphicsItem {
public:
    FaultItem();

    /// @param place  absent: the fault has no place on the map and stands at its upper edge.
    /// @param drawn  what the sentence hides as little of as it can.
    void show(const QString& sentence, std::optional<QPointF> place, const Obstacles& drawn);
    [[nodiscard]] QRectF boundingRect() const override { return m_box.adjusted(-2, -2, 2, 2); }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    QString m_sentence;
    QRectF m_box;
};

}  // namespace ohmwright
