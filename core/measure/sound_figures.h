/// What customers' words are held against: intermodulation, fizz, warmth, noise, cleaning up, the collector's place,
/// how alike copies are. Each can be repeated with generators and a meter.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

// ---- Mud ----------------------------------------------------------------------------------------------------------

/// Two low strings at once: low E and the B a fifth above it (2 : 3, so that the state is periodic).
struct TwoStrings {
    double firstHz = 82.4;
    double secondHz = 123.6;
    double voltsPeak = 0.05;  ///< Of each, at the input source.
};

/// The difference product |second - first| at the output, re the power sum of the two tones there [dB].
/// Errors: as measureTwoTone; unsolvable when neither tone reaches the output.
Result<double> measureDifferenceProduct(const SolvedCircuit& solved, int output, const TwoStrings& strings = {},
                                        const std::stop_token& stop = {});

// ---- Fizz and warmth ----------------------------------------------------------------------------------------------

/// Harmonics 8 to 30 of a tone summed as power, re the whole alternating power at the output [dB]: a difference of two
/// circuits' is what is left after their levels were made equal.
/// Errors: as settleWithin; unsolvable when no signal reaches the output.
Result<double> measureFizz(const SolvedCircuit& solved, int output, double toneHz, double voltsPeak,
                           const std::stop_token& stop = {});

/// Re the fundamental at the output [dBc]; what lies under -90 dBc is the solver's rounding and is given as -90.
struct Warmth {
    double h2Dbc = 0.0;
    double h3AndH5Dbc = 0.0;  ///< Summed as power.
};
/// At the setting's tone and pick level. Errors: as measureFizz.
Result<Warmth> measureWarmth(const SolvedCircuit& solved, int output, const Setting& setting,
                             const std::stop_token& stop = {});

/// THD at the output [ratio] at the setting's tone and pick level: harmonics 2..10. Errors: as measureFizz.
Result<double> measureThd(const SolvedCircuit& solved, int output, const Setting& setting,
                          const std::stop_token& stop = {});

// ---- Noise --------------------------------------------------------------------------------------------------------

/// Noise at the output, 20 Hz to 20 kHz unweighted, source connected.
struct OutputNoise {
    double voltsRms = 0.0;
    double gainDb = 0.0;         ///< Of the signal, at 1 kHz.
    double atEqualGainDb = 0.0;  ///< Noise [dBV] less that gain: a difference of two circuits' is at equal gain.
};
Result<OutputNoise> measureOutputNoise(const SolvedCircuit& solved, int output, const std::stop_token& stop = {});

// ---- Cleaning up --------------------------------------------------------------------------------------------------

/// The pot that stands between the pickup and the jack, or null: the guitar's volume. Found by its place: its wiper is
/// on the jack and one of its ends is not, and the jack's net is named.
const Knob* guitarVolumeKnob(const Circuit& circuit);

struct CleanUp {
    double thdAt10 = 0.0;  ///< Ratio, guitar volume 10.
    double thdAt5 = 0.0;

    [[nodiscard]] double ratio() const { return thdAt5 / thdAt10; }
};
/// Errors: invalidInput when the circuit has no guitar volume; of the solver; cancelled.
Result<CleanUp> measureCleanUp(const Circuit& circuit, const Setting& setting, const std::stop_token& stop = {});

// ---- Copies -------------------------------------------------------------------------------------------------------

/// The circuit with every type that has a corner of this name ("low", "high") at that corner; how many did.
struct CornerCircuit {
    Circuit circuit;
    int changed = 0;
};
CornerCircuit atCorner(const Circuit& circuit, const std::string& corner);

/// The response at 1 kHz over the devices' corners, all devices together [dB].
struct CopiesSpread {
    double lowDb = 0.0, typicalDb = 0.0, highDb = 0.0;

    [[nodiscard]] double spreadDb() const;
};
/// Errors: invalidInput when no type of the circuit says how far its copies differ; of the solver; cancelled.
Result<CopiesSpread> measureCopiesSpread(const Circuit& circuit, const Setting& setting,
                                         const std::stop_token& stop = {});

/// Current gains that stand for the corners of a bipolar transistor whose type names none.
struct BetaCorners {
    double low = 70.0;
    double high = 500.0;
};

/// Where the collector of the output transistor rests, in percent of its supply, over the current gain of all
/// transistors together.
struct CollectorPlace {
    PartId transistor;
    NetName collector;
    double lowPercent = 0.0, nominalPercent = 0.0, highPercent = 0.0;
};
/// The output transistor is the last in signal order whose collector is not on a supply (so a follower is none).
/// Errors: invalidInput when there is no such transistor; of the solver; cancelled.
Result<CollectorPlace> measureCollectorPlace(const Circuit& circuit, const Setting& setting,
                                             const BetaCorners& betas = {}, const std::stop_token& stop = {});

}  // namespace ohmwright
