/// How parts and places are named at the bench: what is printed on a body, and by which pin or leg a net is found.
///
/// Text is UTF-8 as the job has it; whoever prints it takes control characters out.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// What to look for on the body: the part's own printed marking where it is known, else the capacitor code or
/// the colour bands of its value ("orange-white-red-gold"); empty where neither says it. Where no tolerance is known,
/// its band is left out.
std::string printedMarking(const Part& part);

/// Whether the legs of such a part look alike in the hand: they are called "one leg of R5 Rg".
bool hasLikeLegs(PartKind kind);

/// "56n", "1N4148", or the kind where the part has neither.
std::string valueWords(const Part& part);

/// "U1 pin 2", "Q1 base", "one leg of R5 Rg", "band leg of D1".
std::string pinWords(const Part& part, int pin);

/// The same with what the pin is where it has a number: "U1 pin 2 (inverting input)".
std::string deviceLegWords(const Part& part, int leg);

/// What one finds at a net, the best landmark first: ground and the jacks, chip pins, transistor legs, then the rest.
/// Sources and the next box are nothing one finds. `apart` is the part that is being worked on.
std::vector<std::string> landmarks(const Circuit& circuit, const NetName& net, const PartId& apart, std::size_t most);

/// "U1 pin 2"; "one leg of R5 Rg and one leg of R6" where no leg stands out; "no other part" when the net has none.
std::string joinsWords(const Circuit& circuit, const NetName& net, const PartId& apart);

/// Where to put a probe: "jack sleeve (ground)", "U1 pin 2 (inverting input)", "Q1 base", "VR1 wiper", "band end of
/// D1", "top of Rg" (the other end is at ground), "the end of R7 away from U1 pin 1", "one leg of C6".
std::string placeWords(const Circuit& circuit, const NetName& net, const PartId& apart = {});

struct PlacedPin {
    PartId part;
    int pin = 0;
};
/// The pin that placeWords names; nothing where it names none (ground, a jack, a free leg).
std::optional<PlacedPin> placePin(const Circuit& circuit, const NetName& net, const PartId& apart = {});

/// Whether a net's parts are all of the kind that look like many others, so that one name does not find it.
bool isPlainNet(const Circuit& circuit, const NetName& net, const PartId& apart = {});

/// Whether a meter must stay silent between two nets with the power off: no way of wire, solder, coil, closed contact,
/// pot or a resistance under 100 Ω leads from one to the other.
/// Meters beep under some tens of ohms; well above that they are silent. Common practice, no source.
bool staysSilent(const Circuit& circuit, const NetName& a, const NetName& b);

/// Film, ceramic and mica, as the build says. A part whose build is not known may have a plus from 470 nF up; smaller
/// ones with a plus are not bought for these units (common practice, no source).
bool isNonPolar(const Part& part);

/// "U1": "U1A" is a half of the chip U1; else the reference.
std::string chipName(const Part& part);

/// "Q1 base" has a law of its own legs: transistors and valves, whose legs' order differs from type to type.
bool isAmplifying(PartKind kind);

}  // namespace ohmwright
