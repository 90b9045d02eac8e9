// Which stored revision a board is, by what a meter reads on it.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/base/value_text.h"
#include "core/bench/which_revision.h"
#include "core/files/job_file.h"
#include "core/files/shop_folder.h"

namespace ohmwright {

namespace {

Cell cellOf(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

/// "Q1 collector=4.43" in volts against ground, "R2 leg 1,ground=55k1" in ohms, "R2 leg 1,ground=none".
Result<SpotReading> readSpot(const std::string& text) {
    const std::size_t sign = text.rfind('=');
    if (sign == std::string::npos)
        return refuseOption("--read", "“" + text +
                                          "” has no \"=\": write PLACE=VOLTS or PLACE,PLACE=OHMS, as in "
                                          "\"Q1 collector=4.43\" and \"R2 leg 1,ground=55.1k\".");
    SpotReading reading;
    const std::string places = text.substr(0, sign);
    const std::size_t comma = places.find(',');
    reading.red = places.substr(0, comma);
    reading.unit = comma == std::string::npos ? Unit::volt : Unit::ohm;
    if (comma != std::string::npos) reading.black = places.substr(comma + 1);
    const std::string value = text.substr(sign + 1);
    if (value == "none") return reading;
    const auto figure = readFigure("--read", value, reading.unit);
    if (!figure) return figure.error();
    reading.value = *figure;
    return reading;
}

/// Those of --against, all of them, else of the shop's other jobs.
Result<std::vector<RevisionCandidate>> candidatesOf(const Job& job, const Request& request,
                                                    const std::stop_token& stop) {
    std::vector<RevisionCandidate> candidates{ownCandidateOf(job)};
    for (const std::string& path : request.against) {
        const auto other = loadJob(path);
        // Of another file than the one that the call is about: it names itself.
        if (!other) return Error{ErrorCode::fileUnreadable, other.error().message, path};
        candidates.push_back(candidateOf(other->job));
        candidates.back().file = path;
    }
    if (request.against.empty()) {
        const std::filesystem::path folder =
            request.shop.empty() ? shopFolderOf(request.file) : std::filesystem::path(request.shop);
        std::vector<Job> stored;
        std::vector<std::string> files;
        if (!folder.empty())
            for (ShopJob& file : readShopJobs(folder, stop))
                if (file.job) {
                    stored.push_back(*std::move(file.job));
                    files.push_back(file.path.string());
                }
        candidates = candidatesFor(job, stored, files);
    } else {
        candidates = withoutTwins(std::move(candidates));
    }
    candidates.front().file = request.file;
    return candidates;
}

/// One row a drawing and reading.
Table tableOf(const std::vector<RevisionCandidate>& candidates, const RevisionRanking& ranking,
              const std::vector<SpotReading>& readings) {
    Table table{{"rank", "drawing", "file", "misfit", "reading", "unit", "read", "expected", "low", "high", "pull"},
                {}};
    double rank = 0.0;
    for (const RevisionFit& fit : ranking.fits) {
        const RevisionCandidate& candidate = candidates[fit.candidate];
        ++rank;
        for (std::size_t k = 0; k < fit.spots.size(); ++k) {
            const SpotFit& spot = fit.spots[k];
            const SpotReading& read = readings[k];
            const bool isBanded = spot.isThere && spot.expected;
            table.rows.push_back({rank, candidate.name, candidate.file, fit.misfit,
                                  read.black.empty() ? read.red : read.red + " to " + read.black,
                                  std::string(read.unit == Unit::ohm ? "ohm" : "V"), cellOf(read.value),
                                  cellOf(spot.expected), isBanded ? Cell(spot.low) : Cell(),
                                  isBanded ? Cell(spot.high) : Cell(), spot.pull});
        }
    }
    return table;
}

}  // namespace

Result<Answer> answerWhichRevision(const PreparedCircuit& prepared, const Request& request,
                                   const std::stop_token& stop) {
    std::vector<SpotReading> readings;
    for (const std::string& text : request.readings) {
        const auto reading = readSpot(text);
        if (!reading) return reading.error();
        readings.push_back(*reading);
    }
    const auto candidates = candidatesOf(*prepared.job, request, stop);
    if (!candidates) return candidates.error();
    const auto ranking = whichRevision(*candidates, readings, stop);
    if (!ranking && ranking.error().code == ErrorCode::invalidInput)
        return refuseOption("--read", ranking.error().message);
    if (!ranking) return asCircuitFault(ranking.error());
    Answer answer{{tableOf(*candidates, *ranking, readings)}, {}, {ranking->sentence}};
    answer.notes.insert(answer.notes.end(), ranking->leftOut.begin(), ranking->leftOut.end());
    return answer;
}

}  // namespace ohmwright
