/// The words of a card, with `name=value` as one word however it is spaced.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_lines.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// {formulas} keep their braces and blanks; 'formulas' and "formulas" come as {formulas}.
struct Word {
    std::string text;  ///< As written; the name of `name=value`.
    bool assigns = false;
    std::string value;  ///< What stands after the `=`.
    int line = 0;
    bool endsGroup = false;  ///< A ) follows.
};

/// Blanks and brackets part words, and commas too, but for one between two digits (4,7k). In the value after an `=`, a
/// bracket that follows a letter directly belongs to it: R=sqrt(2).
/// Faults (and nothing): an `=` without name or value, two of them in a row; brackets and quotes as in bracketsMatch.
std::optional<std::vector<Word>> splitWords(const CardText& card, NetlistLog& log);

/// `a=1 b = 2*a` of a .param card: a value goes on to the next name.
std::optional<std::vector<Word>> splitAssignments(const CardText& card, NetlistLog& log);

/// A B card: the words before its first `=`, the last of which (V or I) gets all the rest as its value.
std::optional<std::vector<Word>> splitLawCard(const CardText& card, NetlistLog& log);

/// The formula between the braces, or the text itself.
std::string_view withoutBraces(std::string_view text);

}  // namespace ohmwright
