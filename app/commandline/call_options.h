/// The verbs and their options, as `--help` shows them and a call is read by.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/commandline/answer.h"
#include "app/commandline/prepared_circuit.h"
#include "app/commandline/request.h"
#include "app/commandline/verbs.h"
#include "core/base/result.h"

#include <cstdint>
#include <span>
#include <stop_token>
#include <string>
#include <variant>
#include <vector>

namespace ohmwright {

using AnswerFunction = Result<Answer> (*)(const PreparedCircuit&, const Request&, const std::stop_token&);

/// Options beside the common ones; one bit each.
enum class Options : std::uint64_t {
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
    readings = 131072,
    visit = 262144,
    requiredVisit = 524288,
    when = 1048576,
    day = 2097152,
    complaint = 4194304,
    note = 8388608,
    recipe = 16777216,
    trims = 33554432,
    card = 67108864,
    seenParts = 134217728,
    paperKind = 268435456,
    table = 536870912,
    found = 1073741824,
    number = 2147483648,
    readValue = 4294967296,
    spots = 8589934592,
    keptStage = 17179869184,
    curve = 34359738368,
    boardSide = 68719476736,
    photo = 137438953472,
    boardLeg = 274877906944,
    legPlace = 549755813888,
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

/// The verb of that name, or null for those that write a file, and for check, export, history, sheet, stages and join.
const Verb* findVerb(const std::string& name);

using WritingFunction = Result<WrittenFile> (*)(const Job&, const Request&, const std::stop_token&);

/// A verb that makes a file out of a job.
struct WritingVerb {
    const char* name;
    const char* summary;
    Options options;
    WritingFunction write;
};

/// The verb of that name, or null.
const WritingVerb* findWritingVerb(const std::string& name);

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
