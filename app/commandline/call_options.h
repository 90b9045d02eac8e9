/// The verbs and their options, as `--help` shows them and a call is read by.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/answer.h"
#include "app/commandline/prepared_circuit.h"
#include "app/commandline/request.h"
#include "core/base/result.h"

#include <span>
#include <stop_token>
#include <string>
#include <variant>
#include <vector>

namespace ohmwright {

using AnswerFunction = Result<Answer> (*)(const PreparedCircuit&, const Request&, const std::stop_token&);

/// Options beside the common ones; one bit each.
enum class Options : unsigned {
    none = 0,
    grid = 1,
    at = 2,
    toneAlone = 4,
    level = 8,
    wave = 16,
    count = 32,
    sweep = 64,
    rungs = 128,
    tonePair = 256,
    side = 512,
    tryOn = 1024,
    targets = 2048,
    figures = 4096,
    words = 8192,
    shop = 16384,
    drawer = 32768,
    part = 65536,
};

/// A verb that answers with tables.
struct Verb {
    const char* name;
    const char* summary;
    Options options;
    Ends ends;
    const char* defaultVariant;
    bool jobsOnly;
    AnswerFunction answer;
};

/// The verb of that name, or null for check, export and sheet.
const Verb* findVerb(const std::string& name);

/// A call that is sound as far as its words go.
struct ReadCall {
    std::string verb;
    Request request;
};
/// What was asked about the program itself: the text to show.
struct HelpText {
    std::string text;
};

/// Errors: invalidInput, one sentence that says what to do.
Result<std::variant<ReadCall, HelpText>> readCall(const std::vector<std::string>& args);

}  // namespace ohmwright
