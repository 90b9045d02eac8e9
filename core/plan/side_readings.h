/// The readings that side effects are judged from, of one circuit.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/plan/side_effects.h"

#include <array>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// The open strings of a guitar, as the figures' ids name them.
struct OpenString {
    const char* word;
    double hertz;
};
inline constexpr std::array<OpenString, 6> openStrings{
    {{"82", 82.41}, {"110", 110.0}, {"147", 146.8}, {"196", 196.0}, {"247", 246.9}, {"330", 329.6}}};

struct SideReading {
    std::string id;
    std::optional<double> value;
    PartId part;          ///< Where it is worst.
    std::string trouble;  ///< Why there is no value.
};

/// By the ids of side_effects.h, and beside them slew_able [V/µs] and load [Ω].
struct SideReadings {
    std::vector<SideReading> readings;

    [[nodiscard]] const SideReading* find(std::string_view id) const;
};

/// Errors: of the solver when the circuit has no bias or no settled state; cancelled. A single reading that cannot be
/// had carries its trouble.
Result<SideReadings> readSides(const Circuit& circuit, const Setting& setting, const SideEffectOptions& options,
                               const std::stop_token& stop = {});

/// "0.25 W" in a part's build, [W]; "63 V" [V]. Absent when it says nothing.
std::optional<double> ratedWatts(const Part& part);
std::optional<double> ratedVolts(const Part& part);

}  // namespace ohmwright
