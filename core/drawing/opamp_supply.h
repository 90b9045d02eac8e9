/// The supplies of op-amps: pins that have no place on the drawing and stand on their nets by name.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"

namespace ohmwright {

/// Other supplies of an op-amp, whose supply pins have no place on the drawing.
/// @param plus, minus  a net, or the name on a supply sign ("9 V", blanks count for nothing); "ground" and "gnd" are
///                     ground. An empty one is the usual: the battery's plus, and ground.
/// Errors: invalidInput for a part that is no op-amp, for a net that nothing else on the drawing is on, and for one net
/// on both pins.
EditResult supplyOpamp(const Circuit& circuit, const PartId& part, const std::string& plus, const std::string& minus);

/// Supplies that lead nowhere are joined to the usual ones, so that a new op-amp is supplied as soon as there is one.
void supplyWaitingOpamps(Circuit& circuit);

}  // namespace ohmwright
