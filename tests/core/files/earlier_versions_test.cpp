// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/earlier_versions.h"

#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(EarlierVersions, TheFirstWritingHasNone) {
    const TemporaryFolder folder;
    ASSERT_TRUE(replaceKeepingEarlier(folder / "drawer.json", "one"));
    EXPECT_EQ(folder.read("drawer.json"), "one");
    EXPECT_TRUE(earlierVersionsOf(folder / "drawer.json").empty());
}

TEST(EarlierVersions, TheLastTenAreKeptNewestFirst) {
    const TemporaryFolder folder;
    for (int version = 0; version <= 12; ++version) {
        ASSERT_TRUE(replaceKeepingEarlier(folder / "drawer.json", "version " + std::to_string(version)));
    }
    EXPECT_EQ(folder.read("drawer.json"), "version 12");
    EXPECT_EQ(earlierVersionsOf(folder / "drawer.json").size(), 10U);
    EXPECT_EQ(folder.read("earlier/drawer.json.1"), "version 11");
    EXPECT_EQ(folder.read("earlier/drawer.json.10"), "version 2");
}

TEST(EarlierVersions, WhatIsThereAlreadyIsNoNewVersion) {
    const TemporaryFolder folder;
    ASSERT_TRUE(replaceKeepingEarlier(folder / "a", "same"));
    ASSERT_TRUE(replaceKeepingEarlier(folder / "a", "same"));
    EXPECT_TRUE(earlierVersionsOf(folder / "a").empty());
}

TEST(EarlierVersions, FilesOfOneFolderKeepTheirVersionsApart) {
    const TemporaryFolder folder;
    for (const char* text : {"1", "2"}) {
        ASSERT_TRUE(replaceKeepingEarlier(folder / "a", std::string("a") + text));
        ASSERT_TRUE(replaceKeepingEarlier(folder / "b", std::string("b") + text));
    }
    EXPECT_EQ(folder.read("earlier/a.1"), "a1");
    EXPECT_EQ(folder.read("earlier/b.1"), "b1");
}

TEST(EarlierVersions, WithoutAPlaceForTheVersionNothingIsOverwritten) {
    const TemporaryFolder folder;
    folder.write("a", "old");
    folder.write("earlier", "a file where the folder should be");
    const Result<void> written = replaceKeepingEarlier(folder / "a", "new");
    ASSERT_FALSE(written);
    EXPECT_THAT(written.error().message, testing::HasSubstr("nothing was overwritten"));
    EXPECT_EQ(folder.read("a"), "old");
}

}  // namespace
}  // namespace ohmwright
