// Orientation: Exif 2.3 (CIPA DC-008-2012), tag 274, table of where the 0th row and the 0th column are seen: 1 top
// left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/photo_service.h"

#include "core/files/photo_file.h"

#include <gtest/gtest.h>
#include <QElapsedTimer>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <array>
#include <iostream>

namespace ohmwright {
namespace {

class PhotoServiceTest : public testing::Test {
protected:
    /// Copied in as a photo of the part side.
    [[nodiscard]] BoardPhoto copied(const QString& file) {
        const auto photo = copyPhotoIn(file.toStdString(), folder.path().toStdString(), "lamp", BoardSide::part);
        EXPECT_TRUE(photo) << photo.error().message;
        return photo ? *photo : BoardPhoto();
    }

    QTemporaryDir folder;
};

/// A JPEG whose stored first pixels are red, with an orientation put in behind its first marker.
QByteArray jpegWith(int orientation, const QString& scratch) {
    QImage image(64, 32, QImage::Format_RGB32);
    image.fill(Qt::white);
    for (int y = 0; y < 8; ++y) {
        for (int x = 0; x < 8; ++x) {
            image.setPixelColor(x, y, Qt::red);
        }
    }
    EXPECT_TRUE(image.save(scratch, "JPG", 100));
    QFile file(scratch);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    QByteArray bytes = file.readAll();
    const std::array<char, 26> tiff{'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, char(orientation)};
    QByteArray exif("\xFF\xE1", 2);
    exif += char(0);
    exif += char(2 + 6 + tiff.size());
    exif += QByteArray("Exif\0\0", 6);
    exif += QByteArray(tiff.data(), tiff.size());
    bytes.insert(2, exif);
    return bytes;
}

TEST_F(PhotoServiceTest, OrientationIsHonouredAsExifHasIt) {
    // x, y of the corner where the stored first pixel is seen: 0 left or top, 1 right or bottom.
    constexpr std::array<std::array<int, 2>, 8> corners{
        {{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}, {1, 0}, {1, 1}, {0, 1}}};
    for (int orientation = 1; orientation <= 8; ++orientation) {
        const QString file = folder.filePath(QString("turned-%1.jpg").arg(orientation));
        QFile out(file);
        const QByteArray bytes = jpegWith(orientation, folder.filePath("scratch.jpg"));
        ASSERT_TRUE(out.open(QIODevice::WriteOnly));
        out.write(bytes);
        out.close();
        const BoardPhoto photo = copied(file);
        const PhotoPicture picture = readPhotoPicture(folder.path(), photo, BoardSide::part);
        ASSERT_FALSE(picture.levels.empty()) << picture.fault.toStdString();
        const QImage& image = picture.levels.front();
        EXPECT_EQ(image.size(), QSize(photo.width, photo.height)) << orientation;
        const auto [right, lower] = corners.at(static_cast<std::size_t>(orientation - 1));
        const QColor corner = image.pixelColor(right ? image.width() - 3 : 2, lower ? image.height() - 3 : 2);
        EXPECT_TRUE(corner.red() > 200 && corner.green() < 80) << orientation;
    }
}

// 48 megapixels: what is kept is bounded, and marks still count in the photo's own pixels.
TEST_F(PhotoServiceTest, ALargePhotoIsKeptInBounds) {
    QImage image(8000, 6000, QImage::Format_RGB32);
    image.fill(Qt::darkGreen);
    const QString file = folder.filePath("large.jpg");
    ASSERT_TRUE(image.save(file));
    const BoardPhoto photo = copied(file);
    QElapsedTimer clock;
    clock.start();
    const PhotoPicture picture = readPhotoPicture(folder.path(), photo, BoardSide::part);
    std::cout << "48 megapixels read in " << clock.elapsed() << " ms\n";
    ASSERT_FALSE(picture.levels.empty());
    EXPECT_EQ(picture.size, QSize(8000, 6000));
    EXPECT_LE(picture.levels.front().width(), PhotoPicture::largestLevel);
    qint64 bytes = 0;
    for (const QImage& level : picture.levels) {
        bytes += level.sizeInBytes();
    }
    EXPECT_LT(bytes, 92'000'000);
    // The smallest level that does for the screen is taken.
    EXPECT_GE(picture.levelFor(0.1).width(), 800);
    EXPECT_LT(picture.levelFor(0.1).width(), 1700);
}

TEST_F(PhotoServiceTest, APhotoIsReadBesideTheWindowAndOnce) {
    QImage image(640, 480, QImage::Format_RGB32);
    image.fill(Qt::darkGreen);
    const QString file = folder.filePath("a.png");
    ASSERT_TRUE(image.save(file));
    const BoardPhoto photo = copied(file);
    PhotoService service;
    std::vector<std::shared_ptr<const PhotoPicture>> read;
    QObject::connect(&service, &PhotoService::read, [&read](const auto& picture) { read.push_back(picture); });
    service.ask(folder.path(), photo, BoardSide::part);
    EXPECT_TRUE(service.isBusy());
    ASSERT_TRUE(QTest::qWaitFor([&service] { return !service.isBusy(); }));
    ASSERT_EQ(read.size(), 1u);
    service.ask(folder.path(), photo, BoardSide::part);
    ASSERT_EQ(read.size(), 2u);
    EXPECT_EQ(read[0], read[1]);
    // One that is gone is said in words.
    ASSERT_TRUE(QFile::remove(folder.filePath("lamp-part-side.png")));
    service.forget();
    service.ask(folder.path(), photo, BoardSide::part);
    ASSERT_TRUE(QTest::qWaitFor([&service] { return !service.isBusy(); }));
    EXPECT_TRUE(read.back()->fault.contains("is not beside the job"));
}

}  // namespace
}  // namespace ohmwright
