/// What is wrong with a drawing so far, each with a place to look at.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"
#include "core/circuit/check.h"

#include <QCoreApplication>
#include <QStringList>

#include <vector>

namespace ohmwright {

struct DrawFault {
    Severity severity = Severity::wrong;
    QString sentence;
    GridPoint at;           ///< A pin of the part or of the net.
    bool hasPlace = false;  ///< Whether `at` means something.
    bool isOpenPin = false;
    QString pin;  ///< "R1 1", of an open one.
    PartId part;  ///< Without a place: what to pick; may be empty.

    /// A part that is in the circuit and not on the drawing, as a load may be.
    [[nodiscard]] bool isUndrawn() const { return severity == Severity::doubtful && !hasPlace && !part.empty(); }
};

/// What a drawing lacks before it can be solved: a signal source, an output with a wire to it, a ground, a supply for
/// what needs one. Until it is there the drawing is begun, and what checkCircuit finds in it is no fault yet.
QStringList lacksOf(const Circuit& circuit);

/// What is lacking; parts without a place; then, of a drawing that lacks nothing, checkCircuit and, where there is a
/// current bias, polarityFaults, and why the solver has no answer. What is only unfinished (an open pin) comes last.
std::vector<DrawFault> drawFaults(const MapState& state);

/// The sentences of a list: as they are, but one for all open pins together.
struct DrawFaultLine {
    QString sentence;
    DrawFault first;  ///< Where it leads.
};
std::vector<DrawFaultLine> faultLines(const std::vector<DrawFault>& faults);

/// The words of this file in the person's language.
struct DrawFaultWords {
    Q_DECLARE_TR_FUNCTIONS(DrawFaultWords)
};

}  // namespace ohmwright
