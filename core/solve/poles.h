/// Natural frequencies: poles of the whole circuit and zeros from the input to an output.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <complex>
#include <stop_token>
#include <vector>

namespace ohmwright {

struct PolesAndZeros {
    /// s / 2 pi [Hz], a decaying pole has a negative real part; conjugates both stand in the list; by magnitude.
    std::vector<std::complex<double>> poles, zeros;
    double gain = 0.0;          ///< |output / input| at `gainHertz`, from the response; 0 when nothing is heard.
    double gainHertz = 0.0;     ///< Where the response is loudest among the checks.
    double checkErrorDb = 0.0;  ///< Largest difference between the response and the one that poles and zeros make.
    bool closed = false;        ///< The check held: the lists are complete.
    int infinitePoles = 0;      ///< Eigenvalues that stand for no charge of their own.
};

/// Finite generalised eigenvalues of (G + s C), each refined against the sparse equations; a pole and a zero that
/// cancel stay in both lists.
/// Errors: unsolvable; noConvergence (eigenvalues not found); cancelled. Bounds: refuses more than 400 charges.
Result<PolesAndZeros> findPolesAndZeros(const Equations& equations, const OperatingPoint& bias, int output,
                                        const std::stop_token& stop = {});

}  // namespace ohmwright
