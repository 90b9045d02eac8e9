/// Intermodulation: what two tones make of each other in the settled state.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/solved_circuit.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

/// A line of the output's spectrum at |m f1 + n f2|.
struct TwoToneProduct {
    double hertz = 0.0;
    int first = 0,
        second = 0;  ///< m and n of the lowest order that falls here; the tones themselves have (1, 0), (0, 1).
    double voltsPeak = 0.0;

    [[nodiscard]] int order() const { return (first < 0 ? -first : first) + (second < 0 ? -second : second); }
};

struct TwoToneSpectrum {
    double commonHz = 0.0;                 ///< Of which both tones are multiples: one over the period that settles.
    std::vector<TwoToneProduct> products;  ///< By frequency, up to the order asked for; without DC.
    double firstToneVoltsPeak = 0.0;
    double secondToneVoltsPeak = 0.0;
    /// Products above this level, in dB against the output's RMS, move by less than a decibel with finer steps.
    double steadyAboveDb = 0.0;
    bool isUnsteady = false;  ///< The finest steps leave more than 1e-5 of the output's RMS open.
};

/// Both tones with `voltsPeak` each on the input source's DC value, both rising from zero at the period's beginning.
/// @param highestOrder  |m| + |n| up to which products are listed, 1..15.
/// Errors: invalidInput when the tones are alike, or have no common period of at most 400 of the slower tone's (says
/// which tone nearby has); as settled_wave.h.
Result<TwoToneSpectrum> measureTwoTone(const SolvedCircuit& solved, int output, double firstHz, double secondHz,
                                       double voltsPeak, int highestOrder, const std::stop_token& stop = {});

}  // namespace ohmwright
