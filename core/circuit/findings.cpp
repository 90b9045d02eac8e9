// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/findings.h"

#include "core/base/said.h"

namespace ohmwright {

std::string inWords(const std::vector<std::string>& names) {
    constexpr std::size_t mostNames = 6;
    std::string words;
    const std::size_t shown = std::min(names.size(), mostNames);
    for (std::size_t i = 0; i < shown; ++i) {
        const bool last = i + 1 == shown && shown == names.size();
        if (last && i > 0) {
            words = said("%1 and %2", words, names[i]);
        } else {
            words += i > 0 ? ", " : "";
            words += names[i];
        }
    }
    return shown < names.size() ? said("%1 and %2 more", words, names.size() - shown) : words;
}

}  // namespace ohmwright
