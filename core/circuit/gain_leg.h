/// Parts found by their role in the net, never by their name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

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

/// The gain leg of the stage whose op-amp drives `clipNode`; absent when that net is driven by no op-amp or
/// the leg is not one R and one C in series after reduction (pure resistance included).
std::optional<GainLeg> findGainLeg(const Circuit& circuit, const NetName& clipNode);

/// The resistance that feeds an op-amp's output back to its inverting pin (fixed parts, pots at the given
/// share), parts in series taken together; absent when no such resistive path exists.
struct FeedbackPath {
    double ohms = 0.0;
    std::vector<PartId> parts;
};
std::optional<FeedbackPath> findFeedbackResistance(const Circuit& circuit, const PartId& opamp,
                                                   const std::map<PartId, double>& potOhms);

}  // namespace ohmwright
