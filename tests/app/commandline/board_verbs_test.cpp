// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/job_file.h"
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>
#include <QImage>

#include <filesystem>
#include <fstream>

namespace ohmwright {
namespace {

using test::numberIn;
using test::rowsOf;

const std::string lamp = std::string(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob";

test::CsvRow legRow(const std::vector<test::CsvRow>& rows, const std::string& part, const std::string& leg) {
    for (const test::CsvRow& row : rows) {
        if (row.contains("part") && row.at("part") == part && row.at("leg") == leg) {
            return row;
        }
    }
    ADD_FAILURE() << part << " " << leg;
    return {};
}

class BoardVerbs : public testing::Test {
protected:
    BoardVerbs() {
        folder = std::filesystem::path(testing::TempDir()) /
                 (std::string("board-") + testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::remove_all(folder);
        std::filesystem::create_directories(folder);
        job = (folder / "lamp.ohmjob").string();
        picture = (folder / "IMG.png").string();
        const std::string head("\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\x03\xe8\0\0\x03\x20", 24);
        std::ofstream(picture, std::ios::binary) << head;  // 1000 by 800
    }
    std::filesystem::path folder;
    std::string job, picture;
};

TEST_F(BoardVerbs, WithoutAPhotoTheBoardIsDrawnWithNetsAndWords) {
    const test::Called called = test::call({"board", lamp});
    EXPECT_NE(called.err.find("Drawn from the circuit, not your board."), std::string::npos);
    const auto row = legRow(rowsOf(called.out), "U1A", "pin 2");
    EXPECT_EQ(row.at("net_name"), "inverting input");
    EXPECT_EQ(row.at("place"), "drawn");
    EXPECT_EQ(row.at("where"), "U1 pin 2: second from the notch, on the side of the dot.");
    EXPECT_NE(called.out.find("inverting input: 6 legs: U1 pin 2"), std::string::npos);
    const std::string json = test::call({"board", lamp, "--format", "json"}).out;
    EXPECT_NE(json.find("\"times_heated\""), std::string::npos);
}

TEST_F(BoardVerbs, APhotoIsCopiedInALegMarkedAndUnmarked) {
    const test::Called added = test::call({"photo", lamp, "--photo", picture, "--out", job});
    EXPECT_NE(added.err.find("1000 by 800 pixels"), std::string::npos) << added.err;
    EXPECT_TRUE(std::filesystem::exists(folder / "lamp-part-side.png"));
    const std::string marked = (folder / "marked.ohmjob").string(), bare = (folder / "bare.ohmjob").string();
    test::call({"mark-leg", job, "--part", "C4", "--leg", "1", "--at", "300,200", "--out", marked});
    auto rows = rowsOf(test::call({"board", marked}).out);
    EXPECT_EQ(legRow(rows, "C4", "leg 1").at("place"), "marked");
    EXPECT_EQ(numberIn(legRow(rows, "C4", "leg 1"), "x"), 300.0);
    EXPECT_EQ(legRow(rows, "C4", "leg 2").at("place"), "not marked");
    // Seen through the board from the solder side.
    rows = rowsOf(test::call({"board", marked, "--side", "solder"}).out);
    EXPECT_EQ(numberIn(legRow(rows, "C4", "leg 1"), "x"), 700.0);
    test::call({"unmark-leg", marked, "--part", "C4", "--leg", "leg 1", "--out", bare});
    EXPECT_TRUE(loadJob(bare)->job.board.partSide.marks.empty());
    test::call({"photo", bare, "--out", (folder / "without.ohmjob").string()});
    EXPECT_EQ(loadJob(folder / "without.ohmjob")->job.board, Board());
}

// The sheet of the command line has the crop of the window's: taken out and fitted, a picture each.
TEST_F(BoardVerbs, TheSheetShowsThePhotoAroundMarkedLegs) {
    QImage board(1000, 800, QImage::Format_RGB32);
    board.fill(Qt::darkGreen);
    ASSERT_TRUE(board.save(QString::fromStdString(picture)));
    test::call({"photo", lamp, "--photo", picture, "--out", job});
    const std::string marked = (folder / "marked.ohmjob").string();
    test::call({"mark-leg", job, "--part", "C4", "--leg", "1", "--at", "300,200", "--out", marked});
    const auto pictures = [this](const std::string& file) {
        const std::string pdf = (folder / "sheet.pdf").string();
        EXPECT_EQ(test::answered({"sheet", file, "--kind", "bench", "--out", pdf}), "");
        const std::string bytes = test::bytesOf(pdf), word = "/Subtype /Image";
        int count = 0;
        for (auto at = bytes.find(word); at != std::string::npos; at = bytes.find(word, at + 1)) {
            ++count;
        }
        return count;
    };
    EXPECT_EQ(pictures(job), 0);
    EXPECT_EQ(pictures(marked), 2);
}

TEST_F(BoardVerbs, WhatIsWrongIsNamed) {
    test::call({"photo", lamp, "--photo", picture, "--out", job});
    EXPECT_NE(test::refused({"mark-leg", job, "--part", "C4", "--leg", "3", "--at", "1,1"}, ExitStatus::callWrong)
                  .find("leg 1, leg 2"),
              std::string::npos);
    EXPECT_NE(test::refused({"mark-leg", job, "--part", "C4", "--leg", "1", "--at", "5000,1"}, ExitStatus::callWrong)
                  .find("beside the photo"),
              std::string::npos);
    test::refused({"mark-leg", job, "--part", "C4", "--leg", "1", "--at", "5"}, ExitStatus::callWrong);
    const std::string noPicture = test::refused({"photo", lamp, "--photo", lamp, "--out", job}, ExitStatus::callWrong);
    EXPECT_NE(noPicture.find("neither a JPEG nor a PNG"), std::string::npos);
    std::filesystem::remove(folder / "lamp-part-side.png");
    EXPECT_NE(test::call({"board", job}).err.find("is not beside the job"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright
