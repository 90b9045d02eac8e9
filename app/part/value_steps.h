/// Which values a part is stepped through: the series of its kind and the finer ones that keys ask for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/parts/snap.h"

#include <Qt>

#include <vector>

namespace ohmwright {

/// `steps` values up (negative: down). No key: the shop's series; Ctrl E24; Shift E96; Alt free, 1 % a step.
/// REQUIRES: value > 0.
double steppedValue(double value, PartKind kind, int steps, Qt::KeyboardModifiers modifiers);

/// About `count` values of the shop's series around `value`, ascending; `value` itself is always among them.
/// REQUIRES: value > 0, count odd.
std::vector<double> valuesAround(double value, PartKind kind, int count);

/// Values that a person would write alike.
bool isSameValue(double a, double b);

}  // namespace ohmwright
