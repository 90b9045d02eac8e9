/// A circuit compiled and biased: where every small-signal check starts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/bias.h"
#include "core/solve/equations.h"

#include <gtest/gtest.h>

#include <optional>
#include <utility>

namespace ohmwright::test {

struct Rest {
    Equations equations;
    OperatingPoint bias;
};

/// Absent, and the test fails with the reason, where the circuit has no bias.
inline std::optional<Rest> restOf(const Circuit& circuit, const Setting& setting = {}) {
    auto equations = Equations::compile(circuit, setting);
    if (!equations) {
        ADD_FAILURE() << equations.error().message;
        return std::nullopt;
    }
    auto bias = solveBias(*equations);
    if (!bias) {
        ADD_FAILURE() << bias.error().message;
        return std::nullopt;
    }
    return Rest{*std::move(equations), *std::move(bias)};
}

}  // namespace ohmwright::test
