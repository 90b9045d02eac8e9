// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/model_limits.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace ohmwright {

namespace {

using Names = std::span<const std::string_view>;

/// The parameters of one law by what they may be.
struct Law {
    Names aboveZero;
    Names notNegative;
    Names underOne;  ///< 0 or more, and under 1.
};

constexpr std::array<std::string_view, 3> diodeAboveZero{"IS", "N", "VJ"};
constexpr std::array<std::string_view, 3> diodeNotNegative{"RS", "CJO", "TT"};
constexpr std::array<std::string_view, 2> diodeUnderOne{"M", "FC"};

constexpr std::array<std::string_view, 9> bipolarAboveZero{"IS", "BF", "BR", "NF", "NR", "NE", "NC", "VJE", "VJC"};
constexpr std::array<std::string_view, 13> bipolarNotNegative{"VAF", "VAR", "IKF", "IKR", "ISE", "ISC", "RB",
                                                              "RC",  "RE",  "CJE", "CJC", "TF",  "TR"};
constexpr std::array<std::string_view, 3> bipolarUnderOne{"MJE", "MJC", "FC"};

constexpr std::array<std::string_view, 7> opampAboveZero{"GAIN", "GBW", "ILIM", "CP", "ROUT", "CLAMP_IS", "CLAMP_N"};
constexpr std::array<std::string_view, 3> opampNotNegative{"RIN", "IQ", "EN"};

Law lawOf(PartKind kind) {
    switch (kind) {
        case PartKind::diode:
            return {diodeAboveZero, diodeNotNegative, diodeUnderOne};
        case PartKind::bipolar:
            return {bipolarAboveZero, bipolarNotNegative, bipolarUnderOne};
        case PartKind::opamp:
            return {opampAboveZero, opampNotNegative, {}};
        default:
            return {};
    }
}

bool isAmong(Names names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

std::string_view faultOfParameter(PartKind kind, std::string_view name, double value) {
    if (!std::isfinite(value)) {
        return "is no number";
    }
    const Law law = lawOf(kind);
    if (isAmong(law.aboveZero, name) && !(value > 0.0)) {
        return "must be above 0";
    }
    if (isAmong(law.notNegative, name) && value < 0.0) {
        return "must not be negative";
    }
    if (isAmong(law.underOne, name) && !(value >= 0.0 && value < 1.0)) {
        return "must be from 0 to under 1";
    }
    return {};
}

}  // namespace ohmwright
