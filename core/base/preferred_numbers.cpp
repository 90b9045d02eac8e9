// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/preferred_numbers.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <vector>

namespace ohmwright {

namespace {

/// A value this near to a member is that member: far above rounding, far below any step of E192.
constexpr double sameValue = 1e-9;

// IEC 60063, E24. Eight values differ from plain rounding for reasons of history; E12, E6 and E3 are every
// second, fourth and eighth of them.
constexpr std::array<double, 24> e24 = {1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
                                        3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1};

std::vector<double> everyNthOfE24(std::size_t step) {
    std::vector<double> values;
    for (std::size_t n = 0; n < e24.size(); n += step) values.push_back(e24[n]);
    return values;
}

std::vector<double> threeDigitDecade(int count) {
    std::vector<double> values;
    values.reserve(static_cast<std::size_t>(count));
    for (int n = 0; n < count; ++n)
        values.push_back(std::round(100.0 * std::pow(10.0, static_cast<double>(n) / count)) / 100.0);
    // The rule gives 9.19 here; the standard prints 9.20.
    if (count == 192) values[185] = 9.20;
    return values;
}

std::vector<double> makeDecade(Series series) {
    const int count = static_cast<int>(series);
    return count <= 24 ? everyNthOfE24(24 / static_cast<std::size_t>(count)) : threeDigitDecade(count);
}

/// member x 10^exponent as the nearest double to the decimal number, so that 4.7 in the nano decade equals 4.7e-9.
double atDecade(double member, int exponent) {
    const double hundredths = std::round(member * 100.0);
    const int power = exponent - 2;
    return power >= 0 ? hundredths * std::pow(10.0, power) : hundredths / std::pow(10.0, -power);
}

int decadeExponent(double value) {
    return static_cast<int>(std::floor(std::log10(value)));
}

/// The members around `value`, ascending, from the decade below to the decade above.
std::vector<double> membersAround(double value, Series series) {
    assert(value > 0.0 && std::isfinite(value));
    const int exponent = decadeExponent(value);
    std::vector<double> members;
    for (int decade = exponent - 1; decade <= exponent + 1; ++decade)
        for (double member : decadeOf(series)) members.push_back(atDecade(member, decade));
    return members;
}

}  // namespace

std::span<const double> decadeOf(Series series) {
    static const std::vector<double> e3Values = makeDecade(Series::e3);
    static const std::vector<double> e6Values = makeDecade(Series::e6);
    static const std::vector<double> e12Values = makeDecade(Series::e12);
    static const std::vector<double> e48Values = makeDecade(Series::e48);
    static const std::vector<double> e96Values = makeDecade(Series::e96);
    static const std::vector<double> e192Values = makeDecade(Series::e192);
    switch (series) {
        case Series::e3:
            return e3Values;
        case Series::e6:
            return e6Values;
        case Series::e12:
            return e12Values;
        case Series::e24:
            return e24;
        case Series::e48:
            return e48Values;
        case Series::e96:
            return e96Values;
        case Series::e192:
            return e192Values;
    }
    return e24;
}

double nearestPreferred(double value, Series series) {
    const std::vector<double> members = membersAround(value, series);
    return *std::min_element(members.begin(), members.end(), [value](double a, double b) {
        return std::abs(std::log(a / value)) < std::abs(std::log(b / value));
    });
}

double nextPreferred(double value, Series series) {
    const std::vector<double> members = membersAround(value, series);
    return *std::find_if(members.begin(), members.end(),
                         [value](double member) { return member > value * (1.0 + sameValue); });
}

double previousPreferred(double value, Series series) {
    const std::vector<double> members = membersAround(value, series);
    return *std::find_if(members.rbegin(), members.rend(),
                         [value](double member) { return member < value * (1.0 - sameValue); });
}

bool isPreferred(double value, Series series) {
    const double nearest = nearestPreferred(value, series);
    return std::abs(nearest - value) <= sameValue * value;
}

}  // namespace ohmwright
