// The shop's customer words as a file: round trip, and every way in which one can be wrong.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/claim_words.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace ohmwright {
namespace {

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return text.replace(at, what.size(), by);
}

std::string refusal(const std::string& text) {
    const auto limits = readClaimWords(text);
    EXPECT_FALSE(limits) << text;
    return limits ? std::string() : limits.error().message;
}

TEST(ClaimWords, TheHousesTableComesBackAsItWent) {
    const std::string text = writeClaimWords(houseClaimLimits());
    const auto back = readClaimWords(text);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, houseClaimLimits());
    EXPECT_EQ(writeClaimWords(*back), text);
}

TEST(ClaimWords, AShopMaySayItInItsOwnWordsWithItsOwnLimits) {
    const std::string text =
        replaced(writeClaimWords(houseClaimLimits()), "\"louder\"]", "\"louder\", \"more volume\"]");
    const auto limits = readClaimWords(text);
    ASSERT_TRUE(limits) << limits.error().message;
    ASSERT_NE(findClaim(*limits, "more volume"), nullptr);
    EXPECT_EQ(findClaim(*limits, "more volume")->rule, ClaimRule::louder);
}

TEST(ClaimWords, WhatIsWrongIsNamed) {
    const std::string text = writeClaimWords(houseClaimLimits());
    EXPECT_NE(refusal(replaced(text, "\"means\": \"brighter\"", "\"means\": \"greener\"")).find("greener"),
              std::string::npos);
    EXPECT_NE(refusal(replaced(text, "\"yes\": 3", "\"yes\": \"3\"")).find("yes"), std::string::npos);
    EXPECT_NE(refusal(replaced(text, "\"yes\": 3", "\"yes\": 1")).find("fuller"), std::string::npos);
    EXPECT_NE(refusal(replaced(text, "\"darker\"]", "\"brighter\"]")).find("brighter"), std::string::npos);
    EXPECT_NE(refusal(replaced(text, "ohmwright-words", "ohmwright-job")), "");
    EXPECT_NE(refusal(text.substr(0, text.size() / 2)), "");
    const auto newer = readClaimWords(replaced(text, "\"version\": 1", "\"version\": 2"));
    ASSERT_FALSE(newer);
    EXPECT_EQ(newer.error().code, ErrorCode::fileNewer);
}

TEST(ClaimWords, EveryByteCutOffIsRefused) {
    const std::string text = writeClaimWords(houseClaimLimits());
    for (std::size_t length = 0; length + 2 < text.size(); length += 7) {
        EXPECT_FALSE(readClaimWords(text.substr(0, length))) << length;
    }
}

TEST(ClaimWords, AreSavedBesideAndReadAgain) {
    const auto folder = std::filesystem::temp_directory_path() / "ohmwright-claim-words-test";
    std::filesystem::create_directories(folder);
    const auto path = folder / claimWordsFileName;
    ASSERT_TRUE(saveClaimWords(houseClaimLimits(), path));
    const auto back = loadClaimWords(path);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, houseClaimLimits());
    ClaimLimits spoilt = houseClaimLimits();
    spoilt.claims.front().yes = -1.0;
    EXPECT_FALSE(saveClaimWords(spoilt, path));
    EXPECT_EQ(*loadClaimWords(path), houseClaimLimits()) << "what was there stays";
    std::ofstream(path) << "{}";
    const auto damaged = loadClaimWords(path);
    ASSERT_FALSE(damaged);
    EXPECT_NE(damaged.error().message.find(path.string()), std::string::npos) << damaged.error().message;
    std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace ohmwright
