/// A language of a few sentences, spoken while it lives: that a sentence is asked for whole, and that its fillings may
/// stand in another order.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"

#include <initializer_list>
#include <map>
#include <string>
#include <utility>

namespace ohmwright::test {

/// One at a time.
class Spoken {
public:
    Spoken(std::initializer_list<std::pair<const std::string, std::string>> sentences) {
        known() = sentences;
        setTranslation([](const char* english) {
            const auto found = known().find(english);
            return found == known().end() ? std::string(english) : found->second;
        });
    }
    ~Spoken() { setTranslation(nullptr); }
    Spoken(const Spoken&) = delete;
    Spoken& operator=(const Spoken&) = delete;

private:
    static std::map<std::string, std::string>& known() {
        static std::map<std::string, std::string> sentences;
        return sentences;
    }
};

}  // namespace ohmwright::test
