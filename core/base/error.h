/// Why something could not be done, in words for the technician.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ohmwright {

/// One code for each thing a caller does differently.
enum class ErrorCode {
    invalidInput,    ///< A value, reference or request is wrong: ask for another.
    unsolvable,      ///< The circuit itself has no answer: mark the fault on it.
    noConvergence,   ///< The iteration did not end at an answer: show no number.
    cancelled,       ///< A newer request overtook this one: drop it silently.
    fileUnreadable,  ///< The file or folder cannot be read or written: say so, keep the work.
    fileDamaged,     ///< The bytes are no job: name line and key.
    fileNewer,       ///< Written by a later version: open read-only at most.
};

/// A failure: what a caller acts on, a sentence for a person, and the place.
struct Error {
    ErrorCode code = ErrorCode::invalidInput;
    std::string message;  ///< One sentence: what is wrong and what to do.
    std::string where;    ///< Net, part reference, "line 12", or empty.

    friend bool operator==(const Error&, const Error&) = default;
};

}  // namespace ohmwright
