/// Edits of a drawing as lines of text: what the map does by pointer and keys, for scripts and tests.
///
///     put R 33k at 13,3 turned 1       put "supply sign" "9 V" at 13,3      put G at 4,11
///     put pot 100k at 4,4 long 4       wire 4,8 6,8 6,10                    name 21,4 out
///     move R1 C2 by 2,0                turn R1                              mirror R1
///     erase R1 C2                      unwire 5,8                           stage 10 "Input buffer"
///     frame Supply 0,9 10,16           room 12,0 by 4,0
///
/// Places are columns and rows of the grid. A thing is named by its key or its name (draw_things.h), a part by its
/// reference. Blank lines and what follows # are left out.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/edit.h"

#include <string_view>
#include <vector>

namespace ohmwright {

/// One line's edit; of a blank line the circuit as it was.
/// @param models  types that parts can be of.
/// Errors: invalidInput for a line that cannot be read, with what is expected; of the edit itself.
EditResult editByLine(const Circuit& circuit, std::string_view line, const std::vector<Model>& models);

/// All lines in their order. Errors: of the first line that fails, `where` is "line 3"; nothing is edited then.
EditResult editByLines(const Circuit& circuit, std::string_view text, const std::vector<Model>& models);

}  // namespace ohmwright
