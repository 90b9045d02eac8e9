/// The checks of a swap in short rows: one a kind of reading.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/checks.h"

#include <QString>

#include <vector>

namespace ohmwright {

struct CheckRow {
    QString word;   ///< "beeps", "silent", "ohms", "diode", "volts"
    QString words;  ///< "a leg of C4 Cg to U1 pin 2 (inverting input)"; of a reading also what it shows.
};

/// The first check of each kind that a meter reads, in the order of work; tones are left to the check list.
std::vector<CheckRow> checkRows(const std::vector<Check>& checks);

}  // namespace ohmwright
