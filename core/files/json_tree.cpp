// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_tree.h"

#include "core/base/said.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <optional>

namespace ohmwright {

namespace {

using Json = nlohmann::json;

constexpr std::size_t deepestLevel = 60;     // Far above any job; keeps the recursion of the printer bounded.
constexpr std::size_t widestLine = 110;      // Columns; short lists and objects stay on one line.
constexpr double plainIntegersBelow = 1e15;  // Exact in a double.
constexpr std::size_t mostValues = 1000000;  // A job has some thousands; bounds the memory a file can ask for.
constexpr std::size_t mostKeys = 2000;       // Of one object; bounds the time that looking for a key twice takes.
constexpr int overflowedNumberError = 406;   // The library's number for "number overflow".

/// Hands the text over byte by byte and tells how far the parser has come.
class CountingIterator {
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, std::size_t* reached) : m_at(at), m_reached(reached) {}

    reference operator*() const { return *m_at; }
    CountingIterator& operator++() {
        ++m_at;
        ++*m_reached;
        return *this;
    }
    CountingIterator operator++(int) {
        CountingIterator before = *this;
        ++*this;
        return before;
    }
    bool operator==(const CountingIterator& other) const { return m_at == other.m_at; }

private:
    const char* m_at;
    std::size_t* m_reached;  ///< Bytes handed over.
};

/// Builds the tree from the parser's events.
class TreeBuilder : public nlohmann::json_sax<Json> {
public:
    TreeBuilder(std::string_view text, const std::size_t* reached) : m_text(text), m_reached(reached) {}

    bool null() override { return place({}); }
    bool boolean(bool value) override { return place(JsonNode::ofBoolean(value)); }
    bool number_integer(number_integer_t value) override {
        return placeNumber(static_cast<double>(value), std::to_string(value));
    }
    bool number_unsigned(number_unsigned_t value) override {
        return placeNumber(static_cast<double>(value), std::to_string(value));
    }
    bool number_float(number_float_t value, const string_t& digits) override { return placeNumber(value, digits); }
    bool string(string_t& value) override { return place(JsonNode::ofText(std::move(value))); }
    bool binary(binary_t& /*value*/) override { return false; }
    bool start_object(std::size_t /*size*/) override { return open(JsonNode::object()); }
    bool start_array(std::size_t /*size*/) override { return open(JsonNode::list()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(string_t& name) override {
        const std::vector<std::string>& keys = m_open.back().keys;
        if (std::find(keys.begin(), keys.end(), name) != keys.end()) {
            return fail(lineReached(), said("the key \"%1\" stands twice in one object. Remove one of them.", name));
        }
        if (keys.size() >= mostKeys) {
            return fail(lineReached(), said("one object has more than %1 keys; no job does that.", mostKeys));
        }
        m_open.back().keys.push_back(std::move(name));
        return true;
    }

    bool parse_error(std::size_t /*position*/, const std::string& /*token*/, const Json::exception& error) override {
        if (error.id == overflowedNumberError) {
            return fail(lineReached(), said("this number is too large to be a figure. Write the one that was meant."));
        }
        if (*m_reached == m_text.size()) {
            return fail(lineReached(), said("the text breaks off here. Take an earlier copy of the file."));
        }
        return fail(lineReached(), said("this is no JSON. Mend the line or take an earlier copy of the file."));
    }

    /// With a fault: what was open is closed, less the entry of a list that is not whole.
    PartOfJson part() && {
        const auto list = std::find_if(m_open.begin(), m_open.end(),
                                       [](const JsonNode& node) { return node.kind == JsonNode::Kind::list; });
        m_open.erase(list == m_open.end() ? list : list + 1, m_open.end());
        while (!m_open.empty()) {
            JsonNode& last = m_open.back();
            last.keys.resize(std::min(last.keys.size(), last.items.size()));
            JsonNode node = std::move(last);
            m_open.pop_back();
            if (m_open.empty()) {
                m_root = std::move(node);
            } else {
                m_open.back().items.push_back(std::move(node));
            }
        }
        return {std::move(m_root), std::move(m_error)};
    }

private:
    /// The line of the last byte that belongs to the token: after a number the parser is one byte further.
    int lineReached() {
        for (; m_counted + 1 < *m_reached; ++m_counted) {
            m_line += m_text[m_counted] == '\n' ? 1 : 0;
        }
        return m_line;
    }

    bool fail(int line, const std::string& sentence) {
        const std::string where = "line " + std::to_string(line);
        m_error = Error{ErrorCode::fileDamaged, said("In line %1 %2", line, sentence), where};
        return false;
    }

    bool placeNumber(double value, std::string digits) {
        JsonNode node;
        node.kind = JsonNode::Kind::number;
        node.number = value;
        node.text = std::move(digits);
        return place(std::move(node));
    }

    bool place(JsonNode node) {
        if (node.line == 0) {
            node.line = lineReached();
        }
        if (++m_placed > mostValues) {
            return fail(node.line, said("the file has more than a million values; no job does that."));
        }
        (m_open.empty() ? m_root : m_open.back().items.emplace_back()) = std::move(node);
        return true;
    }

    bool open(JsonNode node) {
        if (m_open.size() >= deepestLevel) {
            return fail(
                lineReached(),
                said("lists and objects stand in each other more than %1 deep; no job does that.", deepestLevel));
        }
        node.line = lineReached();
        m_open.push_back(std::move(node));
        return true;
    }

    bool close() {
        JsonNode node = std::move(m_open.back());
        m_open.pop_back();
        return place(std::move(node));
    }

    std::string_view m_text;
    const std::size_t* m_reached;
    std::size_t m_counted = 0;  ///< Line breaks before this byte are in m_line.
    int m_line = 1;
    std::vector<JsonNode> m_open;
    JsonNode m_root;
    std::size_t m_placed = 0;
    std::optional<Error> m_error;
};

bool isPlain(char c) {
    return c >= ' ' && c <= '~' && c != '"' && c != '\\';
}

std::string quoted(const std::string& text) {
    if (std::all_of(text.begin(), text.end(), isPlain)) {
        return '"' + text + '"';
    }
    constexpr int noIndent = -1;
    return Json(text).dump(noIndent, ' ', /*ensure_ascii=*/false, Json::error_handler_t::replace);
}

bool isNest(const JsonNode& node) {
    return node.kind == JsonNode::Kind::list || node.kind == JsonNode::Kind::object;
}

std::string printScalar(const JsonNode& node) {
    switch (node.kind) {
        case JsonNode::Kind::boolean:
            return node.boolean ? "true" : "false";
        case JsonNode::Kind::number:
            return node.text;
        case JsonNode::Kind::text:
            return quoted(node.text);
        default:
            return "null";
    }
}

/// `opened` and `closed` stand inside the brackets, `separator` between the items. Ends early when `printItem` says so.
template <class PrintItem>
bool printNest(const JsonNode& node, const std::string& opened, const std::string& separator, const std::string& closed,
               std::string& out, const PrintItem& printItem) {
    const bool isObject = node.kind == JsonNode::Kind::object;
    out += isObject ? '{' : '[';
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        out += i == 0 ? opened : separator;
        if (isObject) {
            out += quoted(node.keys[i]) + ": ";
        }
        if (!printItem(node.items[i])) {
            return false;
        }
    }
    out += node.items.empty() ? "" : closed;
    out += isObject ? '}' : ']';
    return true;
}

/// On one line behind what `out` holds; false as soon as `out` is longer than `longest`.
bool printLine(const JsonNode& node, std::size_t longest, std::string& out) {
    if (!isNest(node)) {
        out += printScalar(node);
        return out.size() <= longest;
    }
    return printNest(node, "", ", ", "", out, [&](const JsonNode& item) { return printLine(item, longest, out); }) &&
           out.size() <= longest;
}

void printIndented(const JsonNode& node, std::size_t level, std::string& out) {
    std::string line;
    if (!isNest(node) || (level > 0 && printLine(node, widestLine - std::min(widestLine, 2 * level), line))) {
        out += isNest(node) ? line : printScalar(node);
        return;
    }
    const std::string indent(2 * (level + 1), ' ');
    printNest(node, "\n" + indent, ",\n" + indent, "\n" + std::string(2 * level, ' '), out, [&](const JsonNode& item) {
        printIndented(item, level + 1, out);
        return true;
    });
}

}  // namespace

JsonNode JsonNode::ofText(std::string text) {
    JsonNode node;
    node.kind = Kind::text;
    node.text = std::move(text);
    return node;
}

JsonNode JsonNode::ofNumber(double number) {
    JsonNode node;
    if (!std::isfinite(number)) {
        return node;
    }
    std::array<char, 32> digits{};
    // 1000000 rather than 1e+06: a person reads these files too.
    const bool isWhole = number == std::floor(number) && std::abs(number) < plainIntegersBelow;
    const auto end =
        isWhole ? std::to_chars(digits.data(), digits.data() + digits.size(), number, std::chars_format::fixed).ptr
                : std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
    node.kind = Kind::number;
    node.number = number;
    node.text.assign(digits.data(), end);
    if (node.text == "-0") {
        node.text = "-0.0";  // As an integer it would lose its sign.
    }
    return node;
}

JsonNode JsonNode::ofInteger(int number) {
    return ofNumber(static_cast<double>(number));
}

JsonNode JsonNode::ofBoolean(bool boolean) {
    JsonNode node;
    node.kind = Kind::boolean;
    node.boolean = boolean;
    return node;
}

JsonNode JsonNode::list() {
    JsonNode node;
    node.kind = Kind::list;
    return node;
}

JsonNode JsonNode::object() {
    JsonNode node;
    node.kind = Kind::object;
    return node;
}

void JsonNode::add(std::string key, JsonNode value) {
    keys.push_back(std::move(key));
    items.push_back(std::move(value));
}

void JsonNode::append(JsonNode value) {
    items.push_back(std::move(value));
}

const JsonNode* JsonNode::find(std::string_view key) const {
    const auto found = std::find(keys.begin(), keys.end(), key);
    return found == keys.end() ? nullptr : &items[static_cast<std::size_t>(found - keys.begin())];
}

JsonNode* JsonNode::find(std::string_view key) {
    return const_cast<JsonNode*>(std::as_const(*this).find(key));
}

Result<JsonNode> parseJson(std::string_view text) {
    PartOfJson part = parseWhatIsWhole(text);
    if (part.fault) {
        return *std::move(part.fault);
    }
    return std::move(part.root);
}

PartOfJson parseWhatIsWhole(std::string_view text) {
    std::size_t reached = 0;
    TreeBuilder builder(text, &reached);
    const CountingIterator begin(text.data(), &reached);
    const CountingIterator end(text.data() + text.size(), &reached);
    Json::sax_parse(begin, end, &builder);
    return std::move(builder).part();
}

std::string printJson(const JsonNode& node) {
    std::string out;
    printIndented(node, 0, out);
    return out + "\n";
}

std::string printJsonLine(const JsonNode& node) {
    std::string out;
    printLine(node, std::string::npos, out);
    return out;
}

std::string_view describeKind(JsonNode::Kind kind) {
    switch (kind) {
        case JsonNode::Kind::null:
            return toSay("nothing (null)");
        case JsonNode::Kind::boolean:
            return toSay("true or false");
        case JsonNode::Kind::number:
            return toSay("a number");
        case JsonNode::Kind::text:
            return toSay("text");
        case JsonNode::Kind::list:
            return toSay("a list");
        case JsonNode::Kind::object:
            return toSay("an object");
    }
    return toSay("nothing");
}

}  // namespace ohmwright
