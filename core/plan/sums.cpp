// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sums.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/stage_sweep.h"
#include "core/plan/amplifier_sums.h"
#include "core/plan/ceiling_sums.h"
#include "core/plan/opamp_sums.h"
#include "core/plan/sum_bench.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace ohmwright {

namespace {

/// 1/(2 pi sqrt(L C)) of the pickup's winding and what lies across it up to the jack.
Result<void> pickupSum(SumBench& bench) {
    const NetName& jack = bench.circuit().ports.jack;
    const Stage* source = jack.empty() ? nullptr : stageWithOutput(bench.circuit(), jack);
    if (source == nullptr || source->input.empty()) {
        return {};
    }
    double henries = 0.0;
    double farads = 0.0;
    int windings = 0;
    std::string capacitors;
    std::vector<PartId> parts;
    for (const PartId& id : source->parts) {
        const Part* part = findPart(bench.circuit(), id);
        if (part != nullptr && part->kind == PartKind::inductor) {
            henries = part->value;
            ++windings;
            parts.push_back(id);
        } else if (part != nullptr && part->kind == PartKind::capacitor && part->nets[1] == groundNet) {
            farads += part->value;
            parts.push_back(id);
            capacitors += (capacitors.empty() ? "" : " + ") + faradsText(part->value);
        }
    }
    if (windings != 1 || farads == 0.0) {
        return {};
    }
    Sum sum = emptySum("pickup_peak", said("pickup's own resonance"), "1/(2π·√(L·C))", "Hz");
    sum.parts = std::move(parts);
    sum.withValues = "1/(2π·√(" + formatPartValue({henries, Unit::henry}) + "·(" + capacitors + ")))";
    sum.result = 1.0 / (2.0 * std::numbers::pi * std::sqrt(henries * farads));
    // Where the response at the jack is highest; a heavy load leaves no peak.
    const auto highest = findHighest(bench.solved(), *source, bench.stop());
    if (!highest) {
        return highest.error();
    }
    const bool isPeak = highest->highestHz > sum.result / 4.0 && highest->highestHz < 4.0 * sum.result;
    setSolved(sum, isPeak ? std::optional(highest->highestHz) : std::nullopt);
    sum.approximation =
        isPeak ? said(
                     "An approximation: the winding's resistance and what loads the jack damp the peak and "
                     "move it down.")
               : said("What loads the jack damps the resonance so far that the solved response has no peak.");
    bench.add(sum);
    return {};
}

/// The law with its values in it: "250k·(32.1^0.5 − 1)/(32.1 − 1), m = 15.0 %".
std::string potLawText(const Part& pot, const std::string& travel) {
    std::string words = ohmsText(pot.value);
    if (pot.taper == Taper::linear) {
        return words.append("·").append(travel);
    }
    const std::string base = formatFigure(std::pow(1.0 / pot.shareAtHalf - 1.0, 2.0));
    if (pot.taper == Taper::reverseLogarithmic) {
        words.append(" − ").append(ohmsText(pot.value));
    }
    words.append("·(").append(base).append("^");
    words.append(pot.taper == Taper::reverseLogarithmic ? "(1−" + travel + ")" : travel);
    words.append(" − 1)/(").append(base).append(" − 1), m = ");
    return words.append(formatFigure(100.0 * pot.shareAtHalf)).append(" %");
}

const char* potLawFormula(Taper taper) {
    switch (taper) {
        case Taper::linear:
            return "R(x) = P·x";
        case Taper::logarithmic:
            return "R(x) = P·(a^x − 1)/(a − 1), a = (1/m − 1)²";
        case Taper::reverseLogarithmic:
            return "R(x) = P − P·(a^(1−x) − 1)/(a − 1), a = (1/m − 1)²";
    }
    return "";
}

Result<void> potSums(SumBench& bench) {
    for (const Knob& knob : bench.circuit().knobs) {
        const Part* pot = findPart(bench.circuit(), knob.part);
        if (pot == nullptr || pot->kind != PartKind::potentiometer) {
            continue;
        }
        const double position = knobPosition(bench.setting(), knob.id);
        Sum sum =
            emptySum("pot_" + knob.id, said("%1: wiper to bottom", knob.name.empty() ? knob.id : knob.name), "", "Ω");
        sum.parts.push_back(pot->id);
        sum.formula = potLawFormula(pot->taper);
        sum.withValues = potLawText(*pot, formatFigure(position / 10.0));
        sum.result = potHalves(*pot, position).wiperToBottom;
        bench.add(sum);
    }
    return {};
}

}  // namespace

Result<std::vector<Sum>> showSums(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    auto meter = CircuitMeter::make(circuit, setting, 0, nullptr, stop);
    if (!meter) {
        return meter.error();
    }
    SumBench bench(*std::move(meter), stop);
    for (const auto step : {pickupSum, addOpampSums, addCeilingSums, addAmplifierSums, potSums, addCornerSpread}) {
        if (auto done = step(bench); !done) {
            return done.error();
        }
    }
    return bench.take();
}

}  // namespace ohmwright
