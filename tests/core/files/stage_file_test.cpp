// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/stage_file.h"

#include "core/files/earlier_versions.h"
#include "core/files/stage_shelf.h"
#include "tests/support/temporary_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

StagePiece example() {
    StagePiece piece = houseStage("one-transistor");
    piece.name = "Kai-Straße boost";
    piece.does = "half of the house's gain";
    return piece;
}

TEST(StageFile, ComesBackAsItWasWritten) {
    for (const ShelfStage& stage : houseStages()) {
        const auto back = readStagePiece(writeStagePiece(*stage.piece));
        ASSERT_TRUE(back) << stage.id << ": " << back.error().message;
        EXPECT_EQ(*back, *stage.piece) << stage.id;
    }
}

// Property: a file that was cut off anywhere is refused, never half read.
TEST(StageFile, EveryByteCutOffIsRefused) {
    const std::string text = writeStagePiece(example());
    for (std::size_t length = 0; length + 2 < text.size(); length += 7) {
        EXPECT_FALSE(readStagePiece(std::string_view(text).substr(0, length))) << length;
    }
}

// Property: a byte that is another gives a piece or a sentence, whatever it is.
TEST(StageFile, EveryByteChangedIsReadOrRefusedInWords) {
    const std::string text = writeStagePiece(example());
    for (std::size_t at = 0; at < text.size(); at += 3) {
        for (const char other : {'0', '"', '}', '-', '\x80'}) {
            std::string damaged = text;
            damaged[at] = other;
            const auto piece = readStagePiece(damaged);
            if (!piece) {
                EXPECT_FALSE(piece.error().message.empty());
            }
        }
    }
}

TEST(StageFile, WhatIsWrongIsNamed) {
    const std::string text = writeStagePiece(example());
    struct Case {
        const char *from, *to, *said;
    };
    for (const Case& each : {Case{"ohmwright-stage", "ohmwright-job", "format"}, Case{"\"does\"", "\"dose\"", "does"},
                             Case{"\"function\"", "\"funktion\"", "funktion"},
                             Case{"\"input\": \"in\"", "\"input\": \"elsewhere\"", "input"},
                             Case{"[18, 4]", "[17, 4]", "not drawn up to the edge"}}) {
        std::string damaged = text;
        const std::size_t at = damaged.find(each.from);
        ASSERT_NE(at, std::string::npos) << each.from;
        damaged.replace(at, std::string(each.from).size(), each.to);
        const auto piece = readStagePiece(damaged);
        ASSERT_FALSE(piece) << each.from;
        EXPECT_EQ(piece.error().code, ErrorCode::fileDamaged);
        EXPECT_THAT(piece.error().message, HasSubstr(each.said));
    }
    std::string newer = text;
    newer.replace(newer.find("\"version\": 1"), 12, "\"version\": 2");
    EXPECT_EQ(readStagePiece(newer).error().code, ErrorCode::fileNewer);
}

TEST(StageFile, AShopKeepsItUnderItsNameAndLosesNone) {
    const TemporaryFolder shop;
    StagePiece piece = example();
    const auto path = saveStagePiece(piece, shop.path());
    ASSERT_TRUE(path) << path.error().message;
    EXPECT_EQ(*path, shop.path() / "stages" / "kai-stra-e-boost.json");
    // Another one whose name makes the same file name has its own file.
    StagePiece other = piece;
    other.name = "Kai: Stra E boost";
    EXPECT_EQ(*saveStagePiece(other, shop.path()), shop.path() / "stages" / "kai-stra-e-boost-2.json");
    // The same one again takes its own place, and the earlier version is kept.
    piece.does = "more";
    EXPECT_EQ(*saveStagePiece(piece, shop.path()), *path);
    EXPECT_THAT(earlierVersionsOf(*path), SizeIs(1));
    EXPECT_EQ(*loadStagePiece(*path), piece);
    // One that cannot be read any more is not written over.
    shop.write("stages/kai-stra-e-boost.json", "{");
    EXPECT_EQ(*saveStagePiece(piece, shop.path()), shop.path() / "stages" / "kai-stra-e-boost-3.json");
    EXPECT_EQ(shop.read("stages/kai-stra-e-boost.json"), "{");
}

TEST(StageFile, ShopAndNameAreAskedFor) {
    const TemporaryFolder shop;
    EXPECT_THAT(saveStagePiece(example(), {}).error().message, HasSubstr("no shop folder"));
    StagePiece nameless = example();
    nameless.name.clear();
    EXPECT_THAT(saveStagePiece(nameless, shop.path()).error().message, HasSubstr("no name"));
    StagePiece undrawn = example();
    undrawn.circuit.drawing.wires.clear();
    EXPECT_THAT(saveStagePiece(undrawn, shop.path()).error().message, HasSubstr("cannot be joined"));
    shop.write("stages", "a file in the folder's place");
    EXPECT_EQ(saveStagePiece(example(), shop.path()).error().code, ErrorCode::fileUnreadable);
}

}  // namespace
}  // namespace ohmwright
