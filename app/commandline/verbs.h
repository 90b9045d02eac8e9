/// The verbs: each turns a prepared job into an answer. One file a group.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/answer.h"
#include "app/commandline/prepared_job.h"
#include "app/commandline/request.h"
#include "core/base/result.h"

#include <stop_token>

namespace ohmwright {

// small_signal_verbs.cpp

/// frequency_hz, magnitude_db, phase_deg: 20 log10 |v(output)/v(input)|, phase -180..180.
Result<Answer> answerResponse(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);
/// node, voltage_v; then part, terminal, current_a (into the part is positive). A part is named by its reference, or
/// by its id where two parts have the same one.
Result<Answer> answerBias(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);

// tone_verbs.cpp

/// time_s, input_v, output_v: settled (default) or from the bias on.
Result<Answer> answerWaveform(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);
/// harmonic, amplitude_v_peak, level_db_re_fundamental, phase_deg, and thd_percent. Phase of the n-th is that of a
/// sine of n times the tone, the input being a sine of phase 0.
Result<Answer> answerHarmonics(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);

// job_verbs.cpp

/// figure, unit, stock, now, change.
Result<Answer> answerFigures(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);

/// Everything wrong or doubtful in a job: severity, place, message.
/// Errors: cancelled.
struct CheckAnswer {
    Answer answer;
    bool anythingWrong = false;
};
Result<CheckAnswer> checkJob(const Job& job, const std::stop_token& stop);

// sheet_verb.cpp

/// Prints the bench sheet to request.out.
/// Errors: invalidInput (another kind or paper), of the solver, cancelled, fileUnreadable.
Result<void> printSheet(const PreparedJob& prepared, const Request& request, const std::stop_token& stop);

}  // namespace ohmwright
