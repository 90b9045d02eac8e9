/// A reading typed in: in band, or which mistakes and faults would give it, the likeliest first.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/checks.h"
#include "core/bench/mistakes.h"
#include "core/bench/probe_card.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

/// Something that would give the reading.
struct Suspect {
    MistakeKind kind = MistakeKind::reversed;
    PartId part;
    std::string sentence;  ///< "D3 reversed"
    CheckReading reading;  ///< What it would give by itself.

    friend bool operator==(const Suspect&, const Suspect&) = default;
};

struct Judgement {
    bool isInBand = false;
    std::vector<Suspect> suspects;  ///< The likeliest first; empty in band, or when nothing listed gives the reading.
    std::string sentence;           ///< "out of band: new diode reversed?"; says what to do.
};

/// Judges against the plan's mistakes: those whose own reading, with a band as wide as the plan's, holds the one typed
/// in; ordered by kind, then by nearness.
/// @param check  index in plan.checks. @param reading  absent: the meter shows none.
Judgement judgeCheck(const CheckPlan& plan, std::size_t check, CheckReading reading);

/// Judges volts at a pin against every part open, shorted, or with its legs exchanged, and the plan's mistakes: those
/// that give the reading within 0.15 V or 2 %, whichever is more. Opens first, legs second, shorts last: dry joints are
/// more common than shorted parts (common practice, no source).
///
/// When every suspect leaves the pin's transistor or valve without current, the sentence says so first ("Q1 is off or
/// its bias path is open").
/// Errors: of the solver on the circuit itself; invalidInput when the card has no such line; cancelled.
Result<Judgement> judgeProbe(const Circuit& circuit, const Setting& setting, const ProbeCard& card, std::size_t line,
                             double volts, const std::vector<Mistake>& mistakes = {}, const std::stop_token& stop = {});

}  // namespace ohmwright
