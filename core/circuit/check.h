/// What is wrong with a circuit before anything is solved, each fault at its place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <string>
#include <vector>

namespace ohmwright {

enum class Severity { doubtful, wrong };

struct Fault {
    Severity severity = Severity::wrong;
    std::string message;  ///< One sentence, what is wrong and what to do.
    PartId part;          ///< Part to mark; may be empty.
    NetName net;          ///< Net to mark; may be empty.

    friend bool operator==(const Fault&, const Fault&) = default;
};

/// Everything wrong or doubtful, in the order of the parts.
///
/// wrong: an id twice; pins without nets; a value that is not finite or outside 0.01 Ω..100 GΩ,
/// 0.1 pF..1 F, 1 nH..10 kH; a type that is not in the circuit's models; a net without a DC path to ground; a
/// loop of voltage sources and inductors; ports, knobs or stages that name what is not there.
/// doubtful: a net with one pin; an op-amp without a path from output to inverting pin.
std::vector<Fault> checkCircuit(const Circuit& circuit);

/// The first wrong fault as an error (unsolvable), or success.
Result<void> requireSolvable(const Circuit& circuit);

}  // namespace ohmwright
