/// Roots of a real characteristic function known by its logarithmic derivative: made exact from approximations.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <functional>
#include <optional>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// A real root, or one of a conjugate pair (the upper one).
struct NaturalRoot {
    std::complex<double> value;
    [[nodiscard]] bool isPair() const { return value.imag() > 0.0; }
    [[nodiscard]] std::size_t count() const { return isPair() ? 2 : 1; }
};

std::size_t countOf(const std::vector<NaturalRoot>& roots);
/// Sum of 1 / (s - root) over all, conjugates included.
std::complex<double> reciprocalSum(const std::vector<NaturalRoot>& roots, std::complex<double> s);
/// Every root on its own, pairs side by side, by magnitude.
std::vector<std::complex<double>> expanded(std::vector<NaturalRoot> roots);

/// Sum over all roots of 1 / (s - root); nothing where it cannot be evaluated.
using LogDerivative = std::function<std::optional<std::complex<double>>(std::complex<double>)>;

/// Refines approximations that belong to all the roots of one function.
///
/// Single roots by Ehrlich's and Aberth's step beside the root, which all others are taken out of; close groups by the
/// moments of a circle around them, so that a multiple root stays one instead of flying apart with the root of the
/// rounding. Roots at 0 stay there. A step that would leave the neighbourhood is not taken.
/// Sources: L. W. Ehrlich, Comm. ACM 10 (1967) 107; O. Aberth, Math. Comp. 27 (1973) 339; L. M. Delves, J. N. Lyness,
/// Math. Comp. 21 (1967) 543.
void refineRoots(std::vector<NaturalRoot>& roots, const LogDerivative& logDerivative, const std::stop_token& stop);

}  // namespace ohmwright
