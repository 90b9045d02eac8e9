/// The file of a call: a job or a netlist.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/files/netlist.h"
#include "core/plan/job.h"

#include <optional>
#include <string>
#include <variant>

namespace ohmwright {

using InputFile = std::variant<Job, Netlist>;

/// *.ohmjob is a job and *.cir a netlist, in any case of letters; of other names the first character decides: a job is
/// a JSON object. Errors: fileUnreadable naming the path; fileDamaged or fileNewer as readJob and readNetlist say it.
Result<InputFile> readInputFile(const std::string& path);

/// Everything that is wrong in a netlist that readInputFile refuses; nothing for a job, or a file that cannot be read.
std::optional<NetlistFaults> faultsOfNetlistFile(const std::string& path);

/// The sentence behind "FILE:LINE: " where the line is known, else behind "FILE: ".
std::string inFile(const std::string& path, const Error& error);

}  // namespace ohmwright
