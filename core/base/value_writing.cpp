// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_writing.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/base/value_written.h"

#include <array>
#include <atomic>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <span>
#include <string_view>
#include <utility>

namespace ohmwright {

namespace {

std::atomic<ValueStyle> processStyle = ValueStyle::letterAsPoint;

/// Decimal digits "39" and the power of ten of the first one: 3900 is 3.9e3.
struct Decimal {
    std::string digits;
    int exponent = 0;
};

Decimal roundedTo(double magnitude, int significant) {
    std::array<char, 48> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), magnitude, std::chars_format::scientific,
                                   significant - 1);
    const std::string_view written(text.data(), static_cast<std::size_t>(end.ptr - text.data()));
    Decimal result;
    const std::size_t e = written.find('e');
    for (char c : written.substr(0, e))
        if (isDigit(c)) result.digits += c;
    result.exponent = std::atoi(std::string(written.substr(e + 1)).c_str());
    return result;
}

/// At least `fewest` digits, more up to five where they tell the value exactly, else three.
Decimal shortestDecimal(double magnitude, int fewest) {
    constexpr int most = 5;
    for (int significant = fewest; significant <= most; ++significant) {
        Decimal decimal = roundedTo(magnitude, significant);
        const double shown = decimalNumber(decimal.digits.substr(0, 1), decimal.digits.substr(1), decimal.exponent);
        if (std::abs(shown - magnitude) <= sameNumber * magnitude) return decimal;
    }
    Decimal rounded = roundedTo(magnitude, 3);
    while (static_cast<int>(rounded.digits.size()) > fewest && rounded.digits.back() == '0') rounded.digits.pop_back();
    return rounded;
}

/// The digits before and after the point, once the value is shifted by `shift` powers of ten.
std::pair<std::string, std::string> splitAt(const Decimal& decimal, int shift) {
    const int wholeDigits = decimal.exponent - shift + 1;
    if (wholeDigits <= 0) return {"", std::string(static_cast<std::size_t>(-wholeDigits), '0') + decimal.digits};
    const auto whole = static_cast<std::size_t>(wholeDigits);
    if (whole >= decimal.digits.size()) return {decimal.digits + std::string(whole - decimal.digits.size(), '0'), ""};
    return {decimal.digits.substr(0, whole), decimal.digits.substr(whole)};
}

struct Prefix {
    int exponent;
    std::string_view text;
};

// Capacitors from 1 mF to 1 F stay in µF, as they are printed.
constexpr std::array<Prefix, 4> ohmPrefixes = {{{9, "G"}, {6, "M"}, {3, "k"}, {0, ""}}};
constexpr std::array<Prefix, 4> faradPrefixes = {{{0, ""}, {-6, "µ"}, {-9, "n"}, {-12, "p"}}};
constexpr std::array<Prefix, 8> anyPrefixes = {
    {{9, "G"}, {6, "M"}, {3, "k"}, {0, ""}, {-3, "m"}, {-6, "µ"}, {-9, "n"}, {-12, "p"}}};
constexpr std::array<Prefix, 1> noPrefixes = {{{0, ""}}};

std::span<const Prefix> prefixesOf(Unit unit) {
    switch (unit) {
        case Unit::ohm:
            return ohmPrefixes;
        case Unit::farad:
            return faradPrefixes;
        case Unit::henry:
        case Unit::volt:
        case Unit::ampere:
        case Unit::hertz:
            return anyPrefixes;
        default:
            return noPrefixes;
    }
}

Prefix prefixFor(int exponent, Unit unit) {
    const std::span<const Prefix> prefixes = prefixesOf(unit);
    for (const Prefix& prefix : prefixes)
        if (exponent >= prefix.exponent) return prefix;
    return prefixes.back();
}

std::string pointed(const Decimal& decimal, int shift) {
    const auto [whole, fraction] = splitAt(decimal, shift);
    return (whole.empty() ? "0" : whole) + (fraction.empty() ? "" : static_cast<char>(decimalMark()) + fraction);
}

}  // namespace

std::string withUnit(Quantity value, int fewestDigits) {
    const std::string symbol = unitSymbol(value.unit);
    if (value.si == 0.0) return symbol.empty() ? "0" : "0 " + symbol;
    const Decimal decimal = shortestDecimal(std::abs(value.si), fewestDigits);
    const Prefix prefix = prefixFor(decimal.exponent, value.unit);
    const std::string unit = std::string(prefix.text) + symbol;
    return (value.si < 0.0 ? "\u2212" : "") + pointed(decimal, prefix.exponent) + (unit.empty() ? "" : " " + unit);
}

ValueStyle valueStyle() {
    return InEnglish::isSpoken() ? ValueStyle::letterAsPoint : processStyle.load();
}

void setValueStyle(ValueStyle style) {
    processStyle = style;
}

std::string formatPartValue(Quantity value, ValueStyle style) {
    if (!std::isfinite(value.si)) return said("none");
    if (value.unit != Unit::ohm && value.unit != Unit::farad) return withUnit(value, 1);
    const bool isBehind = style == ValueStyle::letterBehind;
    if (value.si == 0.0) return value.unit == Unit::farad ? (isBehind ? "0 p" : "0p") : isBehind ? "0 Ω" : "0R";
    const Decimal decimal = shortestDecimal(std::abs(value.si), 1);
    const Prefix prefix = prefixFor(decimal.exponent, value.unit);
    std::string text = value.si < 0.0 ? "\u2212" : "";
    if (isBehind) {
        text.append(pointed(decimal, prefix.exponent)).append(" ");
        return text.append(prefix.text.empty() ? unitSymbol(value.unit) : std::string(prefix.text));
    }
    const std::string unitLetter = value.unit == Unit::ohm ? "R" : "F";
    const auto [whole, fraction] = splitAt(decimal, prefix.exponent);
    return text.append(whole).append(prefix.text.empty() ? unitLetter : std::string(prefix.text)).append(fraction);
}

std::string formatQuantity(Quantity value) {
    if (!std::isfinite(value.si)) return said("none");
    return withUnit(value, 3);
}

}  // namespace ohmwright
