// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_reader.h"

#include "core/base/said.h"
#include "core/files/json_path.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t mostEntries = 10000;  // Parts, wires, mods: bounds the time that looking for an id twice takes.
constexpr std::size_t noStep = static_cast<std::size_t>(-1);  // The whole file.

const JsonNode& emptyObject() {
    static const JsonNode node = JsonNode::object();
    return node;
}

}  // namespace

JsonReader::JsonReader(const JsonNode& node, ReadingState& state) : JsonReader(node, noStep, state) {}

JsonReader::JsonReader(const JsonNode& node, std::size_t step, ReadingState& state)
    : m_node(&node), m_step(step), m_state(&state) {}

JsonReader JsonReader::child(const JsonNode& node, std::string_view key) {
    m_state->steps.push_back({m_step, std::string(key)});
    return {node, m_state->steps.size() - 1, *m_state};
}

std::string JsonReader::text(std::string_view key) {
    return member(key).asText();
}

std::string JsonReader::text(std::string_view key, std::string missing) {
    return isThere(key) ? text(key) : std::move(missing);
}

double JsonReader::number(std::string_view key) {
    return member(key).asNumber();
}

double JsonReader::number(std::string_view key, double missing) {
    return isThere(key) ? number(key) : missing;
}

std::optional<double> JsonReader::numberIfThere(std::string_view key) {
    return isThere(key) ? std::optional<double>(number(key)) : std::nullopt;
}

int JsonReader::integer(std::string_view key, int lowest, int highest) {
    return member(key).asInteger(lowest, highest);
}

int JsonReader::integer(std::string_view key, int missing, int lowest, int highest) {
    return isThere(key) ? integer(key, lowest, highest) : missing;
}

bool JsonReader::flag(std::string_view key) {
    JsonReader reader = member(key);
    return reader.requireKind(JsonNode::Kind::boolean) && reader.m_node->boolean;
}

bool JsonReader::flag(std::string_view key, bool missing) {
    return isThere(key) ? flag(key) : missing;
}

std::vector<std::string> JsonReader::texts(std::string_view key) {
    std::vector<std::string> out;
    for (JsonReader& entry : member(key).entries()) {
        out.push_back(entry.asText());
    }
    return out;
}

std::optional<JsonReader> JsonReader::memberIfThere(std::string_view key) {
    return isThere(key) ? std::optional<JsonReader>(member(key)) : std::nullopt;
}

JsonReader JsonReader::member(std::string_view key) {
    m_known.push_back(key);
    if (!requireKind(JsonNode::Kind::object)) {
        return child(emptyObject(), key);
    }
    const JsonNode* found = m_node->find(key);
    if (!found) {
        fail(said("the key \"%1\" is missing here. Add it or take an earlier copy of the file.", key));
        return child(emptyObject(), key);
    }
    return child(*found, key);
}

std::vector<JsonReader> JsonReader::entries() {
    std::vector<JsonReader> out;
    if (!requireKind(JsonNode::Kind::list)) {
        return out;
    }
    if (m_node->items.size() > mostEntries) {
        fail(said("this list has more than %1 entries; no job does that.", mostEntries));
        return out;
    }
    for (std::size_t i = 0; i < m_node->items.size(); ++i) {
        out.push_back(child(m_node->items[i], stepOfEntry(m_node->items[i], i)));
    }
    return out;
}

std::vector<std::pair<std::string, JsonReader>> JsonReader::namedMembers() {
    std::vector<std::pair<std::string, JsonReader>> out;
    if (!requireKind(JsonNode::Kind::object)) {
        return out;
    }
    m_known.assign(m_node->keys.begin(), m_node->keys.end());
    for (std::size_t i = 0; i < m_node->items.size(); ++i) {
        out.emplace_back(m_node->keys[i], child(m_node->items[i], m_node->keys[i]));
    }
    return out;
}

double JsonReader::asNumber() {
    return requireKind(JsonNode::Kind::number) ? m_node->number : 0.0;
}

std::string JsonReader::asText() {
    return requireKind(JsonNode::Kind::text) ? m_node->text : std::string();
}

int JsonReader::asInteger(int lowest, int highest) {
    const double value = asNumber();
    if (failed()) {
        return lowest;
    }
    if (!(value >= lowest && value <= highest) || value != std::floor(value)) {
        fail(said("a whole number from %1 to %2 is expected here, not %3.", lowest, highest, m_node->text));
        return lowest;
    }
    return static_cast<int>(value);
}

void JsonReader::keepUnknown() {
    if (failed() || m_node->kind != JsonNode::Kind::object) {
        return;
    }
    for (std::size_t i = 0; i < m_node->items.size(); ++i) {
        const std::string& key = m_node->keys[i];
        if (std::find(m_known.begin(), m_known.end(), key) == m_known.end()) {
            m_state->unknown.push_back({path() + "/" + escapedKey(key), printJsonLine(m_node->items[i])});
        }
    }
}

void JsonReader::refuseUnknown() {
    if (failed() || m_node->kind != JsonNode::Kind::object) {
        return;
    }
    for (std::size_t i = 0; i < m_node->items.size(); ++i) {
        const std::string& key = m_node->keys[i];
        if (std::find(m_known.begin(), m_known.end(), key) == m_known.end()) {
            child(m_node->items[i], key).fail(said("this key is not known here; is it mistyped?"));
            return;
        }
    }
}

bool JsonReader::has(std::string_view key) const {
    return m_node->kind == JsonNode::Kind::object && m_node->find(key);
}

void JsonReader::fail(const std::string& sentence) {
    if (failed()) {
        return;
    }
    const std::string place = m_step == noStep ? "the file" : path().substr(1);
    const std::string shown = m_step == noStep ? said("the file") : place;
    m_state->error = Error{ErrorCode::fileDamaged,
                           m_node->line > 0 ? said("In line %1, %2: %3", m_node->line, shown, sentence)
                                            : said("In %1: %2", shown, sentence),
                           place};
}

std::string JsonReader::path() const {
    std::string path;
    for (std::size_t at = m_step; at != noStep; at = m_state->steps[at].parent) {
        path.insert(0, "/" + escapedKey(m_state->steps[at].key));
    }
    return path;
}

bool JsonReader::requireKind(JsonNode::Kind kind) {
    if (failed()) {
        return false;
    }
    if (m_node->kind != kind) {
        fail(said("%1 is expected here, not %2.", said(describeKind(kind)), said(describeKind(m_node->kind))));
        return false;
    }
    return true;
}

bool JsonReader::isThere(std::string_view key) {
    // Known even when absent: an optional key never becomes an unknown one.
    m_known.push_back(key);
    return has(key);
}

void JsonReader::failAboutWord(const std::string& word, const std::string& known) {
    fail(said("the word \"%1\" is not known here; one of %2 is expected.", word, known));
}

void restoreUnknown(JsonNode& root, const std::vector<UnknownKey>& unknown) {
    for (const UnknownKey& key : unknown) {
        std::vector<std::string> steps = stepsOfPath(key.path);
        Result<JsonNode> value = parseJson(key.json);
        JsonNode* place = steps.empty() || !value ? nullptr : &root;
        for (std::size_t i = 0; place && i + 1 < steps.size(); ++i) {
            place = childAt(*place, steps[i]);
        }
        if (place && place->kind == JsonNode::Kind::object && !place->find(steps.back())) {
            place->add(steps.back(), *std::move(value));
        }
    }
}

}  // namespace ohmwright
