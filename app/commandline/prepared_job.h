/// A job with the call's variant, knobs and ends put in.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/prepared_circuit.h"
#include "app/commandline/request.h"
#include "core/base/result.h"
#include "core/plan/job.h"

#include <string_view>

namespace ohmwright {

/// The job with --set, --temperature, --input and --output in force.
///
/// `--set` takes a knob's id (0..10) or pick-level [V peak], tone [Hz], battery [V], load [Ω], and
/// source=pickup|jack: "jack" takes pickup, guitar volume and cable away and drives the jack from an ideal generator.
/// Errors: invalidInput naming the option.
Result<Job> withSettings(const Job& job, const Request& request);

/// The plan with its mods on as a variant says: "stock" none, "now" as in the job, "A+B" or "AB" exactly these.
/// Errors: invalidInput naming a letter that the plan does not have.
Result<Plan> planOfVariant(const Plan& plan, std::string_view variant);

/// @param defaultVariant  used when the call names none.
/// Errors: of the two above; invalidInput when --output names no net of the variant's circuit.
Result<PreparedCircuit> prepareJob(const Job& job, const Request& request, std::string_view defaultVariant);

}  // namespace ohmwright
