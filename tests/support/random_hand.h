/// Edits of a drawing asked by chance, as a hand and a keyboard would.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/drawing/zones.h"
#include "tests/support/random_networks.h"

#include <array>
#include <string>

namespace ohmwright::test {

inline constexpr std::array drawnKinds{
    PartKind::resistor, PartKind::capacitor, PartKind::potentiometer, PartKind::diode,        PartKind::bipolar,
    PartKind::opamp,    PartKind::jfet,      PartKind::mosfet,        PartKind::triode,       PartKind::pentode,
    PartKind::inductor, PartKind::link,      PartKind::voltageSource, PartKind::switchContact};

/// Edits asked by chance, as a hand and a keyboard would.
class RandomHand {
public:
    explicit RandomHand(unsigned seed) : m_chance(seed) {}

    EditResult edit(const Circuit& circuit) {
        // A drawing that copies of copies have filled is cleared again: a unit has some dozen parts.
        constexpr std::size_t mostThings = 250;
        constexpr int erasing = 9;
        const std::size_t things = circuit.parts.size() + circuit.drawing.wires.size();
        switch (things > mostThings ? erasing : m_chance.below(14)) {
            case 0:
            case 1:
                return place(circuit);
            case 2:
            case 3:
            case 4:
                return drawWire(circuit, {point(circuit), point(circuit), point(circuit)});
            case 5:
            case 6:
                return move(circuit, picked(circuit), {m_chance.below(9) - 4, m_chance.below(9) - 4});
            case 7:
                return turn(circuit, picked(circuit));
            case 8:
                return mirror(circuit, picked(circuit));
            case 9:
                return erase(circuit, picked(circuit));
            case 10:
                return placeFlag(circuit, {m_chance.coin() ? FlagKind::ground : FlagKind::supply,
                                           {},
                                           point(circuit),
                                           m_chance.coin() ? "9 V" : "Vb"});
            case 11:
                return nameNet(circuit, netAt(circuit, point(circuit)), "net" + std::to_string(m_chance.below(20)));
            case 12:
                return paste(circuit, copyOf(circuit, withInnerWires(circuit, picked(circuit))),
                             {m_chance.below(30), m_chance.below(20)});
            default:
                return zone(circuit);
        }
    }

private:
    EditResult place(const Circuit& circuit) {
        Part part;
        part.kind = drawnKinds[static_cast<std::size_t>(m_chance.below(static_cast<int>(drawnKinds.size())))];
        part.value = 1000.0;
        return placePart(circuit, part,
                         {free(), m_chance.below(4), m_chance.coin(), 2 + m_chance.below(3), LabelSide::automatic});
    }
    EditResult zone(const Circuit& circuit) {
        switch (m_chance.below(4)) {
            case 0:
                return beginStage(circuit, m_chance.below(60), "Stage");
            case 1:
                return endStage(circuit, static_cast<std::size_t>(m_chance.below(4)));
            case 2:
                return makeRoom(circuit, free(), {m_chance.below(3), m_chance.below(3)});
            default:
                return frameField(circuit, {"Supply", "", free(), free()});
        }
    }
    GridPoint free() { return {m_chance.below(60), m_chance.below(30)}; }
    /// Half of the time a pin: wires are drawn to pins.
    GridPoint point(const Circuit& circuit) {
        if (!circuit.parts.empty() && m_chance.coin()) {
            const Part& part =
                circuit.parts[static_cast<std::size_t>(m_chance.below(static_cast<int>(circuit.parts.size())))];
            return part.placement ? pinPoint(part, m_chance.below(3)) : free();
        }
        return free();
    }
    Picked picked(const Circuit& circuit) {
        if (m_chance.coin()) {
            const GridPoint corner = free();
            return pickedIn(circuit, corner, {corner.x + 12, corner.y + 8});
        }
        Picked one;
        if (!circuit.parts.empty()) {
            one.parts.push_back(
                circuit.parts[static_cast<std::size_t>(m_chance.below(static_cast<int>(circuit.parts.size())))].id);
        }
        return one;
    }

    Chance m_chance;
};

}  // namespace ohmwright::test
