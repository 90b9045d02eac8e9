/// What a type's and a device's figures are called and may be, so that the law made of them is a law.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// What a parameter of a model breaks, to follow its name: "must be above 0"; empty when it is sound.
///
/// A junction without saturation current, emission or built-in voltage divides by zero, as do a grading or an FC of
/// 1; a negative resistance, capacitance or gain is no part. Parameters that no law names may be anything finite.
std::string_view faultOfParameter(PartKind kind, std::string_view name, double value);

/// The same of a parameter that a single device adds to its type: AREA, M, W, L ...
std::string_view faultOfDeviceParameter(PartKind kind, std::string_view name, double value);

/// The name that the laws know a parameter by, where cards have two: VT0 is VTO, CJ0 is CJO, VA is VAF; any other name
/// comes back as it is. Upper case in and out.
std::string_view lawName(PartKind kind, std::string_view name);

/// Names among the model's parameters that its kind's law does not know at all, in order.
std::vector<std::string> unknownParameters(const Model& model);

/// Names among the model's parameters that belong to such a card, and that the law does not follow, in order.
/// A figure of 0, which mostly says "not there", is not among them.
std::vector<std::string> ignoredParameters(const Model& model);

/// True when the law reads the parameter from the device itself.
bool isDeviceParameter(PartKind kind, std::string_view name);

}  // namespace ohmwright
