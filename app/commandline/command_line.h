/// `ohmwright-cli`: the program's figures without a display, from the same core as the window's.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace ohmwright {

enum class ExitStatus {
    answered = 0,
    callWrong = 2,   ///< A verb, option or value that is not known.
    fileWrong = 3,   ///< Unreadable, damaged, newer, or not a job.
    unsolvable = 4,  ///< The circuit has no answer, or none in time; part or net are named.
};

/// Runs one call and returns its exit status.
///
/// An error is one to five lines on `err` and nothing on `out`; notes go to `err` beside an answer. `--help` and
/// `--version` answer without reading a file. Never throws.
/// @param args  without the program's name.
ExitStatus runCommandLine(const std::vector<std::string>& args, std::ostream& out, std::ostream& err);

}  // namespace ohmwright
