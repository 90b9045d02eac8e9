// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/amplifier_sums.h"

#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/measure/amplifier.h"
#include "core/measure/device_limits.h"
#include "core/measure/device_sheet.h"
#include "core/measure/diode_ceiling.h"
#include "core/measure/stage_sweep.h"
#include "core/solve/impedance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

/// A term that moves a gain by less than this share is left out of what is shown.
constexpr double shownShare = 0.002;
/// Under this current at rest a device is off.
constexpr double leastAmperes = 1e-7;

/// Why the formula is only near.
struct Reason {
    /// "An approximation, for %1, where the gain from %2 to %3 is highest: ..."; %4 and %5 are its own.
    const char* sentence;
    std::string first;
    std::string second;
};

/// What a sum of a device's gain says, and what its shelf goes on with.
struct GainSum {
    Sum sum;
    double commonOhms = 0.0;  ///< Looked into the common electrode [Ω]: re, 1/gm, rk.
    const char* commonName = "";
    std::string commonText;  ///< "(63k1 + 83k3)/(100 + 1)"; empty where the figure says it.
};

std::string nameOf(const Part& part) {
    return part.reference.empty() ? part.id : part.reference;
}

/// "5k6∥90k9" of the resistor at the electrode and what else loads it, or all as one.
std::string loadText(const Amplifier& amplifier) {
    const double own = amplifier.ownLoadOhms.value_or(0.0);
    if (!(own > amplifier.loadOhms)) {
        return workedOhmsText(amplifier.loadOhms);
    }
    const double rest = 1.0 / (1.0 / amplifier.loadOhms - 1.0 / own);
    const bool isLoaded = own > (1.0 + shownShare) * amplifier.loadOhms;
    return isLoaded ? "(" + workedOhmsText(own) + "∥" + workedOhmsText(rest) + ")" : workedOhmsText(own);
}

Sum gainSum(const SumBench& bench, const Amplifier& amplifier, const char* figure, const std::string& formula) {
    const Part& device = *findPart(bench.circuit(), amplifier.device);
    Sum sum = emptySum(std::string(figure) + "_" + device.id, said("gain of %1", nameOf(device)),
                       "20·log(" + formula + ")", "dB");
    sum.parts.push_back(device.id);
    return sum;
}

void finish(GainSum& gain, double ratio, const std::string& values, const Amplifier& amplifier, const Reason& why) {
    gain.sum.result = amplitudeDb(ratio);
    gain.sum.withValues = "20·log(" + values + ")";
    setSolved(gain.sum, amplifier.highestDb);
    gain.sum.approximation =
        said(why.sentence, formatFrequency(amplifier.hertz), amplifier.input, amplifier.output, why.first, why.second);
}

/// (Rc∥RL)/(Re + Vt/Ic)·Zin/(Zin + Rs).
GainSum transistorGain(const SumBench& bench, const Amplifier& amplifier) {
    GainSum gain{gainSum(bench, amplifier, "transistor_gain", "(Rc∥RL)/(Re + Vt/Ic)·Zin/(Zin + Rs)")};
    const double thermal = thermalVoltsAt(bench.setting().temperatureKelvin);
    gain.commonOhms = thermal / amplifier.outputAmperes;
    gain.commonName = "re";
    gain.commonText = formatFigure(1e3 * thermal) + " mV/" + amperesText(amplifier.outputAmperes);
    const double under = amplifier.commonOhms + gain.commonOhms;
    const double intoBase = under * amplifier.outputAmperes / amplifier.controlAmperes;
    const double inputOhms =
        amplifier.inputShuntOhms ? 1.0 / (1.0 / intoBase + 1.0 / *amplifier.inputShuntOhms) : intoBase;
    const double share = inputOhms / (inputOhms + amplifier.sourceOhms);
    const auto volts = [&](const NetName& net) { return bench.solved().biasVolts(net); };
    const Part& device = *findPart(bench.circuit(), amplifier.device);
    const double across = std::abs(volts(outputNet(device)) - volts(commonNet(device)));
    finish(gain, amplifier.loadOhms / under * share,
           loadText(amplifier) + "/(" + workedOhmsText(amplifier.commonOhms) + " + " + gain.commonText + ")·" +
               workedOhmsText(inputOhms) + "/(" + workedOhmsText(inputOhms) + " + " +
               workedOhmsText(amplifier.sourceOhms) + ")",
           amplifier,
           across < saturatedVolts
               ? Reason{toSay("An approximation, for %1, where the gain from %2 to %3 is highest: the formula does not "
                              "hold here, because the transistor is saturated: %4 V from collector to emitter."),
                        formatFigure(across),
                        {}}
               : Reason{toSay("An approximation, for %1, where the gain from %2 to %3 is highest: the transistor's own "
                              "output resistance (Early voltage) and the resistance in its base are left out."),
                        {},
                        {}});
    return gain;
}

/// 2·Idss/Vp·(1 − Vs/Vp)·(Rd∥RL), less what a source resistance takes.
GainSum jfetGain(const SumBench& bench, const Amplifier& amplifier) {
    const Part& device = *findPart(bench.circuit(), amplifier.device);
    const auto [pinchOff, fullAmperes] = jfetSheet(*findModel(bench.circuit(), device.model));
    const auto volts = [&](const NetName& net) { return bench.solved().biasVolts(net); };
    const double back = std::abs(volts(commonNet(device)) - volts(controlNet(device)));
    const double siemens = 2.0 * fullAmperes / pinchOff * (1.0 - back / pinchOff);
    const double under = 1.0 + siemens * amplifier.commonOhms;
    const bool isUnderShown = under > 1.0 + shownShare;
    GainSum gain{gainSum(
        bench, amplifier, "jfet_gain",
        isUnderShown ? "gm·(Rd∥RL)/(1 + gm·Rs), gm = 2·Idss/Vp·(1 − Vgs/Vp)" : "2·Idss/Vp·(1 − Vgs/Vp)·(Rd∥RL)")};
    gain.commonOhms = 1.0 / siemens;
    gain.commonName = "1/gm";
    gain.commonText = "1/" + formatFigure(1e3 * siemens) + " mS";
    const std::string transconductance = "2·" + amperesText(fullAmperes) + "/" + formatFigure(pinchOff) + " V·(1 − " +
                                         formatFigure(back) + "/" + formatFigure(pinchOff) + ")";
    const double across = std::abs(volts(outputNet(device)) - volts(commonNet(device)));
    const bool isBottomed = across < pinchOff - back;
    finish(
        gain, siemens * amplifier.loadOhms / (isUnderShown ? under : 1.0),
        transconductance + "·" + loadText(amplifier) +
            (isUnderShown ? "/(1 + " + formatFigure(1e3 * siemens) + " mS·" + workedOhmsText(amplifier.commonOhms) + ")"
                          : ""),
        amplifier,
        isBottomed
            ? Reason{toSay("An approximation, for %1, where the gain from %2 to %3 is highest: the square law does not "
                           "hold here, because the device is bottomed: %4 V across it is less than Vp − Vgs, %5 V."),
                     formatFigure(across), formatFigure(pinchOff - back)}
            : Reason{toSay("An approximation, for %1, where the gain from %2 to %3 is highest: the slope of the "
                           "device's own curve (its output resistance) is left out."),
                     {},
                     {}});
    return gain;
}

/// μ·RL/(ra + RL), with μ and ra from the slopes of the valve's law at its bias.
GainSum valveGain(const SumBench& bench, const Amplifier& amplifier) {
    const Part& device = *findPart(bench.circuit(), amplifier.device);
    const auto [factor, anodeOhms] = valveSlopes(bench.circuit(), bench.solved(), device);
    const double under = (factor + 1.0) * amplifier.commonOhms;
    const bool isUnderShown = under > shownShare * (anodeOhms + amplifier.loadOhms);
    GainSum gain{
        gainSum(bench, amplifier, "valve_gain", isUnderShown ? "μ·RL/(ra + RL + (μ + 1)·Rk)" : "μ·RL/(ra + RL)")};
    gain.commonOhms = (anodeOhms + amplifier.loadOhms) / (factor + 1.0);
    gain.commonName = "rk";
    gain.commonText = "(" + workedOhmsText(anodeOhms) + " + " + workedOhmsText(amplifier.loadOhms) + ")/(" +
                      formatFigure(factor) + " + 1)";
    finish(gain, factor * amplifier.loadOhms / (anodeOhms + amplifier.loadOhms + (isUnderShown ? under : 0.0)),
           formatFigure(factor) + "·" + workedOhmsText(amplifier.loadOhms) + "/(" + workedOhmsText(anodeOhms) + " + " +
               workedOhmsText(amplifier.loadOhms) +
               (isUnderShown ? " + " + formatFigure(factor + 1.0) + "·" + workedOhmsText(amplifier.commonOhms) : "") +
               "), RL = " + loadText(amplifier),
           amplifier,
           {toSay("An approximation, for %1, where the gain from %2 to %3 is highest: the valve's capacitances with "
                  "the resistance before its grid are left out."),
            {},
            {}});
    return gain;
}

/// The circuit without the bypass, solved: what its shelf is held against.
struct WithoutBypass {
    double commonOhms = 0.0;  ///< At the common electrode.
    double gainDb = 0.0;      ///< Of the amplifier, where it is highest with the bypass.
};

Result<WithoutBypass> takeBypassOut(const SumBench& bench, const Amplifier& amplifier, const BypassedResistance& bypass,
                                    double hertz) {
    std::vector<PartId> taken = bypass.capacitors;
    if (bypass.seriesOhms > 0.0) {
        taken.push_back(bypass.resistors.back());
    }
    const Circuit without = withoutParts(bench.circuit(), taken);
    const auto solved = solveCircuit(without, bench.setting(), bench.stop());
    if (!solved) {
        return solved.error();
    }
    const NetName& common = commonNet(*findPart(without, amplifier.device));
    const std::array<double, 1> at{hertz};
    const auto ohms =
        nodeImpedance(*solved->equations, *solved->bias, solved->equations->indexOfNet(common), at, bench.stop());
    Stage borders;
    borders.input = amplifier.input;
    borders.output = amplifier.output;
    const auto gain = StageSweep(*solved, borders).at(amplifier.hertz);
    if (!ohms || !gain) {
        return ohms ? gain.error() : ohms.error();
    }
    return WithoutBypass{ohms->front().real(), *gain};
}

/// 1/(2π·R·C) and 1/(2π·(R∥r)·C), between which the gain rises by 1 + R/r.
Result<void> shelfSums(SumBench& bench, const Amplifier& amplifier, const GainSum& gain) {
    const Part& device = *findPart(bench.circuit(), amplifier.device);
    const auto bypass = findBypassedResistance(bench.circuit(), device);
    if (!bypass) {
        return {};
    }
    const bool hasSeries = bypass->seriesOhms > 0.0;
    const double whole = bypass->ohms + bypass->seriesOhms;
    const double across = 1.0 / (1.0 / bypass->ohms + 1.0 / gain.commonOhms);
    const auto corner = [&](double ohms) { return 1.0 / (2.0 * std::numbers::pi * ohms * bypass->farads); };
    const double lowHz = corner(whole);
    const double highHz = corner(bypass->seriesOhms + across);
    const auto without = takeBypassOut(bench, amplifier, *bypass, std::sqrt(lowHz * highHz));
    if (!without) {
        return without.error();
    }
    const std::string r = gain.commonName;
    const std::string series = hasSeries ? workedOhmsText(bypass->seriesOhms) + " + " : "";
    const std::string rText = r + " = " + gain.commonText + " = " + workedOhmsText(gain.commonOhms);
    const auto add = [&](const char* figure, const std::string& name, const std::string& formula, const char* unit,
                         double result, const std::string& values, std::optional<double> solved,
                         const std::string& why) {
        Sum sum = emptySum(std::string(figure) + "_" + device.id, name, formula, unit);
        sum.result = result;
        sum.withValues = values;
        setSolved(sum, solved);
        sum.approximation = why;
        sum.parts = bypass->resistors;
        sum.parts.insert(sum.parts.end(), bypass->capacitors.begin(), bypass->capacitors.end());
        sum.parts.push_back(device.id);
        bench.add(sum);
    };
    const std::string name = nameOf(device);
    const std::string c = faradsText(bypass->farads);
    add("shelf_low", said("shelf of %1, lower end", name), hasSeries ? "1/(2π·(R + R′)·C)" : "1/(2π·R·C)", "Hz", lowHz,
        "1/(2π·" +
            (hasSeries ? "(" + ohmsText(bypass->ohms) + " + " + ohmsText(bypass->seriesOhms) + ")" : ohmsText(whole)) +
            "·" + c + ")",
        {}, "");
    add("shelf_high", said("shelf of %1, upper end", name),
        hasSeries ? "1/(2π·(R′ + R∥" + r + ")·C)" : "1/(2π·(R∥" + r + ")·C)", "Hz", highHz,
        "1/(2π·(" + series + ohmsText(bypass->ohms) + "∥" + workedOhmsText(gain.commonOhms) + ")·" + c + "), " + rText,
        corner(bypass->seriesOhms + without->commonOhms),
        said("An approximation: the device's own output resistance and what drives its input are left out."));
    add("shelf_depth", said("shelf of %1, height", name), said("20·log(upper/lower)"), "dB",
        amplitudeDb(highHz / lowHz), "20·log(" + formatFrequency(highHz) + "/" + formatFrequency(lowHz) + ")",
        amplifier.highestDb - without->gainDb,
        said(
            "An approximation: the solved one is the highest gain with the capacitor less the gain there without it."));
    return {};
}

}  // namespace

Result<void> addAmplifierSums(SumBench& bench) {
    const auto amplifiers = findAmplifiers(bench.circuit(), bench.setting(), bench.solved(), bench.stop());
    if (!amplifiers) {
        return amplifiers.error();
    }
    for (const Amplifier& amplifier : *amplifiers) {
        const PartKind kind = findPart(bench.circuit(), amplifier.device)->kind;
        const bool isOff = !(amplifier.outputAmperes > leastAmperes);
        if (isOff) {
            continue;  // a device that is off has no gain to work out
        }
        const GainSum gain = kind == PartKind::bipolar ? transistorGain(bench, amplifier)
                             : kind == PartKind::jfet  ? jfetGain(bench, amplifier)
                                                       : valveGain(bench, amplifier);
        bench.add(gain.sum);
        if (auto done = shelfSums(bench, amplifier, gain); !done) {
            return done.error();
        }
    }
    return {};
}

}  // namespace ohmwright
