/// Reads known keys out of a JSON object and notices everything else.
///
/// The first thing that is wrong is kept and ends up in the answer; after it every read gives a default, so that the
/// code that reads a job is a plain list of its keys. Keys that nobody asked for are kept as UnknownKey.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/error.h"
#include "core/files/json_tree.h"
#include "core/plan/job.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ohmwright {

/// What a whole reading has come upon so far.
struct ReadingState {
    std::optional<Error> error;
    std::vector<UnknownKey> unknown;

    /// Where the readers have been: a path is put together only for an error or an unknown key.
    struct Step {
        std::size_t parent;
        std::string key;
    };
    std::vector<Step> steps;
};

/// A word of the file and what it stands for.
template <class T>
struct Word {
    std::string_view text;
    T meaning;
};

/// One value and its place in the file.
class JsonReader {
public:
    /// The whole file. `node` and `state` outlive the reader and those made from it.
    JsonReader(const JsonNode& node, ReadingState& state);

    /// @name Members of an object. A member that is missing is an error unless a default is given. Keys are literals.
    ///@{
    std::string text(std::string_view key);
    std::string text(std::string_view key, std::string missing);
    double number(std::string_view key);
    double number(std::string_view key, double missing);
    std::optional<double> numberIfThere(std::string_view key);
    int integer(std::string_view key, int lowest, int highest);
    int integer(std::string_view key, int missing, int lowest, int highest);
    bool flag(std::string_view key);
    bool flag(std::string_view key, bool missing);
    std::vector<std::string> texts(std::string_view key);
    template <class T, std::size_t count>
    T word(std::string_view key, const std::array<Word<T>, count>& words);
    template <class T, std::size_t count>
    T word(std::string_view key, const std::array<Word<T>, count>& words, T missing);
    /// The member, marked as known; null without an error when it is not there.
    std::optional<JsonReader> memberIfThere(std::string_view key);
    /// The member; an empty object after an error.
    JsonReader member(std::string_view key);
    ///@}

    /// The entries of a list, at most 10,000; their paths end in their own "id", or in their index.
    std::vector<JsonReader> entries();
    /// The members of an object whose keys are names; all count as known.
    std::vector<std::pair<std::string, JsonReader>> namedMembers();
    double asNumber();
    std::string asText();
    int asInteger(int lowest, int highest);

    /// Keeps every member that was not asked for. Call it last.
    void keepUnknown();
    /// An error at the first member that was not asked for: in a file that people write by hand, a mistyped key must
    /// not pass for one that was left out. Call it last.
    void refuseUnknown();

    [[nodiscard]] bool has(std::string_view key) const;
    /// Records an error at this value: "line 12, circuit/parts/c4/value: <sentence>".
    void fail(const std::string& sentence);
    [[nodiscard]] bool failed() const { return m_state->error.has_value(); }

private:
    JsonReader(const JsonNode& node, std::size_t step, ReadingState& state);
    JsonReader child(const JsonNode& node, std::string_view key);
    [[nodiscard]] std::string path() const;
    bool requireKind(JsonNode::Kind kind);
    bool isThere(std::string_view key);
    void failAboutWord(const std::string& word, const std::string& known);

    const JsonNode* m_node;
    std::size_t m_step;
    ReadingState* m_state;
    std::vector<std::string_view> m_known;
};

template <class T, std::size_t count>
T JsonReader::word(std::string_view key, const std::array<Word<T>, count>& words) {
    JsonReader reader = member(key);
    const std::string found = failed() ? std::string() : reader.asText();
    std::string known;
    for (const Word<T>& word : words) {
        if (word.text == found) {
            return word.meaning;
        }
        known += (known.empty() ? "\"" : ", \"") + std::string(word.text) + "\"";
    }
    reader.failAboutWord(found, known);
    return words.front().meaning;
}

template <class T, std::size_t count>
T JsonReader::word(std::string_view key, const std::array<Word<T>, count>& words, T missing) {
    return has(key) ? word(key, words) : missing;
}

/// The word for a meaning. REQUIRES: `words` holds it.
template <class T, std::size_t count>
JsonNode wordFor(T meaning, const std::array<Word<T>, count>& words) {
    for (const Word<T>& word : words) {
        if (word.meaning == meaning) {
            return JsonNode::ofText(std::string(word.text));
        }
    }
    return JsonNode::ofText(std::string(words.front().text));
}

/// Puts unknown keys back at their places; those whose place is gone, or is taken by a known key, are left out.
void restoreUnknown(JsonNode& root, const std::vector<UnknownKey>& unknown);

}  // namespace ohmwright
