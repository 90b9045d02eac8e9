// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/command_line.h"

#include "app/commandline/deadline.h"
#include "app/commandline/verbs.h"
#include "core/circuit/setting.h"
#include "core/files/atomic_file.h"
#include "core/files/job_file.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <chrono>
#include <exception>
#include <filesystem>
#include <functional>
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

// ---- The verbs -----------------------------------------------------------------------------------------------

using AnswerFunction = Result<Answer> (*)(const PreparedJob&, const Request&, const std::stop_token&);

enum class Options : unsigned { none = 0, grid = 1, tone = 2, wave = 4, count = 8 };
constexpr Options operator|(Options a, Options b) {
    return static_cast<Options>(static_cast<unsigned>(a) | static_cast<unsigned>(b));
}
constexpr bool has(Options all, Options one) {
    return (static_cast<unsigned>(all) & static_cast<unsigned>(one)) != 0;
}

struct Verb {
    const char* name;
    const char* summary;
    Options options;
    const char* defaultVariant;
    AnswerFunction answer;
};

constexpr std::array<Verb, 5> verbs = {{
    {"response", "Small-signal response from the input to the output, as CSV frequency_hz,magnitude_db,phase_deg",
     Options::grid, "stock", answerResponse},
    {"bias", "DC voltage of every net and current into every part", Options::none, "stock", answerBias},
    {"waveform", "Wave at the output for a tone: time_s,input_v,output_v", Options::tone | Options::wave, "stock",
     answerWaveform},
    {"harmonics", "Harmonics of the settled wave at the output, and its distortion", Options::tone | Options::count,
     "stock", answerHarmonics},
    {"figures", "Every figure of the job, stock beside now", Options::none, "now", answerFigures},
}};

// ---- Reading the call ----------------------------------------------------------------------------------------

void addFile(CLI::App& verb, Request& request) {
    verb.add_option("FILE", request.file, "Job file (*.ohmjob)")->required();
}

void addOutput(CLI::App& verb, Request& request) {
    verb.add_option("--out", request.out, "File to write; default: standard output");
    verb.add_option("--format", request.format, "csv or json (one object, an array under each column's name)")
        ->check(CLI::IsMember({"csv", "json"}))
        ->capture_default_str();
}

void addState(CLI::App& verb, Request& request, const std::string& defaultVariant) {
    verb.add_option("--input", request.input, "Voltage source that is the input; default: the job's pickup");
    verb.add_option("--output", request.output, "Net that is the output; default: the job's");
    verb.add_option("--set", request.settings,
                    "NAME=VALUE: a knob's id (0..10), pick-level, tone, battery, load, source=pickup|jack; may repeat")
        ->allow_extra_args(false);
    verb.add_option("--temperature", request.temperature, "Degrees Celsius; default: the job's, 27 unless changed");
    verb.add_option("--variant", request.variant,
                    "stock, now (the mods that are on) or letters such as A+B; default: " + defaultVariant);
}

void addGrid(CLI::App& verb, Request& request) {
    verb.add_option("--from", request.from, "Lowest frequency in Hz; default 20");
    verb.add_option("--to", request.to, "Highest frequency in Hz; default 20000");
    verb.add_option("--per-decade", request.perDecade, "Points a decade, FROM * 10^(k/N); default 100");
    verb.add_option("--at", request.at, "These frequencies instead, as in 82.41,110,1k");
}

void addTone(CLI::App& verb, Request& request) {
    verb.add_option("--tone", request.tone, "Frequency in Hz")->required();
    verb.add_option("--level", request.level, "Peak of the input source in V, as in 0.1 or 100m")->required();
}

void addWave(CLI::App& verb, Request& request) {
    verb.add_option("--periods", request.periods, "Periods to write; default 1");
    verb.add_option("--rate", request.rate, "Samples a second; default 48000 or 256 a period, whichever is finer");
    CLI::Option* settled = verb.add_flag("--settled", request.settled, "The periodic steady state (default)");
    verb.add_flag("--cold", request.cold, "From the bias on, the tone rising from 0 at t = 0")->excludes(settled);
}

void addVerb(CLI::App& program, const Verb& verb, Request& request) {
    CLI::App& call = *program.add_subcommand(verb.name, verb.summary);
    addFile(call, request);
    if (has(verb.options, Options::grid)) addGrid(call, request);
    if (has(verb.options, Options::tone)) addTone(call, request);
    if (has(verb.options, Options::wave)) addWave(call, request);
    if (has(verb.options, Options::count))
        call.add_option("--count", request.count, "Harmonics to give, the fundamental among them; default 9");
    addState(call, request, verb.defaultVariant);
    addOutput(call, request);
}

void addCheck(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("check", "Everything wrong or doubtful in the file, a line each");
    addFile(call, request);
    addOutput(call, request);
}

void addSheet(CLI::App& program, Request& request) {
    CLI::App& call = *program.add_subcommand("sheet", "Print a sheet of the job as PDF");
    addFile(call, request);
    call.add_option("--kind", request.kind, "bench")->required();
    call.add_option("--paper", request.paper, "a4 or letter")->capture_default_str();
    addState(call, request, "now");
    call.add_option("--out", request.out, "PDF to write")->required();
}

// ---- Telling -------------------------------------------------------------------------------------------------

/// One line, whatever a file's names hold.
std::string oneLine(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    if (text.size() <= longestMessage) return text;
    std::size_t end = longestMessage;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // Not inside a character.
    return text.substr(0, end) + "...";
}

ExitStatus tell(std::ostream& err, ExitStatus status, const std::string& message) {
    err << programName << ": " << oneLine(message) << '\n';
    return status;
}

ExitStatus statusOf(ErrorCode code) {
    switch (code) {
        case ErrorCode::invalidInput:
            return ExitStatus::callWrong;
        case ErrorCode::fileUnreadable:
        case ErrorCode::fileDamaged:
        case ErrorCode::fileNewer:
            return ExitStatus::fileWrong;
        case ErrorCode::unsolvable:
        case ErrorCode::noConvergence:
        case ErrorCode::cancelled:
            break;
    }
    return ExitStatus::unsolvable;
}

// ---- One call ------------------------------------------------------------------------------------------------

bool isNetlist(const std::string& file) {
    const std::string extension = std::filesystem::path(file).extension().string();
    return extension == ".cir" || extension == ".CIR";
}

/// "job.ohmjob:12: what is wrong" where the line is known, else "job.ohmjob: what is wrong".
std::string inFile(const std::string& file, const Error& error) {
    constexpr std::string_view lineWord = "line ";
    const std::string prefix = file + ": ";
    const bool namesFile = error.message.starts_with(prefix);
    const std::string message = namesFile ? error.message.substr(prefix.size()) : error.message;
    if (error.where.starts_with(lineWord)) return file + ":" + error.where.substr(lineWord.size()) + ": " + message;
    return prefix + message;
}

Result<Job> readRequestedJob(const Request& request) {
    if (isNetlist(request.file))
        return Error{ErrorCode::fileDamaged, "Netlists are not read by this version: open a job file (*.ohmjob).", ""};
    Result<LoadedJob> loaded = loadJob(request.file);
    if (!loaded) return loaded.error();
    return std::move(loaded->job);
}

/// What the steps of one call share.
struct Call {
    const Request& request;
    std::ostream& out;
    std::ostream& err;
    /// Asks for a stop; what is being solved then ends with `cancelled`.
    Deadline patience{patienceTime};
    /// For what does not poll: the caller ends the program. Gone before anything is written.
    std::optional<Deadline> lastResort;
};

ExitStatus deliver(Call& call, const Answer& answer) {
    const std::string text =
        writeAnswer(answer, call.request.format == "json" ? OutputFormat::json : OutputFormat::csv);
    call.lastResort.reset();  // A slow reader at the other end of a pipe may take its time.
    if (call.request.out.empty()) {
        call.out << text << std::flush;
        return call.out ? ExitStatus::answered
                        : tell(call.err, ExitStatus::fileWrong, "standard output cannot be written.");
    }
    const Result<void> written = replaceFile(call.request.out, text);
    if (!written) return tell(call.err, ExitStatus::fileWrong, written.error().message);
    return ExitStatus::answered;
}

/// What the call asked for wrongly names its option, what cannot be opened its path; the rest is of the job file.
ExitStatus tellWhy(const Call& call, const Error& error) {
    if (call.patience.isOver() && error.code == ErrorCode::cancelled)
        return tell(call.err, ExitStatus::unsolvable,
                    call.request.file + ": no answer in time: ask for fewer points, or run check on the job.");
    const bool namesItself = error.code == ErrorCode::invalidInput || error.code == ErrorCode::fileUnreadable;
    return tell(call.err, statusOf(error.code), namesItself ? error.message : inFile(call.request.file, error));
}

ExitStatus runVerb(Call& call, const Verb& verb, const Job& job) {
    const Result<PreparedJob> prepared = prepareJob(job, call.request, verb.defaultVariant);
    if (!prepared) return tellWhy(call, prepared.error());
    const Result<Answer> answer = verb.answer(*prepared, call.request, call.patience.token());
    if (!answer) return tellWhy(call, answer.error());
    return deliver(call, *answer);
}

ExitStatus runCheck(Call& call, const Job& job) {
    const Result<CheckAnswer> check = checkJob(job, call.patience.token());
    if (!check) return tellWhy(call, check.error());
    const ExitStatus status = deliver(call, check->answer);
    return status == ExitStatus::answered && check->anythingWrong ? ExitStatus::fileWrong : status;
}

ExitStatus runSheet(Call& call, const Job& job) {
    const Result<PreparedJob> prepared = prepareJob(job, call.request, "now");
    if (!prepared) return tellWhy(call, prepared.error());
    const Result<void> printed = printSheet(*prepared, call.request, call.patience.token());
    if (!printed) return tellWhy(call, printed.error());
    return ExitStatus::answered;
}

ExitStatus runCall(Call& call, const std::string& verbName) {
    const Result<Job> job = readRequestedJob(call.request);
    if (!job) return std::max(tellWhy(call, job.error()), ExitStatus::fileWrong);
    if (verbName == "check") return runCheck(call, *job);
    // A setting that the file brings is the file's fault, one that --set brings the call's.
    if (const Result<void> setting = checkSetting(job->stock, job->setting); !setting)
        return tell(call.err, ExitStatus::fileWrong, inFile(call.request.file, setting.error()));
    if (verbName == "sheet") return runSheet(call, *job);
    const auto* verb = std::find_if(verbs.begin(), verbs.end(), [&](const Verb& one) { return verbName == one.name; });
    return runVerb(call, *verb, *job);
}

std::string verbNames(const CLI::App& program) {
    std::string names;
    for (const CLI::App* verb : program.get_subcommands({})) names += (names.empty() ? "" : ", ") + verb->get_name();
    return names;
}

/// CLI11 says of an unknown verb only that one is required.
std::string whyNotParsed(const CLI::App& program, const CLI::ParseError& error, const std::vector<std::string>& args) {
    const bool hasVerb = !program.get_subcommands().empty();
    if (hasVerb) return std::string(error.what()) + "; see " + programName + " --help.";
    if (args.empty() || args.front().starts_with("-")) return "Name a verb first: " + verbNames(program) + ".";
    return "There is no verb “" + args.front() + "”: choose from " + verbNames(program) + ".";
}

ExitStatus parseAndRun(const std::vector<std::string>& args, std::ostream& out, std::ostream& err,
                       const std::function<void()>& onHang) {
    CLI::App program("Figures of a pedal's circuit and of the mods planned for it, without a display.", programName);
    program.set_version_flag("--version", std::string(programName) + " " OHMWRIGHT_VERSION);
    program.require_subcommand(1);
    Request request;
    for (const Verb& verb : verbs) addVerb(program, verb, request);
    addCheck(program, request);
    addSheet(program, request);
    program.footer(
        "Exit status: 0 answered, 2 the call is wrong, 3 the file is wrong, 4 the circuit cannot be solved.");
    try {
        // CLI11 takes the arguments from the back.
        std::vector<std::string> reversed(args.rbegin(), args.rend());
        program.parse(reversed);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
            program.exit(error, out, err);
            return ExitStatus::answered;
        }
        return tell(err, ExitStatus::callWrong, whyNotParsed(program, error, args));
    }
    Call call{request, out, err};
    if (onHang) call.lastResort.emplace(hangTime, onHang);
    return runCall(call, program.get_subcommands().front()->get_name());
}

}  // namespace

ExitStatus runCommandLine(const std::vector<std::string>& args, std::ostream& out, std::ostream& err,
                          const std::function<void()>& onHang) {
    // Libraries may throw; nothing of theirs may end the program without a word.
    try {
        return parseAndRun(args, out, err, onHang);
    } catch (const std::exception& error) {
        return tell(err, ExitStatus::unsolvable, std::string("the call could not be carried out: ") + error.what());
    }
}

}  // namespace ohmwright
