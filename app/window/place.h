/// The places of the window: what fills it between the header and the lower edge.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

namespace ohmwright {

enum class Place { map, draw, board, checkList, drawer, papers, history };
inline constexpr std::array allPlaces{Place::map,    Place::draw,   Place::board,  Place::checkList,
                                      Place::drawer, Place::papers, Place::history};

/// "Check list", to be said where it is shown.
const char* placeName(Place place);

/// The action that goes there: "place.checkList".
const char* placeAction(Place place);

}  // namespace ohmwright
