// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include "app/commandline/call_options.h"
#include "app/commandline/deadline.h"
#include "app/commandline/input_file.h"
#include "app/commandline/prepared_job.h"
#include "app/commandline/verbs.h"
#include "core/base/text.h"
#include "core/circuit/setting.h"
#include "core/files/atomic_file.h"

#include <algorithm>
#include <chrono>
#include <exception>
#include <filesystem>
#include <functional>
#include <new>
#include <optional>
#include <ostream>
#include <utility>

namespace ohmwright {

namespace {

constexpr const char* programName = "ohmwright-cli";
/// Together under the 20 s that no call may pass.
constexpr std::chrono::milliseconds patienceTime{15000};
constexpr std::chrono::milliseconds hangTime{18500};
/// An error is five lines at most, and a line of it is a sentence or two.
constexpr std::size_t longestMessage = 1500;
/// More notes than these are read with check.
constexpr std::size_t mostNotes = 20;

// ---- Telling -------------------------------------------------------------------------------------------------

/// One line, whatever a file's names hold, and no more of it than is read.
std::string told(const std::string& message) {
    std::string text = oneLine(message);
    if (text.size() <= longestMessage) return text;
    std::size_t end = longestMessage;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // Not inside a character.
    return text.substr(0, end) + "...";
}

ExitStatus tell(std::ostream& err, ExitStatus status, const std::string& message) {
    err << programName << ": " << told(message) << '\n';
    return status;
}

/// "FILE:LINE: what is wrong", as compilers do, so that an editor finds the place.
ExitStatus tellOfFile(std::ostream& err, const std::string& file, const Error& error) {
    err << told(inFile(file, error)) << '\n';
    return ExitStatus::fileWrong;
}

// ---- One call ------------------------------------------------------------------------------------------------

/// What the steps of one call share.
struct Call {
    const Request& request;
    std::ostream& out;
    std::ostream& err;
    std::vector<NetlistNote> fileNotes;  ///< Of a netlist; told beside an answer.
    /// Asks for a stop; what is being solved then ends with `cancelled`.
    Deadline patience{patienceTime};
    /// For what does not poll: the caller ends the program. Gone before anything is written.
    std::optional<Deadline> lastResort;
};

/// A title that looks like a card may be why something is missing.
void tellTitleNote(const Call& call) {
    for (const NetlistNote& note : call.fileNotes)
        if (note.line == 1) call.err << told(call.request.file + ":1: note: " + note.message) << '\n';
}

/// What the call asked for wrongly names its option, what cannot be opened its path; the rest is of the file.
ExitStatus tellWhy(const Call& call, const Error& error) {
    const std::string& file = call.request.file;
    // A unit that is joined or drawn from nothing has no file.
    const std::string where = file.empty() ? std::string() : file + ": ";
    switch (error.code) {
        case ErrorCode::invalidInput:
            return tell(call.err, ExitStatus::callWrong, error.message);
        case ErrorCode::fileUnreadable:
            return tell(call.err, ExitStatus::fileWrong, error.message);
        case ErrorCode::fileDamaged:
        case ErrorCode::fileNewer:
            if (file.empty()) return tell(call.err, ExitStatus::fileWrong, error.message);
            return tellOfFile(call.err, file, error);
        case ErrorCode::cancelled:
            return tell(call.err, ExitStatus::unsolvable,
                        where + "no answer in time: ask for fewer points, or run check on the file.");
        case ErrorCode::unsolvable:
        case ErrorCode::noConvergence:
            break;
    }
    return tell(call.err, ExitStatus::unsolvable, where + error.message);
}

ExitStatus tellWhyOfCircuit(const Call& call, const Error& error) {
    const ExitStatus status = tellWhy(call, error);
    tellTitleNote(call);
    return status;
}

void tellNotes(Call& call, const std::vector<std::string>& answerNotes) {
    std::vector<std::string> notes;
    for (const NetlistNote& note : call.fileNotes) {
        const std::string place = note.line > 0 ? ":" + std::to_string(note.line) : "";
        notes.push_back(call.request.file + place + ": note: " + note.message);
    }
    for (const std::string& note : answerNotes) notes.push_back(call.request.file + ": note: " + note);
    const std::size_t shown = std::min(notes.size(), mostNotes);
    for (std::size_t k = 0; k < shown; ++k) call.err << told(notes[k]) << '\n';
    if (shown < notes.size())
        call.err << told(call.request.file + ": note: " + std::to_string(notes.size() - shown) +
                         " more: check lists them.")
                 << '\n';
}

ExitStatus deliverText(Call& call, const std::string& text, const std::vector<std::string>& notes = {}) {
    call.lastResort.reset();  // A slow reader at the other end of a pipe may take its time.
    if (call.request.out.empty()) {
        call.out << text << std::flush;
        if (!call.out) return tell(call.err, ExitStatus::fileWrong, "standard output cannot be written.");
    } else {
        const Result<void> written = replaceFile(call.request.out, text);
        if (!written) return tell(call.err, ExitStatus::fileWrong, written.error().message);
    }
    tellNotes(call, notes);
    return ExitStatus::answered;
}

ExitStatus deliver(Call& call, const Answer& answer) {
    const OutputFormat format = call.request.format == "json" ? OutputFormat::json : OutputFormat::csv;
    return deliverText(call, writeAnswer(answer, format), answer.notes);
}

Ends endsOf(const Verb& verb, const Request& request) {
    const bool looksAtOutput = verb.answer == answerImpedance && request.side == "out";
    return looksAtOutput ? Ends::output : verb.ends;
}

Result<PreparedCircuit> prepare(InputFile& file, const Request& request, Ends ends, const char* defaultVariant) {
    if (const Job* job = std::get_if<Job>(&file)) return prepareJob(*job, request, defaultVariant);
    return prepareNetlist(std::get<Netlist>(std::move(file)), request, ends);
}

ExitStatus runVerb(Call& call, const Verb& verb, InputFile& file) {
    const auto prepared = prepare(file, call.request, endsOf(verb, call.request), verb.defaultVariant);
    if (!prepared) return tellWhyOfCircuit(call, prepared.error());
    Result<Answer> answer = verb.answer(*prepared, call.request, call.patience.token());
    if (!answer) return tellWhyOfCircuit(call, answer.error());
    answer->notes.insert(answer->notes.begin(), prepared->notes.begin(), prepared->notes.end());
    return deliver(call, *answer);
}

/// What is wrong stands in the answer; the first of it goes beside, for a reader of errors alone.
void tellWrong(const Call& call, const CheckAnswer& check) {
    constexpr std::size_t mostTold = 4;
    std::size_t wrong = 0;
    for (const std::vector<Cell>& row : check.answer.tables.front().rows) {
        if (std::get<std::string>(row[0]) != "wrong" || ++wrong > mostTold) continue;
        call.err << told(inFile(call.request.file,
                                {ErrorCode::fileDamaged, std::get<std::string>(row[2]), std::get<std::string>(row[1])}))
                 << '\n';
    }
    if (wrong > mostTold)
        call.err << told(call.request.file + ": " + std::to_string(wrong - mostTold) + " more wrong in the list.")
                 << '\n';
}

ExitStatus deliverCheck(Call& call, const CheckAnswer& check) {
    call.fileNotes.clear();  // They stand in the answer.
    const ExitStatus status = deliver(call, check.answer);
    if (status != ExitStatus::answered || !check.anythingWrong) return status;
    tellWrong(call, check);
    return ExitStatus::fileWrong;
}

ExitStatus runCheck(Call& call, const InputFile& file) {
    const Job* job = std::get_if<Job>(&file);
    const Result<CheckAnswer> check = job != nullptr ? checkJob(*job, call.patience.token())
                                                     : checkNetlist(std::get<Netlist>(file), call.patience.token());
    if (!check) return tellWhy(call, check.error());
    return deliverCheck(call, *check);
}

ExitStatus runExport(Call& call, InputFile& file) {
    const auto prepared = prepare(file, call.request, Ends::none, "stock");
    if (!prepared) return tellWhy(call, prepared.error());
    return deliverText(call, exportNetlist(*prepared, call.request));
}

ExitStatus runSheet(Call& call, InputFile& file) {
    const auto prepared = prepare(file, call.request, Ends::both, "now");
    if (!prepared) return tellWhy(call, prepared.error());
    const Result<void> printed = printSheet(*prepared, call.request, call.patience.token());
    if (!printed) return tellWhy(call, printed.error());
    return ExitStatus::answered;
}

ExitStatus runMap(Call& call, InputFile& file) {
    const auto prepared = prepare(file, call.request, Ends::both, "now");
    if (!prepared) return tellWhy(call, prepared.error());
    const Result<void> written = writeMap(*prepared, call.request, call.patience.token());
    if (!written) return tellWhy(call, written.error());
    return ExitStatus::answered;
}

ExitStatus runCurvePicture(Call& call, InputFile& file) {
    const auto prepared = prepare(file, call.request, Ends::both, "now");
    if (!prepared) return tellWhyOfCircuit(call, prepared.error());
    const Result<void> written = writeCurvePicture(*prepared, call.request, call.patience.token());
    if (!written) return tellWhyOfCircuit(call, written.error());
    tellNotes(call, prepared->notes);
    return ExitStatus::answered;
}

/// An answer must not take the place of what it was made from.
bool wouldOverwriteItself(const Request& request) {
    std::error_code ignored;
    return !request.out.empty() && std::filesystem::equivalent(request.file, request.out, ignored);
}

ExitStatus runHistory(Call& call) {
    const Result<Answer> answer = answerHistory(call.request, call.patience.token());
    return answer ? deliver(call, *answer) : tellWhy(call, answer.error());
}

ExitStatus runStages(Call& call) {
    const Result<Answer> answer = answerStages(call.request);
    return answer ? deliver(call, *answer) : tellWhy(call, answer.error());
}

ExitStatus runJoin(Call& call) {
    const Result<WrittenFile> written = writeJoined(call.request);
    return written ? deliverText(call, written->text) : tellWhy(call, written.error());
}

ExitStatus runArrange(Call& call, InputFile&& file) {
    const Result<WrittenFile> written = writeArranged(std::move(file), call.request);
    return written ? deliverText(call, written->text, written->notes) : tellWhy(call, written.error());
}

ExitStatus runDraw(Call& call) {
    if (wouldOverwriteItself(call.request))
        return tellWhy(call, refuseOption("--out", "that is the file that is read: name another."));
    const Result<WrittenFile> written = writeDrawn(call.request);
    return written ? deliverText(call, written->text) : tellWhy(call, written.error());
}

ExitStatus runWriting(Call& call, const WritingVerb& verb, const InputFile& file) {
    const Result<WrittenFile> written = verb.write(std::get<Job>(file), call.request, call.patience.token());
    return written ? deliverText(call, written->text, written->notes) : tellWhy(call, written.error());
}

ExitStatus tellUnreadable(Call& call, const std::string& verbName, const Error& error) {
    if (verbName == "check" && error.code == ErrorCode::fileDamaged)
        if (const std::optional<NetlistFaults> found = faultsOfNetlistFile(call.request.file))
            return deliverCheck(call, checkAnswerOf(*found));
    return tellWhy(call, error);
}

ExitStatus runOnFile(Call& call, const std::string& verbName, InputFile&& file) {
    if (verbName == "arrange") return runArrange(call, std::move(file));
    const Verb* verb = findVerb(verbName);
    const WritingVerb* writing = findWritingVerb(verbName);
    if (const auto* netlist = std::get_if<Netlist>(&file)) {
        call.fileNotes = netlist->notes;
        if (verbName == "sheet" || verbName == "map" || writing != nullptr || (verb != nullptr && verb->jobsOnly))
            return tell(
                call.err, ExitStatus::callWrong,
                verbName + " is for jobs (*.ohmjob), and " + call.request.file + " is a netlist: choose another verb.");
    }
    if (verbName == "check") return runCheck(call, file);
    // A setting that the file brings is the file's fault, one that --set brings the call's.
    if (const Job* job = std::get_if<Job>(&file))
        if (const Result<void> setting = checkSetting(job->stock, job->setting); !setting)
            return tellOfFile(call.err, call.request.file, setting.error());
    if (writing != nullptr) return runWriting(call, *writing, file);
    if (verbName == "sheet") return runSheet(call, file);
    if (verbName == "map") return runMap(call, file);
    if (verbName == "export") return runExport(call, file);
    if (verbName == "curve" && isCurvePicture(call.request.out)) return runCurvePicture(call, file);
    return runVerb(call, *verb, file);
}

ExitStatus runCall(Call& call, const std::string& verbName) {
    if (verbName == "history") return runHistory(call);
    if (verbName == "stages") return runStages(call);
    if (verbName == "join") return runJoin(call);
    if (verbName == "draw") return runDraw(call);
    if (wouldOverwriteItself(call.request))
        return tellWhy(call, refuseOption("--out", "that is the file that is read: name another."));
    Result<InputFile> file = readInputFile(call.request.file);
    return file ? runOnFile(call, verbName, *std::move(file)) : tellUnreadable(call, verbName, file.error());
}

ExitStatus readAndRun(const std::vector<std::string>& args, std::ostream& out, std::ostream& err,
                      const std::function<void()>& onHang) {
    const Result<std::variant<ReadCall, HelpText>> read = readCall(args);
    if (!read) return tell(err, ExitStatus::callWrong, read.error().message);
    if (const auto* help = std::get_if<HelpText>(&*read)) {
        out << help->text;
        return ExitStatus::answered;
    }
    const ReadCall& asked = std::get<ReadCall>(*read);
    Call call{asked.request, out, err};
    if (onHang) call.lastResort.emplace(hangTime, onHang);
    return runCall(call, asked.verb);
}

}  // namespace

ExitStatus runCommandLine(const std::vector<std::string>& args, std::ostream& out, std::ostream& err,
                          const std::function<void()>& onHang) {
    // Libraries may throw; nothing of theirs may end the program without a word.
    try {
        return readAndRun(args, out, err, onHang);
    } catch (const std::bad_alloc&) {
        return tell(
            err, ExitStatus::unsolvable,
            "this takes more memory than one call may have: take parts out of the file, or ask for fewer points.");
    } catch (const std::exception& error) {
        return tell(err, ExitStatus::unsolvable, std::string("the call could not be carried out: ") + error.what());
    }
}

}  // namespace ohmwright
