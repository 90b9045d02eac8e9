// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/step_photos.h"

#include "core/files/photo_file.h"
#include "core/plan/board_marks.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QPainter>
#include <QTemporaryDir>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr QPoint firstLeg(1200, 900), secondLeg(1400, 900);

/// A board of 3200 by 2000 px with a red and a blue spot where the legs of C4 are, only mod A on.
class StepPhotosTest : public testing::Test {
protected:
    StepPhotosTest() {
        QImage image(3200, 2000, QImage::Format_RGB32);
        image.fill(Qt::darkGreen);
        QPainter painter(&image);
        painter.setPen(Qt::NoPen);
        painter.setBrush(Qt::red);
        painter.drawEllipse(firstLeg, 20, 20);
        painter.setBrush(Qt::blue);
        painter.drawEllipse(secondLeg, 20, 20);
        painter.end();
        EXPECT_TRUE(image.save(folder.filePath("scratch.png")));
        job = test::harbourLamp();
        for (Mod& mod : job.plan) {
            mod.on = mod.letter == "A";
        }
        const auto photo = copyPhotoIn(folder.filePath("scratch.png").toStdString(), folder.path().toStdString(),
                                       "lamp", BoardSide::part);
        EXPECT_TRUE(photo) << photo.error().message;
        file = folder.filePath(QString::fromStdString(photo->file));
        job = *setBoardPhoto(job, BoardSide::part, *photo);
        job = *markLeg(job, BoardSide::part, {"c4", 0}, {double(firstLeg.x()), double(firstLeg.y())});
        job = *markLeg(job, BoardSide::part, {"c4", 1}, {double(secondLeg.x()), double(secondLeg.y())});
    }

    [[nodiscard]] PaperAnswers answers(PaperKind kind) const {
        PaperRequest request;
        request.kind = kind;
        request.job = std::make_shared<const Job>(job);
        Result<PaperAnswers> made = answersOfPaper(request);
        EXPECT_TRUE(made) << made.error().message;
        return made ? *std::move(made) : PaperAnswers{};
    }

    QTemporaryDir folder;
    QString file;
    Job job;
};

// The take-out and the fit: the picture is small enough for paper, and its rings lie on the spots.
TEST_F(StepPhotosTest, RingsLieOnTheLegsInTheSmallerPicture) {
    for (const PaperKind kind : {PaperKind::bench, PaperKind::wayBack}) {
        const StepPhotos photos = readStepPhotos(answers(kind), folder.path());
        EXPECT_TRUE(photos.faults.isEmpty());
        const auto hasPicture = [](const StepPhoto& photo) { return !photo.picture.isNull(); };
        EXPECT_EQ(std::count_if(photos.steps.begin(), photos.steps.end(), hasPicture), 2);
        const auto found = std::find_if(photos.steps.begin(), photos.steps.end(), hasPicture);
        ASSERT_NE(found, photos.steps.end());
        EXPECT_LE(std::max(found->picture.width(), found->picture.height()), StepPhotos::largestCrop);
        EXPECT_EQ(found->side, "part side");
        ASSERT_EQ(found->rings.size(), 2U);
        EXPECT_EQ(found->rings[0].words, "leg 1");
        EXPECT_EQ(found->rings[1].words, "leg 2");
        EXPECT_GT(found->picture.pixelColor(found->rings[0].at.toPoint()).red(), 200);
        EXPECT_GT(found->picture.pixelColor(found->rings[1].at.toPoint()).blue(), 200);
    }
}

TEST_F(StepPhotosTest, APhotoThatIsGoneIsSaidOnceAndTheStepsStayWithoutPicture) {
    ASSERT_TRUE(QFile::remove(file));
    const StepPhotos photos = readStepPhotos(answers(PaperKind::bench), folder.path());
    ASSERT_EQ(photos.faults.size(), 1);
    EXPECT_TRUE(photos.faults.front().contains("lamp-part-side.png")) << photos.faults.front().toStdString();
    EXPECT_TRUE(std::all_of(photos.steps.begin(), photos.steps.end(),
                            [](const StepPhoto& photo) { return photo.picture.isNull(); }));
}

TEST_F(StepPhotosTest, PapersWithoutStepsAndBoardsWithoutMarksHaveNone) {
    EXPECT_TRUE(readStepPhotos(answers(PaperKind::label), folder.path()).steps.empty());
    job.board.partSide.marks.clear();
    EXPECT_TRUE(readStepPhotos(answers(PaperKind::bench), folder.path()).steps.empty());
}

}  // namespace
}  // namespace ohmwright
