/// What corrections leave in stock beside what they found: nets that float since, and types that they brought.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <string>

namespace ohmwright {

/// Nets are open on purpose for as long as the corrections together leave them so, whichever came first: those that
/// the drawing left open stay so, those that float now are opened, and each is said by one correction (Correction::
/// opened): of those that speak of that net the first by part and thing, of all where none does.
/// REQUIRES: what floated in `before` is a fault of the drawing and stays one.
void openWhatFloats(const Job& before, Job& edited);

/// A type that a correction brought which is undone now belongs to the next one that found it.
void handOnType(Job& edited, const std::string& type);

}  // namespace ohmwright
