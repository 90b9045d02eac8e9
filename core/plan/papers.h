/// The papers of a job: which there are, when one may be made, and the list of those that left the printer.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

enum class PaperKind { bench, wayBack, customer, label, quote };
inline constexpr std::array allPaperKinds{PaperKind::bench, PaperKind::wayBack, PaperKind::customer, PaperKind::label,
                                          PaperKind::quote};

/// "bench", "way-back", "customer", "label", "quote": PrintedPaper::kind, and the word on the command line.
std::string_view paperWord(PaperKind kind);
/// "Bench sheet", "Way-back sheet", "Customer sheet", "Label", "Quote".
std::string_view paperName(PaperKind kind);
/// Nothing for a word that is none of them.
std::optional<PaperKind> paperOfWord(std::string_view word);

/// Parts of stock that the mods that are on work on and that nobody has looked at on the board: known from the drawing
/// alone. Of a switch in all its throws. Each once, in the order of fitting.
std::vector<PartId> unseenParts(const Job& job);

/// Errors: invalidInput, one sentence that names the unseen parts (`where`: the first) and says what to do.
Result<void> checkSeen(const Job& job);

/// Every mod that is on works on a part of this board, or on one that another mod brings: a plan of another revision
/// may not. Errors: invalidInput, one sentence that names the mod and its parts (`where`: the first) and says what to
/// do.
Result<void> checkMapped(const Job& job);

/// The job with these parts known as seen; those that are seen or measured already stay so.
/// Errors: invalidInput naming the id that stock does not have.
Result<Job> markSeen(const Job& job, const std::vector<PartId>& parts);

/// The job with a paper of it, as it is now, at the end of its visit's list.
/// @param when  ISO 8601, local time.
/// Errors: invalidInput when the visit is gone: its record is closed.
Result<Job> recordPaper(const Job& job, PaperKind kind, const std::string& when);

/// Whether the job is another one by now than the paper was printed from: stock, plan or setting.
bool isVoid(const Job& job, const PrintedPaper& paper);

/// The last one of a kind that this visit has; null when there is none.
const PrintedPaper* lastPaper(const Visit& visit, PaperKind kind);

}  // namespace ohmwright
