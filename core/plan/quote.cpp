// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/quote.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"
#include "core/plan/pick_list.h"

#include <array>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

constexpr double minutesAnHour = 60.0;

double rounded(double price) {
    return std::round(price * 100.0) / 100.0;
}

double minutesOf(const ShopRates& rates, const Change& change) {
    const auto found = rates.minutes.find(std::string(changeKind(change)));
    return found == rates.minutes.end() ? rates.otherMinutes : found->second;
}

/// "C4: 120n" where no drawer was looked into: what is in stock is not known then, and nothing is said of it.
std::string wordsOf(const PickLine& line, const Drawer& drawer) {
    if (!drawer.lots.empty()) {
        return line.sentence;
    }
    return line.reference + ": " + (hasValue(line.kind) ? formatPartValue({line.value, unitOf(line.kind)}) : line.type);
}

double priceOf(const PickLine& line, const Drawer& drawer, const ShopRates& rates) {
    const DrawerLot* lot = findLot(drawer, line.lot);
    const double price = lot == nullptr || lot->price == 0.0 ? rates.unknownPartPrice : lot->price;
    return rounded(price * rates.partMarkup);
}

std::string titleOf(const Circuit& before, const Mod& mod) {
    const std::string change = describeChange(before, mod.change);
    return mod.name.empty() ? change : mod.name + ": " + change;
}

/// What is cut or thrown away: a part that comes off, a leg that is lifted.
void addConsent(const Circuit& before, const Circuit& after, const Mod& mod, std::vector<std::string>& consents) {
    for (const Part& old : before.parts) {
        const Part* now = findPart(after, old.id);
        const bool isGone = now == nullptr || now->value != old.value || now->model != old.model;
        if (isGone) {
            consents.push_back(said(
                "%1: %2 comes off; it is kept in the bag, and goes back with legs cut short or as a new part of the "
                "same kind.",
                mod.letter, displayName(old)));
        } else if (now->nets != old.nets) {
            consents.push_back(
                said("%1: a leg of %2 is lifted; it goes back into its pad as long as the leg and the pad hold.",
                     mod.letter, displayName(old)));
        }
    }
}

}  // namespace

Result<void> checkRates(const ShopRates& rates) {
    const auto refuse = [](const std::string& name) {
        return Error{ErrorCode::invalidInput,
                     said("The shop's rate \"%1\" is no number from 0 up: correct the shop's rates.", name), name};
    };
    const auto isRate = [](double rate) { return rate >= 0.0 && std::isfinite(rate); };
    const std::array<std::pair<const char*, double>, 6> figures{{{"perHour", rates.perHour},
                                                                 {"benchFee", rates.benchFee},
                                                                 {"partMarkup", rates.partMarkup},
                                                                 {"unknownPartPrice", rates.unknownPartPrice},
                                                                 {"otherMinutes", rates.otherMinutes},
                                                                 {"riskShare", rates.riskShare}}};
    for (const auto& [name, rate] : figures) {
        if (!isRate(rate)) {
            return refuse(name);
        }
    }
    for (const auto& [kind, minutes] : rates.minutes) {
        if (!isRate(minutes)) {
            return refuse(said("minutes of %1", said(kind)));
        }
    }
    return {};
}

Result<Quote> makeQuote(const Job& job, const Drawer& drawer, const ShopRates& rates) {
    if (const Result<void> sound = checkRates(rates); !sound) {
        return sound.error();
    }
    const auto parts = pickList(job, drawer);
    if (!parts) {
        return parts.error();
    }
    Quote quote;
    quote.currency = rates.currency;
    quote.lines.push_back(
        {QuoteLineKind::fee, "", said("bench fee: opening, looking, testing"), 0.0, rounded(rates.benchFee)});
    Plan fitted;
    Circuit before = job.stock;
    for (const Mod& mod : job.plan) {
        fitted.push_back(mod);
        auto after = applyPlan(job.stock, fitted, job.setting.throws);
        if (!after) {
            return after.error();
        }
        if (mod.on) {
            const double minutes = minutesOf(rates, mod.change);
            quote.lines.push_back({QuoteLineKind::work, mod.letter, titleOf(before, mod), minutes,
                                   rounded(minutes / minutesAnHour * rates.perHour)});
            for (const PickLine& line : *parts) {
                if (line.modLetter == mod.letter) {
                    quote.lines.push_back(
                        {QuoteLineKind::part, mod.letter, wordsOf(line, drawer), 0.0, priceOf(line, drawer, rates)});
                    if (line.lot.empty()) {
                        quote.toOrder.push_back(line.sentence);
                    }
                }
            }
            addConsent(before, *after, mod, quote.consents);
        }
        before = *std::move(after);
    }
    for (const QuoteLine& line : quote.lines) {
        quote.minutes += line.minutes;
    }
    if (rates.riskShare > 0.0) {
        const double minutes = quote.minutes * rates.riskShare;
        quote.lines.push_back({QuoteLineKind::risk, "", said("risk of an old board: pads that must be rebuilt"),
                               minutes, rounded(minutes / minutesAnHour * rates.perHour)});
        quote.minutes += minutes;
    }
    for (const QuoteLine& line : quote.lines) {
        quote.total += line.price;
    }
    quote.total = rounded(quote.total);
    return quote;
}

}  // namespace ohmwright
