/// Small signals about the bias.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <complex>
#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// The linearised circuit at one bias, ready for any frequency. Not thread-safe; borrows both arguments.
class SmallSignal {
public:
    SmallSignal(const Equations& equations, const OperatingPoint& bias);

    /// All unknowns at one frequency, per volt of the input source (V/V, A/V); ground's 0 at the end.
    /// @param hertz  finite, >= 0.
    /// Errors: invalidInput (frequency); unsolvable naming the unknown without a pivot at that frequency;
    /// noConvergence when the solution does not balance even after refinement.
    Result<std::span<const std::complex<double>>> at(double hertz);

private:
    bool holds();

    const Equations& m_equations;
    const OperatingPoint& m_bias;
    SparseLu<std::complex<double>> m_lu;
    std::vector<std::complex<double>> m_values, m_solution, m_missing;
};

/// FROM * 10^(k/N) up to and including the last not above TO; the form of every frequency grid.
std::vector<double> logarithmicGrid(double fromHz, double toHz, int pointsPerDecade);

/// Gain from the input source to each of `nets` [V/V], one row of results a net, one entry a frequency.
/// Errors: as SmallSignal::at; invalidInput for an unknown net.
Result<std::vector<std::vector<std::complex<double>>>> frequencyResponse(const Equations& equations,
                                                                         const OperatingPoint& bias,
                                                                         const std::vector<NetName>& nets,
                                                                         std::span<const double> hertz,
                                                                         const std::stop_token& stop = {});

}  // namespace ohmwright
