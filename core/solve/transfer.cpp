// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/transfer.h"

#include "core/base/said.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

namespace ohmwright {

namespace {

/// Steps between two asked values: at most 2^-halvings of the way each.
constexpr double smallestShare = 1.0 / 1024.0;

std::string valueText(double input) {
    char text[32];
    std::snprintf(text, sizeof text, "%.6g", input);
    return text;
}

/// Goes from a solved state at one drive to another; a step that fails is halved, one that succeeds doubled.
Result<OperatingPoint> follow(const Equations& equations, OperatingPoint point, double from, double to,
                              const std::stop_token& stop) {
    double done = 0.0;
    double share = 1.0;
    while (done < 1.0) {
        const double next = std::min(1.0, done + share);
        auto solved = solveBias(equations, &point, stop, next == 1.0 ? to : from + next * (to - from));
        if (solved) {
            point = std::move(*solved);
            done = next;
            share *= 2.0;
            continue;
        }
        if (solved.error().code != ErrorCode::noConvergence || share <= smallestShare) {
            return solved.error();
        }
        share /= 2.0;
    }
    return point;
}

}  // namespace

Result<std::vector<double>> dcTransfer(const Equations& equations, const OperatingPoint& bias, double inputAtRest,
                                       int output, std::span<const double> inputs, const std::stop_token& stop) {
    std::vector<double> outputs;
    outputs.reserve(inputs.size());
    OperatingPoint point = bias;
    double drive = 0.0;
    for (const double input : inputs) {
        if (!std::isfinite(input)) {
            return Error{ErrorCode::invalidInput, said("A sweep of the input needs finite values."), ""};
        }
        const double next = input - inputAtRest;
        auto solved = follow(equations, std::move(point), drive, next, stop);
        if (!solved) {
            Error error = solved.error();
            if (error.code == ErrorCode::noConvergence) {
                error.message = said("With the input at %1: %2", valueText(input), error.message);
            }
            return error;
        }
        point = std::move(*solved);
        drive = next;
        outputs.push_back(point.x[std::size_t(output)]);
    }
    return outputs;
}

}  // namespace ohmwright
