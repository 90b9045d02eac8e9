// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/try_on.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/circuit/check.h"
#include "core/circuit/supply_volts.h"
#include "core/measure/figures.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// Values nearer than this are the same value.
constexpr double sameShare = 1e-6;
/// What misses the target by more than a factor of 2 is no trial of it.
constexpr double largestOff = 1.0;
/// Under this, trial and swap sound the same. Common practice, no source: 1 dB is about what is heard.
constexpr double sameLevelDb = 0.5;

Error wrong(const std::string& sentence, const PartId& part) {
    return {ErrorCode::invalidInput, sentence, part};
}

std::string valueText(PartKind kind, double value) {
    return formatPartValue({value, unitOf(kind)});
}

/// Three digits are enough of a value that two parts of 5 % make.
std::string roundedText(PartKind kind, double value) {
    const double step = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return valueText(kind, std::round(value / step) * step);
}

std::string cautionFor(const Circuit& circuit, const Setting& setting) {
    if (highestSupplyVolts(circuit, setting) >= highVolts) {
        return said(
            "Dangerous voltage: switch off, unplug, let the capacitors discharge and measure 0 V before anything "
            "touches the board; nothing is clipped on under power. Follow the local codes, and leave it to someone "
            "licensed where they ask for it.");
    }
    return said("Switch off before anything is clipped on.");
}

/// What must be put across or in series for two to give `target` out of `present`.
double neededFor(PartKind kind, TryOnWay way, double present, double target) {
    const bool adds = (way == TryOnWay::inSeries) == (kind != PartKind::capacitor);
    return adds ? target - present : present * target / (present - target);
}

double givenBy(PartKind kind, TryOnWay way, double present, double fitted) {
    return way == TryOnWay::across ? parallelValue(kind, present, fitted) : seriesValue(kind, present, fitted);
}

std::string sentenceFor(const TryOn& tryOn, const Part& part) {
    const bool across = tryOn.way == TryOnWay::across;
    if (tryOn.offers.empty()) {
        const char* nothing = across ? toSay("needs %1 across %2, and nothing on hand comes near it")
                                     : toSay(
                                           "cannot be tried across: lift one leg and add %1 in series with %2, and "
                                           "nothing on hand comes near it");
        return said(nothing, roundedText(part.kind, tryOn.needed), part.reference);
    }
    const TryOnOffer& best = tryOn.offers.front();
    const std::string fitted = valueText(part.kind, best.fitted.value);
    const std::string gives = roundedText(part.kind, best.gives);
    return across ? said("clip %1 across %2 (%3)", fitted, part.reference, gives)
                  : said("cannot be tried across: lift one leg and add %1 in series (%2)", fitted, gives);
}

}  // namespace

Result<TryOn> tryOnValue(const Circuit& circuit, const Setting& setting, const PartId& id, double target,
                         const std::vector<ValueOnHand>& onHand, std::size_t most) {
    const Part* part = findPart(circuit, id);
    if (part == nullptr) {
        return wrong(said("There is no part \"%1\" in the circuit. Choose another part.", id), id);
    }
    if (part->kind == PartKind::potentiometer) {
        return wrong(said("%1 is a pot: a part across its track bends its law as well, so that it is no trial of "
                          "another pot. Change the pot in the plan and look at its curve.",
                          displayName(*part)),
                     id);
    }
    const auto limits = valueLimits(part->kind);
    if (!hasValue(part->kind) || !limits) {
        return wrong(said("%1 has no value that could be tried. Try another type instead.", displayName(*part)), id);
    }
    if (!limits->hold(target)) {
        return wrong(said("No %1 has that value: choose %2.", said(kindName(part->kind)), said(limits->words)), id);
    }
    TryOn tryOn{id, part->measured.value_or(part->value), target, TryOnWay::across, 0.0, {}, "", ""};
    if (std::abs(target / tryOn.present - 1.0) < sameShare) {
        return wrong(said("%1 has that value already: there is nothing to try.", displayName(*part)), id);
    }
    const bool goesUp = target > tryOn.present;
    tryOn.way = goesUp == (part->kind == PartKind::capacitor) ? TryOnWay::across : TryOnWay::inSeries;
    tryOn.needed = neededFor(part->kind, tryOn.way, tryOn.present, target);
    for (const ValueOnHand& value : onHand) {
        const double gives = givenBy(part->kind, tryOn.way, tryOn.present, value.value);
        const double off = gives / target - 1.0;
        if (value.quantity > 0 && std::abs(off) < largestOff) {
            tryOn.offers.push_back({value, gives, off});
        }
    }
    std::stable_sort(tryOn.offers.begin(), tryOn.offers.end(), [](const TryOnOffer& a, const TryOnOffer& b) {
        return std::abs(a.shareOff) < std::abs(b.shareOff);
    });
    tryOn.offers.resize(std::min(tryOn.offers.size(), most));
    tryOn.sentence = sentenceFor(tryOn, *part);
    tryOn.caution = cautionFor(circuit, setting);
    return tryOn;
}

Change changeOf(const TryOn& tryOn, const TryOnOffer& offer, PartKind kind, const std::string& reference) {
    NewPart fitted;
    fitted.reference = reference;
    fitted.kind = kind;
    fitted.value = offer.fitted.value;
    if (tryOn.way == TryOnWay::across) {
        return AddAcross{tryOn.part, 0, 1, fitted, false};
    }
    return AddInSeries{tryOn.part, 1, fitted, false};
}

Result<TypeTryOn> tryOnType(const Circuit& circuit, const Setting& setting, const PartId& id, const Model& type,
                            const std::stop_token& stop) {
    const Part* part = findPart(circuit, id);
    if (part == nullptr) {
        return wrong(said("There is no part \"%1\" in the circuit. Choose another part.", id), id);
    }
    if (part->kind != PartKind::diode || type.kind != PartKind::diode) {
        return wrong(said("%1: only diodes can be tried across each other; the legs of a %2 would fight. Swap it in "
                          "the plan instead.",
                          displayName(*part), said(kindName(part->kind))),
                     id);
    }
    const auto levelWith = [&](const Change& change) -> Result<double> {
        const auto changed = applyMod(circuit, Mod{"try-on", "", "", change, true});
        if (!changed) {
            return changed.error();
        }
        return measureLevelDbv(*changed, setting, stop);
    };
    NewPart fitted;
    fitted.reference = "try-on";
    fitted.kind = PartKind::diode;
    fitted.model = type;
    const auto across = levelWith(AddAcross{id, 0, 1, fitted, false});
    if (!across) {
        return across.error();
    }
    const auto swapped = levelWith(SwapType{id, type});
    if (!swapped) {
        return swapped.error();
    }
    TypeTryOn tryOn;
    tryOn.levelAcrossDbv = *across;
    tryOn.levelSwappedDbv = *swapped;
    tryOn.canBeTried = std::abs(*across - *swapped) < sameLevelDb;
    const std::string difference = formatFixed(*across - *swapped, 1, Sign::always);
    tryOn.sentence = tryOn.canBeTried ? said("clip %1 across %2, cathode to cathode (%3 dB against the swap)",
                                             type.name, part->reference, difference)
                                      : said(
                                            "cannot be tried across: %1 goes on conducting beside it (%2 dB against "
                                            "the swap); lift one leg of %3 and clip %4 in its place",
                                            part->model, difference, part->reference, type.name);
    tryOn.caution = cautionFor(circuit, setting);
    return tryOn;
}

}  // namespace ohmwright
