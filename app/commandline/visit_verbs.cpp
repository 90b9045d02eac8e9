// Verbs of a unit's stays: readings on coming in, what leaves, what comes back, and what was done in all the years.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/bench/order_of_work.h"
#include "core/bench/unit_history.h"
#include "core/bench/visit_card.h"
#include "core/bench/visits.h"
#include "core/bench/work_log.h"
#include "core/files/job_file.h"
#include "core/files/shop_folder.h"
#include "core/plan/apply.h"

#include <filesystem>
#include <limits>

namespace ohmwright {

namespace {

std::string unitName(Unit unit) {
    return unit == Unit::ampere ? "A" : "V";
}

/// "PLACE=VALUE" each, at places that the drawing has.
Result<std::vector<UnitReading>> readReadings(const std::vector<std::string>& texts,
                                              const std::vector<ExpectedReading>& places) {
    std::vector<UnitReading> readings;
    for (const std::string& text : texts) {
        const std::size_t sign = text.rfind('=');
        if (sign == std::string::npos)
            return refuseOption("--read",
                                "“" + text + "” has no \"=\": write PLACE=VALUE, as in \"Q1 collector=8.9\".");
        const ExpectedReading* place = findPlace(places, text.substr(0, sign));
        if (place == nullptr)
            return refuseOption("--read",
                                "“" + text.substr(0, sign) + "” is no place of this circuit; probes lists them all.");
        const Result<double> value = readFigure("--read", text.substr(sign + 1), place->nominal.unit);
        if (!value) return value.error();
        readings.push_back(place->nominal);
        readings.back().value = *value;
    }
    return readings;
}

const char* verdictOf(const JudgedReading& judged) {
    if (!judged.expected) return "not compared";
    return judged.isOutside ? "outside" : "inside";
}

/// The number of --visit, or the last visit that has ended.
Result<int> visitNumber(const Job& job, const Request& request) {
    const int last = job.departures.empty() ? 0 : job.departures.back().visit.number;
    if (request.visit.empty() && last == 0)
        return refuseOption("--visit", "no visit of this unit has ended: there is nothing to compare with.");
    return readCountOr("--visit", request.visit, 1, std::numeric_limits<int>::max(), last);
}

Result<WrittenFile> asFile(const Result<Job>& job) {
    if (!job) return job.error();
    return WrittenFile{writeJob(*job), {}};
}

}  // namespace

Result<Answer> answerIntake(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Setting& setting = prepared.job->setting;
    auto shown = expectedReadings(prepared.circuit, setting, stop);
    if (!shown) return asCircuitFault(shown.error());
    const auto places = everyReading(prepared.circuit, setting, stop);
    if (!places) return asCircuitFault(places.error());
    const auto readings = readReadings(request.readings, *places);
    if (!readings) return readings.error();
    const std::vector<JudgedReading> judged = judgeReadings(*readings, *places);

    Answer answer{{Table{{"place", "unit", "low", "nominal", "high", "read", "verdict"}, {}}}, {}, {}};
    std::vector<std::vector<Cell>>& rows = answer.tables.front().rows;
    const auto rowOf = [&](const ExpectedReading& each, Cell read, const std::string& verdict) {
        rows.push_back({each.nominal.place, unitName(each.nominal.unit), each.low, each.nominal.value, each.high,
                        std::move(read), verdict});
    };
    for (const JudgedReading& each : judged) {
        rowOf(*each.expected, each.read.value, verdictOf(each));
        if (each.isOutside) answer.notes.push_back(each.sentence + ".");
        std::erase_if(*shown, [&each](const ExpectedReading& open) {
            return open.nominal.place == each.expected->nominal.place;
        });
    }
    for (const ExpectedReading& open : *shown) rowOf(open, Cell(), "not read");
    return answer;
}

Result<Answer> answerReturned(const PreparedCircuit& prepared, const Request& request, const std::stop_token& stop) {
    const Job& job = *prepared.job;
    const auto number = visitNumber(job, request);
    if (!number) return number.error();
    const auto then = jobOfVisit(job, *number);
    if (!then) return then.error();
    const auto left = nowCircuit(*then);
    if (!left) return left.error();
    const auto places = everyReading(*left, then->setting, stop);
    if (!places) return asCircuitFault(places.error());
    const auto readings = readReadings(request.readings, *places);
    if (!readings) return readings.error();
    const auto check = checkReturn(then->departures.back(), *readings, stop);
    if (!check) return asCircuitFault(check.error());
    Answer answer{{Table{{"place", "unit", "left", "back", "limit", "verdict"}, {}}}, {}, {check->sentence}};
    std::vector<std::vector<Cell>>& rows = answer.tables.front().rows;
    for (const ReturnedReading& each : check->readings)
        rows.push_back({each.back.place, unitName(each.back.unit), each.left ? Cell(*each.left) : Cell(),
                        each.back.value, each.left ? Cell(each.limit) : Cell(),
                        std::string(returnVerdictWord(each.verdict))});
    for (const UnitReading& open : then->departures.back().readings) {
        const bool isRead = std::any_of(readings->begin(), readings->end(),
                                        [&open](const UnitReading& each) { return each.place == open.place; });
        if (!isRead)
            rows.push_back({open.place, unitName(open.unit), open.value, Cell(), Cell(), std::string("not read")});
    }
    return answer;
}

Result<Answer> answerProgress(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Job& job = *prepared.job;
    const auto work = orderOfWork(job, stop);
    if (!work) return work.error();
    const WorkLog log(work->steps, job.visit);
    Answer answer{{Table{{"mod", "progress", "steps", "signed"}, {}}}, {}, {}};
    for (const ModProgress& mod : modProgress(work->steps, log)) {
        double steps = 0.0;
        double signedSteps = 0.0;
        for (std::size_t k = 0; k < log.size(); ++k) {
            if (work->steps[k].letter != mod.letter) continue;
            steps += 1.0;
            signedSteps += log.isOpen(k) ? 0.0 : 1.0;
        }
        answer.tables.front().rows.push_back({mod.letter, std::string(modStateWords(mod.state)), steps, signedSteps});
    }
    return answer;
}

Result<Answer> answerHistory(const Request& request, const std::stop_token& stop) {
    std::error_code none;
    if (!std::filesystem::is_directory(request.file, none))
        return Error{ErrorCode::fileUnreadable, request.file + " is no folder: name the one with the job files.",
                     request.file};
    Answer answer{{}, {}, {}};
    std::vector<ShopJob> files = readShopJobs(request.file, stop);
    for (const ShopJob& file : files)
        if (!file.job) answer.notes.push_back(file.fault);
    files = jobsOfUnit(std::move(files), request.serial);
    if (files.empty())
        return refuseOption("--serial", "no job file in " + request.file + " is of a unit “" + request.serial + "”.");
    std::vector<Job> jobs;
    jobs.reserve(files.size());
    for (const ShopJob& file : files) jobs.push_back(*file.job);
    const UnitHistory history = historyOf(jobs);

    Table visits{{"visit", "state", "came", "left", "complaint", "work", "file"}, {}};
    for (const PastVisit& past : history.visits) {
        std::string work;
        for (const std::string& each : past.work) work += (work.empty() ? "" : "; ") + each;
        visits.rows.push_back({double(past.visit.number), std::string(visitStateWord(past.visit.state)),
                               past.visit.date, past.left, past.visit.complaint, work, files[past.job].path.string()});
        for (const std::string& found : past.found)
            answer.notes.push_back("visit " + std::to_string(past.visit.number) + ": " + found);
        for (const std::string& note : past.notes)
            answer.notes.push_back("visit " + std::to_string(past.visit.number) + ": " + note);
    }
    Table pads{{"part", "visits_worked"}, {}};
    for (const PadWork& pad : history.pads) {
        pads.rows.push_back({pad.reference, double(pad.visits)});
        if (pad.isWorn())
            answer.notes.push_back(pad.reference + ": visit " + std::to_string(pad.visits) +
                                   " with iron on its pads; two are their usual life (house figure).");
    }
    answer.tables = {std::move(visits), std::move(pads)};
    answer.notes.insert(answer.notes.end(), history.doubts.begin(), history.doubts.end());
    return answer;
}

Result<WrittenFile> writeCard(const Job& job, const Request& request, const std::stop_token& stop) {
    const auto ifSaid = [](const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); };
    Result<Job> written =
        writeVisitWords(job, {ifSaid(request.complaint), ifSaid(request.agreed), ifSaid(request.condition)});
    if (!written) return written.error();
    if (!request.readings.empty()) {
        const auto places = everyReading(job.stock, job.setting, stop);
        if (!places) return asCircuitFault(places.error());
        const auto readings = readReadings(request.readings, *places);
        if (!readings) return readings.error();
        for (const UnitReading& reading : *readings) {
            written = writeReading(*written, reading);
            if (!written) return written.error();
        }
    }
    if (request.state.empty()) return asFile(written);
    const auto work = orderOfWork(*written, stop);
    if (!work) return asCircuitFault(work.error());
    for (const VisitState state : {VisitState::draft, VisitState::quoted, VisitState::onBench, VisitState::proven}) {
        if (visitStateWord(state) != request.state) continue;
        auto file = asFile(setVisitState(*written, state, &work->steps));
        if (!file) return file;
        for (const VisitNeed& need : needsOf(*written, state, &work->steps))
            if (!need.isMet) file->notes.push_back(need.sentence);
        return file;
    }
    return refuseOption("--state", "choose draft, quoted, on bench or proven.");
}

Result<WrittenFile> writeDeparted(const Job& job, const Request& request, const std::stop_token& stop) {
    std::vector<std::string> unmet;
    std::vector<UnitReading> readings;
    if (!request.readings.empty()) {
        const auto now = nowCircuit(job);
        if (!now) return now.error();
        const auto places = everyReading(*now, job.setting, stop);
        if (!places) return asCircuitFault(places.error());
        auto read = readReadings(request.readings, *places);
        if (!read) return read.error();
        readings = *std::move(read);
    }
    if (const auto work = orderOfWork(job, stop); work && job.visit.state != VisitState::gone)
        for (const VisitNeed& need : needsOf(job, VisitState::gone, &work->steps))
            if (!need.isMet) unmet.push_back(need.sentence);
    auto file = asFile(depart(job, readings, request.when.empty() ? timeOfNow() : request.when));
    if (file && readings.empty())
        file->notes.emplace_back("The record has no readings: a unit that comes back has nothing to be compared with.");
    if (file) file->notes.insert(file->notes.end(), unmet.begin(), unmet.end());
    return file;
}

Result<WrittenFile> writeNextVisit(const Job& job, const Request& request, const std::stop_token&) {
    return asFile(nextVisit(job, request.when.empty() ? dayOfToday() : request.when, request.complaint));
}

Result<WrittenFile> writeEarlierVisit(const Job& job, const Request& request, const std::stop_token&) {
    const auto number = visitNumber(job, request);
    if (!number) return number.error();
    return asFile(jobOfVisit(job, *number));
}

Result<WrittenFile> writeCorrection(const Job& job, const Request& request, const std::stop_token&) {
    const auto number = visitNumber(job, request);
    if (!number) return number.error();
    const std::string day = request.when.empty() ? dayOfToday() : request.when;
    return asFile(addDepartureNote(job, *number, day + ": " + request.note));
}

}  // namespace ohmwright
