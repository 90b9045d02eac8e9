/// What triode and pentode laws share: soft cutoff, power law and grid current.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/devices/junction.h"

namespace ohmwright {

/// ln(1 + exp(x)) and its slope, for any x.
ValueAndSlope softplus(double x);

/// x^exponent for x > 0, else 0, and its slope. REQUIRES: exponent >= 1, so that it is smooth at 0.
ValueAndSlope positivePower(double x, double exponent);

}  // namespace ohmwright
