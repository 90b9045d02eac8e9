/// Names of things as names of files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// "harbour-lamp-a": what any disk can hold, 60 letters at most.
/// @param otherwise  for a name without letters or digits.
std::string fileStem(std::string_view name, std::string_view otherwise);

}  // namespace ohmwright
