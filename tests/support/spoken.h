/// A language of a few sentences, spoken while it lives: that a sentence is asked for whole, and that its fillings may
/// stand in another order.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"

#include <cctype>
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

/// Every letter of a sentence is a dot: a word that can still be read was never asked for.
class SpokenInDots {
public:
    SpokenInDots() {
        setTranslation([](const char* english) {
            std::string dotted = english;
            for (char& letter : dotted) {
                letter = std::isalpha(static_cast<unsigned char>(letter)) != 0 ? '.' : letter;
            }
            return dotted;
        });
    }
    ~SpokenInDots() { setTranslation(nullptr); }
    SpokenInDots(const SpokenInDots&) = delete;
    SpokenInDots& operator=(const SpokenInDots&) = delete;
};

}  // namespace ohmwright::test
