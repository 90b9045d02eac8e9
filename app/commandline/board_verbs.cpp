// Verbs of the board: its photos, legs marked on them, and what they say.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/job_drawer.h"
#include "app/commandline/verbs.h"
#include "core/base/said.h"
#include "core/board/board_legs.h"
#include "core/board/board_sheet.h"
#include "core/board/pad_heat.h"
#include "core/board/side_map.h"
#include "core/files/file_stem.h"
#include "core/files/job_file.h"
#include "core/files/photo_file.h"
#include "core/plan/board_marks.h"

#include <algorithm>
#include <filesystem>

namespace ohmwright {

namespace {

BoardSide sideOf(const Request& request) {
    return request.boardSide == "solder" ? BoardSide::solder : BoardSide::part;
}

std::filesystem::path folderOf(const std::string& file) {
    std::error_code ignored;
    return std::filesystem::absolute(file, ignored).parent_path();
}

/// The job goes to --out: its photos go along.
const std::string& jobFileOf(const Request& request) {
    return request.out.empty() ? request.file : request.out;
}

Result<Leg> legOf(const Job& job, const Request& request) {
    const auto part = partNamed(job.stock, "--part", request.part);
    if (!part) return part.error();
    const auto pin = pinOfWord(**part, request.leg);
    if (!pin) {
        std::string words;
        for (int each = 0; each < static_cast<int>((*part)->nets.size()); ++each)
            words.append(each == 0 ? "" : ", ").append(legWord(**part, each));
        return refuseOption("--leg", said("%1 has these: %2.", {displayName(**part), words}));
    }
    return standingLeg(job.stock, {(*part)->id, *pin});
}

/// "120,340" in pixels of the photo.
Result<BoardPoint> pointOf(const Request& request) {
    const auto numbers = readFigureList("--at", request.at, Unit::none);
    if (!numbers) return numbers.error();
    if (numbers->size() != 2) return refuseOption("--at", "give X,Y in pixels of the photo, as in 1220,640.");
    return BoardPoint{numbers->front(), numbers->back()};
}

Result<WrittenFile> asFile(const Result<Job>& job) {
    if (!job) return job.error();
    return WrittenFile{writeJob(*job), {}};
}

const char* placeWord(LegPlace place) {
    switch (place) {
        case LegPlace::marked:
            return "marked";
        case LegPlace::carried:
            return "carried over";
        case LegPlace::drawn:
            return "drawn";
        case LegPlace::unknown:
            return "not marked";
    }
    return "";
}

std::string visitHeatWords(const Circuit& circuit, const VisitHeat& heat) {
    const std::string number = std::to_string(heat.visit);
    const std::string heated = heatedWords(circuit, heat.heated);
    return heat.planned.empty() ? said("Pads heated in visit %1: %2.", {number, heated})
                                : said("Pads heated in visit %1: %2. To be heated: %3.",
                                       {number, heated, heatedWords(circuit, heat.planned)});
}

/// What is to be said beside the list, one a sentence.
std::vector<std::string> boardNotes(const PreparedCircuit& prepared, const BoardSheet& sheet,
                                    const std::vector<VisitHeat>& heat, const Request& request) {
    const Board& board = prepared.job->board;
    std::vector<std::string> notes;
    for (const std::string& words : {sheetWords(sheet), unmarkedWords(sheet)})
        if (!words.empty()) notes.push_back(words);
    for (const BoardSide side : boardSides) {
        if (!board.face(side).photo) continue;
        const auto photo = findPhoto(folderOf(request.file), *board.face(side).photo, side);
        if (!photo) notes.push_back(photo.error().message);
    }
    if (const auto sides = sideMap(board)) notes.push_back(sideMapWords(*sides));
    for (const VisitHeat& visit : heat) notes.push_back(visitHeatWords(prepared.circuit, visit));
    return notes;
}

}  // namespace

Result<Answer> answerBoard(const PreparedCircuit& prepared, const Request& request, const std::stop_token&) {
    const auto heat = padHeat(*prepared.job);
    if (!heat) return heat.error();
    const std::map<Leg, int> times = timesHeated(*heat);
    const Circuit& circuit = prepared.circuit;
    const BoardSheet sheet = boardSheet(prepared.job->board, circuit, sideOf(request));
    Answer answer{{Table{{"part", "leg", "net", "net_name", "x", "y", "place", "times_heated", "where"}, {}}}, {}, {}};
    for (const PlacedLeg& leg : sheet.legs) {
        const bool isThere = leg.place != LegPlace::unknown;
        const auto heated = times.find(leg.leg);
        const Part& part = *findPart(circuit, leg.leg.part);
        answer.tables.front().rows.push_back(
            {part.reference, legWord(part, leg.leg.pin), leg.net, netTitle(circuit, leg.net),
             isThere ? Cell(leg.at.x) : Cell(), isThere ? Cell(leg.at.y) : Cell(), std::string(placeWord(leg.place)),
             static_cast<double>(heated != times.end() ? heated->second : 0), whereWords(circuit, sheet, leg.leg)});
    }
    Table nets{{"of_net", "legs", "names"}, {}};
    std::vector<NetName> said;
    for (const PlacedLeg& leg : sheet.legs) {
        if (std::find(said.begin(), said.end(), leg.net) != said.end()) continue;
        said.push_back(leg.net);
        nets.rows.push_back(
            {leg.net, static_cast<double>(legsOfNet(circuit, leg.net).size()), netWords(circuit, leg.net)});
    }
    answer.tables.push_back(std::move(nets));
    answer.notes = boardNotes(prepared, sheet, *heat, request);
    return answer;
}

Result<WrittenFile> writePhoto(const Job& job, const Request& request, const std::stop_token&) {
    const BoardSide side = sideOf(request);
    if (request.photo.empty()) return asFile(removeBoardPhoto(job, side));
    const std::filesystem::path jobFile = jobFileOf(request);
    const std::filesystem::path folder = folderOf(jobFile.string());
    const auto along = copyPhotosAlong(job.board, folderOf(request.file), folder);
    if (!along) return along.error();
    const auto photo = copyPhotoIn(request.photo, folder, fileStem(jobFile.stem().string(), "job"), side);
    // The picture is what the call named; the job's file is sound.
    if (!photo && photo.error().code == ErrorCode::fileDamaged) return refuseOption("--photo", photo.error().message);
    if (!photo) return photo.error();
    auto file = asFile(setBoardPhoto(job, side, *photo));
    if (file)
        file->notes.push_back(said("%1 lies beside the job: %2 by %3 pixels.",
                                   {photo->file, std::to_string(photo->width), std::to_string(photo->height)}));
    return file;
}

Result<WrittenFile> writeLegMarked(const Job& job, const Request& request, const std::stop_token&) {
    const auto leg = legOf(job, request);
    if (!leg) return leg.error();
    const auto at = pointOf(request);
    if (!at) return at.error();
    auto file = asFile(markLeg(job, sideOf(request), *leg, *at));
    if (file) file->notes.push_back(netWords(job.stock, netAt(job.stock, *leg)) + ".");
    return file;
}

Result<WrittenFile> writeLegUnmarked(const Job& job, const Request& request, const std::stop_token&) {
    const auto leg = legOf(job, request);
    if (!leg) return leg.error();
    return asFile(unmarkLeg(job, sideOf(request), *leg));
}

}  // namespace ohmwright
