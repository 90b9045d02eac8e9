// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_stem.h"

#include "core/base/text.h"

#include <algorithm>

namespace ohmwright {

std::string fileStem(std::string_view name, std::string_view otherwise) {
    constexpr std::size_t longest = 60;
    std::string stem;
    for (const char c : inLowerCase(name)) {
        const bool isPlain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (isPlain) {
            stem += c;
        } else if (!stem.empty() && stem.back() != '-') {
            stem += '-';
        }
    }
    stem.resize(std::min(stem.size(), longest));
    while (!stem.empty() && stem.back() == '-') {
        stem.pop_back();
    }
    return stem.empty() ? std::string(otherwise) : stem;
}

}  // namespace ohmwright
