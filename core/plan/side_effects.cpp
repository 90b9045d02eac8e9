// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/side_effects.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/plan/apply.h"
#include "core/plan/side_readings.h"
#include "core/plan/throws.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

/// On which side of its limit a figure may lie.
enum class Side { atLeast, atMost };

std::string number(const std::optional<double>& value) {
    return value ? formatFigure(*value) : said("none");
}

/// Judges one effect after the other from the two circuits' readings.
class Judge {
public:
    /// @param pop  where a switch pops most, a sentence; may be empty.
    Judge(const SideReadings& stock, const SideReadings& now, const Circuit& circuit, const SideEffectOptions& options,
          std::string pop)
        : m_stock(stock),
          m_now(now),
          m_circuit(circuit),
          m_options(options),
          m_limits(options.limits),
          m_pop(std::move(pop)) {}

    std::vector<SideEffect> run() {
        judge({"rail_room", said("room to the rails"), "V"}, Side::atLeast, m_limits.railRoomVolts, 0.5);
        judge({"device_room", said("room of the transistors or valves"), "V"}, Side::atLeast, m_limits.deviceRoomVolts,
              0.5);
        judge({"bandwidth", said("op-amp's bandwidth at its highest gain"), "Hz"}, Side::atLeast, m_limits.bandwidthHz);
        judgeSlew();
        judge({"pot_dc", said("DC across a pot"), "mV"}, Side::atMost, m_limits.potMillivolts);
        judgePop();
        plain({"input_impedance", said("input impedance at 1 kHz"), "Ω"});
        judgePickupPeak();
        judgeCorner({"input_corner", said("input corner (tag)"), "Hz"});
        judgeCorner({"output_corner", said("output corner (tag)"), "Hz"});
        judgeOutputImpedance();
        judgeNoise();
        judge({"resistor_load", said("hottest resistor, of its rating"), "%"}, Side::atMost,
              inPercent(m_limits.resistorShare));
        judge({"device_load", said("hottest device"), "mW"}, Side::atMost, scaled(m_limits.deviceWatts, 1e3));
        judge({"capacitor_load", said("capacitor nearest to its rating"), "%"}, Side::atMost,
              inPercent(m_limits.capacitorShare));
        judge({"supply_current", said("supply current"), "mA"}, Side::atMost, m_limits.supplyMilliamperes);
        judge({"flat_battery_bias", said("output device off half the supply, flat battery"), "%"}, Side::atMost,
              inPercent(m_limits.biasShareOff));
        judge({"next_stage_peak", said("peak at the output"), "V"}, Side::atMost, m_limits.nextStageVolts);
        for (const OpenString& string : openStrings) {
            judgeOnset({std::string("clip_onset_") + string.word, said("clip onset at %1 Hz", string.word), "mVpk"});
        }
        return std::move(m_effects);
    }

private:
    struct Names {
        std::string id, name, unit;
    };

    static EffectLimit scaled(EffectLimit limit, double factor) {
        limit.value *= factor;
        return limit;
    }
    static EffectLimit inPercent(const EffectLimit& limit) { return scaled(limit, 100.0); }

    /// The effect with both readings; null when neither circuit can have it.
    SideEffect* begin(const Names& names) {
        const SideReading* before = m_stock.find(names.id);
        const SideReading* after = m_now.find(names.id);
        if (before == nullptr && after == nullptr) {
            return nullptr;
        }
        SideEffect effect;
        effect.id = names.id;
        effect.name = names.name;
        effect.unit = names.unit;
        effect.stock = before == nullptr ? std::nullopt : before->value;
        effect.now = after == nullptr ? std::nullopt : after->value;
        effect.part = after == nullptr ? PartId() : after->part;
        const std::string trouble = after == nullptr ? "" : after->trouble;
        effect.sentence = trouble;
        if (after != nullptr && !after->value && !trouble.empty()) {
            effect.state = EffectState::unknown;
        }
        m_effects.push_back(std::move(effect));
        return &m_effects.back();
    }

    /// "Hottest device at Q1".
    [[nodiscard]] std::string subject(const SideEffect& effect) const {
        const Part* part = findPart(m_circuit, effect.part);
        const std::string name = capital(effect.name);
        return part == nullptr ? name : said("%1 at %2", name, displayName(*part));
    }
    [[nodiscard]] static std::string fromTo(const SideEffect& effect) {
        if (effect.stock && effect.now && std::abs(*effect.now - *effect.stock) > 1e-6 * std::abs(*effect.stock)) {
            return number(effect.stock) + " → " + number(effect.now) + " " + effect.unit;
        }
        return number(effect.now) + " " + effect.unit;
    }

    void plain(const Names& names) {
        if (SideEffect* effect = begin(names); effect != nullptr && effect->state != EffectState::unknown) {
            effect->sentence = effect->now ? subject(*effect) + ": " + fromTo(*effect) + "."
                                           : said("%1: not reached.", capital(effect->name));
        }
    }

    /// @param closeBy  what counts as close; a share of the limit when 0.
    void judge(const Names& names, Side side, const EffectLimit& limit, double closeBy = 0.0) {
        if (SideEffect* effect = begin(names)) {
            hold(*effect, side, limit, closeBy);
        }
    }
    void hold(SideEffect& effect, Side side, const EffectLimit& limit, double closeBy = 0.0) const {
        effect.limit = limit.value;
        effect.limitSource = said(limit.source);
        if (!effect.now) {
            return;
        }
        effect.margin = side == Side::atMost ? limit.value - *effect.now : *effect.now - limit.value;
        const double near = closeBy > 0.0 ? closeBy : m_options.limits.closeShare * std::abs(limit.value);
        effect.state = *effect.margin < 0.0    ? EffectState::over
                       : *effect.margin < near ? EffectState::close
                                               : EffectState::fine;
        const char* sentence = side == Side::atMost ? byState(effect.state, toSay("%1: %2, limit %3 at most."),
                                                              toSay("%1: %2, limit %3 at most; passed by %4."),
                                                              toSay("%1: %2, limit %3 at most; only %4 left."))
                                                    : byState(effect.state, toSay("%1: %2, limit %3 at least."),
                                                              toSay("%1: %2, limit %3 at least; passed by %4."),
                                                              toSay("%1: %2, limit %3 at least; only %4 left."));
        effect.sentence = said(sentence, subject(effect), fromTo(effect), formatFigure(limit.value) + " " + effect.unit,
                               distanceOf(effect));
    }
    static const char* byState(EffectState state, const char* fine, const char* over, const char* close) {
        return state == EffectState::over ? over : state == EffectState::close ? close : fine;
    }
    /// How far beyond its limit, or how much is left to it.
    static std::string distanceOf(const SideEffect& effect) {
        return formatFigure(std::abs(*effect.margin)) + " " + effect.unit;
    }
    static std::string capital(std::string text) {
        if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
            text.front() = static_cast<char>(text.front() - 'a' + 'A');
        }
        return text;
    }

    void judgeSlew() {
        const SideReading* able = m_now.find("slew_able");
        if (SideEffect* effect = begin({"slew", said("slew rate for the full swing at 20 kHz"), "V/µs"});
            effect != nullptr && able != nullptr && able->value) {
            hold(*effect, Side::atMost, {*able->value, toSay("the op-amp's own figure (part data)")});
        }
    }

    void judgePop() {
        if (SideEffect* effect = begin({"switch_pop", said("DC step at a switch's contact"), "V"})) {
            hold(*effect, Side::atMost, m_limits.popVolts);
            const bool isHeard = effect->state == EffectState::over || effect->state == EffectState::close;
            effect->sentence += isHeard ? " " + m_pop : "";
        }
    }

    void judgePickupPeak() {
        SideEffect* effect = begin({"pickup_peak", said("pickup peak at the jack"), "dB"});
        if (effect == nullptr || !effect->stock || !effect->now) {
            return;
        }
        const double change = std::abs(*effect->now - *effect->stock);
        effect->limit = m_limits.pickupPeakChangeDb.value;
        effect->limitSource = said(m_limits.pickupPeakChangeDb.source);
        effect->margin = *effect->limit - change;
        effect->state = stateOf(*effect->margin, *effect->limit);
        const char* sentence =
            byState(effect->state, toSay("The pickup's peak is %1 high; the input may change it by %2 dB."),
                    toSay("The pickup's peak is %1 high; the input may change it by %2 dB; passed by %3."),
                    toSay("The pickup's peak is %1 high; the input may change it by %2 dB; only %3 left."));
        effect->sentence = said(sentence, fromTo(*effect), formatFigure(*effect->limit), distanceOf(*effect));
    }
    [[nodiscard]] EffectState stateOf(double margin, double limit) const {
        return margin < 0.0                                     ? EffectState::over
               : margin < m_limits.closeShare * std::abs(limit) ? EffectState::close
                                                                : EffectState::fine;
    }

    /// A corner that stays is none of the mod's doing, wherever it lies.
    void judgeCorner(const Names& names) {
        SideEffect* effect = begin(names);
        if (effect == nullptr || !effect->now) {
            return;
        }
        if (!effect->stock) {
            effect->sentence = subject(*effect) + ": " + fromTo(*effect) + ".";
            return;
        }
        const double limit = std::max(m_limits.cornerShare.value * *effect->stock, m_limits.cornerHz.value);
        hold(*effect, Side::atMost, {limit, m_limits.cornerShare.source}, 1e-9);
        if (effect->state == EffectState::over) {
            effect->sentence =
                said("%1 moves up, %2: the plan takes bass away here.", subject(*effect), fromTo(*effect));
        }
    }

    /// Earlier than before is told to the player; later is only known.
    void judgeOnset(const Names& names) {
        plain(names);
        if (m_effects.empty() || m_effects.back().id != names.id) {
            return;
        }
        SideEffect& effect = m_effects.back();
        if (!effect.stock || !effect.now) {
            return;
        }
        const double limit = *effect.stock / std::pow(10.0, m_limits.onsetDropDb.value / 20.0);
        if (*effect.now < limit) {
            hold(effect, Side::atLeast, {limit, m_limits.onsetDropDb.source});
        }
    }

    void judgeOutputImpedance() {
        const SideReading* load = m_now.find("load");
        if (SideEffect* effect = begin({"output_impedance", said("output impedance at 1 kHz"), "Ω"});
            effect != nullptr && load != nullptr && load->value) {
            hold(*effect, Side::atMost, scaled(m_limits.outputOhmsShare, *load->value));
        }
    }

    void judgeNoise() {
        SideEffect* effect = begin({"noise_out", said("noise at the output, 20 Hz to 20 kHz"), "µV"});
        if (effect != nullptr && effect->stock && *effect->stock > 0.0) {
            const double limit = *effect->stock * std::pow(10.0, m_limits.noiseChangeDb.value / 20.0);
            hold(*effect, Side::atMost, {limit, m_limits.noiseChangeDb.source}, 1e-12);
        }
    }

    const SideReadings& m_stock;
    const SideReadings& m_now;
    const Circuit& m_circuit;
    const SideEffectOptions& m_options;
    const SideEffectLimits& m_limits;
    std::string m_pop;
    std::vector<SideEffect> m_effects;
};

/// The largest step at a contact of the switches that the plan fits, 0 V where none is heard; absent without a switch.
Result<std::optional<ContactStep>> largestPop(const Job& job, const std::stop_token& stop) {
    std::optional<ContactStep> largest;
    for (const Mod& mod : job.plan) {
        if (!mod.on || !std::holds_alternative<FitSwitch>(mod.change)) {
            continue;
        }
        const auto throws = throwCircuits(job, mod.id);
        if (!throws) {
            return throws.error();
        }
        const auto steps = contactSteps(*throws, job.setting, stop);
        if (!steps) {
            return steps.error();
        }
        const ContactStep step = steps->empty() ? ContactStep{.part = targetOf(mod.change)} : steps->front();
        largest = !largest || step.volts > largest->volts ? step : largest;
    }
    return largest;
}

}  // namespace

std::string_view effectStateWord(EffectState state) {
    constexpr std::array<std::string_view, 5> words{"plain", "fine", "close", "over", "unknown"};
    return words.at(static_cast<std::size_t>(state));
}

Result<std::vector<SideEffect>> findSideEffects(const Job& job, const SideEffectOptions& options,
                                                const std::stop_token& stop) {
    const auto stock = readSides(job.stock, job.setting, options, stop);
    return stock ? findSideEffects(job, *stock, options, stop) : stock.error();
}

Result<std::vector<SideEffect>> findSideEffects(const Job& job, const SideReadings& stock,
                                                const SideEffectOptions& options, const std::stop_token& stop) {
    const auto now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    auto readings = *now == job.stock ? Result<SideReadings>(stock) : readSides(*now, job.setting, options, stop);
    if (!readings) {
        return readings.error();
    }
    const auto pop = largestPop(job, stop);
    if (!pop) {
        return pop.error();
    }
    if (*pop) {
        readings->readings.push_back({"switch_pop", (*pop)->volts, (*pop)->part, ""});
    }
    return Judge(stock, *readings, *now, options, *pop ? (*pop)->sentence : "").run();
}

}  // namespace ohmwright
