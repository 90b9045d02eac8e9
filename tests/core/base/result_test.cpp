// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/result.h"

#include <gtest/gtest.h>

#include <memory>
#include <string>

namespace ohmwright {
namespace {

TEST(Result, HoldsAValueOrTheReasonAgainstOne) {
    const Result<int> seven = 7;
    ASSERT_TRUE(seven);
    EXPECT_EQ(*seven, 7);

    const Result<int> none = Error{ErrorCode::unsolvable, "Net n4 has no path to ground.", "n4"};
    ASSERT_FALSE(none.hasValue());
    EXPECT_EQ(none.error().code, ErrorCode::unsolvable);
    EXPECT_EQ(none.error().where, "n4");
}

TEST(Result, MovesOutWhatCannotBeCopied) {
    Result<std::unique_ptr<std::string>> owned = std::make_unique<std::string>("C4");
    EXPECT_EQ(**owned, "C4");
    const std::unique_ptr<std::string> taken = *std::move(owned);
    EXPECT_EQ(*taken, "C4");
}

TEST(Result, OfVoidIsSuccessUntilAnErrorIsGiven) {
    EXPECT_TRUE(Result<void>());
    const Result<void> failed = Error{ErrorCode::cancelled, "Stopped.", ""};
    EXPECT_FALSE(failed.hasValue());
    EXPECT_EQ(failed.error(), (Error{ErrorCode::cancelled, "Stopped.", ""}));
}

}  // namespace
}  // namespace ohmwright
