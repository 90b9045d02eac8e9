/// What the reference simulator answers to the comparisons of the suite.
///
/// Every function loads the netlist afresh and throws std::runtime_error when there is no answer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/reference_simulator/shared_simulator.h"
#include "tests/reference_simulator/suite.h"

#include <complex>
#include <map>
#include <string>
#include <vector>

namespace ohmwright::reference {

/// Steps that the reference is made to take a period, at least.
inline constexpr int stepsPerPeriod = 400;
/// Samples of a period after interpolation.
inline constexpr int samplesPerPeriod = 512;

/// Voltages [V] by net and currents [A] into the plus terminal by voltage source; of the top level; lower case.
struct ReferenceBias {
    std::map<std::string, double> volts;
    std::map<std::string, double> sourceAmperes;
};
ReferenceBias referenceBias(const SuiteNetlist& netlist);

struct ReferenceResponse {
    std::vector<double> hertz;
    std::vector<std::complex<double>> gain;  ///< Against the input's own phasor.
};
ReferenceResponse referenceResponse(const SuiteNetlist& netlist, const Comparison& comparison);

struct ReferenceNoise {
    std::vector<double> hertz;
    std::vector<double> output;  ///< [V/sqrt(Hz)]
    std::vector<double> input;   ///< Output over gain.
};
ReferenceNoise referenceNoise(const SuiteNetlist& netlist, const Comparison& comparison);

struct ReferenceTransfer {
    std::vector<double> input;  ///< [V] or [A]
    std::vector<double> output;
};
ReferenceTransfer referenceTransfer(const SuiteNetlist& netlist, const Comparison& comparison);

/// The last period of a long run. Sample k is at phase k / samplesPerPeriod of the tone.
struct ReferencePeriod {
    std::vector<double> volts;
    double changeFromPeriodBefore = 0.0;  ///< Root mean square over that of the period's alternating part.
};
ReferencePeriod referencePeriod(const SuiteNetlist& netlist, const Comparison& comparison, double hertz, double peak);

/// From the bias on; sample k is at k / (samplesPerPeriod hertz).
std::vector<double> referenceColdWave(const SuiteNetlist& netlist, const Comparison& comparison);

/// Amplitudes [V peak] by multiple of the two tones' common frequency, 0 .. highest: the last common period of a run.
std::vector<double> referenceTwoTone(const SuiteNetlist& netlist, const Comparison& comparison, double commonHz,
                                     int highest);

/// Amplitudes [V peak] of harmonics 0 .. count of one sampled period; number 0 is the mean.
std::vector<double> harmonicAmplitudes(const std::vector<double>& period, int count);

/// Values at given times by a cubic through the four nearest points; times outside are held at the ends.
std::vector<double> interpolated(const std::vector<double>& times, const std::vector<double>& values,
                                 const std::vector<double>& wanted);

}  // namespace ohmwright::reference
