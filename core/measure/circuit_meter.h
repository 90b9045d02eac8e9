/// Chosen figures of one circuit at one setting, each solved when it is first asked for and no dearer than it must be.
///
/// For what asks one circuit for this and that: a subset of a plan, a knob's position, both sides of a claim. The
/// figures are those of chosen_figures.h, with the same names and meanings; where many circuits are asked for the same
/// list, the meter there is the one to take.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/measure/figures.h"
#include "core/measure/solved_circuit.h"
#include "core/solve/response.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

class CircuitMeter {
public:
    /// Bias only; everything else waits until it is asked for. The circuit is copied.
    /// @param levelSteps  steps a period of "level", odd, 65 or more; 0: as many as it needs to stand still within
    ///                    `levelStillDb`.
    /// @param like  a meter of the same topology whose equations and bias are taken to start from, or null.
    /// Errors: as solveCircuit.
    static Result<CircuitMeter> make(const Circuit& circuit, const Setting& setting, std::size_t levelSteps = 0,
                                     const CircuitMeter* like = nullptr, const std::stop_token& stop = {});

    /// What the level may still differ by with finer steps [dB].
    static constexpr double levelStillDb = 0.005;

    [[nodiscard]] const Circuit& circuit() const { return *m_circuit; }
    [[nodiscard]] const Setting& setting() const { return m_setting; }
    [[nodiscard]] const SolvedCircuit& solved() const { return *m_solved; }
    /// The stage that clips: the one whose output is the clip node; null without one that has both borders.
    [[nodiscard]] const Stage* clipStage() const;

    /// Source to output [dB] at any frequency. Errors: as SmallSignal::at.
    Result<double> responseDb(double hertz);
    /// Of the clip stage [dB]; absent without one.
    Result<std::optional<double>> stageGainDb(double hertz);
    /// A figure by its name, as findFigureName reads it. A figure without a value says why.
    /// Errors: invalidInput for a name that is none; of the solver; cancelled.
    Result<Figure> figure(const std::string& id, const std::stop_token& stop = {});
    /// Steps a period that "level" took; 0 before it was asked for.
    [[nodiscard]] std::size_t levelSteps() const { return m_levelSteps; }

private:
    CircuitMeter() = default;
    Result<Figure> level(const std::stop_token& stop);
    Result<Figure> slope(const std::stop_token& stop);
    Result<Figure> ofHighestGain(const std::string& id, const std::stop_token& stop);
    Result<Figure> ofLarge(const std::string& id, bool withThresholds, const std::stop_token& stop);
    Result<double> settledDbv(double voltsPeak, std::size_t steps, const std::stop_token& stop);
    Result<void> chooseLevelSteps(const std::stop_token& stop);

    std::unique_ptr<const Circuit> m_circuit;
    Setting m_setting;
    std::unique_ptr<const SolvedCircuit> m_solved;
    std::unique_ptr<SmallSignal> m_signal;
    std::size_t m_levelSteps = 0;
    std::optional<Figure> m_level;
    std::vector<Figure> m_known;  ///< Of the groups that come together.
    bool m_thresholdsKnown = false;
    bool m_largeKnown = false;
};

}  // namespace ohmwright
