/// Lists of the job format, written and read the same way everywhere.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/circuit_format.h"
#include "core/files/json_reader.h"

#include <string>
#include <vector>

namespace ohmwright {

inline JsonNode writeTexts(const std::vector<std::string>& texts) {
    JsonNode node = JsonNode::list();
    for (const std::string& text : texts) {
        node.append(JsonNode::ofText(text));
    }
    return node;
}

template <class Entry, class Write>
JsonNode writeList(const std::vector<Entry>& entries, const Write& write) {
    JsonNode node = JsonNode::list();
    for (const Entry& entry : entries) {
        node.append(write(entry));
    }
    return node;
}

/// Every list of the format is read so: an empty one after an error.
template <class Entry, class Read>
std::vector<Entry> readList(JsonReader reader, const Read& read) {
    std::vector<Entry> entries;
    for (JsonReader& entry : reader.entries()) {
        if (reader.failed()) {
            break;
        }
        entries.push_back(read(entry, entries));
    }
    return entries;
}

/// Reads an entry that has an id of its own among the earlier ones.
template <class Entry, class Read>
auto withNewId(const Read& read) {
    return [read](JsonReader& entry, const std::vector<Entry>& earlier) {
        Entry found = read(entry);
        requireNewId(earlier, found.id, entry);
        return found;
    };
}

}  // namespace ohmwright
