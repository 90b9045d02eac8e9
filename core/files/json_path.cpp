// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_path.h"

#include <algorithm>

namespace ohmwright {

namespace {

constexpr std::string_view idKey = "id";

std::string unescaped(std::string_view step) {
    std::string out;
    for (std::size_t i = 0; i < step.size(); ++i) {
        const bool isEscape = step[i] == '~' && i + 1 < step.size() && (step[i + 1] == '0' || step[i + 1] == '1');
        out += isEscape ? (step[++i] == '0' ? '~' : '/') : step[i];
    }
    return out;
}

JsonNode* entryAt(JsonNode& list, const std::string& step) {
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        if (stepOfEntry(list.items[i], i) == step) {
            return &list.items[i];
        }
    }
    return nullptr;
}

}  // namespace

std::string escapedKey(std::string_view key) {
    std::string out;
    for (const char c : key) {
        if (c == '~') {
            out += "~0";
        } else if (c == '/') {
            out += "~1";
        } else {
            out += c;
        }
    }
    return out;
}

std::vector<std::string> stepsOfPath(std::string_view path) {
    std::vector<std::string> steps;
    while (!path.empty()) {
        path.remove_prefix(1);
        const std::size_t end = std::min(path.find('/'), path.size());
        steps.push_back(unescaped(path.substr(0, end)));
        path.remove_prefix(end);
    }
    return steps;
}

std::string stepOfEntry(const JsonNode& entry, std::size_t index) {
    const JsonNode* id = entry.kind == JsonNode::Kind::object ? entry.find(idKey) : nullptr;
    return id && id->kind == JsonNode::Kind::text && !id->text.empty() ? id->text : std::to_string(index);
}

JsonNode* childAt(JsonNode& node, const std::string& step) {
    switch (node.kind) {
        case JsonNode::Kind::object:
            return node.find(step);
        case JsonNode::Kind::list:
            return entryAt(node, step);
        default:
            return nullptr;
    }
}

}  // namespace ohmwright
