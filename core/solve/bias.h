/// The DC state of a circuit: capacitors open, inductors short.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/equations.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

/// How a solve ended.
struct SolveReport {
    int iterations = 0;
    double worstResidualAmperes = 0.0;  ///< Largest Kirchhoff sum over the nodes.
    std::string worstNode;
    std::string method;   ///< "Newton", "gmin stepping", "source stepping"
    std::string stopped;  ///< Why it ended without an answer, as a sentence's beginning; empty for an answer.
};

struct OperatingPoint {
    std::vector<double> x;  ///< All unknowns, and ground's 0 at the end.
    Evaluation state;       ///< Currents, charges and their slopes there, as small signals see them.
    SolveReport report;
};

/// Finds the node voltages at which every node's currents sum to zero.
///
/// Newton iteration with junction limiting; if that fails, a conductance from every node to ground is stepped down to
/// zero, each point seeding the next; then all sources are stepped up from zero.
///
/// @param seed  a state to start from (same numbering), or null for a cold start.
/// @param drive  added to the input source [V or A].
/// @param stop  polled once per iteration.
/// Errors: unsolvable names the net without a definite voltage; noConvergence names the worst node and the steps
/// tried; cancelled.
/// Source: C.-W. Ho, A. E. Ruehli, P. A. Brennan, IEEE Trans. CAS-22 (1975) 504; limiting after Nagel, UCB/ERL M520
/// (1975).
Result<OperatingPoint> solveBias(const Equations& equations, const OperatingPoint* seed = nullptr,
                                 const std::stop_token& stop = {}, double drive = 0.0);

/// A kernel ready for real matrices of this circuit; its pivot order is chosen with every device off, so that one that
/// cuts off later leaves the order usable, and kept for all circuits of the topology.
/// Errors: unsolvable naming the net or branch that has no pivot.
Result<SparseLu<double>> kernelAtRest(const Equations& equations);

/// The error of a matrix that is singular at an unknown.
Error singularAt(const Equations& equations, int unknown);

}  // namespace ohmwright
