// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include "core/base/said.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <string_view>

namespace ohmwright {

namespace {

std::atomic<DecimalMark> processMark = DecimalMark::point;

constexpr std::string_view trueMinus = "\u2212";
/// Room for any finite double in fixed notation with the few decimals used here.
constexpr std::size_t digitsRoom = 400;

std::string unsignedFixed(double magnitude, int decimals) {
    std::array<char, digitsRoom> text{};
    const int length = std::snprintf(text.data(), text.size(), "%.*f", decimals, magnitude);
    std::string digits(text.data(), static_cast<std::size_t>(std::clamp(length, 0, static_cast<int>(digitsRoom) - 1)));
    // The C locale may have been changed by the host program.
    std::replace_if(
        digits.begin(), digits.end(), [](char c) { return c == ',' || c == '.'; }, static_cast<char>(decimalMark()));
    return digits;
}

bool isZeroText(std::string_view digits) {
    return digits.find_first_not_of("0.,") == std::string_view::npos;
}

/// Decimals that leave three digits: two under 10, one under 100, none above, judged after rounding.
int decimalsOfFigure(double magnitude) {
    if (magnitude < 9.995) return 2;
    if (magnitude < 99.95) return 1;
    return 0;
}

}  // namespace

DecimalMark decimalMark() {
    return InEnglish::isSpoken() ? DecimalMark::point : processMark.load();
}

void setDecimalMark(DecimalMark mark) {
    processMark = mark;
}

std::string formatFixed(double value, int decimals, Sign sign) {
    if (!std::isfinite(value)) return said("none");
    std::string digits = unsignedFixed(std::abs(value), decimals);
    if (isZeroText(digits)) return digits;
    if (value < 0.0) return std::string(trueMinus) + digits;
    return sign == Sign::always ? "+" + digits : digits;
}

std::string formatFigure(double value, Sign sign) {
    return formatFixed(value, decimalsOfFigure(std::abs(value)), sign);
}

std::string formatFrequency(double hertz) {
    const double magnitude = std::abs(hertz);
    if (magnitude >= 999500.0) return formatFigure(hertz / 1e6) + " MHz";
    if (magnitude >= 999.5) return formatFigure(hertz / 1e3) + " kHz";
    if (magnitude >= 0.9995 || magnitude == 0.0) return formatFigure(hertz) + " Hz";
    return formatFigure(hertz * 1e3) + " mHz";
}

std::string formatVoltPair(double positive, double negative) {
    const std::string up = formatFixed(positive, 2);
    const std::string down = formatFixed(-negative, 2);
    if (up == down) return "±" + up;
    return formatFixed(positive, 2, Sign::always) + " / " + formatFixed(negative, 2, Sign::always);
}

}  // namespace ohmwright
