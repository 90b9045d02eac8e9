// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sum_bench.h"

#include "core/base/value_text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

/// Less is no resistance that a sum would feel.
constexpr double leastOhms = 0.5;

double toThreeDigits(double value) {
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / unit) * unit;
}

}  // namespace

Result<std::optional<double>> SumBench::figure(const char* id) {
    const auto found = m_meter.figure(id, m_stop);
    return found ? Result<std::optional<double>>(found->value) : found.error();
}

std::optional<GainLeg> SumBench::gainLeg() const {
    const PotOhms pots = potOhmsAt(circuit(), setting());
    if (auto leg = findGainLeg(circuit(), circuit().ports.clipNode, pots)) {
        return leg;
    }
    for (const Part& part : circuit().parts) {
        auto leg = part.kind == PartKind::opamp ? findGainLeg(circuit(), part.nets[2], pots) : std::nullopt;
        if (leg) {
            return leg;
        }
    }
    return std::nullopt;
}

std::optional<FeedbackPath> SumBench::feedback(const GainLeg& leg) const {
    return findFeedbackResistance(circuit(), leg.opamp, potOhmsAt(circuit(), setting()));
}

Sum emptySum(std::string figure, std::string name, std::string formula, std::string unit) {
    Sum sum;
    sum.figure = std::move(figure);
    sum.name = std::move(name);
    sum.formula = std::move(formula);
    sum.unit = std::move(unit);
    return sum;
}

void setSolved(Sum& sum, const std::optional<double>& solved) {
    if (!solved || !std::isfinite(*solved)) {
        return;
    }
    sum.solved = solved;
    sum.difference = sum.unit == "dB" ? *solved - sum.result : 100.0 * (*solved - sum.result) / *solved;
}

Circuit withoutParts(const Circuit& circuit, const std::vector<PartId>& taken) {
    Circuit without = circuit;
    const auto isTaken = [&taken](const PartId& id) {
        return std::find(taken.begin(), taken.end(), id) != taken.end();
    };
    std::erase_if(without.parts, [&](const Part& part) { return isTaken(part.id); });
    for (Stage& stage : without.stages) {
        std::erase_if(stage.parts, isTaken);
    }
    return without;
}

std::vector<PartId> partsOf(const GainLeg& leg, const FeedbackPath* feedback) {
    std::vector<PartId> parts = leg.resistors;
    parts.insert(parts.end(), leg.capacitors.begin(), leg.capacitors.end());
    if (feedback != nullptr) {
        parts.insert(parts.end(), feedback->parts.begin(), feedback->parts.end());
    }
    return parts;
}

std::complex<double> legImpedance(const GainLeg& leg, double hertz) {
    return leg.ohms + 1.0 / std::complex<double>(0.0, 2.0 * std::numbers::pi * hertz * leg.farads);
}

std::string ohmsText(double ohms) {
    return formatPartValue({ohms, Unit::ohm});
}
std::string faradsText(double farads) {
    return formatPartValue({farads, Unit::farad});
}
std::string workedOhmsText(double ohms) {
    return ohms < leastOhms ? "0R" : ohmsText(toThreeDigits(ohms));
}
std::string amperesText(double amperes) {
    return formatQuantity({amperes, Unit::ampere});
}

}  // namespace ohmwright
