/// Where a pin is found without a photo: counted from the notch, by the band, by the other end.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/check.h"

#include <string>

namespace ohmwright {

/// "second from the notch, on the side of the dot"; empty where the probe's own words say all there is.
///
/// Chips count against the clock from the notch, seen from the part side; one whose highest known pin is under 9 has
/// eight, else fourteen or sixteen. Common practice, no source.
std::string placeHint(const Circuit& circuit, const Probe& probe);

/// What else is soldered to the place: "6 legs: U1 pin 2, C4 Cg, C5 Cf, R6 Rf, D1, D2".
std::string legsAtPlace(const Circuit& circuit, const Probe& probe);

}  // namespace ohmwright
