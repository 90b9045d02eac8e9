// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/opamp_sums.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/device_sheet.h"
#include "core/measure/source_side.h"
#include "core/measure/spread.h"
#include "core/measure/stage_sweep.h"
#include "core/solve/impedance.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

constexpr double kilohertz = 1000.0;

/// Of the capacitors across the feedback.
double feedbackFarads(const Circuit& circuit, const GainLeg& leg) {
    const Part& opamp = *findPart(circuit, leg.opamp);
    double farads = 0.0;
    for (const Part& part : circuit.parts) {
        const bool isAcross =
            part.kind == PartKind::capacitor && ((part.nets[0] == opamp.nets[1] && part.nets[1] == opamp.nets[2]) ||
                                                 (part.nets[1] == opamp.nets[1] && part.nets[0] == opamp.nets[2]));
        farads += isAcross ? part.value : 0.0;
    }
    return farads;
}

/// Zf/Zg of a non-inverting stage at a frequency, with the capacitance across the feedback.
Complex feedbackRatio(const Circuit& circuit, const GainLeg& leg, double feedbackOhms, double hertz) {
    const Complex jw(0.0, 2.0 * std::numbers::pi * hertz);
    return 1.0 / ((1.0 / feedbackOhms + jw * feedbackFarads(circuit, leg)) * legImpedance(leg, hertz));
}

/// From the non-inverting input to the output.
Stage opampStage(const Circuit& circuit, const GainLeg& leg) {
    const Part& opamp = *findPart(circuit, leg.opamp);
    Stage stage;
    stage.input = opamp.nets[0];
    stage.output = opamp.nets[2];
    return stage;
}

Result<void> gainLegSums(SumBench& bench) {
    const auto gainLeg = bench.gainLeg();
    if (!gainLeg) {
        return {};
    }
    Sum corner = emptySum("gain_leg_corner", said("gain-leg corner"), "1/(2π·Rg·Cg)", "Hz");
    corner.result = gainLeg->cornerHz();
    corner.parts = partsOf(*gainLeg);
    corner.withValues = "1/(2π·" + ohmsText(gainLeg->ohms) + "·" + faradsText(gainLeg->farads) + ")";
    const auto solved = findCorners(bench.solved(), opampStage(bench.circuit(), *gainLeg), bench.stop());
    if (!solved) {
        return solved.error();
    }
    setSolved(corner, solved->lowHz);
    corner.approximation = said(
        "A tag of the two parts. The solved corner of the stage lies elsewhere, because the highest gain "
        "that it is read from is held down by the feedback capacitor and the op-amp.");
    bench.add(corner);

    if (const auto feedback = bench.feedback(*gainLeg)) {
        Sum zero = emptySum("gain_zero", said("where the gain begins to rise from 1"), "1/(2π·Cg·(Rg + Rf))", "Hz");
        zero.parts = partsOf(*gainLeg, &*feedback);
        zero.withValues = "1/(2π·" + faradsText(gainLeg->farads) + "·(" + ohmsText(gainLeg->ohms) + " + " +
                          ohmsText(feedback->ohms) + "))";
        zero.result = 1.0 / (2.0 * std::numbers::pi * gainLeg->farads * (gainLeg->ohms + feedback->ohms));
        zero.approximation = said("An approximation: the feedback capacitor and the op-amp's own gain are left out.");
        bench.add(zero);
    }
    return {};
}

Result<void> plateauSum(SumBench& bench) {
    const auto gainLeg = bench.gainLeg();
    const auto feedback = gainLeg ? bench.feedback(*gainLeg) : std::nullopt;
    if (!feedback) {
        return {};
    }
    Sum sum = emptySum("plateau_gain", said("plateau gain"), "20·log(1 + Rf/Rg)", "dB");
    sum.parts = partsOf(*gainLeg, &*feedback);
    sum.withValues = "20·log(1 + " + ohmsText(feedback->ohms) + "/" + ohmsText(gainLeg->ohms) + ")";
    sum.result = amplitudeDb(1.0 + feedback->ohms / gainLeg->ohms);
    const auto highest = findHighest(bench.solved(), opampStage(bench.circuit(), *gainLeg), bench.stop());
    if (!highest) {
        return highest.error();
    }
    setSolved(sum, highest->highestDb);
    sum.approximation =
        said("An approximation: the feedback capacitor, the op-amp's speed and the leg's capacitor take part of it.");
    bench.add(sum);
    return {};
}

/// 1 + Zf/Zg, divided by 1 + that/A(f), A = GBW/(jf).
Result<void> gainSum(SumBench& bench) {
    const auto gainLeg = bench.gainLeg();
    const auto feedback = gainLeg ? bench.feedback(*gainLeg) : std::nullopt;
    if (!feedback) {
        return {};
    }
    const Model& type = *findModel(bench.circuit(), findPart(bench.circuit(), gainLeg->opamp)->model);
    const double gainBandwidth = opampSheet(type, kilohertz).gainBandwidthHz;
    const Complex ideal = 1.0 + feedbackRatio(bench.circuit(), *gainLeg, feedback->ohms, kilohertz);
    const Complex open = gainBandwidth / Complex(0.0, kilohertz);
    Sum sum = emptySum("stage_gain_1k", said("stage gain at 1 kHz"), "20·log|G/(1 + G/A)|, G = 1 + Zf/Zg, A = GBW/(jf)",
                       "dB");
    sum.parts = partsOf(*gainLeg, &*feedback);
    const double farads = feedbackFarads(bench.circuit(), *gainLeg);
    sum.withValues = "20·log|G/(1 + G/A)|, G = 1 + (" + ohmsText(feedback->ohms) +
                     (farads > 0.0 ? "∥" + faradsText(farads) : "") + ")/(" + ohmsText(gainLeg->ohms) + " + 1/(jω·" +
                     faradsText(gainLeg->farads) + ")), |G| = " + formatFigure(std::abs(ideal)) +
                     ", |A| = " + formatFigure(std::abs(open));
    sum.result = amplitudeDb(std::abs(ideal / (1.0 + ideal / open)));
    const auto solved = StageSweep(bench.solved(), opampStage(bench.circuit(), *gainLeg)).at(kilohertz);
    if (!solved) {
        return solved.error();
    }
    setSolved(sum, *solved);
    sum.approximation = said(
        "An approximation: diodes across the feedback take a little at rest, and the op-amp's output "
        "resistance is left out.");
    bench.add(sum);
    return {};
}

/// The root of what the op-amp, the resistances at its two inputs and the feedback add, at the stage's input.
struct NoiseTerms {
    double opamp = 0.0;      ///< en [V/√Hz]
    double resistors = 0.0;  ///< of Rs + Rg
    double current = 0.0;    ///< in through Rg
    double feedback = 0.0;   ///< of Rf over the gain

    [[nodiscard]] double sum() const { return std::hypot(std::hypot(opamp, resistors), std::hypot(current, feedback)); }
};

/// Solved noise at the op-amp's output over the stage's gain [V/√Hz] at 1 kHz, and the resistance that drives its
/// non-inverting input; both with an ideal generator at the jack.
struct DrivenStage {
    double density = 0.0;
    double sourceOhms = 0.0;
    double gain = 0.0;
};

Result<DrivenStage> driveAtJack(const SumBench& bench, const Stage& stage) {
    const Circuit driven = drivenAtJack(bench.circuit());
    const auto solved = solveCircuit(driven, settingFor(driven, bench.setting()), bench.stop());
    if (!solved) {
        return solved.error();
    }
    const std::array<double, 1> hertz{kilohertz};
    const auto at = [&](const NetName& net) { return solved->equations->indexOfNet(net); };
    const auto noise = solveNoise(*solved->equations, *solved->bias, at(stage.output), hertz, bench.stop());
    const auto behind = nodeImpedance(*solved->equations, *solved->bias, at(stage.input), hertz, bench.stop());
    SmallSignal signal(*solved->equations, *solved->bias);
    const auto solution = signal.at(kilohertz);
    if (!noise || !behind || !solution) {
        return !noise ? noise.error() : !behind ? behind.error() : solution.error();
    }
    DrivenStage found;
    found.gain = std::abs((*solution)[std::size_t(at(stage.output))] / (*solution)[std::size_t(at(stage.input))]);
    found.density = noise->output.front() / found.gain;
    found.sourceOhms = std::max(behind->front().real(), 0.0);
    return found;
}

/// √(en² + 4kT·(Rs + Rg) + (in·Rg)² + 4kT·Rf/A²) at 1 kHz.
Result<void> noiseSum(SumBench& bench) {
    const auto gainLeg = bench.gainLeg();
    const auto feedback = gainLeg ? bench.feedback(*gainLeg) : std::nullopt;
    const Part* opamp = gainLeg ? findPart(bench.circuit(), gainLeg->opamp) : nullptr;
    const Model* type = opamp == nullptr ? nullptr : findModel(bench.circuit(), opamp->model);
    if (!feedback || type == nullptr) {
        return {};
    }
    const OpampSheet sheet = opampSheet(*type, kilohertz);
    if (!(sheet.noiseVolts > 0.0)) {
        return {};  // a type that states no noise has no sum of it
    }
    const auto driven = driveAtJack(bench, opampStage(bench.circuit(), *gainLeg));
    if (!driven) {
        return driven.error();
    }
    const double kelvin = bench.setting().temperatureKelvin;
    const NoiseTerms terms{sheet.noiseVolts, thermalNoiseVolts(driven->sourceOhms + gainLeg->ohms, kelvin),
                           sheet.noiseAmperes * gainLeg->ohms,
                           thermalNoiseVolts(feedback->ohms, kelvin) / driven->gain};
    Sum sum = emptySum("stage_noise_1k", said("noise at the input of the stage, 1 kHz"),
                       "√(en² + 4kT·(Rs + Rg) + (in·Rg)² + 4kT·Rf/A²)", "nV/√Hz");
    const auto squared = [](double volts) { return formatFigure(1e9 * volts) + "²"; };
    sum.withValues = "√(" + squared(terms.opamp) + " + " + squared(terms.resistors) + " + " + squared(terms.current) +
                     " + " + squared(terms.feedback) + "), Rs = " + workedOhmsText(driven->sourceOhms) +
                     ", Rg = " + ohmsText(gainLeg->ohms) + ", Rf = " + workedOhmsText(feedback->ohms) +
                     ", A = " + formatFigure(driven->gain);
    sum.result = 1e9 * terms.sum();
    setSolved(sum, 1e9 * driven->density);
    sum.approximation = said(
        "An approximation, with a generator at the jack: what stands in front of the stage is taken for a plain "
        "resistance, and the leg's capacitor is left out.");
    sum.parts = partsOf(*gainLeg, &*feedback);
    sum.parts.push_back(opamp->id);
    bench.add(sum);
    return {};
}

/// Worst case and rule of squares of the gain-leg corner.
Result<void> cornerSpreadSums(SumBench& bench) {
    const auto gainLeg = bench.gainLeg();
    if (!gainLeg || gainLeg->resistors.size() != 1 || gainLeg->capacitors.size() != 1) {
        return {};  // values in series or across share their tolerances out, which is no product
    }
    const std::array<double, 2> shares{spreadShare(*findPart(bench.circuit(), gainLeg->resistors.front())),
                                       spreadShare(*findPart(bench.circuit(), gainLeg->capacitors.front()))};
    const ProductSpread spread = spreadOfInverseProduct(shares);
    const auto percent = [](double share) { return formatFigure(100.0 * share); };
    const auto factor = [](double share) { return formatFixed(share, 2); };
    const auto add = [&](const char* id, const std::string& name, const char* formula, std::string values,
                         double result, const std::string& why) {
        Sum sum = emptySum(id, name, formula, "%");
        sum.withValues = std::move(values);
        sum.result = 100.0 * result;
        sum.approximation = why;
        sum.parts = partsOf(*gainLeg);
        bench.add(sum);
    };
    add("corner_lowest", said("gain-leg corner, worst case down"), "1/((1 + tR)·(1 + tC)) − 1",
        "1/(" + factor(1.0 + shares[0]) + "·" + factor(1.0 + shares[1]) + ") − 1", spread.lowest, "");
    add("corner_highest", said("gain-leg corner, worst case up"), "1/((1 − tR)·(1 − tC)) − 1",
        "1/(" + factor(1.0 - shares[0]) + "·" + factor(1.0 - shares[1]) + ") − 1", spread.highest, "");
    add("corner_rule_of_squares", said("gain-leg corner, rule of squares"), "√(tR² + tC²)",
        "√(" + percent(shares[0]) + "² + " + percent(shares[1]) + "²) %", spread.ruleOfSquares,
        said("An approximation: true for small tolerances that lie anywhere inside their limits."));
    return {};
}

}  // namespace

Result<void> addOpampSums(SumBench& bench) {
    for (const auto step : {gainLegSums, plateauSum, gainSum, noiseSum}) {
        if (auto done = step(bench); !done) {
            return done.error();
        }
    }
    return {};
}

Result<void> addCornerSpread(SumBench& bench) {
    return cornerSpreadSums(bench);
}

}  // namespace ohmwright
