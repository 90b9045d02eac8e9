// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/colour_bands.h"

#include "core/base/said.h"
#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <optional>

namespace ohmwright {

namespace {

/// A decimal part of a value is told apart down to this; beyond it is rounding, not another digit.
constexpr double exactDigits = 1e-9;

struct Colour {
    std::string_view name;
    std::optional<int> digit;
    std::optional<int> exponent;             ///< Multiplier is 10^exponent.
    std::optional<double> tolerancePercent;  ///< Absent for a colour that is no tolerance, and for grey.
};

// IEC 60062:2016. Grey is left out as a tolerance: 0.05 % in older editions, 0.01 % since 2016.
constexpr std::array<Colour, 13> colours = {{
    {toSay("black"), 0, 0, std::nullopt},
    {toSay("brown"), 1, 1, 1.0},
    {toSay("red"), 2, 2, 2.0},
    {toSay("orange"), 3, 3, 0.05},
    {toSay("yellow"), 4, 4, 0.02},
    {toSay("green"), 5, 5, 0.5},
    {toSay("blue"), 6, 6, 0.25},
    {toSay("violet"), 7, 7, 0.1},
    {toSay("grey"), 8, 8, std::nullopt},
    {toSay("white"), 9, 9, std::nullopt},
    {toSay("gold"), std::nullopt, -1, 5.0},
    {toSay("silver"), std::nullopt, -2, 10.0},
    {toSay("pink"), std::nullopt, -3, std::nullopt},
}};

Error refuse(const std::string& sentence, std::string_view band) {
    return {ErrorCode::invalidInput, sentence, std::string(band)};
}

std::vector<std::string> splitBands(std::string_view text) {
    std::vector<std::string> names;
    std::string name;
    for (char c : text) {
        if (c != '-' && c != ',' && c != ' ') {
            name += c;
        } else if (!name.empty()) {
            names.push_back(inLowerCase(name));
            name.clear();
        }
    }
    if (!name.empty()) names.push_back(inLowerCase(name));
    return names;
}

const Colour* findColour(std::string_view name) {
    const std::string_view known = name == "gray" ? "grey" : name;
    const auto* found = std::find_if(colours.begin(), colours.end(), [known](const Colour& c) {
        return c.name == known || inLowerCase(said(c.name)) == known;
    });
    return found == colours.end() ? nullptr : found;
}

double scaled(int digits, int exponent) {
    return exponent >= 0 ? digits * std::pow(10.0, exponent) : digits / std::pow(10.0, -exponent);
}

Result<int> readDigits(const std::vector<const Colour*>& bands, std::size_t count) {
    int digits = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (!bands[i]->digit)
            return refuse(said("Band %1 is a digit and cannot be %2: read the bands from the other end.", i + 1,
                               said(bands[i]->name)),
                          bands[i]->name);
        digits = digits * 10 + *bands[i]->digit;
    }
    if (*bands.front()->digit == 0)
        return refuse(said("The first band cannot be black: read the bands from the other end."), bands.front()->name);
    return digits;
}

Result<double> readTolerance(const Colour& band) {
    if (band.name == "grey")
        return refuse(said("Grey as the tolerance band is 0.05 % or 0.01 %, depending on the year: measure the part."),
                      "grey");
    if (!band.tolerancePercent)
        return refuse(said("The last band is the tolerance and cannot be %1: read the bands from the other end.",
                           said(band.name)),
                      band.name);
    return *band.tolerancePercent / 100.0;
}

std::optional<std::string_view> toleranceColour(double fraction) {
    for (const Colour& colour : colours)
        if (colour.tolerancePercent && std::abs(*colour.tolerancePercent / 100.0 - fraction) <= exactDigits)
            return colour.name;
    return std::nullopt;
}

std::string_view digitColour(int digit) {
    return colours[static_cast<std::size_t>(digit)].name;
}

std::string_view exponentColour(int exponent) {
    return std::find_if(colours.begin(), colours.end(), [exponent](const Colour& c) { return c.exponent == exponent; })
        ->name;
}

/// A value as a whole number of `count` digits and a power of ten.
struct Digits {
    int number = 0;
    int exponent = 0;
};

std::optional<Digits> asDigits(double value, int count) {
    if (!(value > 0.0) || !std::isfinite(value)) return std::nullopt;
    int exponent = static_cast<int>(std::floor(std::log10(value) + exactDigits)) - (count - 1);
    const double number = exponent >= 0 ? value / std::pow(10.0, exponent) : value * std::pow(10.0, -exponent);
    const double whole = std::round(number);
    if (std::abs(number - whole) > exactDigits * number) return std::nullopt;
    return Digits{static_cast<int>(whole), exponent};
}

}  // namespace

Result<BandReading> readColourBands(std::string_view bands) {
    const std::vector<std::string> names = splitBands(bands);
    if (names.size() < 3 || names.size() > 5)
        return refuse(said("A resistor has three, four or five bands here, and %1 were given: leave a temperature band "
                           "out.",
                           names.size()),
                      "");
    std::vector<const Colour*> found;
    for (const std::string& name : names) {
        const Colour* colour = findColour(name);
        if (colour == nullptr)
            return refuse(said("“%1” is no colour of the resistor code: use black, brown, red, orange, yellow, green, "
                               "blue, violet, grey, white, gold, silver or pink.",
                               name),
                          name);
        found.push_back(colour);
    }
    const std::size_t digitCount = names.size() == 5 ? 3 : 2;
    const Result<int> digits = readDigits(found, digitCount);
    if (!digits) return digits.error();
    BandReading reading;
    reading.ohms = scaled(*digits, *found[digitCount]->exponent);
    if (names.size() == 3) return reading;
    const Result<double> tolerance = readTolerance(*found.back());
    if (!tolerance) return tolerance.error();
    reading.toleranceFraction = *tolerance;
    return reading;
}

Result<std::vector<std::string>> colourBandsOf(double ohms, double toleranceFraction) {
    // Parts of 2 % and better are made in the three-digit series and carry three digit bands even for 10 Ω.
    constexpr double threeDigitTolerance = 0.02;
    constexpr double noBandTolerance = 0.2;
    const bool noBand = std::abs(toleranceFraction - noBandTolerance) <= exactDigits;
    const std::optional<std::string_view> tolerance = toleranceColour(toleranceFraction);
    if (!tolerance && !noBand)
        return refuse(said("No colour band says this tolerance: give 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10 or 20 %."),
                      "");
    const bool preferThree = toleranceFraction <= threeDigitTolerance + exactDigits;
    int count = preferThree ? 3 : 2;
    std::optional<Digits> digits = asDigits(ohms, count);
    if (!digits && count == 2) digits = asDigits(ohms, count = 3);
    if (!digits || digits->exponent < -3 || digits->exponent > 9)
        return refuse(said("This value needs more than three digits or is outside what colour bands can say."), "");
    if (count == 3 && noBand)
        return refuse(
            said("A value of three digits needs a tolerance band, and 20 % has none: give its real tolerance."), "");
    std::vector<std::string> bands;
    for (int power = count == 3 ? 100 : 10; power > 0; power /= 10)
        bands.emplace_back(digitColour(digits->number / power % 10));
    bands.emplace_back(exponentColour(digits->exponent));
    if (tolerance) bands.emplace_back(*tolerance);
    return bands;
}

std::string capacitorCode(double farads) {
    constexpr double picofarad = 1e-12;
    const std::optional<Digits> digits = asDigits(farads / picofarad, 2);
    if (!digits || digits->exponent < -2 || digits->exponent > 7) return {};
    const std::string number = std::to_string(digits->number);
    // Under 10 pF the letter R is the decimal point; the multiplier digits 8 and 9 say the same, less readably.
    if (digits->exponent == -1) return number.substr(0, 1) + "R" + number.substr(1);
    if (digits->exponent == -2) return "R" + number;
    return number + std::to_string(digits->exponent);
}

}  // namespace ohmwright
