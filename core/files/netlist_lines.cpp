// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_lines.h"

#include "core/base/said.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

using namespace std::string_view_literals;

constexpr std::size_t longestCard = 1'000'000;  // Characters; a card of a drawn circuit has under a hundred.
constexpr std::size_t mostCards = 500'000;      // Above the 200,000 parts that a circuit may have.

/// Goes through the text line by line.
class LineCursor {
public:
    LineCursor(std::string_view text, int line) : m_text(text), m_line(line - 1) {}

    /// Without its end; false after the last one.
    bool next() {
        if (m_next >= m_text.size()) {
            return false;
        }
        ++m_line;
        m_begin = m_next;
        const std::size_t end = std::min(m_text.find_first_of("\r\n", m_begin), m_text.size());
        m_content = m_text.substr(m_begin, end - m_begin);
        const bool pair = m_text.substr(end, 2) == "\r\n";
        m_next = end + (pair ? 2 : 1);
        return true;
    }

    [[nodiscard]] std::string_view content() const { return m_content; }
    [[nodiscard]] int line() const { return m_line; }
    [[nodiscard]] std::size_t begin() const { return m_begin; }
    [[nodiscard]] std::size_t end() const { return m_begin + m_content.size(); }
    [[nodiscard]] std::string_view rest() const { return m_text.substr(std::min(m_next, m_text.size())); }

private:
    std::string_view m_text;
    std::size_t m_next = 0;
    std::size_t m_begin = 0;
    std::string_view m_content;
    int m_line;
};

std::string_view withoutLeadingBlanks(std::string_view text) {
    std::size_t begin = 0;
    while (begin < text.size()) {
        if (isBlank(text[begin])) {
            ++begin;
        } else if (text.substr(begin, 2) == "\xC2\xA0") {  // The no-break space of copied web pages.
            begin += 2;
        } else {
            break;
        }
    }
    return text.substr(begin);
}

/// Empty, or a comment as a whole. A lone SUB is the end sign of old editors.
bool saysNothing(std::string_view trimmed) {
    return trimmed.empty() || trimmed.front() == '*' || trimmed.front() == ';' || trimmed.front() == '$' ||
           trimmed == "\x1A";
}

std::string_view withoutComment(std::string_view line) {
    line = line.substr(0, line.find(';'));
    for (std::size_t at = line.find('$'); at != std::string_view::npos; at = line.find('$', at + 1)) {
        const bool freeBefore = at == 0 || isBlank(line[at - 1]);
        const bool freeAfter = at + 1 == line.size() || isBlank(line[at + 1]);
        if (freeBefore && freeAfter) {
            return line.substr(0, at);
        }
    }
    return line;
}

/// Bytes of the UTF-8 character that begins here; 0 when it is none.
std::size_t characterBytes(std::string_view text) {
    const auto first = static_cast<unsigned char>(text.front());
    if (first < 0x80U) {
        return 1;
    }
    const std::size_t bytes = first >= 0xF0U ? 4 : first >= 0xE0U ? 3 : 2;
    if (first < 0xC2U || first > 0xF4U || text.size() < bytes) {
        return 0;
    }
    for (std::size_t index = 1; index < bytes; ++index) {
        if ((static_cast<unsigned char>(text[index]) & 0xC0U) != 0x80U) {
            return 0;
        }
    }
    return bytes;
}

bool isControl(char letter) {
    const auto code = static_cast<unsigned char>(letter);
    return (code < 0x20U && !isBlank(letter)) || code == 0x7FU;
}

/// Appends a line of the file with every kind of blank as a space. False when it is no text.
bool appendText(std::string& text, std::string_view line, int number, NetlistLog& log) {
    while (!line.empty()) {
        const std::size_t bytes = characterBytes(line);
        if (bytes == 0 || isControl(line.front())) {
            log.fault(number, said("The line holds bytes that are no text (neither ASCII nor UTF-8): save the file as "
                                   "plain text in UTF-8 and delete the odd character after %1.",
                                   inQuotes(text.substr(text.size() - std::min<std::size_t>(text.size(), 12)))));
            return false;
        }
        const std::string_view character = line.substr(0, bytes);
        text += isBlank(line.front()) || character == "\xC2\xA0" ? " "sv : character;
        line.remove_prefix(bytes);
    }
    return true;
}

int linesBefore(std::string_view text, std::size_t end) {
    return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n'));
}

/// False when the bytes are no text at all.
bool isText(std::string_view text, NetlistLog& log) {
    if (text.starts_with("\xFF\xFE"sv) || text.starts_with("\xFE\xFF"sv)) {
        log.fault(1, said("The file is text in UTF-16: save it again as plain text in UTF-8."));
        return false;
    }
    const std::size_t zero = text.find('\0');
    if (zero != std::string_view::npos) {
        log.fault(linesBefore(text, zero),
                  said("A zero byte stands in this line: the file is no text and no netlist."));
        return false;
    }
    return true;
}

/// Whether anything but comments comes after `.end`.
void noteRest(const LineCursor& endCard, NetlistLog& log) {
    LineCursor cursor(endCard.rest(), endCard.line() + 1);
    while (cursor.next()) {
        if (!saysNothing(withoutLeadingBlanks(cursor.content()))) {
            log.note(cursor.line(), said("What stands after .end is ignored, from %1 on.", inQuotes(cursor.content())));
            return;
        }
    }
}

}  // namespace

bool isBlank(char letter) {
    return letter == ' ' || letter == '\t' || letter == '\f' || letter == '\v';
}

std::string firstWord(std::string_view raw) {
    raw = withoutLeadingBlanks(raw);
    const std::size_t end = raw.find_first_of(" \t\f\v\r\n;(=");
    return inLowerCase(raw.substr(0, std::min<std::size_t>({end, raw.size(), 64})));
}

std::string readableText(std::string_view text) {
    std::string readable;
    while (!text.empty()) {
        const std::size_t bytes = characterBytes(text);
        const bool sound = bytes > 0 && !isControl(text.front());
        readable += sound ? text.substr(0, bytes) : "?"sv;
        text.remove_prefix(std::max<std::size_t>(bytes, 1));
    }
    return readable;
}

NetlistLines splitLines(std::string_view text, NetlistLog& log) {
    NetlistLines lines;
    if (!isText(text, log)) {
        return lines;
    }
    if (text.starts_with("\xEF\xBB\xBF")) {
        text.remove_prefix(3);
    }
    LineCursor cursor(text, 1);
    if (cursor.next()) {
        lines.title = readableText(cursor.content().substr(0, longestCard));
    }
    std::size_t length = 0;
    while (cursor.next()) {
        const std::string_view trimmed = withoutLeadingBlanks(cursor.content());
        if (saysNothing(trimmed)) {
            continue;
        }
        if (trimmed.front() != '+') {
            if (firstWord(trimmed) == ".end") {
                noteRest(cursor, log);
                return lines;
            }
            lines.cards.push_back({cursor.content(), cursor.line()});
            length = cursor.content().size();
        } else if (lines.cards.empty()) {
            log.fault(cursor.line(), said("The line goes on with +, but no card stands before it: delete the + or put "
                                          "the card's first line above."));
            return lines;
        } else {
            Card& card = lines.cards.back();
            const auto begin = static_cast<std::size_t>(card.raw.data() - text.data());
            card.raw = text.substr(begin, cursor.end() - begin);
            length += cursor.content().size();
        }
        if (length > longestCard) {
            log.fault(lines.cards.back().line, said("The card is longer than 1,000,000 characters: divide it."));
            return lines;
        }
        if (lines.cards.size() > mostCards) {
            log.fault(cursor.line(), said("The file has more than 500,000 cards: leave out what is not asked for."));
            return lines;
        }
    }
    return lines;
}

int CardText::lineAt(std::size_t position) const {
    const auto after = std::upper_bound(starts.begin(), starts.end(), position,
                                        [](std::size_t at, const LineStart& start) { return at < start.at; });
    return after == starts.begin() ? starts.front().line : std::prev(after)->line;
}

std::optional<CardText> joinCard(const Card& card, NetlistLog& log) {
    CardText joined;
    LineCursor cursor(card.raw, card.line);
    while (cursor.next()) {
        std::string_view content = withoutLeadingBlanks(cursor.content());
        if (saysNothing(content)) {
            continue;
        }
        if (!joined.starts.empty()) {
            content.remove_prefix(1);  // The plus sign.
            joined.text += ' ';
        }
        joined.starts.push_back({joined.text.size(), cursor.line()});
        if (!appendText(joined.text, withoutComment(content), cursor.line(), log)) {
            return std::nullopt;
        }
    }
    return joined;
}

}  // namespace ohmwright
