/// Every kind of curve that is shown of a circuit, as a table: the first column is what the others are read against.
///
/// What the window draws, its tables, the files it exports and the command line print; one meaning everywhere.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/measure/figures.h"

#include <array>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

enum class CurveKind {
    response,   ///< Gain and phase against frequency, small signal.
    clip,       ///< Peaks of the settled wave at the clip node, less its no-signal DC, against pick level.
    ladder,     ///< Settled output against pick level, with its slope.
    harmonics,  ///< Harmonics of the output at the player's level.
    wave,       ///< A period of the output at the player's level, less its no-signal DC.
    noise,      ///< Noise density at the output against frequency.
    bias,       ///< DC voltage of every net.
};

struct CurveKindName {
    CurveKind kind;
    std::string_view id;    ///< "ladder", on the command line and in file names.
    std::string_view name;  ///< "Level", as it is shown.
};
inline constexpr std::array<CurveKindName, 7> curveKindNames{{{CurveKind::response, "response", toSay("Response")},
                                                              {CurveKind::clip, "clip", toSay("Clip")},
                                                              {CurveKind::ladder, "level", toSay("Level")},
                                                              {CurveKind::harmonics, "harmonics", toSay("Harmonics")},
                                                              {CurveKind::wave, "time", toSay("Time")},
                                                              {CurveKind::noise, "noise", toSay("Noise")},
                                                              {CurveKind::bias, "bias", toSay("Bias")}}};

/// One quantity over all rows; NaN where a row has none.
struct CurveColumn {
    std::string id;    ///< "output_dbv": unit in the name, as in a file's head.
    std::string name;  ///< "output"
    std::string unit;  ///< "dBV"
    std::vector<double> values;
};

struct CurveTable {
    CurveKind kind = CurveKind::response;
    std::string where;              ///< Net that is looked at; empty for bias.
    std::vector<std::string> rows;  ///< Names where rows have them (nets); else empty.
    std::vector<CurveColumn> columns;
    std::string trouble;  ///< Why values are missing; empty when none is.

    [[nodiscard]] std::size_t rowCount() const { return columns.empty() ? 0 : columns.front().values.size(); }
};

/// How many levels a ladder has beside the player's own, from where to where [V peak at the pickup].
inline constexpr int ladderRungs = 12;
inline constexpr double lowestLadderVolts = 2e-3;
inline constexpr double highestLadderVolts = 1.0;
/// Harmonics that are looked at.
inline constexpr int shownHarmonics = 10;

/// The table of a clip curve that is solved already.
CurveTable tableOfClip(ClipCurve curve, const NetName& clipNode);

/// At the setting's tone, pick level, knobs and ends.
/// Errors: as measureLinear and measureLargeSignal; noConvergence when no level at all settles; cancelled.
Result<CurveTable> measureCurve(CurveKind kind, const Circuit& circuit, const Setting& setting,
                                const std::stop_token& stop = {});

}  // namespace ohmwright
