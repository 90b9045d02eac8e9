// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/file_head.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;

Result<void> headOf(std::string_view text) {
    const Result<JsonNode> root = parseJson(text);
    ReadingState state;
    JsonReader reader(*root, state);
    return requireHead(reader, state, "ohmwright-test", 3);
}

TEST(FileHead, TakesItsOwnFormatUpToItsVersion) {
    EXPECT_TRUE(headOf(R"({"format": "ohmwright-test", "version": 1})"));
    EXPECT_TRUE(headOf(R"({"format": "ohmwright-test", "version": 3})"));
    EXPECT_TRUE(headOf(printJson(writeHead("ohmwright-test", 2))));
}

TEST(FileHead, ANewerVersionIsNewerAndNotDamaged) {
    const Result<void> head = headOf(R"({"format": "ohmwright-test", "version": 4})");
    ASSERT_FALSE(head);
    EXPECT_EQ(head.error().code, ErrorCode::fileNewer);
    EXPECT_THAT(head.error().message, AllOf(HasSubstr("version 4"), HasSubstr("newer"), HasSubstr("version 3")));
}

TEST(FileHead, AnotherFormatOrNoVersionIsDamaged) {
    for (const char* text :
         {R"({"format": "other", "version": 1})", R"({"version": 1})", R"({"format": "ohmwright-test"})",
          R"({"format": "ohmwright-test", "version": 0})", R"({"format": "ohmwright-test", "version": 1.5})",
          R"({"format": "ohmwright-test", "version": "1"})", R"({"format": 1, "version": 9})", "[]", "3"}) {
        const Result<void> head = headOf(text);
        ASSERT_FALSE(head) << text;
        EXPECT_EQ(head.error().code, ErrorCode::fileDamaged) << text;
    }
}

TEST(FileHead, AnErrorInAFileNamesTheFile) {
    const Error error = errorInFile({ErrorCode::fileDamaged, "In line 3 something.", "line 3"}, "/shop/a.ohmjob");
    EXPECT_EQ(error.message, "/shop/a.ohmjob: In line 3 something.");
    EXPECT_EQ(error.where, "line 3");
}

TEST(FileHead, KeysFurtherDownAreKeptOrRefused) {
    const auto readOne = [](JsonReader& reader) {
        JsonReader part = reader.member("part");
        const double value = part.number("value");
        part.keepUnknown();
        return value;
    };
    const char* text = R"({"format": "ohmwright-test", "version": 1, "part": {"value": 3, "colour": "red"}})";
    const Result<double> kept = readOfKind(text, "ohmwright-test", 1, readOne);
    ASSERT_TRUE(kept);
    EXPECT_EQ(*kept, 3.0);
    const Result<double> refused = readOfKind(text, "ohmwright-test", 1, readOne, UnknownKeys::refused);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::fileDamaged);
    EXPECT_THAT(refused.error().message, AllOf(HasSubstr("part/colour"), HasSubstr("is no key that is known here")));
}

}  // namespace
}  // namespace ohmwright
