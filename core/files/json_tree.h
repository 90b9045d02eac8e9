/// JSON as a tree that still knows its lines, so that an error can say where.
///
/// The only place that touches the JSON library; nothing of it shows here.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ohmwright {

/// One value of a JSON text. Keys keep the order of the text.
struct JsonNode {
    enum class Kind { null, boolean, number, text, list, object };

    Kind kind = Kind::null;
    bool boolean = false;
    double number = 0.0;
    std::string text;               ///< Of a text; of a number its digits as written.
    std::vector<std::string> keys;  ///< Of an object, one an item.
    std::vector<JsonNode> items;    ///< Of a list or an object.
    int line = 0;                   ///< Where it starts (1-based); 0 when it was not read.

    static JsonNode ofText(std::string text);
    /// Digits that read back exactly, as few as possible; null when the figure is not finite.
    static JsonNode ofNumber(double number);
    static JsonNode ofInteger(int number);
    static JsonNode ofBoolean(bool boolean);
    static JsonNode list();
    static JsonNode object();

    /// REQUIRES: an object without that key.
    void add(std::string key, JsonNode value);
    /// REQUIRES: a list.
    void append(JsonNode value);
    [[nodiscard]] const JsonNode* find(std::string_view key) const;
    [[nodiscard]] JsonNode* find(std::string_view key);
};

/// Reads one JSON value that fills the text.
/// Errors: fileDamaged, `where` = "line N": not JSON, a key twice in one object, a number beyond double
/// precision's range, more than 60 levels, a million values or 2000 keys in one object.
Result<JsonNode> parseJson(std::string_view text);

/// What of a text can be read before it breaks off or stops being JSON.
struct PartOfJson {
    JsonNode root;               ///< Null when nothing could be read. Of a list only the entries that are whole.
    std::optional<Error> fault;  ///< As parseJson; nothing when the text is whole.
};
PartOfJson parseWhatIsWhole(std::string_view text);

/// UTF-8, two spaces a level, a line break at the end. A list or object inside that fits into 110 columns stands on
/// one line. Bytes that are no UTF-8 become U+FFFD.
std::string printJson(const JsonNode& node);

/// All on one line, without a line break.
std::string printJsonLine(const JsonNode& node);

/// "text", "a number", "a list": what stands there, for sentences.
std::string_view describeKind(JsonNode::Kind kind);

}  // namespace ohmwright
