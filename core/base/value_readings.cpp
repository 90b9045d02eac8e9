// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/value_readings.h"

#include "core/base/preferred_numbers.h"
#include "core/base/said.h"

#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace ohmwright {

namespace {

/// Letters of IEC 60062; under 10 pF the letters B to G are picofarads instead of percent.
std::optional<double> toleranceOf(char letter, Quantity value) {
    struct Letter {
        char letter;
        double percent;
        std::optional<double> picofarads;
    };
    static constexpr std::array<Letter, 8> letters = {{{'B', 0.1, 0.1},
                                                       {'C', 0.25, 0.25},
                                                       {'D', 0.5, 0.5},
                                                       {'F', 1.0, 1.0},
                                                       {'G', 2.0, 2.0},
                                                       {'J', 5.0, std::nullopt},
                                                       {'K', 10.0, std::nullopt},
                                                       {'M', 20.0, std::nullopt}}};
    constexpr double picofarad = 1e-12;
    for (const Letter& known : letters) {
        if (known.letter != letter) continue;
        const bool absolute = value.unit == Unit::farad && value.si < 10.0 * picofarad && known.picofarads;
        return absolute ? *known.picofarads * picofarad / value.si : known.percent / 100.0;
    }
    return std::nullopt;
}

/// How a capacitor code reads: two digits and the third, which is the power.
std::string codeWords(const std::string& digits, int power) {
    switch (power) {
        case 1:
            return said("capacitor code, %1 and 1 zero, in pF", digits);
        case 8:
            return said("capacitor code, %1 times 0.01, in pF", digits);
        case 9:
            return said("capacitor code, %1 times 0.1, in pF", digits);
        default:
            return said("capacitor code, %1 and %2 zeros, in pF", digits, power);
    }
}

/// A bare whole number on a capacitor: the three-character code, the printed picofarads, or both.
std::vector<ValueReading> readBareCapacitor(const Written& written) {
    const std::string& digits = written.whole;
    const double printed = decimalNumber(digits, "", -12);
    std::vector<ValueReading> readings;
    if (digits.size() != 3) return {reading(printed, Unit::farad, written.tolerance, said("printed in pF"))};
    const int power = digits[2] - '0';
    // 8 and 9 as the third digit are x0.01 and x0.1.
    const double coded = decimalNumber(digits.substr(0, 2), "", -12 + (power >= 8 ? power - 10 : power));
    readings.push_back(reading(coded, Unit::farad, written.tolerance, codeWords(digits.substr(0, 2), power)));
    if (printed > 0.0 && isPreferred(decimalNumber(digits, "", 0), Series::e24))
        readings.push_back(reading(printed, Unit::farad, written.tolerance, said("printed in pF")));
    return readings;
}

/// "4,700" may be 4.7 or 4700.
bool commaMayPartThousands(const Written& written) {
    return written.hasComma && written.fraction.size() == 3 && !written.whole.empty() && written.whole.front() != '0' &&
           written.whole.size() <= 3;
}

std::vector<ValueReading> readDecimalCapacitor(const Written& written) {
    std::vector<ValueReading> readings;
    readings.push_back(reading(decimalNumber(written.whole, written.fraction, -6), Unit::farad, written.tolerance,
                               said("a bare decimal is µF by custom")));
    if (written.whole.find_first_not_of('0') != std::string::npos)
        readings.push_back(reading(decimalNumber(written.whole, written.fraction, -12), Unit::farad, written.tolerance,
                                   said("printed in pF")));
    if (commaMayPartThousands(written))
        readings.push_back(reading(decimalNumber(written.whole + written.fraction, "", -12), Unit::farad,
                                   written.tolerance, said("comma between thousands, in pF")));
    return readings;
}

std::string reasonOf(const Written& written) {
    if (written.scaleIsPoint) return said("letter for the decimal point");
    if (!written.scale.empty() || written.hasUnit) return said("number and unit");
    return said("plain number");
}

}  // namespace

ValueReading reading(double si, Unit unit, char tolerance, std::string because) {
    const Quantity value{si, unit};
    if (tolerance == 'Z') because = said("%1, tolerance Z: 20 % under to 80 % over", because);
    return {value, toleranceOf(tolerance, value), std::move(because)};
}

std::vector<ValueReading> readScaled(const Written& written, Unit unit) {
    const int exponent = scaleExponent(written.scale, unit);
    std::vector<ValueReading> readings;
    readings.push_back(
        reading(decimalNumber(written.whole, written.fraction, exponent), unit, written.tolerance, reasonOf(written)));
    if (commaMayPartThousands(written)) {
        readings.front().because = said("comma as the decimal point");
        readings.push_back(reading(decimalNumber(written.whole + written.fraction, "", exponent), unit,
                                   written.tolerance, said("comma between thousands")));
    }
    return readings;
}

std::vector<ValueReading> readCapacitor(const Written& written) {
    const bool unitOnly = written.scale == "F" && !written.scaleIsPoint;
    if (unitOnly && written.whole.size() == 3 && !written.hasPoint && written.tolerance == '\0') {
        // "104F" is no 104 farads: the F is the tolerance.
        Written code = written;
        code.tolerance = 'F';
        return readBareCapacitor(code);
    }
    if (!written.scale.empty()) {
        std::vector<ValueReading> readings = readScaled(written, Unit::farad);
        const bool milli = (written.scale == "m" || written.scale == "mF") && !written.scaleIsPoint;
        if (milli)
            readings.push_back(reading(decimalNumber(written.whole, written.fraction, -6), Unit::farad,
                                       written.tolerance, said("old print, m for micro")));
        return readings;
    }
    return written.hasPoint ? readDecimalCapacitor(written) : readBareCapacitor(written);
}

}  // namespace ohmwright
