/// DC sweep of the input source.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// The output's DC voltage at each value of the input source [V or A], the value itself, not an addition; each bias
/// starts from the last, a step that fails is halved.
/// Errors: noConvergence naming the input's value and the worst node; cancelled.
Result<std::vector<double>> dcTransfer(const Equations& equations, const OperatingPoint& bias, double inputAtRest,
                                       int output, std::span<const double> inputs, const std::stop_token& stop = {});

}  // namespace ohmwright
