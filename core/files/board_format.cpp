// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/board_format.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/files/format_lists.h"
#include "core/plan/board_marks.h"

#include <algorithm>

namespace ohmwright {

namespace {

constexpr int mostPins = 64;
constexpr std::size_t hashLength = 16;

std::string_view keyOf(BoardSide side) {
    return side == BoardSide::part ? "partSide" : "solderSide";
}

JsonNode writeMark(const LegMark& mark) {
    JsonNode node = JsonNode::object();
    node.add("part", JsonNode::ofText(mark.leg.part));
    node.add("pin", JsonNode::ofInteger(mark.leg.pin));
    JsonNode at = JsonNode::list();
    at.append(JsonNode::ofNumber(mark.at.x));
    at.append(JsonNode::ofNumber(mark.at.y));
    node.add("at", std::move(at));
    return node;
}

JsonNode writeFace(const BoardFace& face) {
    JsonNode node = JsonNode::object();
    node.add("photo", JsonNode::ofText(face.photo->file));
    node.add("hash", JsonNode::ofText(face.photo->hash));
    node.add("width", JsonNode::ofInteger(face.photo->width));
    node.add("height", JsonNode::ofInteger(face.photo->height));
    if (!face.marks.empty()) {
        node.add("marks", writeList(face.marks, writeMark));
    }
    return node;
}

bool isPlainFileName(const std::string& name) {
    const bool hasOwnFolder = name.find_first_of("/\\:") != std::string::npos;
    return !name.empty() && name != "." && name != ".." && !hasOwnFolder && oneLine(name) == name;
}

bool isHash(const std::string& text) {
    return text.size() == hashLength && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

BoardPhoto readPhoto(JsonReader& reader) {
    BoardPhoto photo;
    photo.file = reader.text("photo");
    if (!reader.failed() && !isPlainFileName(photo.file)) {
        reader.member("photo").fail(said("a photo lies beside the job: write its name without folders."));
    }
    photo.hash = reader.text("hash");
    if (!reader.failed() && !isHash(photo.hash)) {
        reader.member("hash").fail(said("a photo's hash is 16 digits of 0-9 and a-f."));
    }
    photo.width = reader.integer("width", 1, largestPhotoSide);
    photo.height = reader.integer("height", 1, largestPhotoSide);
    return photo;
}

LegMark readMark(JsonReader& reader, const std::vector<LegMark>& earlier, const BoardPhoto& photo) {
    LegMark mark;
    mark.leg.part = reader.text("part");
    mark.leg.pin = reader.integer("pin", 0, mostPins);
    JsonReader at = reader.member("at");
    std::vector<JsonReader> numbers = at.entries();
    if (!at.failed() && numbers.size() != 2) {
        at.fail(said("a point of a photo is [x, y] in pixels."));
    }
    if (!at.failed()) {
        mark.at = {numbers[0].asNumber(), numbers[1].asNumber()};
    }
    const bool isInside = mark.at.x >= 0.0 && mark.at.y >= 0.0 && mark.at.x <= photo.width && mark.at.y <= photo.height;
    if (!at.failed() && !isInside) {
        at.fail(said("the point lies beside the photo: x is 0 to its width, y 0 to its height."));
    }
    const bool isTaken =
        std::any_of(earlier.begin(), earlier.end(), [&mark](const LegMark& each) { return each.leg == mark.leg; });
    if (!reader.failed() && isTaken) {
        reader.fail(said("this leg is marked twice on one side: take one of them out."));
    }
    reader.keepUnknown();
    return mark;
}

BoardFace readFace(JsonReader reader) {
    BoardFace face;
    face.photo = readPhoto(reader);
    if (std::optional<JsonReader> marks = reader.memberIfThere("marks")) {
        face.marks = readList<LegMark>(*marks, [&face](JsonReader& entry, const std::vector<LegMark>& earlier) {
            return readMark(entry, earlier, *face.photo);
        });
    }
    reader.keepUnknown();
    return face;
}

}  // namespace

void addBoard(JsonNode& node, const Board& board) {
    if (!board.partSide.photo && !board.solderSide.photo) {
        return;
    }
    JsonNode sides = JsonNode::object();
    for (const BoardSide side : boardSides) {
        if (board.face(side).photo) {
            sides.add(std::string(keyOf(side)), writeFace(board.face(side)));
        }
    }
    node.add("board", std::move(sides));
}

Board readBoard(JsonReader& reader) {
    Board board;
    std::optional<JsonReader> sides = reader.memberIfThere("board");
    if (!sides) {
        return board;
    }
    for (const BoardSide side : boardSides) {
        if (std::optional<JsonReader> face = sides->memberIfThere(keyOf(side))) {
            board.face(side) = readFace(*face);
        }
    }
    sides->keepUnknown();
    return board;
}

}  // namespace ohmwright
