/// The whole map laid out: symbols, wires, words and signs at their places, before anything is painted.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/label_layout.h"
#include "app/map/map_state.h"

#include <QTransform>

#include <optional>
#include <vector>

namespace ohmwright {

/// A symbol in its own frame, and where it goes.
struct DrawnSymbol {
    Symbol symbol;
    QTransform place;
    bool isPlanned = false;         ///< Iris: it is not in the unit yet.
    std::optional<NewPart> fitted;  ///< Absent for the part's own symbol.

    friend bool operator==(const DrawnSymbol&, const DrawnSymbol&) = default;
};

/// A part with what mods hang on it. Boxes and points in scene px.
struct DrawnPart {
    PartId id;
    PartView view;
    QRectF body;
    std::vector<QPointF> pins;
    std::vector<DrawnSymbol> symbols;  ///< The part's own first; fitted ones after.
    std::vector<QLineF> fittedLeads;   ///< From the host's pins to a part across.
    std::vector<QLineF> bridges;       ///< Thick bars beside the body.
    std::vector<QLineF> bridgeLeads;
    std::vector<QLineF> gaps;     ///< Lifted legs: both ends are open rings.
    std::optional<QPointF> plus;  ///< At the plate that the solved bias makes positive.
    QString innerText;            ///< "U1A" inside an op-amp.

    friend bool operator==(const DrawnPart&, const DrawnPart&) = default;
};

struct DrawnNet {
    NetName net;
    std::vector<QPolygonF> wires;
    std::vector<QPointF> junctions;
    std::vector<QPointF> grounds;
    std::vector<QPointF> terminals;
    std::vector<QLineF> signs;  ///< Stub and bar of supply signs.

    friend bool operator==(const DrawnNet&, const DrawnNet&) = default;
};

/// Words that belong to no part: names of supply signs, pin numbers, bias volts, fields.
struct MapText {
    LabelBlock block;
    LabelPlace place;
    std::vector<QRectF> boxes;

    friend bool operator==(const MapText&, const MapText&) = default;
};

/// The words of one part, with its triangles.
struct MapLabel {
    PartId part;
    PlacedLabel label;
    std::vector<ModMark> marks;

    friend bool operator==(const MapLabel&, const MapLabel&) = default;
};

struct MapLayout {
    std::shared_ptr<const Job> job;
    QRectF sheet;
    QRectF extent;                  ///< About all that is drawn and written, with a rim: what a view shows.
    std::vector<double> zoneLefts;  ///< Left edge of each stage.
    std::vector<QLineF> zoneLines;
    std::vector<QRectF> fields;
    std::vector<DrawnPart> parts;
    std::vector<DrawnNet> nets;
    std::vector<MapText> texts;
    std::vector<MapLabel> labels;
    Obstacles obstacles;  ///< With all words entered.

    [[nodiscard]] const DrawnPart* part(const PartId& id) const;
    [[nodiscard]] const MapLabel* labelOf(const PartId& id) const;
};

/// From the circuit's own coordinates; parts without a place are left out.
/// @param textScale  of the words, 1 at the look's sizes.
MapLayout layoutMap(const MapState& state, double textScale);

/// Bias of a net in the state that is drawn; absent before the first answer.
std::optional<double> biasOf(const MapState& state, const NetName& net);

}  // namespace ohmwright
