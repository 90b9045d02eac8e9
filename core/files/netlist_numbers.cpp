// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_numbers.h"

#include "core/base/said.h"

#include <array>
#include <cstddef>

namespace ohmwright {

namespace {

constexpr std::size_t longestName = 200;  // Characters.

/// What is called so, and the sentence where something else stands in its place.
struct NameWords {
    const char* one;
    const char* expected;
};

/// In NameOf's order.
constexpr std::array<NameWords, 4> nameWords{{
    {toSay("a net"), toSay("A net is expected where %1 stands: put the name there.")},
    {toSay("a part"), toSay("A part is expected where %1 stands: put the name there.")},
    {toSay("a pin"), toSay("A pin is expected where %1 stands: put the name there.")},
    {toSay("a subcircuit"), toSay("A subcircuit is expected where %1 stands: put the name there.")},
}};

bool isDigit(char letter) {
    return letter >= '0' && letter <= '9';
}

}  // namespace

bool requireName(const Word& word, NameOf what, NetlistLog& log) {
    const NameWords& words = nameWords.at(static_cast<std::size_t>(what));
    const std::string name = inQuotes(word.text);
    const std::string one = said(words.one);
    if (word.assigns) {
        log.fault(word.line, said(words.expected, inQuotes(word.text + "=" + word.value)));
    } else if (word.text.size() > longestName) {
        log.fault(word.line, said("The name %1 of %2 is longer than 200 characters: shorten it.", name, one));
    } else if (word.text.find_first_of("{}'\"") != std::string::npos) {
        log.fault(word.line, said("The name %1 of %2 is a formula: write the name itself.", name, one));
    } else if (word.text.find(',') != std::string::npos) {
        log.fault(word.line, said("The name %1 of %2 has a comma in it: part names with blanks.", name, one));
    } else {
        return true;
    }
    return false;
}

bool looksLikeValue(std::string_view text) {
    if (text.empty()) {
        return false;
    }
    if (text.front() == '{') {
        return true;
    }
    const std::size_t sign = text.front() == '+' || text.front() == '-' ? 1 : 0;
    return text.size() > sign && (isDigit(text[sign]) || text[sign] == '.' || text[sign] == '{');
}

}  // namespace ohmwright
