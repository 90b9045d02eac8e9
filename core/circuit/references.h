/// References on a drawing: R5, C12, VR1. Letters by kind are common practice (IEC 81346-2 has others).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string>
#include <string_view>

namespace ohmwright {

/// "R", "C", "VR", "Q" ...
std::string_view referencePrefix(PartKind kind);
/// 5 of "R5" with the prefix "R"; 0 when it is not that prefix and a whole number from 1 on.
int referenceNumber(std::string_view reference, std::string_view prefix);
/// One above the highest that the circuit has of that kind: "R6".
std::string nextReference(const Circuit& circuit, PartKind kind);

}  // namespace ohmwright
