// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/setting.h"

#include "core/base/said.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double knobTravel = 10.0;
constexpr double knobWhenNotNamed = 5.0;
constexpr double leastEndOhms = 1e-3;  // A worn track's end; keeps every pot solvable.

/// Share of a log track at x = 0..1.
double logShare(double shareAtHalf, double x) {
    const double lnA = 2.0 * std::log(1.0 / shareAtHalf - 1.0);
    // At half share the law is the straight line, where (a^x - 1)/(a - 1) would be 0/0.
    return std::abs(lnA) < 1e-9 ? x : std::expm1(x * lnA) / std::expm1(lnA);
}

struct Range {
    const char* what;
    double value;
    double lowest;
    double highest;
    const char* allowed;
};

bool isInside(double value, double lowest, double highest) {
    return value >= lowest && value <= highest;  // false for NaN
}

Error outOfRange(const std::string& what, const char* allowed, const std::string& where) {
    return {ErrorCode::invalidInput, said("%1 is outside its range: choose a value from %2.", what, said(allowed)),
            where};
}

Error unknownKnob(const Circuit& circuit, const std::string& id) {
    std::string known;
    for (const Knob& knob : circuit.knobs) {
        known += known.empty() ? knob.id : ", " + knob.id;
    }
    return {ErrorCode::invalidInput,
            known.empty() ? said("There is no knob \"%1\" in this circuit: it has no knobs.", id)
                          : said("There is no knob \"%1\" in this circuit: its knobs are %2.", id, known),
            id};
}

}  // namespace

double taperShare(Taper taper, double shareAtHalf, double position) {
    const double x = std::clamp(position / knobTravel, 0.0, 1.0);
    switch (taper) {
        case Taper::logarithmic:
            return logShare(shareAtHalf, x);
        case Taper::reverseLogarithmic:
            return 1.0 - logShare(shareAtHalf, 1.0 - x);
        case Taper::linear:
            break;
    }
    return x;
}

PotHalves potHalves(const Part& pot, double position) {
    const double share = taperShare(pot.taper, pot.shareAtHalf, position);
    return {std::max(pot.value * (1.0 - share), leastEndOhms), std::max(pot.value * share, leastEndOhms)};
}

double knobPosition(const Setting& setting, std::string_view knobId) {
    const auto knob = setting.knobs.find(std::string(knobId));
    return knob == setting.knobs.end() ? knobWhenNotNamed : knob->second;
}

std::string throwOf(const Throws& throws, const std::string& modId) {
    const auto found = throws.find(modId);
    return found == throws.end() ? std::string() : found->second;
}

Circuit withEnds(const Circuit& circuit, const Setting& setting) {
    Circuit result = circuit;
    if (Part* battery = findPart(result, circuit.ports.battery)) {
        battery->value = setting.batteryVolts;
    }
    if (Part* load = findPart(result, circuit.ports.load)) {
        load->value = setting.loadOhms;
    }
    return result;
}

Result<void> checkSetting(const Circuit& circuit, const Setting& setting) {
    for (const auto& [id, position] : setting.knobs) {
        const Knob* knob = findKnob(circuit, id);
        if (!knob) {
            return unknownKnob(circuit, id);
        }
        if (!isInside(position, 0.0, knobTravel)) {
            const std::string& name = knob->name.empty() ? id : knob->name;
            return outOfRange(said("Knob \"%1\"", name), toSay("0 to 10"), "Knob \"" + name + "\"");
        }
    }
    const Range ranges[] = {
        {toSay("Pick level"), setting.pickVoltsPeak, 1e-6, 10.0, toSay("1 µV to 10 V peak")},
        {toSay("Tone"), setting.toneHz, 1.0, 100e3, toSay("1 Hz to 100 kHz")},
        {toSay("Battery"), setting.batteryVolts, 0.1, 600.0, toSay("0.1 V to 600 V")},
        {toSay("Load"), setting.loadOhms, 1.0, 100e9, toSay("1 Ω to 100 GΩ")},
        {toSay("Temperature"), setting.temperatureKelvin, 223.15, 398.15, toSay("−50 °C to 125 °C")},
    };
    for (const Range& range : ranges) {
        if (!isInside(range.value, range.lowest, range.highest)) {
            return outOfRange(said(range.what), range.allowed, range.what);
        }
    }
    return {};
}

}  // namespace ohmwright
