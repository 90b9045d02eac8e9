/// The small-signal gain of a small circuit at net "out", as most checks against the literature want it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/decibels.h"
#include "core/solve/response.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <vector>

namespace ohmwright::test {

/// v(out) per volt of the source, one a frequency; a circuit without an answer fails the test and gives zeros.
inline std::vector<std::complex<double>> gainsOf(const Circuit& circuit, const std::vector<double>& hertz) {
    const auto equations = Equations::compile(circuit, {});
    if (!equations) {
        ADD_FAILURE() << equations.error().message;
        return std::vector<std::complex<double>>(hertz.size());
    }
    const auto bias = solveBias(*equations);
    if (!bias) {
        ADD_FAILURE() << bias.error().message;
        return std::vector<std::complex<double>>(hertz.size());
    }
    const auto gains = frequencyResponse(*equations, *bias, {"out"}, hertz);
    if (!gains) {
        ADD_FAILURE() << gains.error().message;
        return std::vector<std::complex<double>>(hertz.size());
    }
    return gains->front();
}

inline double dbOf(const Circuit& circuit, double hertz) {
    return amplitudeDb(std::abs(gainsOf(circuit, {hertz})[0]));
}

}  // namespace ohmwright::test
