/// What a part is that has neither a value to be changed nor a type: a gain, a law, a position.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QString>

namespace ohmwright {

/// "2 V/V", "1 mA/V", "V = tanh(V(in))", "k 0.99, L1 and L2", "closed", "9 V", "0 V, sine 1 kHz"; empty for kinds with
/// a value of their own (hasValue), with a model, and for links and op-amps.
QString lawText(const Part& part);

}  // namespace ohmwright
