/// A few figures of many circuits that differ in values only: what a search asks a thousand times.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figure_name.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"

#include <stop_token>
#include <vector>

namespace ohmwright {

class SmallSignal;

/// Measures the same few figures of one circuit after the other; each solve starts from the last one.
/// Not thread-safe.
class FigureMeter {
public:
    explicit FigureMeter(std::vector<FigureName> names) : m_names(std::move(names)) {}

    [[nodiscard]] const std::vector<FigureName>& names() const { return m_names; }
    /// One figure a name, in their order, equal to measureFigures() where that has it.
    /// Errors: as solve/bias.h, solve/response.h, solve/settled.h; cancelled.
    Result<std::vector<Figure>> measure(const Circuit& circuit, const Setting& setting,
                                        const std::stop_token& stop = {});

private:
    [[nodiscard]] bool needs(FigureWork work) const;
    Result<void> solve(const Circuit& circuit, const Setting& setting, const std::stop_token& stop);
    /// One that is asked for at a frequency of its own.
    Result<Figure> figureAt(const FigureName& name, SmallSignal& signal, const Circuit& circuit) const;
    Result<void> addLinear(std::vector<Figure>& measured, const Circuit& circuit, const std::stop_token& stop) const;
    Result<void> addLargeSignal(std::vector<Figure>& measured, const Circuit& circuit, const Setting& setting,
                                const std::stop_token& stop) const;

    std::vector<FigureName> m_names;
    SolvedCircuit m_solved;
};

}  // namespace ohmwright
