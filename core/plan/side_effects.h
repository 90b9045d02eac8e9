/// What a plan upsets beside what it is for: every such figure, stock beside now, with its limit and what is left.
///
/// All from solved circuits at the job's setting. An effect that this circuit cannot have (no op-amp, no battery) is
/// not in the list; one that could not be solved is, and says why.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"
#include "core/plan/job.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

struct SideReadings;  // side_readings.h

/// A number that a figure is held against, and where it comes from.
struct EffectLimit {
    double value = 0.0;
    /// English, whatever the language: said where it is shown.
    std::string source = toSay("house figure, common practice, no source");

    friend bool operator==(const EffectLimit&, const EffectLimit&) = default;
};

/// The limits of all effects; a shop may set its own.
struct SideEffectLimits {
    EffectLimit railRoomVolts{0.0, toSay("an op-amp's output goes no further")};
    EffectLimit deviceRoomVolts{0.0, toSay("a transistor's or valve's output goes no further")};
    EffectLimit bandwidthHz{20e3};
    EffectLimit potMillivolts{10.0};
    EffectLimit popVolts{0.05};
    EffectLimit pickupPeakChangeDb{1.0};
    EffectLimit cornerShare{1.1};  ///< A coupling corner that rises by more than a tenth is heard as less bass.
    EffectLimit cornerHz{41.2};    ///< And only when it lies above half the low E string.
    EffectLimit noiseChangeDb{3.0};
    EffectLimit resistorShare{0.5};  ///< Of its rating.
    EffectLimit defaultResistorWatts{0.25, toSay("the usual carbon film resistor, where the build says nothing")};
    EffectLimit deviceWatts{0.3,
                            toSay("small-signal transistors in TO-92 stand about half a watt at 25 °C; from memory")};
    EffectLimit capacitorShare{0.8};  ///< Of its rated voltage.
    EffectLimit batteryShare{0.8};    ///< A flat battery: 7.2 V of 9 V.
    EffectLimit freshBatteryShare{1.067, toSay("a fresh 9 V block stands at about 9.6 V; common practice, no source")};
    EffectLimit supplyMilliamperes{20.0};
    EffectLimit biasShareOff{0.1};  ///< Output device's DC off half the supply, as a share of the supply.
    EffectLimit nextStageVolts{1.2,
                               toSay("a 12AX7 stage with 1.2 V at its cathode: beyond this its grid draws current")};
    EffectLimit outputOhmsShare{0.1};  ///< Of the load: ten times as much loses 0.8 dB.
    EffectLimit onsetDropDb{1.0};      ///< A string that breaks up so much earlier is heard.
    double closeShare = 0.2;           ///< Of the limit: what is nearer than this to it is "close".

    friend bool operator==(const SideEffectLimits&, const SideEffectLimits&) = default;
};

enum class EffectState {
    plain,  ///< No limit: to be known.
    fine,
    close,
    over,
    unknown,  ///< Could not be solved; the sentence says why.
};
/// "plain", "fine", "close", "over", "unknown".
std::string_view effectStateWord(EffectState state);

struct SideEffect {
    std::string id;    ///< "rail_room"
    std::string name;  ///< "room to the rails"
    std::string unit;  ///< "V", "Hz", "mV", "Ω", "dB", "µV", "%", "mA", "mVpk", "V/µs"
    std::optional<double> stock, now;
    std::optional<double> limit;
    std::string limitSource;
    std::optional<double> margin;  ///< What is left to the limit, in the unit; under 0 when it is passed.
    EffectState state = EffectState::plain;
    PartId part;           ///< Where; may be empty.
    std::string sentence;  ///< "U1A comes within 2.9 V of its rails."

    friend bool operator==(const SideEffect&, const SideEffect&) = default;
};

struct SideEffectOptions {
    SideEffectLimits limits;
    bool withOnsets = true;  ///< Clip onset of each open string: six searches a circuit, a tenth of a second.
};

/// In this order: rail_room, device_room, bandwidth, slew, pot_dc, switch_pop (of the switches that the plan fits, the
/// largest DC step across an open contact; core/plan/throws.h), input_impedance, pickup_peak, input_corner,
/// output_corner, output_impedance, noise_out, resistor_load, device_load, capacitor_load, supply_current,
/// flat_battery_bias, next_stage_peak, clip_onset_82 .. clip_onset_330.
/// Errors: as applyPlan; of the solver where stock or now has no bias; cancelled.
Result<std::vector<SideEffect>> findSideEffects(const Job& job, const SideEffectOptions& options = {},
                                                const std::stop_token& stop = {});
/// The same where the readings of stock are known, from readSides at the same setting and options.
Result<std::vector<SideEffect>> findSideEffects(const Job& job, const SideReadings& stock,
                                                const SideEffectOptions& options = {},
                                                const std::stop_token& stop = {});

}  // namespace ohmwright
