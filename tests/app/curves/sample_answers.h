/// Answers made by formula, near enough to a soft-clip overdrive to be looked at.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare.h"

#include <cmath>
#include <complex>
#include <memory>

namespace ohmwright::test {

/// Non-inverting stage with a gain leg Rg, Cg to ground and Rf in the feedback, behind a loss that does not
/// depend on frequency and in front of a second-order low-pass at 4 kHz:
///   20 log10 |(1 + (Rf/Rg) s/(1 + s)) / (1 + 1.2 j f/4k − (f/4k)²)| − loss, s = j f/fc, fc = 1/(2 pi Rg Cg).
inline double sampleGainDb(double hz, double cornerHz) {
    constexpr double ratio = 70.5e3 / 3.9e3;
    constexpr double lossDb = 17.8;
    const std::complex<double> s(0.0, hz / cornerHz);
    const std::complex<double> lowPass(1.0 - std::pow(hz / 4000.0, 2), 1.2 * hz / 4000.0);
    return 20.0 * std::log10(std::abs((1.0 + ratio * s / (1.0 + s)) / lowPass)) - lossDb;
}

inline LinearState sampleLinear(double cornerHz) {
    LinearState state;
    for (int k = 0; k <= 300; ++k) {
        const double hz = 20.0 * std::pow(10.0, k / 100.0);
        state.response.hz.push_back(hz);
        state.response.gainDb.push_back(sampleGainDb(hz, cornerHz));
        state.response.phaseDeg.push_back(0.0);
    }
    state.figures.push_back({"gain_leg_corner", cornerHz, ""});
    return state;
}

/// Compressing half-waves: V_t asinh(gain V / V_t), V_t = 0.115 V above 0 and `negativeVt` below.
inline LargeSignalState sampleLargeSignal(double gain, double positiveVt = 0.115, double negativeVt = 0.115,
                                          double pickVolts = 0.1) {
    const auto peak = [gain](double pick, double vt) { return vt * std::asinh(gain * pick / vt); };
    LargeSignalState state;
    for (int i = 0; i <= 24; ++i) {
        const double pick = 0.2 * i / 24.0;
        state.clip.pickVoltsPeak.push_back(pick);
        state.clip.positiveVolts.push_back(peak(pick, positiveVt));
        state.clip.negativeVolts.push_back(-peak(pick, negativeVt));
    }
    // The slope of asinh x is 1/sqrt(1 + x²): down to 1/sqrt 2 at x = 1.
    state.clip.positive = ClipThreshold{peak(positiveVt / gain, positiveVt), positiveVt / gain};
    state.clip.negative = ClipThreshold{-peak(negativeVt / gain, negativeVt), negativeVt / gain};
    state.figures.push_back({"peak_positive", peak(pickVolts, positiveVt), ""});
    state.figures.push_back({"peak_negative", -peak(pickVolts, negativeVt), ""});
    return state;
}

inline std::shared_ptr<const Job> sampleJob() {
    Job job;
    Part opamp;
    opamp.id = "U1A";
    opamp.reference = "U1A";
    opamp.kind = PartKind::opamp;
    opamp.nets = {"ip", "im", "o1", "vcc", "0"};
    opamp.pins = {"3", "2", "1", "8", "4"};
    job.stock.parts.push_back(opamp);
    job.stock.ports.clipNode = "o1";
    job.stock.knobs = {{"drive", "Drive", "VR1"}, {"level", "Level", "VR2"}};
    return std::make_shared<const Job>(job);
}

/// Corner tags 729 Hz → 340 Hz, ghost 272 Hz, as in the demo Harbour Lamp with Cg 56n → 120n and 150n.
inline LinearAnswer sampleLinearAnswer(bool withGhost = true) {
    LinearAnswer answer;
    answer.job = sampleJob();
    answer.stock = sampleLinear(728.7);
    answer.now = sampleLinear(340.1);
    if (withGhost) {
        answer.ghost = sampleLinear(272.1);
    }
    return answer;
}

inline LargeSignalAnswer sampleLargeSignalAnswer() {
    LargeSignalAnswer answer;
    answer.job = sampleJob();
    answer.stock = sampleLargeSignal(5.6);
    answer.now = sampleLargeSignal(10.3);
    return answer;
}

}  // namespace ohmwright::test
