// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/json_tree.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <limits>
#include <random>

namespace ohmwright {
namespace {

using testing::HasSubstr;

JsonNode parsed(std::string_view text) {
    const Result<JsonNode> node = parseJson(text);
    EXPECT_TRUE(node) << text << ": " << (node ? "" : node.error().message);
    return node ? *node : JsonNode();
}

Error errorOf(std::string_view text) {
    const Result<JsonNode> node = parseJson(text);
    EXPECT_FALSE(node) << text;
    return node ? Error() : node.error();
}

TEST(JsonTree, KnowsTheLineOfEveryValue) {
    const JsonNode root = parsed("{\n  \"a\": 1,\n  \"b\": [true,\n    null, \"x\"],\n\n  \"c\": {\"d\": 2.5}\n}");
    EXPECT_EQ(root.line, 1);
    EXPECT_EQ(root.find("a")->line, 2);
    EXPECT_EQ(root.find("b")->line, 3);
    EXPECT_EQ(root.find("b")->items[0].line, 3);
    EXPECT_EQ(root.find("b")->items[1].line, 4);
    EXPECT_EQ(root.find("b")->items[2].line, 4);
    EXPECT_EQ(root.find("c")->find("d")->line, 6);
}

TEST(JsonTree, ANumberBeforeALineBreakStandsOnItsOwnLine) {
    const JsonNode root = parsed("[1\n,\n2\n]");
    EXPECT_EQ(root.items[0].line, 1);
    EXPECT_EQ(root.items[1].line, 3);
}

TEST(JsonTree, SaysTheLineOfWhatIsNoJson) {
    EXPECT_EQ(errorOf("{\n\"a\": 1,\n\"b\" 2}").where, "line 3");
    EXPECT_EQ(errorOf("[1,\n2,\n}").where, "line 3");
    EXPECT_EQ(errorOf("[\n\xff]").where, "line 2");
    EXPECT_EQ(errorOf("[NaN]").where, "line 1");
    EXPECT_EQ(errorOf("{} {}").where, "line 1");
    EXPECT_EQ(errorOf("[NaN]").code, ErrorCode::fileDamaged);
}

TEST(JsonTree, ATextThatEndsTooEarlySaysSo) {
    EXPECT_THAT(errorOf("{\n\"a\": [1,").message, HasSubstr("breaks off"));
    EXPECT_THAT(errorOf("{\n\"a\": \"half").message, HasSubstr("line 2"));
    EXPECT_THAT(errorOf("").message, HasSubstr("breaks off"));
}

TEST(JsonTree, ANumberBeyondADoubleIsRefused) {
    EXPECT_THAT(errorOf("[\n1e999]").message, HasSubstr("too large"));
    EXPECT_EQ(errorOf("[\n1e999]").where, "line 2");
    EXPECT_EQ(parsed("[1e-999]").items[0].number, 0.0);
}

TEST(JsonTree, AKeyTwiceInOneObjectIsRefused) {
    EXPECT_THAT(errorOf("{\"a\": 1,\n\"a\": 2}").message, HasSubstr("\"a\" stands twice"));
    EXPECT_EQ(errorOf("{\"a\": 1,\n\"a\": 2}").where, "line 2");
    EXPECT_EQ(parsed("{\"a\": {\"a\": 2}}").find("a")->find("a")->number, 2.0);
}

TEST(JsonTree, DepthAndSizeAreBounded) {
    EXPECT_THAT(errorOf(std::string(100000, '[')).message, HasSubstr("deep"));
    std::string many = "[0";
    for (int i = 0; i < 1000001; ++i) {
        many += ",0";
    }
    EXPECT_THAT(errorOf(many + "]").message, HasSubstr("million"));
    std::string keys = "{\"k\": 0";
    for (int i = 0; i < 2000; ++i) {
        keys += ", \"" + std::to_string(i) + "\": 0";
    }
    EXPECT_THAT(errorOf(keys + "}").message, HasSubstr("2000 keys"));
}

TEST(JsonTree, NumbersReadBackBitForBit) {
    std::mt19937_64 engine(7);
    for (int i = 0; i < 20000; ++i) {
        const double number = std::bit_cast<double>(engine());
        if (!std::isfinite(number)) {
            continue;
        }
        const JsonNode back = parsed(printJson(JsonNode::ofNumber(number)));
        ASSERT_EQ(std::bit_cast<std::uint64_t>(back.number), std::bit_cast<std::uint64_t>(number)) << number;
    }
    for (const double number : {0.0, -0.0, 1e15, 1e15 - 1.0, 1e22, 9007199254740993.0, 1.8446744073709552e19, 5e-324,
                                std::numeric_limits<double>::max(), 0.1, 56e-9, -3.0}) {
        const JsonNode back = parsed(printJson(JsonNode::ofNumber(number)));
        EXPECT_EQ(std::bit_cast<std::uint64_t>(back.number), std::bit_cast<std::uint64_t>(number)) << number;
    }
}

TEST(JsonTree, NumbersAreWrittenAsAPersonWould) {
    EXPECT_EQ(printJson(JsonNode::ofNumber(1e6)), "1000000\n");
    EXPECT_EQ(printJson(JsonNode::ofNumber(0.1)), "0.1\n");
    EXPECT_EQ(printJson(JsonNode::ofNumber(-12.0)), "-12\n");
    EXPECT_EQ(printJson(JsonNode::ofNumber(std::nan(""))), "null\n");
    EXPECT_EQ(printJson(JsonNode::ofNumber(std::numeric_limits<double>::infinity())), "null\n");
}

TEST(JsonTree, DigitsOfReadNumbersAreKept) {
    const std::string text = "[0.10, 1E3, 123456789012345678901234567890, 5]";
    EXPECT_EQ(printJsonLine(parsed(text)), text);
}

TEST(JsonTree, TextsOfAllKindsComeBack) {
    for (const std::string& text :
         {std::string(), std::string("\"quoted\" \\ / \b\f\n\r\t"), std::string("Ω µ − 日本 🎸"),
          std::string("\x01\x1f\x7f"), std::string("a\0b", 3), std::string(100000, 'x')}) {
        EXPECT_EQ(parsed(printJson(JsonNode::ofText(text))).text, text);
    }
    EXPECT_EQ(parsed("\"\\u03a9\"").text, "Ω");
    EXPECT_EQ(parsed(printJson(JsonNode::ofText("bad \xc3 byte"))).text, "bad \xef\xbf\xbd byte");
}

TEST(JsonTree, ShortNestsStandOnOneLineAndLongOnesDoNot) {
    EXPECT_EQ(printJson(parsed("{\"a\":[1,2,[3]],\"b\":{},\"c\":[]}")),
              "{\n  \"a\": [1, 2, [3]],\n  \"b\": {},\n  \"c\": []\n}\n");
    const std::string word(60, 'w');
    EXPECT_EQ(printJson(parsed("{\"a\":[\"" + word + "\",\"" + word + "\"]}")),
              "{\n  \"a\": [\n    \"" + word + "\",\n    \"" + word + "\"\n  ]\n}\n");
    EXPECT_EQ(printJson(parsed("{}")), "{}\n");
}

}  // namespace
}  // namespace ohmwright
