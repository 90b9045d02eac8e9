/// The bench sheet: what was asked and agreed, before and after, parts to fit, cautions, order of work. One PDF.
///
/// Drawn from a frozen snapshot as vector, monochrome safe, no text under 9 pt; pages are counted before the first
/// is drawn, and each carries serial, visit and plan state hash. Needs the program's typeface (Theme::install()) or
/// takes the next best.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"
#include "core/base/result.h"
#include "core/plan/compare.h"
#include "core/plan/job.h"

#include <QByteArray>
#include <QString>

namespace ohmwright {

/// Solves stock and now of `job` and writes the sheet; takes as long as a solve. Safe on any thread.
/// Errors: why the job cannot be solved, with "No sheet" before it; fileUnreadable when the file cannot be written
/// (an older file is untouched then).
Result<void> writeBenchSheet(const Job& job, const QString& pdfPath, PaperSize paper);

/// The same from answers that are there already.
/// Errors: invalidInput when an answer belongs to another state of the job than `job`.
Result<QByteArray> benchSheetPdf(const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& largeSignal,
                                 PaperSize paper);

/// The way-back sheet: the mods in the reverse order of fitting, what has no exact way back, cautions, and the steps to
/// stock with stock's readings. Solves the states on the way (some tenths of a second).
/// Errors: why the job cannot be solved, with "No sheet" before it.
Result<QByteArray> wayBackSheetPdf(const Job& job, PaperSize paper);

}  // namespace ohmwright
