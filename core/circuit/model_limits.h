/// What a type's figures may be, so that the law made of them is a law.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string_view>

namespace ohmwright {

/// What a parameter of a model breaks, to follow its name: "must be above 0"; empty when it is sound.
///
/// A junction without saturation current, emission or built-in voltage divides by zero, as do a grading or an FC of
/// 1; a negative resistance, capacitance or gain is no part. Parameters that no law names may be anything finite.
std::string_view faultOfParameter(PartKind kind, std::string_view name, double value);

}  // namespace ohmwright
