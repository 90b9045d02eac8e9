// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/quantity.h"

#include <limits>

namespace ohmwright {

const char* unitSymbol(Unit unit) {
    switch (unit) {
        case Unit::none:
            return "";
        case Unit::ohm:
            return "Ω";
        case Unit::farad:
            return "F";
        case Unit::henry:
            return "H";
        case Unit::volt:
            return "V";
        case Unit::ampere:
            return "A";
        case Unit::hertz:
            return "Hz";
        case Unit::decibel:
            return "dB";
        case Unit::percent:
            return "%";
    }
    return "";
}

ValueRange valueRange(Unit unit) {
    constexpr double unlimited = std::numeric_limits<double>::max();
    switch (unit) {
        case Unit::ohm:
            return {0.01, 100e9};
        case Unit::farad:
            return {0.1e-12, 1.0};
        case Unit::henry:
            return {1e-9, 10e3};
        case Unit::volt:
            return {1e-6, 100e3};
        case Unit::ampere:
            return {1e-12, 1e3};
        case Unit::hertz:
            return {1e-3, 1e9};
        case Unit::none:
        case Unit::decibel:
        case Unit::percent:
            return {-unlimited, unlimited};
    }
    return {-unlimited, unlimited};
}

}  // namespace ohmwright
