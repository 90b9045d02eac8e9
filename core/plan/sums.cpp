// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sums.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/circuit/gain_leg.h"
#include "core/measure/circuit_meter.h"
#include "core/measure/diode_ceiling.h"
#include "core/measure/spread.h"
#include "core/measure/stage_sweep.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <set>

namespace ohmwright {

namespace {

using Complex = std::complex<double>;

constexpr double kilohertz = 1000.0;
/// What an op-amp's type says nothing of is as in devices/opamp.h.
constexpr double usualGainBandwidthHz = 3e6;

std::string ohmsText(double ohms) {
    return formatPartValue({ohms, Unit::ohm});
}
std::string faradsText(double farads) {
    return formatPartValue({farads, Unit::farad});
}

/// Solved beside the sum: in dB their difference, else a share of the solved figure.
void setSolved(Sum& sum, const std::optional<double>& solved) {
    if (!solved || !std::isfinite(*solved)) {
        return;
    }
    sum.solved = solved;
    sum.difference = sum.unit == "dB" ? *solved - sum.result : 100.0 * (*solved - sum.result) / *solved;
}

/// What the sums are worked from.
class SumBench {
public:
    SumBench(const Circuit& circuit, const Setting& setting, CircuitMeter meter, const std::stop_token& stop)
        : m_circuit(circuit), m_setting(setting), m_meter(std::move(meter)), m_stop(stop) {}

    Result<std::vector<Sum>> all() {
        using Step = Result<void> (SumBench::*)();
        for (const Step step :
             {&SumBench::pickupPeak, &SumBench::gainLeg, &SumBench::plateau, &SumBench::gainAtOneKilohertz,
              &SumBench::clipLevel, &SumBench::pots, &SumBench::cornerSpread}) {
            if (auto done = (this->*step)(); !done) {
                return done.error();
            }
        }
        return std::move(m_sums);
    }

private:
    Result<void> pickupPeak();
    Result<void> gainLeg();
    Result<void> plateau();
    Result<void> gainAtOneKilohertz();
    Result<void> clipLevel();
    Result<void> pots();
    Result<void> cornerSpread();

    Result<std::optional<double>> figure(const char* id) {
        const auto found = m_meter.figure(id, m_stop);
        return found ? Result<std::optional<double>>(found->value) : found.error();
    }
    [[nodiscard]] std::optional<GainLeg> leg() const {
        return findGainLeg(m_circuit, m_circuit.ports.clipNode, potOhmsAt(m_circuit, m_setting));
    }
    /// Zf/Zg of a non-inverting stage at a frequency, with the capacitance across the feedback.
    [[nodiscard]] Complex feedbackRatio(const GainLeg& leg, double feedbackOhms, double hertz) const {
        const Complex jw(0.0, 2.0 * std::numbers::pi * hertz);
        return 1.0 / ((1.0 / feedbackOhms + jw * feedbackFarads(leg)) * legImpedance(leg, hertz));
    }
    [[nodiscard]] static Complex legImpedance(const GainLeg& leg, double hertz) {
        return leg.ohms + 1.0 / Complex(0.0, 2.0 * std::numbers::pi * hertz * leg.farads);
    }
    [[nodiscard]] double feedbackFarads(const GainLeg& leg) const;
    [[nodiscard]] std::vector<const Part*> diodesBetween(const NetName& from, const NetName& to) const;

    const Circuit& m_circuit;
    const Setting& m_setting;
    CircuitMeter m_meter;
    const std::stop_token& m_stop;
    std::vector<Sum> m_sums;
};

/// 1/(2 pi sqrt(L C)) of the pickup's winding and what lies across it up to the jack.
Result<void> SumBench::pickupPeak() {
    const NetName& jack = m_circuit.ports.jack;
    const Stage* source = jack.empty() ? nullptr : stageWithOutput(m_circuit, jack);
    if (source == nullptr || source->input.empty()) {
        return {};
    }
    double henries = 0.0;
    double farads = 0.0;
    int windings = 0;
    std::string capacitors;
    for (const PartId& id : source->parts) {
        const Part* part = findPart(m_circuit, id);
        if (part != nullptr && part->kind == PartKind::inductor) {
            henries = part->value;
            ++windings;
        } else if (part != nullptr && part->kind == PartKind::capacitor && part->nets[1] == groundNet) {
            farads += part->value;
            capacitors += (capacitors.empty() ? "" : " + ") + faradsText(part->value);
        }
    }
    if (windings != 1 || farads == 0.0) {
        return {};
    }
    Sum sum{"pickup_peak", "pickup's own resonance", "1/(2π·√(L·C))", "", 0.0, "Hz", {}, {}, ""};
    sum.withValues = "1/(2π·√(" + formatPartValue({henries, Unit::henry}) + "·(" + capacitors + ")))";
    sum.result = 1.0 / (2.0 * std::numbers::pi * std::sqrt(henries * farads));
    // Where the response at the jack is highest; a heavy load leaves no peak.
    const auto highest = findHighest(m_meter.solved(), *source, m_stop);
    if (!highest) {
        return highest.error();
    }
    const bool isPeak = highest->highestHz > sum.result / 4.0 && highest->highestHz < 4.0 * sum.result;
    setSolved(sum, isPeak ? std::optional(highest->highestHz) : std::nullopt);
    sum.approximation = isPeak ? "An approximation: the winding's resistance and what loads the jack damp the peak and "
                                 "move it down."
                               : "What loads the jack damps the resonance so far that the solved response has no peak.";
    m_sums.push_back(sum);
    return {};
}

Result<void> SumBench::gainLeg() {
    const auto gainLeg = leg();
    if (!gainLeg) {
        return {};
    }
    Sum corner{"gain_leg_corner", "gain-leg corner", "1/(2π·Rg·Cg)", "", gainLeg->cornerHz(), "Hz", {}, {}, ""};
    corner.withValues = "1/(2π·" + ohmsText(gainLeg->ohms) + "·" + faradsText(gainLeg->farads) + ")";
    const auto lowCorner = figure("low_corner");
    if (!lowCorner) {
        return lowCorner.error();
    }
    setSolved(corner, *lowCorner);
    corner.approximation =
        "A tag of the two parts. The solved corner of the stage lies elsewhere, because the highest gain "
        "that it is read from is held down by the feedback capacitor and the op-amp.";
    m_sums.push_back(corner);

    if (const auto feedback = findFeedbackResistance(m_circuit, gainLeg->opamp, potOhmsAt(m_circuit, m_setting))) {
        Sum zero{"gain_zero", "where the gain begins to rise from 1", "1/(2π·Cg·(Rg + Rf))", "", 0.0, "Hz", {}, {}, ""};
        zero.withValues = "1/(2π·" + faradsText(gainLeg->farads) + "·(" + ohmsText(gainLeg->ohms) + " + " +
                          ohmsText(feedback->ohms) + "))";
        zero.result = 1.0 / (2.0 * std::numbers::pi * gainLeg->farads * (gainLeg->ohms + feedback->ohms));
        zero.approximation = "An approximation: the feedback capacitor and the op-amp's own gain are left out.";
        m_sums.push_back(zero);
    }
    return {};
}

Result<void> SumBench::plateau() {
    const auto gainLeg = leg();
    const auto feedback =
        gainLeg ? findFeedbackResistance(m_circuit, gainLeg->opamp, potOhmsAt(m_circuit, m_setting)) : std::nullopt;
    if (!feedback) {
        return {};
    }
    Sum sum{"plateau_gain", "plateau gain", "20·log(1 + Rf/Rg)", "", 0.0, "dB", {}, {}, ""};
    sum.withValues = "20·log(1 + " + ohmsText(feedback->ohms) + "/" + ohmsText(gainLeg->ohms) + ")";
    sum.result = amplitudeDb(1.0 + feedback->ohms / gainLeg->ohms);
    const auto highest = figure("highest_gain");
    if (!highest) {
        return highest.error();
    }
    setSolved(sum, *highest);
    sum.approximation =
        "An approximation: the feedback capacitor, the op-amp's speed and the leg's capacitor take part of it.";
    m_sums.push_back(sum);
    return {};
}

double SumBench::feedbackFarads(const GainLeg& leg) const {
    const Part& opamp = *findPart(m_circuit, leg.opamp);
    double farads = 0.0;
    for (const Part& part : m_circuit.parts) {
        const bool isAcross =
            part.kind == PartKind::capacitor && ((part.nets[0] == opamp.nets[1] && part.nets[1] == opamp.nets[2]) ||
                                                 (part.nets[1] == opamp.nets[1] && part.nets[0] == opamp.nets[2]));
        farads += isAcross ? part.value : 0.0;
    }
    return farads;
}

/// 1 + Zf/Zg, divided by 1 + that/A(f), A = GBW/(jf).
Result<void> SumBench::gainAtOneKilohertz() {
    const auto gainLeg = leg();
    const auto feedback =
        gainLeg ? findFeedbackResistance(m_circuit, gainLeg->opamp, potOhmsAt(m_circuit, m_setting)) : std::nullopt;
    if (!feedback) {
        return {};
    }
    const Model* type = findModel(m_circuit, findPart(m_circuit, gainLeg->opamp)->model);
    double gainBandwidth = usualGainBandwidthHz;
    if (type != nullptr && type->parameters.count("GBW") > 0) {
        gainBandwidth = type->parameters.at("GBW");
    }
    const Complex ideal = 1.0 + feedbackRatio(*gainLeg, feedback->ohms, kilohertz);
    const Complex open = gainBandwidth / Complex(0.0, kilohertz);
    Sum sum{"stage_gain_1k",
            "stage gain at 1 kHz",
            "20·log|G/(1 + G/A)|, G = 1 + Zf/Zg, A = GBW/(jf)",
            "",
            0.0,
            "dB",
            {},
            {},
            ""};
    const double farads = feedbackFarads(*gainLeg);
    sum.withValues = "G = 1 + (" + ohmsText(feedback->ohms) + (farads > 0.0 ? " ∥ " + faradsText(farads) : "") + ")/(" +
                     ohmsText(gainLeg->ohms) + " + 1/(jω·" + faradsText(gainLeg->farads) +
                     ")) = " + formatFigure(std::abs(ideal)) + ", A = " + formatFigure(std::abs(open));
    sum.result = amplitudeDb(std::abs(ideal / (1.0 + ideal / open)));
    const auto solved = m_meter.stageGainDb(kilohertz);
    if (!solved) {
        return solved.error();
    }
    setSolved(sum, *solved);
    sum.approximation =
        "An approximation: diodes across the feedback take a little at rest, and the op-amp's output "
        "resistance is left out.";
    m_sums.push_back(sum);
    return {};
}

/// The diodes in series from one net to another, all pointing that way, joints between them touching nothing else.
std::vector<const Part*> SumBench::diodesBetween(const NetName& from, const NetName& to) const {
    for (const Part& first : m_circuit.parts) {
        if (first.kind != PartKind::diode || first.nets[0] != from) {
            continue;
        }
        std::vector<const Part*> chain{&first};
        while (chain.back()->nets[1] != to && chain.size() <= m_circuit.parts.size()) {
            const NetName& joint = chain.back()->nets[1];
            const auto next = std::find_if(m_circuit.parts.begin(), m_circuit.parts.end(), [&](const Part& part) {
                return part.kind == PartKind::diode && part.nets[0] == joint;
            });
            if (next == m_circuit.parts.end() || joint == from || joint == groundNet) {
                break;
            }
            chain.push_back(&*next);
        }
        if (chain.back()->nets[1] == to) {
            return chain;
        }
    }
    return {};
}

/// V = n Vt ln(i/Is), i = Vin/|Zg|, for the diodes across the feedback, each half-wave by itself.
Result<void> SumBench::clipLevel() {
    const auto gainLeg = leg();
    const Stage* stage = m_meter.clipStage();
    if (!gainLeg || stage == nullptr) {
        return {};
    }
    const Part& opamp = *findPart(m_circuit, gainLeg->opamp);
    SmallSignal signal(*m_meter.solved().equations, *m_meter.solved().bias);
    const auto solution = signal.at(m_setting.toneHz);
    if (!solution) {
        return solution.error();
    }
    const int input = m_meter.solved().equations->indexOfNet(stage->input);
    const double inputVolts = m_setting.pickVoltsPeak * std::abs((*solution)[std::size_t(input)]);
    const double amperes = inputVolts / std::abs(legImpedance(*gainLeg, m_setting.toneHz));
    const double thermalVolts = thermalVoltsAt(m_setting.temperatureKelvin);
    for (const bool isPositive : {true, false}) {
        const NetName& from = opamp.nets[isPositive ? 2 : 1];
        const std::vector<const Part*> chain = diodesBetween(from, opamp.nets[isPositive ? 1 : 2]);
        if (chain.empty() || !(amperes > 0.0)) {
            continue;
        }
        double volts = 0.0;
        std::string terms;
        for (const Part* diode : chain) {
            const Model& type = *findModel(m_circuit, diode->model);
            const auto of = [&](const char* name, double usual) {
                const auto found = type.parameters.find(name);
                return found == type.parameters.end() ? usual : found->second;
            };
            const double emission = of("N", 1.0);
            const double saturation = of("IS", 1e-14);
            volts += diodeCeilingVolts(type, amperes, m_setting.temperatureKelvin);
            terms += (terms.empty() ? "" : " + ") + formatFigure(emission) + "·" + formatFigure(1e3 * thermalVolts) +
                     " mV·ln(" + formatQuantity({amperes, Unit::ampere}) + "/" +
                     formatQuantity({saturation, Unit::ampere}) + ")";
        }
        Sum sum{isPositive ? "clip_level_positive" : "clip_level_negative",
                isPositive ? "diode ceiling, + half-wave" : "diode ceiling, − half-wave",
                "n·Vt·ln(i/Is), i = Vin/|Zg|",
                terms,
                isPositive ? volts : -volts,
                "V",
                {},
                {},
                ""};
        const auto solved = figure(isPositive ? "peak_positive" : "peak_negative");
        if (!solved) {
            return solved.error();
        }
        setSolved(sum, *solved);
        sum.approximation =
            "An approximation: the clean input that rides on top and the share of the current that the "
            "feedback resistance takes are left out.";
        m_sums.push_back(sum);
    }
    return {};
}

Result<void> SumBench::pots() {
    for (const Knob& knob : m_circuit.knobs) {
        const Part* pot = findPart(m_circuit, knob.part);
        if (pot == nullptr || pot->kind != PartKind::potentiometer) {
            continue;
        }
        const double position = knobPosition(m_setting, knob.id);
        Sum sum{"pot_" + knob.id,
                (knob.name.empty() ? knob.id : knob.name) + ": wiper to bottom",
                "",
                "",
                0.0,
                "Ω",
                {},
                {},
                ""};
        const std::string track = ohmsText(pot->value);
        const std::string x = formatFigure(position / 10.0);
        if (pot->taper == Taper::linear) {
            sum.formula = "R(x) = P·x";
            sum.withValues = track + "·" + x;
        } else {
            const double a = std::pow(1.0 / pot->shareAtHalf - 1.0, 2.0);
            const std::string aText = formatFigure(a);
            const bool isReverse = pot->taper == Taper::reverseLogarithmic;
            sum.formula = isReverse ? "R(x) = P − P·(a^(1−x) − 1)/(a − 1), a = (1/m − 1)²"
                                    : "R(x) = P·(a^x − 1)/(a − 1), a = (1/m − 1)²";
            const std::string law = track + "·(" + aText + "^" + (isReverse ? "(1−" + x + ")" : x) + " − 1)/(" + aText +
                                    " − 1), m = " + formatFigure(100.0 * pot->shareAtHalf) + " %";
            sum.withValues = isReverse ? track + " − " + law : law;
        }
        sum.result = potHalves(*pot, position).wiperToBottom;
        m_sums.push_back(sum);
    }
    return {};
}

/// Worst case and rule of squares of the gain-leg corner.
Result<void> SumBench::cornerSpread() {
    const auto gainLeg = leg();
    if (!gainLeg || gainLeg->resistors.size() != 1 || gainLeg->capacitors.size() != 1) {
        return {};  // values in series or across share their tolerances out, which is no product
    }
    const std::array<double, 2> shares{spreadShare(*findPart(m_circuit, gainLeg->resistors.front())),
                                       spreadShare(*findPart(m_circuit, gainLeg->capacitors.front()))};
    const ProductSpread spread = spreadOfInverseProduct(shares);
    const auto percent = [](double share) { return formatFigure(100.0 * share); };
    const auto factor = [](double share) { return formatFixed(share, 2); };
    const auto add = [&](const char* id, const char* name, const char* formula, const std::string& values,
                         double result, const char* why) {
        m_sums.push_back({id, name, formula, values, 100.0 * result, "%", {}, {}, why});
    };
    add("corner_lowest", "gain-leg corner, worst case down", "1/((1 + tR)·(1 + tC)) − 1",
        "1/(" + factor(1.0 + shares[0]) + "·" + factor(1.0 + shares[1]) + ") − 1", spread.lowest, "");
    add("corner_highest", "gain-leg corner, worst case up", "1/((1 − tR)·(1 − tC)) − 1",
        "1/(" + factor(1.0 - shares[0]) + "·" + factor(1.0 - shares[1]) + ") − 1", spread.highest, "");
    add("corner_rule_of_squares", "gain-leg corner, rule of squares", "√(tR² + tC²)",
        "√(" + percent(shares[0]) + "² + " + percent(shares[1]) + "²) %", spread.ruleOfSquares,
        "An approximation: true for small tolerances that lie anywhere inside their limits.");
    return {};
}

}  // namespace

Result<std::vector<Sum>> showSums(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    auto meter = CircuitMeter::make(circuit, setting, 0, nullptr, stop);
    if (!meter) {
        return meter.error();
    }
    return SumBench(circuit, setting, *std::move(meter), stop).all();
}

}  // namespace ohmwright
