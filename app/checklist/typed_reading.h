/// A meter reading as it is typed at the bench, in the unit that stands beside the entry.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/bench_step.h"

#include <QString>

namespace ohmwright {

/// "kΩ", "nF", "V", "mA", "dB": what a bare number counts in, as the step's own band is written.
QString entryUnit(const BenchStep& step);

/// "1.17", "2,7" in the entry's unit; "2k7", "118n", "580m" with a letter of their own; "-3.2" and a true minus.
/// Errors: invalidInput quoting what was typed.
Result<double> typedReading(const QString& text, const BenchStep& step);

}  // namespace ohmwright
