/// A few figures of many circuits that differ in values only: what a search asks a thousand times.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"

#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// How much work a figure takes, the least first.
enum class FigureWork {
    formula,  ///< From the values alone: corner tag, plateau gain.
    linear,   ///< Bias and small signals.
    settled,  ///< The settled state at the player's level.
    clip      ///< The search of clip thresholds.
};

/// A figure by its name: an id of figureKinds(), or "response@330" and "stage_gain@330" (of the clip stage) [dB] at any
/// frequency [Hz].
struct FigureName {
    std::string id;
    std::string unit;
    bool comparedAsRatio = false;  ///< As a corner in Hz; a decibel figure is compared by difference.
    FigureWork work = FigureWork::linear;
    std::optional<double> hertz;  ///< Of the form with "@".

    friend bool operator==(const FigureName&, const FigureName&) = default;
};
/// Errors: invalidInput naming the word and what there is to choose from.
Result<FigureName> findFigureName(std::string_view name);

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

    std::vector<FigureName> m_names;
    SolvedCircuit m_solved;
};

}  // namespace ohmwright
