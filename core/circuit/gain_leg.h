/// Parts found by their role in the net, never by their name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <map>
#include <optional>
#include <vector>

namespace ohmwright {

/// The leg from an op-amp's inverting pin to ground that sets its gain: one resistance and one capacitance
/// in series, after parts in series and across each other are taken together.
struct GainLeg {
    PartId opamp;
    double ohms = 0.0;
    double farads = 0.0;
    std::vector<PartId> resistors;
    std::vector<PartId> capacitors;

    /// 1/(2 pi R C): the corner tag. A formula of the parts, not read from a curve.
    [[nodiscard]] double cornerHz() const;

    friend bool operator==(const GainLeg&, const GainLeg&) = default;
};

/// Resistance of pots from wiper to bottom [Ω], the rest of the track being above the wiper. A pot that is
/// not named stands at half travel.
using PotOhms = std::map<PartId, double>;

/// All pots that a knob turns, at a setting.
PotOhms potOhmsAt(const Circuit& circuit, const Setting& setting);

/// The gain leg of the stage whose op-amp drives `clipNode`; absent when that net is driven by no op-amp or
/// the leg is not one R and one C in series after reduction (pure resistance included).
///
/// The leg is what leads from the inverting pin to ground past no driven net (an op-amp's output, a supply)
/// and not past the non-inverting pin. Parts of one kind across each other are one, then parts in series,
/// in any order along the leg; links are wires; what hangs on by one end does not count.
std::optional<GainLeg> findGainLeg(const Circuit& circuit, const NetName& clipNode, const PotOhms& potOhms = {});

/// The resistance that feeds an op-amp's output back to its inverting pin.
struct FeedbackPath {
    double ohms = 0.0;
    std::vector<PartId> parts;

    friend bool operator==(const FeedbackPath&, const FeedbackPath&) = default;
};

/// The resistive path from output to inverting pin, resistors in series and across each other taken together;
/// absent when there is none, or when a resistor leads from inside it to ground or a supply, so that no single
/// resistance says what it does.
std::optional<FeedbackPath> findFeedbackResistance(const Circuit& circuit, const PartId& opamp, const PotOhms& potOhms);

}  // namespace ohmwright
