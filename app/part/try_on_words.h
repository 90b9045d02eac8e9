/// How a planned value can be heard before any desoldering, as the part panel says it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/parts/drawer.h"
#include "core/plan/job.h"

#include <QString>

namespace ohmwright {

/// "To hear it first: 68n across the old part, 124n. Switch off before anything is clipped on."; "To hear it first:
/// cannot be tried across: lift one leg and add 820R in series (4k72). ..."; empty where there is nothing to try (no
/// value, a pot, the value of now).
/// @param part    on the board as it was found.
/// @param drawer  empty: preferred numbers are assumed to be in stock.
QString tryOnWords(const Job& job, const Part& part, double target, const Drawer& drawer);

}  // namespace ohmwright
