/// Mods of which only one can be meant, because both change the same part.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/mod.h"

namespace ohmwright {

/// Whether both put something else in the place of the same part, in any throw: another value, type or law, or nothing.
bool areAlternatives(const Mod& a, const Mod& b);

}  // namespace ohmwright
