/// What is said about the numbers and names of a netlist wherever they stand.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist_words.h"

#include <string>
#include <string_view>

namespace ohmwright {

/// What a name is given to.
enum class NameOf { net, part, pin, subcircuit };

/// False, with a fault, for a name of one of these that is none: empty, over 200 characters, a
/// formula, a number with a comma in it, `name=value`.
bool requireName(const Word& word, NameOf what, NetlistLog& log);

/// Whether the text could be a number or a {formula}, and no keyword.
bool looksLikeValue(std::string_view text);

}  // namespace ohmwright
