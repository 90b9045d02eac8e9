/// The verbs: each turns a prepared circuit into an answer. One file a group.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/answer.h"
#include "app/commandline/input_file.h"
#include "app/commandline/prepared_circuit.h"
#include "app/commandline/request.h"
#include "core/base/result.h"
#include "core/files/netlist.h"
#include "core/measure/curve_table.h"

#include <stop_token>
#include <string>
#include <vector>

namespace ohmwright {

// small_signal_verbs.cpp; an output without a signal is unsolvable, never minus infinity.

/// frequency_hz, magnitude_db, phase_deg: 20 log10 |v(output)/v(input)|, phase -180..180.
Result<Answer> answerResponse(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// frequency_hz, output_v_per_rthz, input_referred_v_per_rthz; the last one empty (null) where nothing of the input
/// reaches the output.
Result<Answer> answerNoise(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// frequency_hz, magnitude_ohm, phase_deg: what the input source sees, or between output and ground.
Result<Answer> answerImpedance(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// part, db_per_ten_percent at the one frequency of --at; parts inside subcircuit calls come last.
Result<Answer> answerInfluence(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// kind (pole, zero), real_hz, imag_hz.
Result<Answer> answerPoles(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// bias_verb.cpp

/// node, voltage_v; then part, terminal, current_a (into the part is positive). A part is named by its reference, or
/// by its id where two parts have the same one. Of a netlist its top alone: nets, parts, and each subcircuit call as a
/// part with its pins.
Result<Answer> answerBias(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// level_verbs.cpp

/// input_v, output_v: DC sweep of the input source.
Result<Answer> answerTransfer(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// input_v_peak, output_v_rms, fundamental_v_peak, peak_pos_v, peak_neg_v, slope_db_per_db.
Result<Answer> answerLadder(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// frequency_hz, level_db_re_first_tone.
Result<Answer> answerTwoTone(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// tone_verbs.cpp

/// time_s, input_v, output_v: settled (default) or from the bias on.
Result<Answer> answerWaveform(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// harmonic, amplitude_v_peak, level_db_re_fundamental, phase_deg, and thd_percent. Phase of the n-th is that of a
/// sine of n times the tone, the input being a sine of phase 0.
Result<Answer> answerHarmonics(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// job_verbs.cpp

/// figure, unit, stock, now, change. REQUIRES: prepared.job.
Result<Answer> answerFigures(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// drawer_verbs.cpp

/// clip_across, gives (or in_series, gives): nearest first. Of a diode: clip_across, can_be_tried, level_across_dbv,
/// level_swapped_dbv. The answer in words stands in a note. REQUIRES: prepared.job.
Result<Answer> answerTryOn(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// rank, parts, one column a wanted figure, swaps, in_stock ("yes" or "assumed"). REQUIRES: prepared.job.
Result<Answer> answerTargets(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// stock_verbs.cpp; all of them REQUIRE prepared.job.

/// lot, kind, value, type, quantity, free, printed, measured: the drawer in its order; empty where nothing is stated.
Result<Answer> answerDrawer(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// mod, place, lot, printed, sentence: lot is empty where it must be ordered. With --shop also part, needed, there,
/// missing, jobs over its open jobs.
Result<Answer> answerPickList(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// lot, value, type, score, consequence; warnings are notes.
Result<Answer> answerSubstitutes(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// lot, device, output_v, stage_gain_db, balance, trimmed_ohm, trimmed_gain_db.
Result<Answer> answerDevicePick(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// kind (fee, work, part, risk), mod, what, minutes, price; closing figures minutes and total; consents are notes.
Result<Answer> answerQuote(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// side_effect_verbs.cpp

/// effect, stock, now, limit, margin, unit, state ("plain", "fine", "close", "over", "unknown"), sentence.
/// REQUIRES: prepared.job.
Result<Answer> answerSideEffects(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// throw, level_dbv, jump_db (against the first), peak_positive_v, peak_negative_v, thd_percent; then from, to, part,
/// step_v at the contacts. Of the first switch in the plan. REQUIRES: prepared.job.
Result<Answer> answerThrows(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// plan_verbs.cpp; all of them REQUIRE prepared.job.

/// frequency_hz, low_db, high_db: 95 of 100 builds of stock, or of the variant that the call names, lie between; mods
/// that are on and whose small-signal change is smaller than stock's spread at every frequency are notes.
Result<Answer> answerSpread(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// figure, mod, alone, share, and rows "together" and "interaction" a figure, their value under share.
Result<Answer> answerShares(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// Of --kind. Errors: invalidInput naming the kinds that there are.
Result<CurveKind> curveKindOf(const Request& request);
/// Columns as core/plan/compare_curves.h sideBySide has them; bias: net, then its voltages.
Result<Answer> answerCurve(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// word, verdict, figure, stock, now, limit: one row a figure; limit is that of yes, on the change (on now itself where
/// a word asks how the unit is). Empty for a figure that stands beside.
Result<Answer> answerClaims(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// knob, old, new, kept_equal: new is empty where the knob is out of travel, and a note says at which end.
Result<Answer> answerKnobs(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// figure, formula, with_values, result, unit, solved.
Result<Answer> answerSums(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// bench_verbs.cpp

/// step, mod, kind, red, black, expect_low, expect_high, unit: the order of work; cautions and caveats as notes. Where
/// a meter shows no reading, or a beeper answers, the expected ends are empty. REQUIRES: prepared.job.
Result<Answer> answerSteps(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// place, what, low, nominal, high, unit: DC at the pins of devices and the supply's current. REQUIRES: prepared.job.
Result<Answer> answerProbes(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// visit_verbs.cpp

/// place, unit, low, nominal, high, read, verdict: what to read on a unit that comes in, and --read against it.
/// REQUIRES: prepared.job, and its circuit is stock.
Result<Answer> answerIntake(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// place, unit, left, back, limit, verdict: --read against the record of leaving; the customer's sentence is a note.
/// REQUIRES: prepared.job.
Result<Answer> answerReturned(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// mod, progress, steps, signed: how the work of each mod that is on stands. REQUIRES: prepared.job.
Result<Answer> answerProgress(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// visit, state, came, left, complaint, work, file of all jobs in the folder with that serial; then part,visits_worked.
/// Errors: invalidInput without such a job; fileUnreadable when request.file is no folder.
Result<Answer> answerHistory(const Request& request, const std::stop_token& stop);

/// A file that a verb makes, and what is to be said beside it.
struct WrittenFile {
    std::string text;
    std::vector<std::string> notes;
};
// stage_verbs.cpp

/// stage, from, name, does, knobs, fault: the pieces that can be joined, the house's and those of --shop.
/// Errors: invalidInput when --shop is no folder.
Result<Answer> answerStages(const Request& request);
/// The stage of --stage or the parts of --parts as a piece. Errors: invalidInput for a stage or part that there is not,
/// and of takePiece; of saveStagePiece.
Result<WrittenFile> writeKeptStage(const Job& job, const Request& request, const std::stop_token& stop);
/// A new job of request.stages joined. Errors: as above; invalidInput for a stage that there is not and of joinUnit.
Result<WrittenFile> writeJoined(const Request& request);

// draw_verb.cpp

/// The job of request.file, or a new one, drawn on by the lines of request.lines.
/// Errors: fileUnreadable; invalidInput of the first line that cannot be done, with its number.
Result<WrittenFile> writeDrawn(const Request& request);

// arrange_verb.cpp

/// The job, or a netlist made one, drawn anew, or only its request.parts; how the drawing reads is said in the notes.
/// Errors: as jobFromNetlist; invalidInput for a part that there is not.
Result<WrittenFile> writeArranged(InputFile file, const Request& request);

// stock_verbs.cpp

/// The drawer as CSV. Errors: of the drawer; invalidInput where there is none.
Result<WrittenFile> writeDrawerTable(const Job& job, const Request& request, const std::stop_token& stop);
/// The drawer with the lots of --table in it, or these alone where there is none yet; nothing of a table with a bad
/// line is taken.
Result<WrittenFile> writeDrawerMerged(const Job& job, const Request& request, const std::stop_token& stop);

// visit_verbs.cpp

/// The job with words, readings and state of its visit written; what a state only advises is a note.
Result<WrittenFile> writeCard(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with the unit gone and what it left with frozen.
Result<WrittenFile> writeDeparted(const Job& job, const Request& request, const std::stop_token& stop);
/// The job of the unit's next visit.
Result<WrittenFile> writeNextVisit(const Job& job, const Request& request, const std::stop_token& stop);
/// The job as it was when the visit of --visit ended.
Result<WrittenFile> writeEarlierVisit(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with a dated correction beside the frozen record of --visit.
Result<WrittenFile> writeCorrection(const Job& job, const Request& request, const std::stop_token& stop);

// recipe_verbs.cpp

/// The recipe of --recipe held against the job: known_part, here, certainty, role; mod, applied, how_sure, change;
/// difference, what, unit, there, here_now, sentence; and for what is likely the reading that settles it: red, black,
/// reading_unit, as_drawn, as_in_recipe. REQUIRES: prepared.job.
Result<Answer> answerRecipeCompare(const PreparedCircuit& prepared, const Request& request,
                                   const std::stop_token& stop);
/// A recipe of the mods that are on.
Result<WrittenFile> writeRecipeTaken(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with the recipe of --recipe in its plan; what is not applied, or likely, is a note.
Result<WrittenFile> writeRecipeApplied(const Job& job, const Request& request, const std::stop_token& stop);

// paper_verbs.cpp

/// The job with the parts of --parts, else all that its plan works on, known as seen on the board.
Result<WrittenFile> writeSeen(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with a paper of --kind, as the job is now, in its visit's list; older ones that are void are notes.
Result<WrittenFile> writePrinted(const Job& job, const Request& request, const std::stop_token& stop);

// correction_verbs.cpp

/// The job with its stock put right by what the board has; what that means for mods that are on is a note.
Result<WrittenFile> writeFound(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with the correction of --number, else the last, taken back.
Result<WrittenFile> writeTakenBack(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with what a meter read of a part; without --value nothing of it was read any more.
Result<WrittenFile> writeMeasured(const Job& job, const Request& request, const std::stop_token& stop);
/// number, part, found, drawn, reason, visit, when, who, note: a correction a row; mods on what was corrected are
/// notes. REQUIRES: prepared.job.
Result<Answer> answerCorrections(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// step, stage, part, value, printed, known, measured, drawing, where: the parts on the board in signal order.
/// REQUIRES: prepared.job.
Result<Answer> answerWalk(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// board_verbs.cpp

/// part, leg, net, net_name, x, y, place ("marked", "carried over", "drawn", "not marked"), times_heated, where: every
/// leg on the board as the side of --side shows it; then of_net, legs, names. What the photos, the map between the
/// sides and the visits say are notes. REQUIRES: prepared.job.
Result<Answer> answerBoard(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// The job with the picture of --photo copied beside it as the photo of a side; without --photo the side has none any
/// more. Errors: of copyPhotoIn, copyPhotosAlong.
Result<WrittenFile> writePhoto(const Job& job, const Request& request, const std::stop_token& stop);
/// The job with a leg's place on a photo, or without it. Errors: invalidInput naming the option; of markLeg, unmarkLeg.
Result<WrittenFile> writeLegMarked(const Job& job, const Request& request, const std::stop_token& stop);
Result<WrittenFile> writeLegUnmarked(const Job& job, const Request& request, const std::stop_token& stop);

// earlier_verbs.cpp

/// number, written, until_now: what the job's file held before, newest first, and what differs from what it holds now;
/// versions that cannot be read are notes. REQUIRES: prepared.job.
Result<Answer> answerEarlier(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);
/// The version of --number, else the newest, as it was.
Result<WrittenFile> writeEarlierVersion(const Job& job, const Request& request, const std::stop_token& stop);

// revision_verb.cpp

/// rank, drawing, misfit: the job's own and stored drawings, by how well they explain --read; then of each: of,
/// reading, unit, read, expected, low, high, pull. What they say is a note. REQUIRES: prepared.job.
Result<Answer> answerWhichRevision(const PreparedCircuit& prepared, const Request& request,
                                   const std::stop_token& stop);

// check_verb.cpp

/// Everything wrong or doubtful in a file: severity, place, message.
/// Errors: cancelled.
struct CheckAnswer {
    Answer answer;
    bool anythingWrong = false;
};
Result<CheckAnswer> checkJob(const Job& job, const std::stop_token& stop);
Result<CheckAnswer> checkNetlist(const Netlist& netlist, const std::stop_token& stop);
/// Of a netlist that cannot be read.
CheckAnswer checkAnswerOf(const NetlistFaults& found);

// export_verb.cpp

/// The circuit as a netlist, knobs and setting put in.
std::string exportNetlist(const PreparedCircuit& prepared, const Request& request);

// sheet_verb.cpp

/// Writes the drawing, in print ink, to request.out: SVG, PDF or PNG by its ending. REQUIRES: prepared.job.
/// Errors: invalidInput (another ending, a folder that cannot be written), fileDamaged (no drawing), cancelled.
Result<void> writeMap(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

// curve_picture.cpp

/// Whether a file of this name is a picture: its curve is drawn, in print ink, instead of its values.
bool isCurvePicture(const std::string& path);
/// Draws stock, now and what is pinned along request.curve, to request.out: SVG or PNG by its ending.
/// REQUIRES: prepared.job. Errors: invalidInput (PDF, bias, a kind that there is not), of the solver, cancelled,
/// fileUnreadable.
Result<void> writeCurvePicture(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

/// Prints the sheet of request.kind to request.out. REQUIRES: prepared.job.
/// Errors: invalidInput (another kind or paper), fileDamaged (parts that nobody saw), of the solver, cancelled,
/// fileUnreadable.
Result<void> printSheet(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop);

}  // namespace ohmwright
