/// What every "show the sum" is worked from, and how its values are written.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/circuit_meter.h"
#include "core/plan/sums.h"

#include <complex>
#include <optional>
#include <stop_token>
#include <string>
#include <utility>
#include <vector>

namespace ohmwright {

/// A circuit at a setting with its meter, and the sums that were found so far.
class SumBench {
public:
    SumBench(CircuitMeter meter, const std::stop_token& stop) : m_meter(std::move(meter)), m_stop(stop) {}

    [[nodiscard]] const Circuit& circuit() const { return m_meter.circuit(); }
    [[nodiscard]] const Setting& setting() const { return m_meter.setting(); }
    [[nodiscard]] const SolvedCircuit& solved() const { return m_meter.solved(); }
    [[nodiscard]] CircuitMeter& meter() { return m_meter; }
    [[nodiscard]] const std::stop_token& stop() const { return m_stop; }

    /// A figure of the meter; errors of the solver.
    Result<std::optional<double>> figure(const char* id);
    /// Of the stage that clips; where no op-amp drives the clip node, of the first op-amp that has a leg.
    [[nodiscard]] std::optional<GainLeg> gainLeg() const;
    [[nodiscard]] std::optional<FeedbackPath> feedback(const GainLeg& leg) const;

    void add(Sum sum) { m_sums.push_back(std::move(sum)); }
    std::vector<Sum> take() { return std::move(m_sums); }

private:
    CircuitMeter m_meter;
    const std::stop_token& m_stop;
    std::vector<Sum> m_sums;
};

/// A sum whose values are still to be put in.
Sum emptySum(std::string figure, std::string name, std::string formula, std::string unit);
/// Solved beside the sum: in dB their difference, else a share of the solved figure.
void setSolved(Sum& sum, const std::optional<double>& solved);

/// The circuit with these parts off the board and out of its stages.
Circuit withoutParts(const Circuit& circuit, const std::vector<PartId>& taken);

/// The parts of a leg, and of a feedback.
std::vector<PartId> partsOf(const GainLeg& leg, const FeedbackPath* feedback = nullptr);
/// Rg + 1/(jωCg) [Ω].
std::complex<double> legImpedance(const GainLeg& leg, double hertz);

/// "3k9" of a part's value.
std::string ohmsText(double ohms);
std::string faradsText(double farads);
/// "5k28" of a resistance that was worked out: three digits, "0R" of next to nothing.
std::string workedOhmsText(double ohms);
/// "0.817 mA"
std::string amperesText(double amperes);

}  // namespace ohmwright
