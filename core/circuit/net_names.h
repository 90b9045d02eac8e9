/// What a net may be called.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>

namespace ohmwright {

/// Why a net cannot be called so, a sentence; empty when it can. A name is one word: blanks, commas and the signs of
/// formulas and lists would be read otherwise in a netlist, a law or a table.
std::string netNameFault(const NetName& name);

/// The same of a name that the circuit does not have yet; one that it has is taken as it is.
std::string newNetFault(const Circuit& circuit, const NetName& name);

}  // namespace ohmwright
