// Orientation: Exif 2.3 (CIPA DC-008-2012), tag 274: with 5 to 8 the stored rows are the picture's columns.
// Hash: the test vectors of the FNV-1a page (http://www.isthe.com/chongo/tech/comp/fnv/), from memory: "" gives
// cbf29ce484222325, "a" gives af63dc4c8601ec8c.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/photo_file.h"

#include <gtest/gtest.h>

#include <fstream>
#include <random>

namespace ohmwright {
namespace {

std::string bytes(std::initializer_list<int> values) {
    std::string text;
    for (const int value : values) {
        text += static_cast<char>(value);
    }
    return text;
}

/// A JPEG as far as its head goes: 640 stored pixels a row, 480 rows.
std::string jpegHead(int orientation, bool isLittleEndian) {
    std::string text = bytes({0xFF, 0xD8});
    if (orientation != 0) {
        const std::string tiff = isLittleEndian ? bytes({'I', 'I', 42, 0, 8, 0,           0, 0, 1, 0, 0x12, 0x01, 3,
                                                         0,   1,   0,  0, 0, orientation, 0, 0, 0, 0, 0,    0,    0})
                                                : bytes({'M', 'M', 0, 42, 0, 0, 0,           8, 0, 1, 0x01, 0x12, 0,
                                                         3,   0,   0, 0,  1, 0, orientation, 0, 0, 0, 0,    0,    0});
        const int length = static_cast<int>(tiff.size()) + 8;
        text += bytes({0xFF, 0xE1, 0, length}) + bytes({'E', 'x', 'i', 'f', 0, 0}) + tiff;
    }
    return text + bytes({0xFF, 0xDB, 0, 4, 0, 0, 0xFF, 0xC0, 0, 11, 8, 0x01, 0xE0, 0x02, 0x80, 1, 1, 0x11, 0});
}

std::string pngHead(int width, int height) {
    return std::string("\x89PNG\r\n\x1a\n", 8) + bytes({0, 0, 0, 13}) + "IHDR" +
           bytes({0, 0, width >> 8, width & 255, 0, 0, height >> 8, height & 255, 8, 2, 0, 0, 0});
}

class PhotoFolder : public testing::Test {
protected:
    PhotoFolder() {
        folder =
            std::filesystem::temp_directory_path() / ("ohmwright-photos-" + std::to_string(std::random_device()()));
        std::filesystem::create_directories(folder / "camera");
        std::filesystem::create_directories(folder / "jobs");
    }
    ~PhotoFolder() override {
        std::error_code ignored;
        std::filesystem::remove_all(folder, ignored);
    }
    std::filesystem::path write(const std::string& name, const std::string& text) {
        std::ofstream(folder / name, std::ios::binary) << text;
        return folder / name;
    }
    std::filesystem::path folder;
};

TEST(PhotoHead, SaysTheSizeAsThePictureIsSeen) {
    for (const bool isLittleEndian : {false, true}) {
        for (int orientation = 1; orientation <= 8; ++orientation) {
            const auto head = readPhotoHead(jpegHead(orientation, isLittleEndian));
            ASSERT_TRUE(head) << head.error().message;
            const bool isOnItsSide = orientation == 5 || orientation == 6 || orientation == 7 || orientation == 8;
            EXPECT_EQ(head->orientation, orientation);
            EXPECT_EQ(head->width, isOnItsSide ? 480 : 640);
            EXPECT_EQ(head->height, isOnItsSide ? 640 : 480);
        }
    }
    EXPECT_EQ(*readPhotoHead(jpegHead(0, false)), (PhotoHead{PhotoHead::Kind::jpeg, 640, 480, 1}));
    EXPECT_EQ(*readPhotoHead(pngHead(4000, 3000)), (PhotoHead{PhotoHead::Kind::png, 4000, 3000, 1}));
}

TEST(PhotoHead, AnOrientationThatIsNoneIsUpright) {
    EXPECT_EQ(readPhotoHead(jpegHead(9, true))->orientation, 1);
}

TEST(PhotoHead, WhatIsNoPictureOrEndsEarlyIsRefused) {
    EXPECT_NE(readPhotoHead("GIF89a").error().message.find("neither a JPEG nor a PNG"), std::string::npos);
    for (const std::string& whole : {jpegHead(6, true), pngHead(640, 480)}) {
        for (std::size_t end = 0; end + 6 < whole.size(); ++end) {
            const auto head = readPhotoHead(std::string_view(whole).substr(0, end));
            EXPECT_TRUE(!head || (head->width > 0 && head->height > 0)) << end;
        }
    }
    EXPECT_FALSE(readPhotoHead(std::string_view(pngHead(640, 480)).substr(0, 20)));
}

TEST(PhotoHead, RandomBytesNeverCrash) {
    std::mt19937 generator(3);
    for (int trial = 0; trial < 20000; ++trial) {
        std::string text = trial % 2 == 0 ? jpegHead(6, trial % 4 == 0) : pngHead(640, 480);
        for (int k = 0; k < 4; ++k) {
            text[generator() % text.size()] = static_cast<char>(generator());
        }
        const auto head = readPhotoHead(text);
        EXPECT_TRUE(!head || (head->width > 0 && head->height > 0 && head->width <= 65535 && head->height <= 65535));
    }
}

TEST(PhotoHash, IsTheOneOfItsTestVectors) {
    EXPECT_EQ(photoHash(""), "cbf29ce484222325");
    EXPECT_EQ(photoHash("a"), "af63dc4c8601ec8c");
}

TEST_F(PhotoFolder, APictureIsCopiedInAndItsOriginalStays) {
    const auto picture = write("camera/IMG_1.JPG", jpegHead(6, true));
    const auto photo = copyPhotoIn(picture, folder / "jobs", "harbour-lamp", BoardSide::part);
    ASSERT_TRUE(photo) << photo.error().message;
    EXPECT_EQ(photo->file, "harbour-lamp-part-side.jpg");
    EXPECT_EQ(photo->width, 480);
    EXPECT_TRUE(std::filesystem::exists(picture));
    const auto found = findPhoto(folder / "jobs", *photo, BoardSide::part);
    ASSERT_TRUE(found) << found.error().message;
    EXPECT_EQ(found->filename(), "harbour-lamp-part-side.jpg");
}

TEST_F(PhotoFolder, ACopyThatIsThereIsTakenAnotherFileIsNotOverwritten) {
    const auto picture = write("camera/a.jpg", jpegHead(6, true));
    const auto other = write("camera/b.jpg", jpegHead(1, true));
    EXPECT_EQ(copyPhotoIn(picture, folder / "jobs", "lamp", BoardSide::solder)->file, "lamp-solder-side.jpg");
    EXPECT_EQ(copyPhotoIn(picture, folder / "jobs", "lamp", BoardSide::solder)->file, "lamp-solder-side.jpg");
    EXPECT_EQ(copyPhotoIn(other, folder / "jobs", "lamp", BoardSide::solder)->file, "lamp-solder-side-2.jpg");
}

TEST_F(PhotoFolder, AMissingOrChangedPhotoIsSaidInASentence) {
    const auto photo = copyPhotoIn(write("camera/a.jpg", jpegHead(6, true)), folder / "jobs", "lamp", BoardSide::part);
    ASSERT_TRUE(photo);
    write("jobs/" + photo->file, jpegHead(1, true));
    const auto changed = findPhoto(folder / "jobs", *photo, BoardSide::part);
    ASSERT_FALSE(changed);
    EXPECT_EQ(changed.error().code, ErrorCode::fileDamaged);
    EXPECT_NE(changed.error().message.find("lamp-part-side.jpg, the photo of the part side, is another file"),
              std::string::npos);
    std::filesystem::remove(folder / "jobs" / photo->file);
    const auto missing = findPhoto(folder / "jobs", *photo, BoardSide::part);
    ASSERT_FALSE(missing);
    EXPECT_NE(missing.error().message.find("is not beside the job"), std::string::npos);
}

TEST_F(PhotoFolder, PhotosGoAlongToAnotherFolder) {
    Board board;
    board.partSide.photo =
        *copyPhotoIn(write("camera/a.jpg", jpegHead(6, true)), folder / "jobs", "lamp", BoardSide::part);
    EXPECT_TRUE(copyPhotosAlong(board, folder / "jobs", folder / "camera"));
    EXPECT_TRUE(findPhoto(folder / "camera", *board.partSide.photo, BoardSide::part));
    EXPECT_TRUE(copyPhotosAlong(board, folder / "jobs", folder / "jobs"));
    write("camera/" + board.partSide.photo->file, "another");
    const auto refused = copyPhotosAlong(board, folder / "jobs", folder / "camera");
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().message.find("another file is called lamp-part-side.jpg"), std::string::npos);
}

TEST_F(PhotoFolder, WhatIsNoPictureIsNotCopied) {
    EXPECT_FALSE(copyPhotoIn(write("camera/a.txt", "hello"), folder / "jobs", "lamp", BoardSide::part));
    EXPECT_FALSE(copyPhotoIn(folder / "camera/none.jpg", folder / "jobs", "lamp", BoardSide::part));
    EXPECT_TRUE(std::filesystem::is_empty(folder / "jobs"));
}

}  // namespace
}  // namespace ohmwright
