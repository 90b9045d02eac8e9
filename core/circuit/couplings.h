/// Whether the couplings of a circuit can be at once.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"
#include "core/circuit/circuit.h"

#include <cstddef>
#include <string>
#include <vector>

namespace ohmwright {

struct CouplingFault {
    std::size_t part = 0;           ///< Index of a coupling.
    const char* english = nullptr;  ///< A format of the coupling's name, and two inductors where it names them.
    std::string one, other;         ///< Those.

    /// "K2 couples L1 and L2 a second time: delete one of the couplings."
    [[nodiscard]] std::string sentence(const std::string& name) const { return said(english, name, one, other); }
};

/// Inductors that couple, directly or through others, share a core. Wrong are two couplings of one pair, over 100
/// inductors on a core, and factors that no windings have together, so that some currents would hold negative energy:
/// the matrix of the factors must have no negative eigenvalue. At most one fault of the last kind a core, at its last
/// coupling. Couplings that do not name two different inductors of the circuit are passed over.
std::vector<CouplingFault> faultsOfCouplings(const Circuit& circuit);

}  // namespace ohmwright
