// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_words.h"

#include "core/base/said.h"

#include <algorithm>
#include <cctype>

namespace ohmwright {

namespace {

bool isDigit(char letter) {
    return letter >= '0' && letter <= '9';
}

bool isNameLetter(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}

bool isQuote(char letter) {
    return letter == '\'' || letter == '"';
}

char closingOf(char opening) {
    return opening == '(' ? ')' : opening == '{' ? '}' : opening;
}

std::string oneLetter(char letter) {
    return {'"' == letter ? '\'' : '"', letter, '"' == letter ? '\'' : '"'};
}

/// Every bracket and quote of a card has its other half.
bool bracketsMatch(const CardText& card, NetlistLog& log) {
    std::vector<std::size_t> open;
    const std::string& text = card.text;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char letter = text[at];
        const bool closes = !open.empty() && letter == closingOf(text[open.back()]);
        if (closes) {
            open.pop_back();
        } else if (letter == '(' || letter == '{' || isQuote(letter)) {
            open.push_back(at);
        } else if (letter == ')' || letter == '}') {
            log.fault(card.lineAt(at),
                      said("A closing %1 stands here that nothing opens: delete it or put the opening bracket in.",
                           oneLetter(letter)));
            return false;
        }
    }
    if (!open.empty()) {
        const std::string opening = oneLetter(text[open.back()]);
        const std::string closing = oneLetter(closingOf(text[open.back()]));
        const std::string rest = text.substr(open.back() + 1, 24);
        log.fault(card.lineAt(open.back()),
                  rest.empty() ? said("The %1 at the end is never closed: put the closing %2 in.", opening, closing)
                               : said("The %1 before %2 is never closed: put the closing %3 in.", opening,
                                      inQuotes(rest), closing));
        return false;
    }
    return true;
}

/// Where the bracket or quote that opens at `at` closes. REQUIRES: bracketsMatch.
std::size_t closingPlace(std::string_view text, std::size_t at) {
    std::string awaited;
    for (; at < text.size(); ++at) {
        const char letter = text[at];
        if (!awaited.empty() && letter == awaited.back()) {
            awaited.pop_back();
            if (awaited.empty()) {
                return at;
            }
        } else if (letter == '(' || letter == '{' || isQuote(letter)) {
            awaited += closingOf(letter);
        }
    }
    return text.size() - 1;
}

std::string formulaOf(std::string_view braced) {
    return "{" + std::string(braced.substr(1, braced.size() - 2)) + "}";
}

class WordSplitter {
public:
    WordSplitter(const CardText& card, NetlistLog& log) : m_card(card), m_text(card.text), m_log(log) {}

    std::optional<std::vector<Word>> split() {
        while (m_at < m_text.size()) {
            const char letter = m_text[m_at];
            if (letter == '(') {
                ++m_depth;
            } else if (letter == ')') {
                closeGroup();
            } else if (letter == '=') {
                if (!readValue()) {
                    return std::nullopt;
                }
                continue;
            } else if (!isSeparator(m_at)) {
                const int line = m_card.lineAt(m_at);
                m_words.push_back({takeText(false), false, {}, line});
                continue;
            }
            ++m_at;
        }
        return std::move(m_words);
    }

private:
    const CardText& m_card;
    std::string_view m_text;
    NetlistLog& m_log;
    std::size_t m_at = 0;
    int m_depth = 0;
    std::vector<Word> m_words;

    void closeGroup() {
        --m_depth;
        if (!m_words.empty()) {
            m_words.back().endsGroup = true;
        }
    }

    [[nodiscard]] bool isSeparator(std::size_t at) const {
        const char letter = m_text[at];
        if (letter == ',') {
            const bool inNumber =
                at > 0 && at + 1 < m_text.size() && isDigit(m_text[at - 1]) && isDigit(m_text[at + 1]);
            return m_depth > 0 || !inNumber;
        }
        return isBlank(letter) || letter == '(';
    }

    /// A word up to what parts it from the next.
    std::string takeText(bool isValue) {
        std::string word;
        while (m_at < m_text.size()) {
            const char letter = m_text[m_at];
            const bool group = letter == '{' || isQuote(letter) || (letter == '(' && isValue);
            if (group) {
                const std::size_t end = closingPlace(m_text, m_at);
                const std::string_view inside = m_text.substr(m_at, end + 1 - m_at);
                word += letter == '(' ? std::string(inside) : formulaOf(inside);
                m_at = end + 1;
            } else if (letter == ')' || letter == '=' || isSeparator(m_at)) {
                break;
            } else {
                word += letter;
                ++m_at;
            }
        }
        return word;
    }

    bool readValue() {
        const int line = m_card.lineAt(m_at);
        if (m_words.empty() || m_words.back().assigns) {
            m_log.fault(line, m_words.empty() ? said("No name stands before the first \"=\": write NAME=VALUE.")
                                              : said("Two \"=\" follow each other after %1: write NAME=VALUE, a blank "
                                                     "between two of them.",
                                                     inQuotes(m_words.back().text)));
            return false;
        }
        Word& word = m_words.back();
        word.assigns = true;
        ++m_at;
        while (m_at < m_text.size() && isBlank(m_text[m_at])) {
            ++m_at;
        }
        word.value = takeText(true);
        if (word.value.empty()) {
            m_log.fault(line, said("No value stands after %1: write %2=VALUE.", inQuotes(word.text + "="),
                                   word.text.substr(0, 48)));
        }
        return !word.value.empty();
    }
};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && isBlank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && (isBlank(text.back()) || text.back() == ',')) {
        text.remove_suffix(1);
    }
    return text;
}

/// Places of the `=` that stand outside brackets.
std::vector<std::size_t> assignmentSigns(std::string_view text) {
    std::vector<std::size_t> signs;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char letter = text[at];
        if (letter == '(' || letter == '{' || isQuote(letter)) {
            at = closingPlace(text, at);
        } else if (letter == '=') {
            signs.push_back(at);
        }
    }
    return signs;
}

/// Where the name before an `=` begins; the sign's own place when there is none.
std::size_t nameBefore(std::string_view text, std::size_t sign) {
    std::size_t end = sign;
    while (end > 0 && isBlank(text[end - 1])) {
        --end;
    }
    std::size_t begin = end;
    while (begin > 0 && isNameLetter(text[begin - 1])) {
        --begin;
    }
    return begin == end ? sign : begin;
}

std::string formulaText(std::string_view value) {
    value = trimmed(value);
    const bool whole = value.size() >= 2 && isQuote(value.front()) && closingPlace(value, 0) == value.size() - 1;
    return whole ? formulaOf(value) : std::string(value);
}

}  // namespace

std::string_view withoutBraces(std::string_view text) {
    const bool whole = text.size() >= 2 && text.front() == '{' && closingPlace(text, 0) == text.size() - 1;
    return whole ? text.substr(1, text.size() - 2) : text;
}

std::optional<std::vector<Word>> splitWords(const CardText& card, NetlistLog& log) {
    if (!bracketsMatch(card, log)) {
        return std::nullopt;
    }
    return WordSplitter(card, log).split();
}

std::optional<std::vector<Word>> splitAssignments(const CardText& card, NetlistLog& log) {
    if (!bracketsMatch(card, log)) {
        return std::nullopt;
    }
    const std::string_view text = card.text;
    const std::vector<std::size_t> signs = assignmentSigns(text);
    std::vector<Word> words;
    const std::size_t head = std::min(text.find(' '), text.size());
    std::size_t begin = signs.empty() ? text.size() : nameBefore(text, signs.front());
    const std::string_view stray = trimmed(text.substr(head, begin - std::min(head, begin)));
    if (signs.empty() || begin < head || !stray.empty()) {
        log.fault(card.lineAt(head),
                  stray.empty()
                      ? said(".param has no NAME=VALUE: write .param NAME=VALUE.")
                      : said("The word %1 of .param has no value: write NAME=VALUE for each.", inQuotes(stray)));
        return std::nullopt;
    }
    for (std::size_t index = 0; index < signs.size(); ++index) {
        const std::size_t sign = signs[index];
        const std::string_view name = trimmed(text.substr(begin, sign - begin));
        const std::size_t next = index + 1 < signs.size() ? nameBefore(text, signs[index + 1]) : text.size();
        const std::string value = next > sign ? formulaText(text.substr(sign + 1, next - sign - 1)) : std::string();
        if (name.empty() || value.empty()) {
            log.fault(card.lineAt(sign), name.empty()
                                             ? said("An \"=\" of .param has no name before it.")
                                             : said("No value stands after %1.", inQuotes(std::string(name) + "=")));
            return std::nullopt;
        }
        words.push_back({std::string(name), true, value, card.lineAt(begin)});
        begin = next;
    }
    return words;
}

std::optional<std::vector<Word>> splitLawCard(const CardText& card, NetlistLog& log) {
    if (!bracketsMatch(card, log)) {
        return std::nullopt;
    }
    const std::size_t sign = std::min(card.text.find('='), card.text.size());
    const CardText head{card.text.substr(0, sign), card.starts};
    std::optional<std::vector<Word>> words = WordSplitter(head, log).split();
    if (words && !words->empty() && sign < card.text.size()) {
        Word& last = words->back();
        last.assigns = true;
        last.value = formulaText(std::string_view(card.text).substr(sign + 1));
        last.line = card.lineAt(sign);
    }
    return words;
}

}  // namespace ohmwright
