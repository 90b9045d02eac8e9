// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sum_text.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/plan/sum_bench.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// Four significant digits, with a true minus.
std::string fourDigits(double value) {
    if (value == 0.0 || !std::isfinite(value)) {
        return formatFigure(value);
    }
    const int whole = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
    return formatFixed(value, std::max(0, 4 - std::max(whole, 1)));
}

/// Differences that no one could read off.
constexpr double leastDb = 0.005;
constexpr double leastPercent = 0.05;

}  // namespace

std::string sumValueText(const Sum& sum, double value) {
    if (sum.unit == "Hz") {
        return std::abs(value) < 1000.0 ? fourDigits(value) + " Hz" : fourDigits(value / 1000.0) + " kHz";
    }
    if (sum.unit == "dB") {
        return formatFixed(value, 2) + " dB";
    }
    if (sum.unit == "V") {
        return formatFixed(value, 3) + " V";
    }
    if (sum.unit == "Ω") {
        return workedOhmsText(value);
    }
    return formatFigure(value) + " " + sum.unit;
}

std::string workedText(const Sum& sum) {
    // Values that are explained behind a comma stand behind the result.
    const auto comma = sum.withValues.find(", ");
    const std::string result = sumValueText(sum, sum.result);
    if (comma == std::string::npos) {
        return sum.withValues + " = " + result;
    }
    return sum.withValues.substr(0, comma) + " = " + result + sum.withValues.substr(comma);
}

std::string solvedText(const Sum& sum) {
    if (!sum.solved) {
        return {};
    }
    const std::string solved = sumValueText(sum, *sum.solved);
    const bool isDb = sum.unit == "dB";
    // Of the decibels as they stand here, so that a reader gets the same.
    const auto shown = [](double decibels) { return std::round(100.0 * decibels) / 100.0; };
    const double off = isDb ? shown(*sum.solved) - shown(sum.result) : sum.difference.value_or(0.0);
    if (std::abs(off) < (isDb ? leastDb : leastPercent)) {
        return said("solved %1: the sum agrees", solved);
    }
    const std::string size = isDb ? formatFixed(std::abs(off), 2) + " dB" : formatFixed(std::abs(off), 1) + " %";
    return said(off < 0.0 ? toSay("solved %1: the sum is %2 high") : toSay("solved %1: the sum is %2 low"), solved,
                size);
}

std::string claimFigureText(const ClaimFigure& figure) {
    const std::string unit = figure.unit == "ratio" ? "" : " " + said(figure.unit);
    const auto signedText = [](double value) { return formatFixed(value, 2, Sign::always); };
    std::string text;
    if (figure.limitsNow || !figure.change()) {
        text = figure.now ? said("now %1", formatFixed(*figure.now, 2) + unit) : said("no value now");
    } else {
        const std::string stock = formatFixed(*figure.stock, 2);
        const bool isNegative = *figure.stock < 0.0;
        text = said("now − stock = %1 − %2 = %3", formatFixed(*figure.now, 2), isNegative ? "(" + stock + ")" : stock,
                    signedText(*figure.change()) + unit);
    }
    if (!figure.limitYes || !figure.limitPartly) {
        return said("%1; shown beside the verdict, no part of it", text);
    }
    if (figure.limitsNow) {
        return said("%1; yes to %2, partly to %3", text, formatFixed(*figure.limitYes, 2) + unit,
                    formatFixed(*figure.limitPartly, 2) + unit);
    }
    return said("%1; yes from %2, partly from %3", text, signedText(*figure.limitYes) + unit,
                signedText(*figure.limitPartly) + unit);
}

std::string claimSpreadText(const ClaimFigure& figure) {
    return figure.bandDb ? said(
                               "Spread of stock there: 1.96·√(Σ(S·t)²/3) = ±%1 dB, S each part's influence, t its "
                               "tolerance.",
                               formatFixed(*figure.bandDb, 2))
                         : std::string();
}

const Sum* findSum(const std::vector<Sum>& sums, std::string_view figure) {
    const auto found =
        std::find_if(sums.begin(), sums.end(), [figure](const Sum& sum) { return sum.figure == figure; });
    return found == sums.end() ? nullptr : &*found;
}

}  // namespace ohmwright
