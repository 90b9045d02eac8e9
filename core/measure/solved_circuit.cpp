// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/solved_circuit.h"

#include <cassert>

namespace ohmwright {

namespace {

/// A circuit without its two ends has a bias and nothing else.
Result<void> requireEnds(const Ports& ports) {
    if (ports.source.empty()) {
        return Error{ErrorCode::unsolvable,
                     "The circuit names no source: choose the voltage source that stands for the pickup.", ""};
    }
    if (ports.output.empty() || ports.output == groundNet) {
        return Error{ErrorCode::unsolvable,
                     std::string(ports.output.empty() ? "The circuit names no output" : "The output is on ground") +
                         ": choose the net where the next box is connected.",
                     ports.output};
    }
    return {};
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
    auto equations = Equations::compile(circuit, setting);
    if (!equations) {
        return equations.error();
    }
    SolvedCircuit solved{std::make_unique<const Equations>(*std::move(equations)), nullptr};
    auto bias = solveBias(*solved.equations, nullptr, stop);
    if (!bias) {
        return bias.error();
    }
    solved.bias = std::make_unique<const OperatingPoint>(*std::move(bias));
    return solved;
}

}  // namespace ohmwright
