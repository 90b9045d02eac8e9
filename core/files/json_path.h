/// Places in a file as text: keys and, in lists, an entry's own "id" or its index, with "/" between them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/json_tree.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// "/" and "~" inside a key are written as in a JSON pointer. Source: RFC 6901.
std::string escapedKey(std::string_view key);

/// "/circuit/parts/c4" in its steps, unescaped. REQUIRES: it is empty or begins with "/".
std::vector<std::string> stepsOfPath(std::string_view path);

/// How an entry of a list is addressed.
std::string stepOfEntry(const JsonNode& entry, std::size_t index);

/// The entry of a list or the member of an object; null where there is none.
JsonNode* childAt(JsonNode& node, const std::string& step);

}  // namespace ohmwright
