// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/solved_circuit.h"

#include "core/base/said.h"

#include <cassert>

namespace ohmwright {

namespace {

/// A circuit without its two ends has a bias and nothing else.
Result<void> requireEnds(const Ports& ports) {
    if (ports.source.empty()) {
        return Error{ErrorCode::unsolvable,
                     said("The circuit names no source: choose the voltage source that stands for the pickup."), ""};
    }
    if (ports.output.empty() || ports.output == groundNet) {
        return Error{ErrorCode::unsolvable,
                     ports.output.empty()
                         ? said("The circuit names no output: choose the net where the next box is connected.")
                         : said("The output is on ground: choose the net where the next box is connected."),
                     ports.output};
    }
    return {};
}

/// @param like  whose bias to start from where the unknowns are the same, or null.
Result<SolvedCircuit> biased(Result<Equations> equations, const SolvedCircuit* like, const std::stop_token& stop) {
    if (!equations) {
        return equations.error();
    }
    SolvedCircuit solved{std::make_unique<const Equations>(*std::move(equations)), nullptr};
    const bool sameUnknowns = like != nullptr && &like->equations->orders() == &solved.equations->orders();
    auto bias = solveBias(*solved.equations, sameUnknowns ? like->bias.get() : nullptr, stop);
    if (!bias) {
        return bias.error();
    }
    solved.bias = std::make_unique<const OperatingPoint>(*std::move(bias));
    return solved;
}

}  // namespace

double SolvedCircuit::biasVolts(const NetName& net) const {
    const int index = equations->indexOfNet(net);
    assert(index >= 0);  // circuit/check.h has seen to the nets that a circuit names
    return bias->x[std::size_t(index)];
}

Result<SolvedCircuit> solveCircuit(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    if (auto ends = requireEnds(circuit.ports); !ends) {
        return ends.error();
    }
    return biased(Equations::compile(circuit, setting), nullptr, stop);
}

Result<SolvedCircuit> solveCircuitLike(const SolvedCircuit& like, const Circuit& circuit, const Setting& setting,
                                       const std::stop_token& stop) {
    if (auto ends = requireEnds(circuit.ports); !ends) {
        return ends.error();
    }
    return biased(Equations::compileLike(*like.equations, circuit, setting), &like, stop);
}

}  // namespace ohmwright
