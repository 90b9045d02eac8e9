// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/named_file.h"

#include "core/files/atomic_file.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

/// A file of one line: its name.
std::filesystem::path kept(const TemporaryFolder& shop, const std::string& name) {
    const auto path = keepByName(shop.path() / "things", "thing", name,
                                 [&name](const std::filesystem::path& there) { return *readWholeFile(there) == name; });
    EXPECT_TRUE(path) << path.error().message;
    return path ? *path : std::filesystem::path();
}

TEST(NamedFile, EachNameHasItsFileAndTheSameNameTheSame) {
    const TemporaryFolder shop;
    EXPECT_EQ(kept(shop, "first").filename(), "thing.json");
    EXPECT_EQ(kept(shop, "second").filename(), "thing-2.json");
    EXPECT_EQ(kept(shop, "third").filename(), "thing-3.json");
    EXPECT_EQ(kept(shop, "second").filename(), "thing-2.json");
    EXPECT_EQ(*readWholeFile(shop.path() / "things" / "thing.json"), "first");
}

TEST(NamedFile, AFolderThatCannotBeMadeIsSaid) {
    const TemporaryFolder shop;
    ASSERT_TRUE(replaceFile(shop.path() / "things", "a file"));
    const auto refused = keepByName(shop.path() / "things", "thing", "text", [](const auto&) { return false; });
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::fileUnreadable);
    EXPECT_THAT(refused.error().message, HasSubstr("cannot be made"));
}

TEST(NamedFile, WhatIsWrongInItNamesTheFile) {
    const TemporaryFolder shop;
    const auto never = [](std::string_view text) -> Result<int> {
        return Error{ErrorCode::fileDamaged, "Read " + std::string(text) + ".", {}};
    };
    const Result<int> missing = loadBy(shop.path() / "none.json", never);
    ASSERT_FALSE(missing);
    EXPECT_EQ(missing.error().code, ErrorCode::fileUnreadable);
    const std::filesystem::path path = kept(shop, "first");
    const Result<int> damaged = loadBy(path, never);
    ASSERT_FALSE(damaged);
    EXPECT_THAT(damaged.error().message, StartsWith(path.string() + ": Read first."));
}

}  // namespace
}  // namespace ohmwright
