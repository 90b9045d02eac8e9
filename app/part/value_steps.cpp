// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/value_steps.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

double threeDigits(double value) {
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / unit) * unit;
}

double steppedInSeries(double value, Series series, int steps) {
    for (int taken = 0; taken < std::abs(steps); ++taken) {
        value = steps > 0 ? nextPreferred(value, series) : previousPreferred(value, series);
    }
    return value;
}

}  // namespace

double steppedValue(double value, PartKind kind, int steps, Qt::KeyboardModifiers modifiers) {
    if (modifiers & Qt::AltModifier) {
        constexpr double freeStep = 1.01;
        // Three digits: 1 % is at least one unit of the last of them.
        for (int taken = 0; taken < std::abs(steps); ++taken) {
            value = threeDigits(steps > 0 ? value * freeStep : value / freeStep);
        }
        return value;
    }
    if (modifiers & Qt::ShiftModifier) {
        return steppedInSeries(value, Series::e96, steps);
    }
    return steppedInSeries(value, modifiers & Qt::ControlModifier ? Series::e24 : shopSeries(kind), steps);
}

std::vector<double> valuesAround(double value, PartKind kind, int count) {
    const Series series = shopSeries(kind);
    std::vector<double> values{value};
    double below = value;
    double above = value;
    for (int pair = 0; pair < count / 2; ++pair) {
        below = previousPreferred(below, series);
        above = nextPreferred(above, series);
        values.insert(values.begin(), below);
        values.push_back(above);
    }
    return values;
}

bool isSameValue(double a, double b) {
    // Decimal text and series members differ in the last binary digits only.
    constexpr double relative = 1e-9;
    return std::abs(a - b) <= relative * std::max(std::abs(a), std::abs(b));
}

}  // namespace ohmwright
