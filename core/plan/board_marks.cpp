// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_marks.h"

#include "core/base/said.h"
#include "core/plan/apply.h"
#include "core/plan/board_walk.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace ohmwright {

namespace {

Error refusal(const std::string& sentence) {
    return Error{ErrorCode::invalidInput, sentence, {}};
}

bool hasLeg(const Circuit& circuit, const Leg& leg) {
    const Part* part = findPart(circuit, leg.part);
    return part != nullptr && isOnBoard(circuit, *part) && leg.pin >= 0 && leg.pin < pinCount(part->kind);
}

bool isLegOfUnit(const Job& job, const Leg& leg) {
    if (hasLeg(job.stock, leg)) {
        return true;
    }
    const Result<Circuit> now = nowCircuit(job);
    return now && hasLeg(*now, leg);
}

bool isInside(const BoardPhoto& photo, const BoardPoint& at) {
    return std::isfinite(at.x) && std::isfinite(at.y) && at.x >= 0.0 && at.y >= 0.0 && at.x <= photo.width &&
           at.y <= photo.height;
}

/// "C4 Cg", or the id of a part that is not there.
std::string nameOf(const Job& job, const PartId& id) {
    const Part* part = findPart(job.stock, id);
    return part != nullptr ? displayName(*part) : id;
}

}  // namespace

Result<Job> setBoardPhoto(const Job& job, BoardSide side, const BoardPhoto& photo) {
    const bool isSize =
        photo.width > 0 && photo.height > 0 && photo.width <= largestPhotoSide && photo.height <= largestPhotoSide;
    if (!isSize || photo.file.empty()) {
        return refusal(said("A photo has a name and 1 to %1 pixels each way.", {std::to_string(largestPhotoSide)}));
    }
    Job edited = job;
    BoardFace& face = edited.board.face(side);
    const bool isSame = face.photo && face.photo->hash == photo.hash && face.photo->width == photo.width &&
                        face.photo->height == photo.height;
    face.photo = photo;
    if (!isSame) {
        face.marks.clear();
    }
    return edited;
}

Result<Job> removeBoardPhoto(const Job& job, BoardSide side) {
    if (!job.board.face(side).photo) {
        return refusal(said("The %1 has no photo.", {sideWords(side)}));
    }
    Job edited = job;
    edited.board.face(side) = BoardFace();
    return edited;
}

Result<Job> markLeg(const Job& job, BoardSide side, const Leg& leg, const BoardPoint& at) {
    const BoardFace& face = job.board.face(side);
    if (!face.photo) {
        return refusal(said("The %1 has no photo to mark a leg on: add one first.", {sideWords(side)}));
    }
    if (!isLegOfUnit(job, leg)) {
        return refusal(said("%1 has no leg %2 on the board: name a part and a leg that the drawing has.",
                            {nameOf(job, leg.part), std::to_string(leg.pin + 1)}));
    }
    if (!isInside(*face.photo, at)) {
        return refusal(said("The point lies beside the photo, which is %1 by %2 pixels: choose one on it.",
                            {std::to_string(face.photo->width), std::to_string(face.photo->height)}));
    }
    Job edited = job;
    std::vector<LegMark>& marks = edited.board.face(side).marks;
    const auto old = std::find_if(marks.begin(), marks.end(), [&leg](const LegMark& mark) { return mark.leg == leg; });
    if (old != marks.end()) {
        old->at = at;
    } else {
        marks.push_back({leg, at});
    }
    return edited;
}

Result<Job> unmarkLeg(const Job& job, BoardSide side, const Leg& leg) {
    if (findMark(job.board.face(side), leg) == nullptr) {
        return refusal(said("Leg %1 of %2 is not marked on the %3.",
                            {std::to_string(leg.pin + 1), nameOf(job, leg.part), sideWords(side)}));
    }
    Job edited = job;
    std::erase_if(edited.board.face(side).marks, [&leg](const LegMark& mark) { return mark.leg == leg; });
    return edited;
}

}  // namespace ohmwright
