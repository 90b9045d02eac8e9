/// Reads a model's parameters with their defaults.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>

namespace ohmwright {

/// The parameter's figure, or the law's default where the model does not state it.
inline double parameterOr(const Model& model, const std::string& name, double fallback) {
    const auto found = model.parameters.find(name);
    return found == model.parameters.end() ? fallback : found->second;
}

}  // namespace ohmwright
