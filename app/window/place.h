/// The places of the window: what fills it between the header and the lower edge.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"

#include <array>

namespace ohmwright {

enum class Place { map, draw, board, checkList, drawer, papers, history };
inline constexpr std::array allPlaces{Place::map,    Place::draw,   Place::board,  Place::checkList,
                                      Place::drawer, Place::papers, Place::history};

/// "Check list", to be said where it is shown.
constexpr const char* placeName(Place place) {
    switch (place) {
        case Place::map:
            return toSay("Map");
        case Place::draw:
            return toSay("Draw");
        case Place::board:
            return toSay("Board");
        case Place::checkList:
            return toSay("Check list");
        case Place::drawer:
            return toSay("Drawer");
        case Place::papers:
            return toSay("Papers");
        case Place::history:
            return toSay("History");
    }
    return "";
}

/// The action that goes there: "place.checkList".
constexpr const char* placeAction(Place place) {
    switch (place) {
        case Place::map:
            return "place.map";
        case Place::draw:
            return "place.draw";
        case Place::board:
            return "place.board";
        case Place::checkList:
            return "place.checkList";
        case Place::drawer:
            return "place.drawer";
        case Place::papers:
            return "place.papers";
        case Place::history:
            return "place.history";
    }
    return "";
}

}  // namespace ohmwright
