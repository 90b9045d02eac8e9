/// What is read of a part, and stock with it: the steps that corrections are made of (core/plan/correct.h).
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/correction.h"

#include <string>
#include <vector>

namespace ohmwright {

/// Equal but for the last digits, and for what is no part of a reading: knowledge, a meter's reading, the drawing.
bool isSameFinding(const Finding& one, const Finding& two);
/// Whether two findings are about the same thing of a part: one replaces the other.
bool isSameThing(const Finding& one, const Finding& two);

/// What stock says of the thing that `like` is about.
/// Errors: invalidInput when stock has no such part, or the part no such thing.
Result<Finding> currentReading(const Circuit& stock, const PartId& part, const Finding& like);

struct PutFinding {
    Circuit stock;            ///< Nets that nothing ties to ground since are open on purpose.
    std::string broughtType;  ///< Empty, or the name of a type that stock did not have.
};
/// Stock with that finding in it; a part that comes stands where it was drawn, else where that place is taken or there
/// is none beside its neighbours (core/drawing/draw_beside.h). REQUIRES: currentReading has an answer.
/// Errors: invalidInput for what no part can have, a leg at its net already, a new net without a name that a net can
/// have, a part that cannot go or come.
Result<PutFinding> putFinding(const Circuit& stock, const PartId& part, const Finding& finding);

/// Stock with a correction undone, as the drawing has it; a part more goes with its lines.
/// Errors: as putFinding.
Result<Circuit> asDrawn(const Circuit& stock, const Correction& correction);

}  // namespace ohmwright
