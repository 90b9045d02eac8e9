/// Edits of a drawing as lines of text: what the map does by pointer and keys, for scripts and tests. Their grammar is
/// editLineGrammar(), which the command line's help prints.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"

#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// How lines are written, with an example of each.
std::string editLineGrammar();

/// One line's edit; of a blank line the circuit as it was.
/// @param models  types that parts can be of.
/// Errors: invalidInput for a line that cannot be read, with what is expected; of the edit itself.
EditResult editByLine(const Circuit& circuit, std::string_view line, const std::vector<Model>& models);

/// All lines in their order. Errors: of the first line that fails, `where` is "line 3"; nothing is edited then.
EditResult editByLines(const Circuit& circuit, std::string_view text, const std::vector<Model>& models);

}  // namespace ohmwright
