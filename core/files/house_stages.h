/// The stage pieces that come with the program, as they stand in resources/stages/pieces.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace ohmwright {

struct HouseStageText {
    std::string_view id;  ///< "soft-clip"
    std::string_view text;
};

/// In the order of the shelf; ends and supplies last.
std::span<const HouseStageText> houseStageTexts();

}  // namespace ohmwright
