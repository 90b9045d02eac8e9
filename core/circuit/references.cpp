// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/references.h"

#include <algorithm>
#include <charconv>

namespace ohmwright {

std::string_view referencePrefix(PartKind kind) {
    switch (kind) {
        case PartKind::resistor:
            return "R";
        case PartKind::capacitor:
            return "C";
        case PartKind::inductor:
            return "L";
        case PartKind::potentiometer:
            return "VR";
        case PartKind::link:
            return "W";
        case PartKind::diode:
            return "D";
        case PartKind::bipolar:
            return "Q";
        case PartKind::opamp:
            return "U";
        case PartKind::voltageSource:
            return "V";
        case PartKind::currentSource:
            return "I";
        case PartKind::jfet:
            return "J";
        case PartKind::mosfet:
            return "M";
        case PartKind::triode:
        case PartKind::pentode:
            return "V";
        case PartKind::switchContact:
            return "S";
        case PartKind::coupling:
            return "K";
        case PartKind::voltageControlledVoltage:
            return "E";
        case PartKind::voltageControlledCurrent:
            return "G";
        case PartKind::currentControlledCurrent:
            return "F";
        case PartKind::currentControlledVoltage:
            return "H";
        case PartKind::behaviouralVoltage:
        case PartKind::behaviouralCurrent:
            return "B";
    }
    return "X";
}

int referenceNumber(std::string_view reference, std::string_view prefix) {
    if (reference.substr(0, prefix.size()) != prefix) {
        return 0;
    }
    reference.remove_prefix(prefix.size());
    int number = 0;
    const auto [end, problem] = std::from_chars(reference.data(), reference.data() + reference.size(), number);
    constexpr int largestSensible = 1000000;
    const bool isWhole = problem == std::errc() && end == reference.data() + reference.size();
    return isWhole && number > 0 && number < largestSensible ? number : 0;
}

std::string nextReference(const Circuit& circuit, PartKind kind) {
    const std::string_view prefix = referencePrefix(kind);
    int highest = 0;
    for (const Part& part : circuit.parts) {
        highest = std::max(highest, referenceNumber(part.reference, prefix));
    }
    return std::string(prefix) + std::to_string(highest + 1);
}

}  // namespace ohmwright
