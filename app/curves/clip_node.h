/// Where the clip node can be probed, in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QString>

namespace ohmwright {

/// "U1A pin 1", "Q1 collector"; "net o1" when no active part drives it.
QString clipNodeWords(const Circuit& circuit);

}  // namespace ohmwright
