/// `ohmwright-cli`: the program's figures without a display, from the same core as the window's.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
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
/// @param args    without the program's name.
/// @param onHang  called on another thread when a call that cannot be stopped has run 18.5 s without an answer: no
///                more than ending the program is left to it. A solve is stopped at 15 s without it.
ExitStatus runCommandLine(const std::vector<std::string>& args, std::ostream& out, std::ostream& err,
                          const std::function<void()>& onHang = {});

}  // namespace ohmwright
