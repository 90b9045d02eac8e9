/// Sentences for people, in the language of this process.
///
/// Every sentence that a person reads is written in English where it belongs and passes through said(), whole: one
/// format with numbered places, never glued from pieces, because another language orders its words otherwise.
/// Names of files, keys of formats and words of commands do not pass: they are the same in every language.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <concepts>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// Gives the sentence of the chosen language for an English one; the English one where it knows none. Called from any
/// thread.
using Translation = std::string (*)(const char* english);

/// Once at start, before anything is said, and while no other thread says anything. nullptr is English.
void setTranslation(Translation translation);

/// What fills a place of a sentence: words as they are, whole numbers as digits. Figures are words already
/// (core/base/number_text.h).
class Filling {
public:
    Filling(std::string_view words) : m_words(words) {}
    Filling(const std::string& words) : m_words(words) {}
    Filling(const char* words) : m_words(words) {}
    Filling(char letter) : m_words(1, letter) {}
    template <std::integral Number>
    Filling(Number number) : m_words(std::to_string(number)) {}

    [[nodiscard]] const std::string& words() const { return m_words; }

private:
    std::string m_words;
};

/// `english` in the language of this process; %1 to %9 are then replaced by what fills them, once each place and never
/// inside what was filled in. A place without a filling, and any other percent sign, stands as it is.
std::string said(const char* english, std::initializer_list<Filling> fillings = {});

/// said(english, "R1", "3k9"): "%1 is %2." is "R1 is 3k9."
template <class... Fillings>
requires(sizeof...(Fillings) > 0) std::string said(const char* english, const Fillings&... fillings) {
    return said(english, {Filling(fillings)...});
}

/// A word that is an identity where it is kept and is shown all the same: said(kindName(kind)).
inline std::string said(std::string_view word) {
    return said(std::string(word).c_str());
}

/// Names one after the other: "C4", "C4 and R5", "C4, R5 and R6".
std::string saidList(const std::vector<std::string>& names);

/// While one lives, its thread speaks English and writes 4k7 and a decimal point, whatever the process has chosen: for
/// keys that are made of words and for files, which must be the same in every language.
class InEnglish {
public:
    InEnglish();
    ~InEnglish();
    InEnglish(const InEnglish&) = delete;
    InEnglish& operator=(const InEnglish&) = delete;

    [[nodiscard]] static bool isSpoken();

private:
    bool m_before;
};

/// What `words()` says in English: inEnglish([&] { return titleOf(check); }).
template <class Words>
std::string inEnglish(const Words& words) {
    const InEnglish key;
    return words();
}

/// Marks an English sentence of a table, to be said where it is shown: `said(row.name)`.
constexpr const char* toSay(const char* english) {
    return english;
}

}  // namespace ohmwright
