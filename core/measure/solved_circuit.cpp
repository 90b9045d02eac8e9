// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/solved_circuit.h"

#include <cassert>

namespace ohmwright {

double SolvedCircuit::biasVolts(const NetName& net) const {
    const int index = equations->indexOfNet(net);
    assert(index >= 0);
    return bias->x[std::size_t(index)];
}

Result<SolvedCircuit> solveCircuit(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
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
