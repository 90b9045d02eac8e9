/// What core/ answers to the comparisons of the suite, called as the command line calls it.
///
/// Every function throws std::runtime_error with core's own sentence when there is no answer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/solved_circuit.h"
#include "core/measure/two_tone.h"
#include "core/solve/poles.h"
#include "tests/reference_simulator/suite.h"

#include <complex>
#include <map>
#include <string>
#include <vector>

namespace ohmwright::reference {

/// A netlist read, with its ports chosen, compiled and biased.
class CoreAnswers {
public:
    CoreAnswers(const SuiteNetlist& netlist, const Comparison& comparison);

    /// By net and by voltage source, lower case, as the reference names them; currents into the plus terminal.
    [[nodiscard]] std::map<std::string, double> volts() const;
    [[nodiscard]] std::map<std::string, double> sourceAmperes() const;

    [[nodiscard]] std::vector<std::complex<double>> response(const std::vector<double>& hertz) const;
    struct Noise {
        std::vector<double> output, input;
    };
    [[nodiscard]] Noise noise(const std::vector<double>& hertz) const;
    [[nodiscard]] std::vector<double> transfer(const std::vector<double>& inputs) const;
    [[nodiscard]] PolesAndZeros polesAndZeros() const;

    /// A settled period; sample k is at phase (k + 1) / size.
    [[nodiscard]] std::vector<double> settledPeriod(double hertz, double peak) const;
    [[nodiscard]] TwoToneSpectrum twoTone(double firstHz, double secondHz, double peak, int order) const;
    /// From the bias on, at given times.
    [[nodiscard]] std::vector<double> coldWave(double hertz, double peak, const std::vector<double>& seconds) const;

private:
    Circuit m_circuit;
    SolvedCircuit m_solved;
    int m_output = -1;
    double m_inputAtRest = 0.0;
};

}  // namespace ohmwright::reference
