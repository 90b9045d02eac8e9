/// The quote: minutes and parts of a plan as a price, with the risk and what the customer must consent to.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/parts/drawer.h"
#include "core/plan/job.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// A shop's own figures; the defaults are house figures (common practice, no source) to be changed on the first day.
struct ShopRates {
    std::string currency = "EUR";
    double perHour = 48.0;
    double benchFee = 15.0;         ///< Opening, looking, closing, testing.
    double partMarkup = 1.5;        ///< Times the drawer's price.
    double unknownPartPrice = 0.5;  ///< Of a part that the drawer does not hold or price, before markup.
    /// Minutes of a kind of change, by changeKind() ("swap value", "add in series" ...).
    std::map<std::string, double> minutes{{"swap value", 8}, {"swap type", 8}, {"add in series", 14},
                                          {"add across", 8}, {"lift", 4},      {"bridge", 4}};
    double otherMinutes = 15.0;  ///< Of a kind that is not named.
    double riskShare = 0.0;      ///< Of the minutes, for old boards: 0.25 adds a quarter as a line of its own.

    friend bool operator==(const ShopRates&, const ShopRates&) = default;
};

/// Errors: invalidInput naming the first rate that is no number from 0 up.
Result<void> checkRates(const ShopRates& rates);

enum class QuoteLineKind { fee, work, part, risk };

struct QuoteLine {
    QuoteLineKind kind = QuoteLineKind::work;
    std::string modLetter;  ///< Of work and parts.
    std::string what;       ///< "Gain cap: 56n → 120n"
    double minutes = 0.0;
    double price = 0.0;

    friend bool operator==(const QuoteLine&, const QuoteLine&) = default;
};

struct Quote {
    std::vector<QuoteLine> lines;  ///< Fee, then work and parts in the order of fitting, risk last.
    double minutes = 0.0;
    double total = 0.0;  ///< Sum of the lines, each rounded to the hundredth.
    std::string currency;
    std::vector<std::string> consents;  ///< Sentences to sign: what goes back only with a new part, or not at all.
    std::vector<std::string> toOrder;   ///< Parts that the drawer does not hold.
};

/// Of the mods that are on. Errors: as applyPlan; invalidInput when a rate is no number from 0 up.
Result<Quote> makeQuote(const Job& job, const Drawer& drawer, const ShopRates& rates = {});

}  // namespace ohmwright
