// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board.h"

#include "core/base/said.h"

#include <algorithm>

namespace ohmwright {

std::string sideWords(BoardSide side) {
    return side == BoardSide::part ? said("part side") : said("solder side");
}

const LegMark* findMark(const BoardFace& face, const Leg& leg) {
    const auto found =
        std::find_if(face.marks.begin(), face.marks.end(), [&leg](const LegMark& mark) { return mark.leg == leg; });
    return found != face.marks.end() ? &*found : nullptr;
}

}  // namespace ohmwright
