/// The drawing as a scene: one item a part, a net and a label, rebuilt from the circuit's own coordinates.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/kept_items.h"
#include "app/map/map_layout.h"
#include "app/map/owner_item.h"
#include "app/map/probe_item.h"

#include <QGraphicsScene>

#include <optional>
#include <vector>

namespace ohmwright {

class BracketItem;
class FaultItem;
class JointItem;
class LabelItem;
class NetItem;
class NetNameItem;
class PartItem;

class MapScene : public QGraphicsScene {
    Q_OBJECT
public:
    explicit MapScene(QObject* parent = nullptr);

    /// Draws the state. Only what differs from the last one is done again.
    void setState(const MapState& state);
    /// Scale of the words: the text setting, and more when the whole map is shown smaller than drawn.
    void setLabelScale(double scale);

    [[nodiscard]] const MapLayout& layout() const { return m_layout; }
    /// The part whose symbol or words lie under a point; hits are padded to 44 px where nothing nearer is.
    [[nodiscard]] std::optional<PartId> partAt(const QPointF& point) const;
    /// The nearest part in the direction of an arrow key, by its symbol; the same one when there is none.
    [[nodiscard]] PartId neighbourOf(const PartId& part, const QPointF& direction) const;

    /// Thickens the net under the pointer and shows its name.
    void pointAt(const QPointF& point);
    void pointAway();
    /// The net at a leg of the selected part, for who walks its legs by key: shown as under the pointer, with its volts
    /// (`legWords`); none puts it out.
    void lightLeg(std::optional<int> pin);
    /// Who owns the cursor's frequency, as it stands on the map; none while nobody asks.
    [[nodiscard]] const std::vector<OwnerMark>& ownerMarks() const { return m_ownerMarks; }
    /// The volts as they stand on the map; none while the probe is off.
    [[nodiscard]] const std::vector<ProbeMark>& probeMarks() const { return m_probeMarks; }
    [[nodiscard]] const NetName& pointedNet() const { return m_pointedNet; }
    /// What stands beside it; empty while no net is lit.
    [[nodiscard]] QString pointedWords() const;

protected:
    void drawBackground(QPainter* painter, const QRectF& rect) override;

private:
    void rebuild();
    /// As if nothing had been drawn: what every item was painted with is another one now.
    void startAnew();
    void showItems();
    void placeBrackets();
    void markFault();
    void placeOwners();
    void placeProbes();
    void placeLeg();
    void light(const NetItem* net, const QString& words, const QPointF& at);
    void paintGrid(QPainter& painter, const QRectF& rect) const;
    void paintEmpty(QPainter& painter) const;

    MapState m_state;
    MapLayout m_layout;
    double m_labelScale = 1.0;
    KeptItems<DrawnPart, PartItem> m_parts;
    KeptItems<DrawnNet, NetItem> m_nets;
    KeptItems<DrawnNet, JointItem> m_joints;
    KeptItems<MapText, LabelItem> m_texts;
    KeptItems<MapLabel, LabelItem> m_labels;
    BracketItem* m_brackets = nullptr;
    NetNameItem* m_netName = nullptr;
    FaultItem* m_faultItem = nullptr;
    OwnerLayer* m_plates = nullptr;
    OwnerLayer* m_ownerFigures = nullptr;
    ProbeLayer* m_probes = nullptr;
    std::vector<OwnerMark> m_ownerMarks;
    std::vector<ProbeMark> m_probeMarks;
    NetName m_pointedNet;
    std::optional<int> m_leg;  ///< Of the selected part, lit.
};

}  // namespace ohmwright
