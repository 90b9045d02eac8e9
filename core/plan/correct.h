/// Edits that correct the stock drawing, and what they mean for the plan, the unit's revision and its papers.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/plan/job.h"

#include <string>
#include <vector>

namespace ohmwright {

/// The job with its stock put right and the correction in its list. The caller gives part, found, reason, note, who and
/// when; the rest is filled in. The same thing corrected again in one visit stays one entry with the drawing's first
/// reading, and none when the board turns out as drawn. Unless the drawing was misread, the part counts as seen.
///
/// A part more on the board has an empty `part` or a free id, and PresenceFound with its reference, kind, value or
/// type and nets; it is drawn beside `beside` with lines of its own, and the entry keeps where. The knob of a pot that
/// is not there keeps its position in the entry, for the way back.
///
/// Errors: invalidInput when the visit is gone, the part is not of stock (a part that a mod brings is named with that
/// mod), the part has no such thing to correct, the drawing says so already, the finding is none that a part has, or a
/// mod that is on could not be fitted any more: the sentence names it and offers to switch it off or take it out.
Result<Job> correct(const Job& job, const Correction& correction);

/// The job with that correction undone: stock says again what the drawing says.
/// @param index  in Job::corrections.
/// Errors: invalidInput when the visit is gone, there is no such entry, stock is another by now than what was found
/// (a later correction, a mod of an earlier visit), or a mod that is on needs what was found.
Result<Job> takeBackCorrection(const Job& job, std::size_t index);

/// How a mod that is on stands to a correction.
struct ModAndCorrection {
    std::string mod;              ///< Id.
    bool changesNothing = false;  ///< It makes of the part what the board has already.
    std::string sentence;

    friend bool operator==(const ModAndCorrection&, const ModAndCorrection&) = default;
};
/// The mods that are on and work on what was corrected, in the plan's order: what each of them does from now on.
/// @param corrected  the job with `correction` in it; nothing where its list has no entry of that thing any more.
std::vector<ModAndCorrection> modsOnCorrected(const Job& corrected, const Correction& correction);

/// Where the drawn lines still lead legs of the part elsewhere than its nets, a sentence that says so; empty where they
/// do not, or the part is not drawn. A change of the drawing goes by its lines (core/drawing/rejoin.h).
std::string linesSay(const Circuit& stock, const PartId& part);

/// A part of a drawn circuit that stands nowhere on its drawing (no free place was found), a sentence that says so and
/// what to do; empty where it is drawn, or the circuit is a list.
std::string notDrawn(const Circuit& stock, const PartId& part);

/// "R5 Rg", also of a part that is not on the board.
std::string correctedName(const Circuit& stock, const Correction& correction);
/// "R5 Rg: 2k7, the drawing says 3k9 (board differs)"; the note after it where there is one.
std::string correctionWords(const Circuit& stock, const Correction& correction);
/// Of one part, for papers: "the drawing says 3k9"; empty where nothing of it is corrected, or stock is not any more
/// what was found.
std::string drawingSays(const Job& job, const PartId& part);

/// The unit's board revision, and how this one is another: "PB-14 rev 2, but R5 and C4"; corrections whose reason is
/// that the board differs count.
std::string revisionWords(const Job& job);

}  // namespace ohmwright
