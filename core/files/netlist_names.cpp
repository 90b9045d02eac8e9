// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_names.h"

#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace ohmwright {

namespace {

bool isPlain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// "V+" becomes "Vp", "low pass" "low_pass"; what has no letter of ASCII becomes one _ in a row.
std::string plainName(std::string_view wished) {
    constexpr std::size_t longest = 60;
    std::string plain;
    for (const char c : wished.substr(0, longest)) {
        if (isPlain(c)) {
            plain += c;
        } else if (c == '+' || c == '-') {
            plain += c == '+' ? 'p' : 'm';
        } else if (plain.empty() || plain.back() != '_') {
            plain += '_';
        }
    }
    return plain.empty() ? "n" : plain;
}

/// The digits of the shortest decimal that is this double, without point, and the decimal exponent of the first.
struct Decimal {
    std::string digits;
    int exponent = 0;
};

Decimal decimalOf(double magnitude) {
    std::array<char, 40> text{};
    const auto written =
        std::to_chars(text.data(), text.data() + text.size(), magnitude, std::chars_format::scientific);
    const std::string_view all(text.data(), std::size_t(written.ptr - text.data()));
    const std::size_t e = all.find('e');
    Decimal decimal;
    for (const char c : all.substr(0, e)) {
        if (c != '.') {
            decimal.digits += c;
        }
    }
    decimal.exponent = std::atoi(std::string(all.substr(e + 1)).c_str());
    return decimal;
}

std::string shortest(double value) {
    std::array<char, 40> text{};
    const auto written = std::to_chars(text.data(), text.data() + text.size(), value);
    return {text.data(), written.ptr};
}

constexpr std::array<std::string_view, 10> suffixes{"f", "p", "n", "u", "m", "", "k", "meg", "g", "t"};
constexpr int leastSuffixExponent = -15;

}  // namespace

void NetlistNames::reserve(std::string_view name) {
    m_taken.insert(inLowerCase(name));
}

const std::string& NetlistNames::nameFor(const std::string& key, std::string_view wished, char initial) {
    const auto found = m_names.find(key);
    if (found != m_names.end()) {
        return found->second;
    }
    std::string base = plainName(wished);
    if (initial != '\0' && inLowerCase(base.substr(0, 1)) != inLowerCase(std::string_view(&initial, 1))) {
        base.insert(base.begin(), initial);
    }
    std::string name = base;
    if (!m_taken.insert(inLowerCase(name)).second) {
        // Numbers below are taken, or 40,000 names alike would be tried against each other.
        std::size_t& number = m_nextNumber.try_emplace(inLowerCase(base), 2).first->second;
        do {
            name = base + "_" + std::to_string(number++);
        } while (!m_taken.insert(inLowerCase(name)).second);
    }
    return m_names.emplace(key, name).first->second;
}

std::string_view NetlistNames::known(const std::string& key) const {
    const auto found = m_names.find(key);
    return found == m_names.end() ? std::string_view() : std::string_view(found->second);
}

std::string netlistNumber(double value) {
    const double magnitude = std::abs(value);
    constexpr double plainFrom = 0.01;
    constexpr double plainTo = 1000.0;
    if (magnitude == 0.0 || !std::isfinite(value) || (magnitude >= plainFrom && magnitude < plainTo)) {
        return shortest(value == 0.0 ? 0.0 : value);
    }
    Decimal decimal = decimalOf(magnitude);
    const int steps = int(std::floor((decimal.exponent - leastSuffixExponent) / 3.0));
    if (steps < 0 || steps >= int(suffixes.size())) {
        return shortest(value);
    }
    const std::size_t before = std::size_t(decimal.exponent - leastSuffixExponent - 3 * steps) + 1;
    decimal.digits.resize(std::max(decimal.digits.size(), before), '0');
    std::string text = value < 0.0 ? "-" : "";
    text += decimal.digits.substr(0, before);
    if (decimal.digits.size() > before) {
        text += "." + decimal.digits.substr(before);
    }
    text += suffixes[std::size_t(steps)];
    return text;
}

std::string formulaNumber(double value) {
    return value < 0.0 ? "(" + shortest(value) + ")" : shortest(value);
}

}  // namespace ohmwright
