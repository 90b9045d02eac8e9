// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/place.h"

#include "core/base/said.h"

namespace ohmwright {

const char* placeName(Place place) {
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

const char* placeAction(Place place) {
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
