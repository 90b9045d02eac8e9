// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/board_sheet.h"

#include "core/base/said.h"
#include "core/bench/place_hint.h"
#include "core/board/board_legs.h"
#include "core/board/side_map.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

void placeDrawn(BoardSheet& sheet, const Circuit& circuit) {
    const DrawnBoard board = drawBoard(circuit);
    sheet.drawn = sheet.side == BoardSide::part ? board : mirrored(board);
    sheet.width = board.width;
    sheet.height = board.height;
    for (PlacedLeg& leg : sheet.legs) {
        for (const DrawnBody& body : sheet.drawn.bodies) {
            for (const LegMark& drawn : body.legs) {
                if (drawn.leg == leg.leg) {
                    leg.place = LegPlace::drawn;
                    leg.at = drawn.at;
                }
            }
        }
    }
}

void placeMarked(BoardSheet& sheet, const Board& board) {
    const BoardFace& own = board.face(sheet.face);
    const BoardFace& other = board.face(otherSide(sheet.face));
    const std::optional<SideMap> sides = sideMap(board);
    const auto isOnSheet = [&sheet](const BoardPoint& at) {
        return at.x >= 0.0 && at.y >= 0.0 && at.x <= sheet.width && at.y <= sheet.height;
    };
    for (PlacedLeg& leg : sheet.legs) {
        const LegMark* across = findMark(other, leg.leg);
        if (const LegMark* mark = findMark(own, leg.leg)) {
            leg.place = LegPlace::marked;
            leg.at = sheet.turned(mark->at);
        } else if (sides && across != nullptr) {
            const BoardPoint at = sides->across(otherSide(sheet.face), across->at);
            leg.place = isOnSheet(at) ? LegPlace::carried : LegPlace::unknown;
            leg.at = at;
        }
    }
}

/// The places of a part's legs, by pin; nothing when one is unknown.
std::vector<std::pair<int, BoardPoint>> placesOf(const BoardSheet& sheet, const PartId& part) {
    std::vector<std::pair<int, BoardPoint>> places;
    for (const PlacedLeg& leg : sheet.legs) {
        if (leg.leg.part == part) {
            if (leg.place == LegPlace::unknown) {
                return {};
            }
            places.emplace_back(leg.leg.pin, leg.at);
        }
    }
    return places;
}

/// said("the left one"), said("the middle one"), "the second from above": along the line in which the legs stand.
std::string placeInRow(std::vector<std::pair<int, BoardPoint>> places, int pin) {
    const auto span = [&places](double BoardPoint::*axis) {
        const auto [low, high] = std::minmax_element(
            places.begin(), places.end(),
            [axis](const auto& one, const auto& other) { return one.second.*axis < other.second.*axis; });
        return high->second.*axis - low->second.*axis;
    };
    const bool isLying = span(&BoardPoint::x) >= span(&BoardPoint::y);
    std::sort(places.begin(), places.end(), [isLying](const auto& one, const auto& other) {
        return isLying ? one.second.x < other.second.x : one.second.y < other.second.y;
    });
    const auto found =
        std::find_if(places.begin(), places.end(), [pin](const auto& each) { return each.first == pin; });
    if (found == places.begin()) {
        return isLying ? said("the left one") : said("the upper one");
    }
    if (found == places.end() - 1) {
        return isLying ? said("the right one") : said("the lower one");
    }
    if (places.size() == 3) {
        return said("the middle one");
    }
    const std::string number = std::to_string(found - places.begin() + 1);
    return isLying ? said("number %1 from the left", {number}) : said("number %1 from above", {number});
}

}  // namespace

const PlacedLeg* BoardSheet::find(const Leg& leg) const {
    const auto found =
        std::find_if(legs.begin(), legs.end(), [&leg](const PlacedLeg& each) { return each.leg == leg; });
    return found != legs.end() ? &*found : nullptr;
}

int BoardSheet::unknown() const {
    return static_cast<int>(
        std::count_if(legs.begin(), legs.end(), [](const PlacedLeg& leg) { return leg.place == LegPlace::unknown; }));
}

BoardSheet boardSheet(const Board& board, const Circuit& circuit, BoardSide side) {
    BoardSheet sheet;
    sheet.side = sheet.face = side;
    for (const Leg& leg : legsOnBoard(circuit)) {
        sheet.legs.push_back({leg, netAt(circuit, leg), LegPlace::unknown, {}});
    }
    if (board.face(side).photo) {
        sheet.ground = BoardSheet::Ground::photo;
    } else if (board.face(otherSide(side)).photo) {
        sheet.ground = BoardSheet::Ground::photoThrough;
        sheet.face = otherSide(side);
    } else {
        placeDrawn(sheet, circuit);
        return sheet;
    }
    sheet.width = board.face(sheet.face).photo->width;
    sheet.height = board.face(sheet.face).photo->height;
    placeMarked(sheet, board);
    return sheet;
}

std::string sheetWords(const BoardSheet& sheet) {
    switch (sheet.ground) {
        case BoardSheet::Ground::drawn:
            return said("Drawn from the circuit, not your board.");
        case BoardSheet::Ground::photoThrough:
            return sheet.side == BoardSide::solder
                       ? said("The part side seen through the board: the solder side has no photo.")
                       : said("The solder side seen through the board: the part side has no photo.");
        case BoardSheet::Ground::photo:
            return {};
    }
    return {};
}

std::string unmarkedWords(const BoardSheet& sheet) {
    const int unknown = sheet.unknown();
    return unknown == 0
               ? std::string()
               : said("%1 of %2 legs are not marked.", {std::to_string(unknown), std::to_string(sheet.legs.size())});
}

std::optional<Leg> nextUnmarked(const BoardSheet& sheet, const PartId& part, const std::optional<Leg>& after) {
    const auto isOpen = [](const PlacedLeg& leg) { return leg.place == LegPlace::unknown; };
    const auto own = std::find_if(sheet.legs.begin(), sheet.legs.end(),
                                  [&](const PlacedLeg& leg) { return leg.leg.part == part && isOpen(leg); });
    if (own != sheet.legs.end()) {
        return own->leg;
    }
    auto from = sheet.legs.begin();
    if (after) {
        from = std::find_if(sheet.legs.begin(), sheet.legs.end(),
                            [&after](const PlacedLeg& leg) { return leg.leg == *after; });
    }
    auto next = std::find_if(from, sheet.legs.end(), isOpen);
    if (next == sheet.legs.end()) {
        next = std::find_if(sheet.legs.begin(), from, isOpen);
        return next != from ? std::optional<Leg>(next->leg) : std::nullopt;
    }
    return next->leg;
}

std::optional<Leg> legNear(const BoardSheet& sheet, const BoardPoint& at, double reach) {
    std::optional<Leg> nearest;
    for (const PlacedLeg& leg : sheet.legs) {
        const double distance = std::hypot(leg.at.x - at.x, leg.at.y - at.y);
        if (leg.place != LegPlace::unknown && distance <= reach) {
            reach = distance;
            nearest = leg.leg;
        }
    }
    return nearest;
}

std::string placeOnBody(const Circuit& circuit, const BoardSheet& sheet, const Leg& leg) {
    const Part* part = findPart(circuit, leg.part);
    if (part == nullptr) {
        return {};
    }
    if (part->kind == PartKind::opamp || part->kind == PartKind::triode || part->kind == PartKind::pentode) {
        return placeHint(circuit, {leg.part, leg.pin, {}, {}});
    }
    const std::vector<std::pair<int, BoardPoint>> places = placesOf(sheet, leg.part);
    const bool isKnown =
        std::any_of(places.begin(), places.end(), [&leg](const auto& each) { return each.first == leg.pin; });
    // Which leg of a drawn transistor is which hangs on its type: the drawn board does not know.
    if (!isKnown ||
        (sheet.ground == BoardSheet::Ground::drawn && places.size() > 2 && part->kind != PartKind::potentiometer)) {
        return placeHint(circuit, {leg.part, leg.pin, {}, {}});
    }
    return placeInRow(places, leg.pin);
}

std::string whereWords(const Circuit& circuit, const BoardSheet& sheet, const Leg& leg) {
    const PlacedLeg* placed = sheet.find(leg);
    const Part* part = findPart(circuit, leg.part);
    if (placed == nullptr || part == nullptr) {
        return {};
    }
    const std::string name = legWords(circuit, leg);
    const std::string on = placeOnBody(circuit, sheet, leg);
    if (placed->place == LegPlace::unknown) {
        const std::string hint = !on.empty() ? on : part->boardNote;
        const std::string prompt = markPrompt(circuit, leg);
        return hint.empty() ? said("%1.", {prompt}) : said("%1 (%2).", {prompt, hint});
    }
    if (placed->place == LegPlace::carried) {
        return said("%1 is marked on the other side; here it is carried over.", {name});
    }
    return on.empty() ? std::string() : said("%1: %2.", {name, on});
}

std::optional<DrawnRect> cropAround(const BoardSheet& sheet, std::span<const Leg> legs) {
    std::optional<DrawnRect> box;
    for (const Leg& leg : legs) {
        const PlacedLeg* placed = sheet.find(leg);
        if (placed == nullptr || placed->place == LegPlace::unknown) {
            continue;
        }
        const BoardPoint at = placed->at;
        if (!box) {
            box = DrawnRect{at.x, at.y, 0.0, 0.0};
            continue;
        }
        const double right = std::max(box->right(), at.x), bottom = std::max(box->bottom(), at.y);
        box->left = std::min(box->left, at.x);
        box->top = std::min(box->top, at.y);
        box->width = right - box->left;
        box->height = bottom - box->top;
    }
    if (!box) {
        return box;
    }
    // An eighth of the board around the legs: neighbours tell where one is.
    const double around = std::max(sheet.width, sheet.height) / 8.0;
    const double left = std::max(0.0, box->left - around), top = std::max(0.0, box->top - around);
    const double right = std::min(sheet.width, box->right() + around);
    const double bottom = std::min(sheet.height, box->bottom() + around);
    return DrawnRect{left, top, right - left, bottom - top};
}

}  // namespace ohmwright
