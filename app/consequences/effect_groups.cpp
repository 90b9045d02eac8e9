// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/effect_groups.h"

#include "app/consequences/claim_row.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

struct EffectName {
    const char* id;
    const char* name;
    int group;
};
/// In the order of the strip; the number says which share a cell.
constexpr std::array effectNames{EffectName{"rail_room", toSay("Room to the rails"), 0},
                                 EffectName{"device_room", toSay("Device room"), 0},
                                 EffectName{"bandwidth", toSay("Op-amp speed"), 1},
                                 EffectName{"slew", toSay("Slew rate"), 1},
                                 EffectName{"pot_dc", toSay("Pot DC"), 2},
                                 EffectName{"switch_pop", toSay("Switch pop"), 3},
                                 EffectName{"input_corner", toSay("Input corner"), 4},
                                 EffectName{"input_impedance", toSay("Input impedance"), 4},
                                 EffectName{"pickup_peak", toSay("Pickup peak"), 4},
                                 EffectName{"output_corner", toSay("Output corner"), 5},
                                 EffectName{"output_impedance", toSay("Output impedance"), 5},
                                 EffectName{"noise_out", toSay("Noise out"), 7},
                                 EffectName{"resistor_load", toSay("Resistor load"), 8},
                                 EffectName{"device_load", toSay("Device load"), 8},
                                 EffectName{"capacitor_load", toSay("Capacitor volts"), 8},
                                 EffectName{"supply_current", toSay("Supply current"), 9},
                                 EffectName{"flat_battery_bias", toSay("Bias, flat battery"), 9},
                                 EffectName{"next_stage_peak", toSay("Next stage"), 10}};
constexpr int onsetGroup = 6;
constexpr int groups = 11;
/// How gladly a cell of its own is given, by group.
constexpr std::array<int, groups> weights{9, 8, 7, 10, 4, 2, 10, 6, 1, 3, 8};

const EffectName* nameOf(const std::string& id) {
    const auto found =
        std::find_if(effectNames.begin(), effectNames.end(), [&](const EffectName& one) { return id == one.id; });
    return found == effectNames.end() ? nullptr : &*found;
}

bool isOnset(const SideEffect& effect) {
    return effect.id.rfind("clip_onset_", 0) == 0;
}

double toThreeDigits(double value) {
    if (value == 0.0 || !std::isfinite(value)) {
        return value;
    }
    const double unit = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2.0);
    return std::round(value / unit) * unit;
}

int badness(EffectState state) {
    switch (state) {
        case EffectState::over:
            return 3;
        case EffectState::unknown:
            return 2;
        case EffectState::close:
            return 1;
        default:
            return 0;
    }
}

SignKind signOf(EffectState state) {
    return badness(state) > 0 ? SignKind::care : state == EffectState::fine ? SignKind::tick : SignKind::note;
}

QString limitWords(const SideEffect& effect) {
    if (!effect.limit) {
        return QObject::tr("no limit");
    }
    const QString limit = effectValue(*effect.limit, effect.unit);
    if (!effect.margin) {
        return QObject::tr("limit %1").arg(limit);
    }
    const QString left = effectValue(std::abs(*effect.margin), effect.unit);
    switch (effect.state) {
        case EffectState::over:
            return QObject::tr("limit %1, passed by %2").arg(limit, left);
        case EffectState::close:
            return QObject::tr("limit %1, only %2 left").arg(limit, left);
        default:
            return QObject::tr("limit %1, %2 left").arg(limit, left);
    }
}

std::vector<FigureRun> figureOf(const SideEffect& effect) {
    const auto words = [&](const std::optional<double>& value) {
        return value ? effectValue(*value, effect.unit) : QObject::tr("none");
    };
    if (!effect.now) {
        return {{effect.state == EffectState::unknown ? QObject::tr("not known") : QObject::tr("none"),
                 FigureRun::Kind::change}};
    }
    return stockToNow({}, effect.stock ? words(effect.stock) : QString(), words(effect.now), {});
}

Note noteOf(const SideEffect& effect) {
    Note note;
    const EffectName* name = nameOf(effect.id);
    note.title = saidText(name ? std::string_view(name->name) : std::string_view(effect.name));
    note.words = text(effect.sentence);
    note.smallPrint =
        effect.limit ? QObject::tr("%1. Source of the limit: %2.").arg(limitWords(effect), text(effect.limitSource))
                     : QString();
    return note;
}

/// The sums on paper that an effect's figure comes from.
QStringList sumsOf(const std::string& id) {
    if (id == "pickup_peak") {
        return {"pickup_peak"};
    }
    if (id == "bandwidth") {
        return {"plateau_gain"};
    }
    return id == "noise_out" ? QStringList{"stage_noise_1k"} : QStringList();
}

StripEntry entryOf(const std::vector<const SideEffect*>& effects, int group) {
    const SideEffect& worst = **std::max_element(
        effects.begin(), effects.end(),
        [](const SideEffect* a, const SideEffect* b) { return badness(a->state) < badness(b->state); });
    StripEntry entry;
    entry.sign = signOf(worst.state);
    entry.name = saidText(nameOf(worst.id)->name);
    entry.figure = figureOf(worst);
    entry.smallPrint = worst.state == EffectState::unknown ? QObject::tr("press for the reason") : limitWords(worst);
    entry.lampName = entry.name;
    entry.isWarning = badness(worst.state) > 1;
    entry.weight = weights[std::size_t(group)];
    for (const SideEffect* effect : effects) {
        entry.notes.push_back(noteOf(*effect));
        entry.sums += sumsOf(effect->id);
    }
    return entry;
}

/// A string that breaks up so much later is worth a word.
constexpr double leastToldDb = 1.0;

/// The string whose onset moved furthest, earlier before later; of strings that did not move the lowest.
StripEntry onsetEntry(const std::vector<const SideEffect*>& onsets) {
    const auto drop = [](const SideEffect& onset) {
        return onset.stock && onset.now && *onset.now > 0.0 ? 20.0 * std::log10(*onset.stock / *onset.now) : 0.0;
    };
    const SideEffect* shown = onsets.front();
    for (const SideEffect* onset : onsets) {
        const bool isWorse = badness(onset->state) > badness(shown->state);
        if (isWorse || (onset->state == shown->state && std::abs(drop(*onset)) > std::abs(drop(*shown)) + 0.01)) {
            shown = onset;
        }
    }
    StripEntry entry;
    const QString hertz = text(shown->id.substr(shown->id.rfind('_') + 1)) + " Hz";
    const bool isEarlier = shown->state == EffectState::over;
    const bool isLater = !isEarlier && drop(*shown) <= -leastToldDb;
    entry.name = isEarlier ? QObject::tr("Strings clip earlier")
                 : isLater ? QObject::tr("Strings clip later")
                           : QObject::tr("Clip onset");
    entry.sign = isEarlier ? SignKind::care : SignKind::note;
    entry.isWarning = isEarlier;
    entry.figure = figureOf(*shown);
    if (shown->now) {
        entry.figure.insert(entry.figure.begin(), {hertz + ": ", FigureRun::Kind::plain});
    }
    entry.smallPrint = isEarlier ? QObject::tr("1 % distortion, tell the player") : QObject::tr("1 % distortion");
    if (!shown->now && shown->state != EffectState::unknown) {
        entry.smallPrint = QObject::tr("1 % is not reached");
    }
    entry.lampName = isEarlier ? QObject::tr("Clips earlier,") : entry.name;
    entry.weight = weights[onsetGroup];
    for (const SideEffect* onset : onsets) {
        Note note{"", text(onset->sentence), ""};
        if (isEarlier && onset == onsets.front()) {
            note.title = QObject::tr("Pick level at which the clip stage reaches 1 % distortion");
        }
        entry.notes.push_back(note);
    }
    return entry;
}

}  // namespace

QString effectValue(double value, const std::string& unit) {
    // A pick level, in the unit that levels are read in.
    if (unit == "mVpk" && LevelUnits::current().unit() != LevelUnit::millivoltsPeak) {
        return pickLevelText(value * 1e-3);
    }
    if (unit == "Hz") {
        return text(formatFrequency(value));
    }
    if (unit == "Ω") {
        return text(formatQuantity({toThreeDigits(value), Unit::ohm}));
    }
    if (unit == "V") {
        return text(formatFixed(value, 2)) + " V";
    }
    return text(formatFigure(value)) + " " + text(unit);
}

std::vector<StripEntry> effectEntries(const std::vector<SideEffect>& effects) {
    std::array<std::vector<const SideEffect*>, groups> grouped;
    for (const SideEffect& effect : effects) {
        if (isOnset(effect)) {
            grouped[onsetGroup].push_back(&effect);
        } else if (const EffectName* name = nameOf(effect.id)) {
            grouped[std::size_t(name->group)].push_back(&effect);
        }
    }
    std::vector<StripEntry> entries;
    for (int group = 0; group < groups; ++group) {
        const auto& members = grouped[std::size_t(group)];
        if (!members.empty()) {
            entries.push_back(group == onsetGroup ? onsetEntry(members) : entryOf(members, group));
        }
    }
    return entries;
}

std::vector<StripEntry> claimEntries(const std::vector<WordAnswer>& words, const ClaimLimits& table) {
    std::vector<StripEntry> entries;
    for (const WordAnswer& word : words) {
        StripEntry entry;
        entry.sign = signOf(word.claim.verdict);
        entry.name = verdictWords(word.claim);
        entry.lampName = entry.name;
        const Claim* claim = findClaim(table, word.claim.word);
        entry.notes.push_back(
            {entry.name, text(word.claim.sentence), claim ? text(claimRuleSentence(*claim)) : QString()});
        if (!word.better.empty()) {
            entry.notes.push_back({"", text(word.better), ""});
        }
        entries.push_back(entry);
    }
    return entries;
}

StripEntry sharedEntry(const std::vector<StripEntry>& entries) {
    StripEntry shared;
    QStringList names;
    bool areFine = true;
    for (const StripEntry& entry : entries) {
        names << entry.name;
        areFine = areFine && entry.sign == SignKind::tick;
        shared.notes.insert(shared.notes.end(), entry.notes.begin(), entry.notes.end());
        shared.sums += entry.sums;
    }
    shared.sign = areFine ? SignKind::tick : SignKind::note;
    shared.name =
        (areFine ? QObject::tr("%1 more fine") : QObject::tr("%1 more, nothing to warn of")).arg(entries.size());
    shared.lampName = shared.name;
    shared.figure = {{QObject::tr("Press for figures"), FigureRun::Kind::change}};
    shared.smallPrint = QObject::tr("and their limits");
    return shared;
}

}  // namespace ohmwright
