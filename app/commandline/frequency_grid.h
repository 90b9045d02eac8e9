/// The frequencies that a call asks for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/request.h"
#include "core/base/result.h"

#include <vector>

namespace ohmwright {

/// What a frequency may be anywhere on the command line.
inline constexpr FigureRange frequencyRange{1e-6, 1e12, "a frequency from 1 µHz to 1 THz"};

/// Those of --at as they stand, or FROM * 10^(k/N) up to TO: 20 Hz to 20 kHz with 100 a decade unless asked otherwise.
/// Errors: invalidInput naming the option; more than 200,000 points.
Result<std::vector<double>> frequenciesOf(const Request& request);

}  // namespace ohmwright
