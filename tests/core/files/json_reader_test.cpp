// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_reader.h"

#include "tests/support/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

enum class Colour { red, blue };
constexpr std::array<Word<Colour>, 2> colourWords{{{"red", Colour::red}, {"blue", Colour::blue}}};

JsonNode parsed(std::string_view text) {
    const Result<JsonNode> node = parseJson(text);
    EXPECT_TRUE(node) << text;
    return node ? *node : JsonNode();
}

/// What `read` leaves behind when it is given the text.
template <class Read>
ReadingState stateAfter(std::string_view text, const Read& read) {
    const JsonNode root = parsed(text);
    ReadingState state;
    read(JsonReader(root, state));
    return state;
}

template <class Read>
std::string messageOf(std::string_view text, const Read& read) {
    const ReadingState state = stateAfter(text, read);
    return state.error ? state.error->message : "no error";
}

TEST(JsonReader, AFaultIsAskedForWholeInAnotherLanguageAndItsPlaceIsNot) {
    const test::Spoken german({{"In line %1, %2: %3", "Zeile %1 (%2): %3"},
                               {"%1 is expected here, not %2.", "%2 statt %1"},
                               {"a number", "eine Zahl"},
                               {"text", "Text"},
                               {"the file", "die Datei"}});
    EXPECT_EQ(messageOf("{\"a\": \"x\"}", [](JsonReader reader) { reader.number("a"); }),
              "Zeile 1 (a): Text statt eine Zahl");
    const ReadingState whole = stateAfter("7", [](JsonReader reader) { reader.asText(); });
    EXPECT_EQ(whole.error->message, "Zeile 1 (die Datei): eine Zahl statt Text");
    EXPECT_EQ(whole.error->where, "the file");
}

TEST(JsonReader, ReadsWhatIsThere) {
    const ReadingState state =
        stateAfter(R"({"t": "x", "n": 2.5, "i": 3, "f": true, "w": "blue", "l": ["a", "b"]})", [](JsonReader reader) {
            EXPECT_EQ(reader.text("t"), "x");
            EXPECT_EQ(reader.number("n"), 2.5);
            EXPECT_EQ(reader.integer("i", 0, 9), 3);
            EXPECT_TRUE(reader.flag("f"));
            EXPECT_EQ(reader.word("w", colourWords), Colour::blue);
            EXPECT_THAT(reader.texts("l"), ElementsAre("a", "b"));
            reader.keepUnknown();
        });
    EXPECT_FALSE(state.error);
    EXPECT_THAT(state.unknown, IsEmpty());
}

TEST(JsonReader, GivesTheDefaultOfAKeyThatMayBeMissing) {
    const ReadingState state = stateAfter("{}", [](JsonReader reader) {
        EXPECT_EQ(reader.text("t", "d"), "d");
        EXPECT_EQ(reader.number("n", 7.0), 7.0);
        EXPECT_EQ(reader.integer("i", 4, 0, 9), 4);
        EXPECT_FALSE(reader.flag("f", false));
        EXPECT_EQ(reader.word("w", colourWords, Colour::blue), Colour::blue);
        EXPECT_FALSE(reader.numberIfThere("m"));
        EXPECT_FALSE(reader.memberIfThere("o"));
    });
    EXPECT_FALSE(state.error);
}

TEST(JsonReader, NamesLineAndKeyOfAMissingOne) {
    const std::string message =
        messageOf("{\n\"a\": {\n\"b\": 1}}", [](JsonReader reader) { reader.member("a").number("c"); });
    EXPECT_THAT(message, AllOf(HasSubstr("line 2, a:"), HasSubstr("\"c\" is missing")));
}

TEST(JsonReader, NamesWhatIsExpectedInPlaceOfAnotherType) {
    EXPECT_THAT(messageOf("{\n\"a\": \"12\"}", [](JsonReader reader) { reader.number("a"); }),
                AllOf(HasSubstr("line 2, a:"), HasSubstr("a number is expected"), HasSubstr("not text")));
    EXPECT_THAT(messageOf("{\"a\": null}", [](JsonReader reader) { reader.text("a"); }),
                HasSubstr("text is expected here, not nothing"));
    EXPECT_THAT(messageOf("[]", [](JsonReader reader) { reader.text("a"); }), HasSubstr("an object is expected"));
    EXPECT_THAT(messageOf("{\"a\": {}}", [](JsonReader reader) { reader.texts("a"); }),
                HasSubstr("a list is expected"));
    EXPECT_THAT(messageOf("{\"a\": 0}", [](JsonReader reader) { reader.flag("a"); }),
                HasSubstr("true or false is expected"));
}

TEST(JsonReader, HoldsWholeNumbersToTheirRange) {
    for (const char* text : {"{\"a\": 1.5}", "{\"a\": 10}", "{\"a\": -1}", "{\"a\": 1e300}"}) {
        EXPECT_THAT(messageOf(text, [](JsonReader reader) { reader.integer("a", 0, 9); }),
                    HasSubstr("a whole number from 0 to 9"));
    }
}

TEST(JsonReader, ListsTheWordsItKnows) {
    EXPECT_THAT(messageOf("{\"a\": \"green\"}", [](JsonReader reader) { reader.word("a", colourWords); }),
                AllOf(HasSubstr("\"green\""), HasSubstr("\"red\", \"blue\"")));
}

TEST(JsonReader, KeepsTheFirstErrorOnly) {
    EXPECT_THAT(messageOf("{}",
                          [](JsonReader reader) {
                              reader.text("first");
                              reader.text("second");
                          }),
                AllOf(HasSubstr("first"), testing::Not(HasSubstr("second"))));
}

TEST(JsonReader, AddressesEntriesByIdOrElseByIndex) {
    const ReadingState state =
        stateAfter(R"({"l": [{"id": "x/y", "new": 1}, {"new": 2}], "new": {"deep": [1]}})", [](JsonReader reader) {
            for (JsonReader& entry : reader.member("l").entries()) {
                entry.text("id", "");
                entry.keepUnknown();
            }
            reader.keepUnknown();
        });
    EXPECT_THAT(state.unknown, ElementsAre(UnknownKey{"/l/x~1y/new", "1"}, UnknownKey{"/l/1/new", "2"},
                                           UnknownKey{"/new", "{\"deep\": [1]}"}));
}

TEST(JsonReader, PutsUnknownKeysBackAtTheirPlace) {
    JsonNode root = parsed(R"({"l": [{"id": "other"}, {"id": "x/y", "a": 1}]})");
    restoreUnknown(root, {{"/l/x~1y/new", "[true]"}, {"/new", "null"}});
    EXPECT_EQ(printJsonLine(root), R"({"l": [{"id": "other"}, {"id": "x/y", "a": 1, "new": [true]}], "new": null})");
}

TEST(JsonReader, LeavesOutUnknownKeysWithoutAPlace) {
    JsonNode root = parsed(R"({"l": [], "a": 1})");
    restoreUnknown(root,
                   {{"/l/gone/new", "1"}, {"/a/new", "1"}, {"/a", "2"}, {"/b", "no json"}, {"", "1"}, {"/", "3"}});
    EXPECT_EQ(printJsonLine(root), R"({"l": [], "a": 1, "": 3})");
}

}  // namespace
}  // namespace ohmwright
