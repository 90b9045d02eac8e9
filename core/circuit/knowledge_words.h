/// What is known of a part, as files and tables say it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <string_view>

namespace ohmwright {

/// "drawn", "seen", "measured".
constexpr std::string_view knowledgeWord(Knowledge knowledge) {
    switch (knowledge) {
        case Knowledge::drawn:
            return "drawn";
        case Knowledge::seen:
            return "seen";
        case Knowledge::measured:
            break;
    }
    return "measured";
}

}  // namespace ohmwright
