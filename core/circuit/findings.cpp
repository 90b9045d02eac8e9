// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/findings.h"

namespace ohmwright {

std::string inWords(const std::vector<std::string>& names) {
    constexpr std::size_t mostNames = 6;
    std::string words;
    const std::size_t shown = std::min(names.size(), mostNames);
    for (std::size_t i = 0; i < shown; ++i) {
        const bool last = i + 1 == shown && shown == names.size();
        words += i == 0 ? names[i] : (last ? " and " : ", ") + names[i];
    }
    return shown < names.size() ? words + " and " + std::to_string(names.size() - shown) + " more" : words;
}

}  // namespace ohmwright
