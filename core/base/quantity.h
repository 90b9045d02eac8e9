/// A number that a person typed or a part owns, with its unit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

enum class Unit { none, ohm, farad, henry, volt, ampere, hertz, decibel, percent };

/// A value in the SI unit named beside it. Built by the functions below only, so that a
/// capacitor's field cannot be given ohms.
struct Quantity {
    double si = 0.0;
    Unit unit = Unit::none;

    friend bool operator==(const Quantity&, const Quantity&) = default;
};

constexpr Quantity ohms(double value) {
    return {value, Unit::ohm};
}
constexpr Quantity farads(double value) {
    return {value, Unit::farad};
}
constexpr Quantity henries(double value) {
    return {value, Unit::henry};
}
constexpr Quantity volts(double value) {
    return {value, Unit::volt};
}
constexpr Quantity amperes(double value) {
    return {value, Unit::ampere};
}
constexpr Quantity hertz(double value) {
    return {value, Unit::hertz};
}

/// "Ω", "F", "H", "V", "A", "Hz", "dB", "%" or "".
const char* unitSymbol(Unit unit);

/// The values a part or a setting can have, in SI units: 0.01 Ω..100 GΩ, 0.1 pF..1 F, 1 nH..10 kH, 1 µV..100 kV,
/// 1 pA..1 kA, 1 mHz..1 GHz. Decibel, percent and plain numbers are not limited.
/// Source: house rule; everything that is soldered into a pedal lies well inside.
struct ValueRange {
    double lowest = 0.0;
    double highest = 0.0;
};
ValueRange valueRange(Unit unit);

}  // namespace ohmwright
