/// The lines of a netlist: which of them belong together, and what of them is comment.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_log.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A line with its continuations, as it stands in the file.
struct Card {
    std::string_view raw;
    int line = 0;  ///< The first one, from 1.
};

struct NetlistLines {
    std::string title;
    std::vector<Card> cards;  ///< Without comments and empty lines, up to `.end`.
};

/// The text must outlive the cards. Lines end with LF, CR LF or CR; a byte-order mark is no part of the title. Comments
/// and empty lines between a card and its continuation are allowed.
/// Faults: zero bytes, UTF-16, a continuation of nothing, a card of over a million characters, over 500,000 cards.
NetlistLines splitLines(std::string_view text, NetlistLog& log);

/// A card as one line, without comments.
struct CardText {
    /// Where a line of the file begins in the text.
    struct LineStart {
        std::size_t at = 0;
        int line = 0;
    };

    std::string text;
    std::vector<LineStart> starts;

    [[nodiscard]] int lineAt(std::size_t position) const;
};

/// Comments: from `;` on, from a `$` that stands alone on, whole lines that begin with `*`.
/// Faults (and nothing): control characters, what is no UTF-8.
std::optional<CardText> joinCard(const Card& card, NetlistLog& log);

bool isBlank(char letter);
/// The first word of a card, lower case.
std::string firstWord(std::string_view raw);
/// What is no UTF-8, and control characters, become question marks.
std::string readableText(std::string_view text);

}  // namespace ohmwright
