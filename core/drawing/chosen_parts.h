/// Parts taken off a drawing to be laid out anew, and the drawing without them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/sketch.h"

#include <set>

namespace ohmwright {

class ChosenParts {
public:
    ChosenParts(const Circuit& circuit, const std::vector<PartId>& chosen);

    /// The chosen parts as a circuit of their own.
    [[nodiscard]] const Circuit& taken() const { return m_taken; }
    /// The circuit with the chosen parts off the drawing: without the wires of their nets, and the signs that only
    /// these wires led to.
    [[nodiscard]] const Circuit& rest() const { return m_rest; }
    [[nodiscard]] std::set<NetName> netsOfTheRest() const;
    /// What the rest takes of the sheet, and where its nets can be reached.
    [[nodiscard]] Sketch standing() const;
    /// Puts what was laid out, by index into taken().parts, into the drawing.
    void put(const Sketch& added, Circuit& drawn) const;

private:
    void takeWiresAway();

    Circuit m_taken;
    Circuit m_rest;
};

}  // namespace ohmwright
