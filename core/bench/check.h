/// One reading that proves a piece of work: where the probes go, and what must be read there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/quantity.h"
#include "core/circuit/circuit.h"

#include <optional>
#include <string>
#include <string_view>

namespace ohmwright {

enum class CheckKind {
    beep,     ///< Power off: the beeper must sound.
    silence,  ///< Power off: it must not.
    ohms,     ///< Power off, ohms range [Ω].
    diode,    ///< Power off, diode range [V].
    volts,    ///< Powered, no signal: DC against ground [V].
    tone,     ///< Small signal: response from the instrument to the output [dB].
};

/// "must beep", "must stay silent", "ohms", "diode range", "volts", "tone".
std::string_view checkWords(CheckKind kind);
/// Unit of a check's reading; Unit::none for the beeper.
Unit unitOf(CheckKind kind);

/// A place for a probe: a part's leg, found wherever that leg is soldered, or a net that is always there.
struct Probe {
    static constexpr int eitherLeg = -1;  ///< Legs that look alike in the hand: any of them that answers.

    PartId part;  ///< Empty: `net`.
    int leg = 0;
    NetName net;
    std::string words;    ///< "U1 pin 2 (inverting input)"
    std::string english;  ///< The same in English, for keys; empty: as the words.

    friend bool operator==(const Probe&, const Probe&) = default;
};

/// A reading; absent is "no reading" of a meter. A beeper gives 1 or 0.
using CheckReading = std::optional<double>;

/// What the plan must show. For ohms and diode range an absent end is "no reading"; with neither, none is expected.
struct CheckBand {
    CheckReading low, nominal, high;

    [[nodiscard]] bool holds(CheckReading reading) const;
    /// "0.53 to 0.63 V", "no reading", "beep", "−2.1 to 1.2 dB".
    [[nodiscard]] std::string words(CheckKind kind) const;

    friend bool operator==(const CheckBand&, const CheckBand&) = default;
};

struct Check {
    CheckKind kind = CheckKind::ohms;
    Probe red;  ///< Of a tone: unused.
    Probe black;
    double toneHz = 0.0;
    CheckBand expected;
    PartId part;                 ///< The part whose work it proves; empty for tones and volts.
    double settleSeconds = 0.0;  ///< How long an ohms reading climbs; 0 where that was not asked for.
    bool hasChip = false;        ///< An unpowered chip sits on the way.

    /// "diode range, red on U1 pin 1 (output), black on U1 pin 2 (inverting input)"
    [[nodiscard]] std::string words() const;

    friend bool operator==(const Check&, const Check&) = default;
};

/// "0.58 V", "no reading", "beep", "+2.1 dB"
std::string readingText(CheckKind kind, CheckReading reading);
/// The reading is a sound.
bool isBeeper(CheckKind kind);
/// With the power off, between two places.
bool isMeter(CheckKind kind);

}  // namespace ohmwright
