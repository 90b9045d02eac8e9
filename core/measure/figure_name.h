/// A figure by its name, and how much work it takes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <optional>
#include <string>
#include <string_view>

namespace ohmwright {

/// How much work a figure takes, the least first.
enum class FigureWork {
    formula,  ///< From the values alone: corner tag, plateau gain.
    linear,   ///< Bias and small signals.
    settled,  ///< The settled state at the player's level.
    clip      ///< The search of clip thresholds.
};

/// A figure by its name: an id of figureKinds(), or "response@330" and "stage_gain@330" (of the clip stage) [dB] at any
/// frequency [Hz].
struct FigureName {
    std::string id;
    std::string unit;
    bool comparedAsRatio = false;  ///< As a corner in Hz; a decibel figure is compared by difference.
    FigureWork work = FigureWork::linear;
    std::optional<double> hertz;  ///< Of the form with "@".

    friend bool operator==(const FigureName&, const FigureName&) = default;
};
/// Errors: invalidInput naming the word and what there is to choose from.
Result<FigureName> findFigureName(std::string_view name);

}  // namespace ohmwright
