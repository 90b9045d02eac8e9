/// Colour bands of resistors, both ways, so that a bench sheet can say what to look for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

struct BandReading {
    double ohms = 0.0;
    double toleranceFraction = 0.2;  ///< 0.20 when no tolerance band is printed (three bands).

    friend bool operator==(const BandReading&, const BandReading&) = default;
};

/// Reads three, four or five bands from the left: "yellow-violet-red-gold", any of "-", "," or space between.
/// Errors: invalidInput naming the band that is no colour or cannot stand at its place.
/// Source: IEC 60062 colour code. Grey as a tolerance band is refused: editions disagree.
Result<BandReading> readColourBands(std::string_view bands);

/// The bands to look for: four for a value of two digits, five for three digits and for every part of 2 % or
/// better, as those are made ("brown-black-black-gold-brown" is 10 Ω 1 %); three bands for 20 %.
/// Errors: invalidInput when the value needs more than three digits or the tolerance has no colour.
Result<std::vector<std::string>> colourBandsOf(double ohms, double toleranceFraction);

/// The three-character capacitor code in pF: 120 nF "124", 10 pF "100"; empty when two digits do not say it.
/// Source: IEC 60062.
std::string capacitorCode(double farads);

}  // namespace ohmwright
