/// Open strings and the last fret of a guitar on the frequency axis.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"

#include <QString>

#include <array>

namespace ohmwright {

struct StringTick {
    const char* mark;  ///< "A", on the axis.
    const char* name;  ///< "open A", in a sentence.
    double hz;
};

/// Standard tuning at A4 = 440 Hz, ascending; the 24th fret of the high E string is last.
/// Source: equal temperament, 440 Hz (ISO 16) times 2^(n/12).
inline constexpr std::array<StringTick, 7> stringTicks{{{"E", toSay("open low E"), 82.41},
                                                        {"A", toSay("open A"), 110.0},
                                                        {"D", toSay("open D"), 146.83},
                                                        {"G", toSay("open G"), 196.0},
                                                        {"B", toSay("open B"), 246.94},
                                                        {"E", toSay("open high E"), 329.63},
                                                        {toSay("24th"), toSay("24th fret"), 1318.5}}};

/// Where the guitar lives [Hz]: shaded on the plot, and what the range of the axis follows.
inline constexpr double guitarFromHz = 80.0;
inline constexpr double guitarToHz = 6000.0;

/// The tick within a ratio of `reach` (1.03 is 3 % either way); null when none is so near.
/// REQUIRES: hz > 0; reach >= 1.
const StringTick* stringNear(double hz, double reach);

/// `hz`, or that of the string within `reach`.
double snappedToString(double hz, double reach);

/// One semitone up or down for each of `steps`, kept inside the audible axis (20 Hz to 20 kHz); lands on a
/// string that is within a quarter of a semitone.
double steppedBySemitones(double hz, int steps);

/// "Cursor, open A", or "Cursor" between the strings.
QString cursorCaption(double hz);

}  // namespace ohmwright
