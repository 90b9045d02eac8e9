// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_numbers.h"

namespace ohmwright {

namespace {

constexpr std::size_t longestName = 200;  // Characters.

bool isDigit(char letter) {
    return letter >= '0' && letter <= '9';
}

}  // namespace

bool requireName(const Word& word, std::string_view what, NetlistLog& log) {
    const std::string named = "The name " + inQuotes(word.text) + " of a " + std::string(what);
    if (word.assigns) {
        log.fault(word.line, "A " + std::string(what) + " is expected where " + inQuotes(word.text + "=" + word.value) +
                                 " stands: put the name there.");
    } else if (word.text.size() > longestName) {
        log.fault(word.line, named + " is longer than 200 characters: shorten it.");
    } else if (word.text.find_first_of("{}'\"") != std::string::npos) {
        log.fault(word.line, named + " is a formula: write the name itself.");
    } else if (word.text.find(',') != std::string::npos) {
        log.fault(word.line, named + " has a comma in it: part names with blanks.");
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
