// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_place.h"

#include "app/board/board_view.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/theme.h"
#include "core/board/board_legs.h"
#include "core/files/job_file.h"
#include "core/plan/board_marks.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QFile>
#include <QImage>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTest>

namespace ohmwright {
namespace {

class BoardPlaceTest : public testing::Test {
protected:
    BoardPlaceTest() {
        path = folder.filePath("lamp.ohmjob");
        EXPECT_TRUE(
            QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob", path));
        QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
        EXPECT_TRUE(document.open(path));
        place.resize(1000, 800);
        place.show();
        EXPECT_TRUE(QTest::qWaitForWindowExposed(&place));
        QObject::connect(&place, &BoardPlace::refused, [this](const QString& sentence) { refusal = sentence; });
        QObject::connect(&document, &JobDocument::refused, [this](const QString& sentence) { refusal = sentence; });
    }

    [[nodiscard]] const Job& job() { return *document.job(); }
    [[nodiscard]] Leg leg(const char* reference, int pin) {
        return {findPartByReference(job().stock, reference)->id, pin};
    }
    [[nodiscard]] QWidget* face() { return place.view().viewport(); }
    [[nodiscard]] QPoint at(const Leg& leg) {
        const auto found = place.view().placeOf(leg);
        EXPECT_TRUE(found) << leg.part << leg.pin;
        return found.value_or(QPoint());
    }
    void click(const QPoint& position) { QTest::mouseClick(face(), Qt::LeftButton, {}, position); }
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(&place.view(), key, modifiers);
    }
    [[nodiscard]] QString writePicture(const QString& name, const QSize& size) {
        QImage image(size, QImage::Format_RGB32);
        image.fill(Qt::darkGreen);
        const QString file = folder.filePath(name);
        EXPECT_TRUE(image.save(file));
        return file;
    }
    /// With a photo of 800 by 600 pixels on the part side.
    void photograph() {
        EXPECT_TRUE(place.addPhoto(writePicture("IMG_1.png", {800, 600}))) << refusal.toStdString();
        EXPECT_TRUE(QTest::qWaitFor([this] { return place.isCurrent(); }));
    }

    QTemporaryDir folder;
    QString path;
    QString refusal;
    JobDocument document;
    Selection selection;
    BoardPlace place{document, selection};
};

TEST_F(BoardPlaceTest, WithoutAPhotoADrawnBoardSaysThatItIsNotYours) {
    EXPECT_TRUE(place.words().contains("Drawn from the circuit, not your board."));
    EXPECT_EQ(place.view().sheet().ground, BoardSheet::Ground::drawn);
}

TEST_F(BoardPlaceTest, APressOnALegLightsItsNetAndSelectsThePart) {
    click(at(leg("U1A", 1)));
    EXPECT_EQ(selection.part(), leg("U1A", 1).part);
    EXPECT_TRUE(place.words().contains("inverting input\n6 legs: U1 pin 2, C4, C5, R6, D1, D2"));
    EXPECT_TRUE(place.words().contains("U1 pin 2: second from the notch"));
}

// 44 px across: 20 px beside its middle a leg still answers.
TEST_F(BoardPlaceTest, ALegAnswersAroundItself) {
    click(at(leg("C4", 0)) + QPoint(-14, 14));
    EXPECT_EQ(place.leg(), leg("C4", 0));
}

TEST_F(BoardPlaceTest, APartThatIsChosenElsewhereShowsItsLegsHere) {
    selection.setPart(leg("R6", 0).part);
    EXPECT_EQ(place.leg(), leg("R6", 0));
    EXPECT_TRUE(place.words().contains("inverting input"));
}

TEST_F(BoardPlaceTest, ArrowsWalkTheLegsAndTheParts) {
    click(at(leg("C4", 0)));
    press(Qt::Key_Right);
    EXPECT_EQ(place.leg(), leg("C4", 1));
    press(Qt::Key_Left);
    EXPECT_EQ(place.leg(), leg("C4", 0));
    press(Qt::Key_Down);
    EXPECT_NE(selection.part(), leg("C4", 0).part);
    press(Qt::Key_Up);
    EXPECT_EQ(place.leg(), leg("C4", 0));
}

TEST_F(BoardPlaceTest, ATypedPartAndLegIsGoneTo) {
    place.view().setFocus();
    QTest::keyClicks(&place.view(), "c");
    auto* field = place.findChild<QLineEdit*>();
    ASSERT_NE(field, nullptr);
    EXPECT_EQ(field->text(), "c");
    QTest::keyClicks(field, "4 2");
    QTest::keyClick(field, Qt::Key_Return);
    EXPECT_EQ(place.leg(), leg("C4", 1));
    EXPECT_TRUE(place.goTo("u1 pin 2"));
    EXPECT_EQ(place.leg(), leg("U1A", 1));
    EXPECT_TRUE(place.goTo("Rg"));
    EXPECT_EQ(place.leg(), leg("R5", 0));
    EXPECT_FALSE(place.goTo("R99"));
    EXPECT_TRUE(refusal.contains("R99"));
}

TEST_F(BoardPlaceTest, XTurnsTheBoardOverTogetherWithItsLegs) {
    const QPoint before = at(leg("C4", 0));
    const QPoint other = at(leg("C4", 1));
    ASSERT_LT(before.x(), other.x());
    press(Qt::Key_X);
    EXPECT_EQ(place.side(), BoardSide::solder);
    EXPECT_GT(at(leg("C4", 0)).x(), at(leg("C4", 1)).x());
    press(Qt::Key_X);
    EXPECT_EQ(at(leg("C4", 0)), before);
}

TEST_F(BoardPlaceTest, ThePointerMarksLegAfterLegAndUndoTakesBack) {
    photograph();
    EXPECT_EQ(place.view().sheet().ground, BoardSheet::Ground::photo);
    selection.setPart(leg("C4", 0).part);
    EXPECT_TRUE(place.words().contains("C4 Cg: not marked: click leg 1"));
    const QPoint first = face()->rect().center() - QPoint(120, 60);
    click(first);
    EXPECT_LT((at(leg("C4", 0)) - first).manhattanLength(), 3);
    EXPECT_EQ(place.leg(), leg("C4", 1));
    click(first + QPoint(100, 0));
    EXPECT_EQ(job().board.partSide.marks.size(), 2u);
    document.undoStack().undo();
    EXPECT_EQ(job().board.partSide.marks.size(), 1u);
}

TEST_F(BoardPlaceTest, AMarkIsDraggedToItsPlace) {
    photograph();
    selection.setPart(leg("C4", 0).part);
    const QPoint first = face()->rect().center();
    click(first);
    QTest::mousePress(face(), Qt::LeftButton, {}, first);
    QTest::mouseMove(face(), first + QPoint(30, 10));
    QTest::mouseMove(face(), first + QPoint(90, 40));
    QTest::mouseRelease(face(), Qt::LeftButton, {}, first + QPoint(90, 40));
    EXPECT_LT((at(leg("C4", 0)) - (first + QPoint(90, 40))).manhattanLength(), 3);
}

TEST_F(BoardPlaceTest, KeysMarkMoveAndUnmark) {
    photograph();
    selection.setPart(leg("C4", 0).part);
    press(Qt::Key_Return);
    EXPECT_EQ(job().board.partSide.marks.size(), 1u);
    EXPECT_LT((at(leg("C4", 0)) - face()->rect().center()).manhattanLength(), 4);
    place.goTo("C4 1");
    const int steps = document.undoStack().count();
    const QPoint before = at(leg("C4", 0));
    press(Qt::Key_Right, Qt::ControlModifier);
    press(Qt::Key_Right, Qt::ControlModifier);
    EXPECT_GT(at(leg("C4", 0)).x(), before.x());
    EXPECT_EQ(document.undoStack().count(), steps + 1);  // one step for the hand's way
    press(Qt::Key_Delete);
    EXPECT_TRUE(job().board.partSide.marks.empty());
}

TEST_F(BoardPlaceTest, ADragOnTheGroundMovesTheBoardAndMarksNothing) {
    photograph();
    press(Qt::Key_Plus);
    press(Qt::Key_Plus);
    press(Qt::Key_Plus);
    selection.setPart(leg("C4", 0).part);
    const QPoint from = face()->rect().center();
    const QPointF before = place.view().mapToScene(from);
    QTest::mousePress(face(), Qt::LeftButton, {}, from);
    QTest::mouseMove(face(), from + QPoint(20, 0));
    QTest::mouseMove(face(), from + QPoint(80, 0));
    QTest::mouseRelease(face(), Qt::LeftButton, {}, from + QPoint(80, 0));
    EXPECT_NE(place.view().mapToScene(from), before);
    EXPECT_TRUE(job().board.partSide.marks.empty());
    press(Qt::Key_Home);
    EXPECT_TRUE(place.view().showsWhole());
}

TEST_F(BoardPlaceTest, APhotoIsCopiedBesideTheJobAndADropWorksToo) {
    const QString picture = writePicture("DCIM.jpg", {640, 480});
    QMimeData dropped;
    dropped.setUrls({QUrl::fromLocalFile(picture)});
    QDragEnterEvent enter(QPoint(10, 10), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&place, &enter);
    EXPECT_TRUE(enter.isAccepted());
    QDropEvent drop(QPointF(10, 10), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&place, &drop);
    ASSERT_TRUE(job().board.partSide.photo);
    EXPECT_EQ(job().board.partSide.photo->file, "lamp-part-side.jpg");
    EXPECT_TRUE(QFile::exists(folder.filePath("lamp-part-side.jpg")));
    EXPECT_TRUE(QFile::exists(picture));
    // Saved elsewhere, the job takes it along.
    ASSERT_TRUE(QDir(folder.path()).mkdir("away"));
    EXPECT_TRUE(document.saveAs(folder.filePath("away/lamp.ohmjob")));
    EXPECT_TRUE(QFile::exists(folder.filePath("away/lamp-part-side.jpg")));
}

TEST_F(BoardPlaceTest, AJobWithoutAFileIsSavedFirst) {
    document.setJob(job(), {});
    EXPECT_FALSE(place.addPhoto(writePicture("a.png", {20, 20})));
    EXPECT_TRUE(refusal.contains("Save the job first"));
}

TEST_F(BoardPlaceTest, AMissingPhotoIsSaidAndItsMarksStay) {
    photograph();
    selection.setPart(leg("C4", 0).part);
    click(face()->rect().center());
    ASSERT_TRUE(document.save());
    ASSERT_TRUE(QFile::remove(folder.filePath("lamp-part-side.png")));
    ASSERT_TRUE(document.open(path));
    place.hide();
    place.show();
    EXPECT_TRUE(QTest::qWaitFor([this] { return place.words().contains("is not beside the job"); }));
    EXPECT_EQ(job().board.partSide.marks.size(), 1u);
}

// A drag that was begun by mistake: Esc lets the mark be, and a second Esc gives up the leg.
TEST_F(BoardPlaceTest, EscLeavesADragAndThenTheChosenLeg) {
    photograph();
    EXPECT_TRUE(document.edit(markLeg(job(), BoardSide::part, leg("C4", 0), {300, 200}), "mark"));
    const QPoint from = at(leg("C4", 0));
    QTest::mousePress(face(), Qt::LeftButton, {}, from);
    QTest::mouseMove(face(), from + QPoint(40, 30));
    press(Qt::Key_Escape);
    QTest::mouseRelease(face(), Qt::LeftButton, {}, from + QPoint(40, 30));
    EXPECT_EQ(findMark(job().board.partSide, leg("C4", 0))->at, (BoardPoint{300, 200}));
    EXPECT_EQ(place.leg(), leg("C4", 0));
    press(Qt::Key_Escape);
    EXPECT_FALSE(place.leg());
    EXPECT_TRUE(selection.part().empty());
    EXPECT_TRUE(place.words().contains("no leg chosen"));
}

TEST_F(BoardPlaceTest, AtTheBenchTheProbesAreShownAndNothingIsMarked) {
    photograph();
    selection.setPart(leg("C4", 0).part);
    click(face()->rect().center());
    place.setBench(true);
    Check check;
    check.kind = CheckKind::beep;
    check.red = {leg("C4", 0).part, Probe::eitherLeg, {}, "one leg of C4 Cg"};
    check.black = {leg("U1A", 1).part, 1, {}, "U1 pin 2"};
    place.showCheck(check);
    EXPECT_TRUE(place.view().isPulsing());
    EXPECT_TRUE(place.words().contains("inverting input"));
    place.view().setKeepsStill(true);
    EXPECT_FALSE(place.view().isPulsing());
    place.view().setKeepsStill(false);
    // Not marked: in words.
    EXPECT_TRUE(place.words().contains("U1: not marked: click pin 2 (second from the notch"));
    const std::size_t marks = job().board.partSide.marks.size();
    click(face()->rect().center() + QPoint(150, 60));
    EXPECT_EQ(job().board.partSide.marks.size(), marks);
    place.showCheck(std::nullopt);
    EXPECT_FALSE(place.view().isPulsing());
}

/// Story: "1×" stood half under the red ring of the probe on the same leg, under the bracket of a chosen one, and on
/// the marking of the body that it was heated for.
TEST_F(BoardPlaceTest, WhatALegWasHeatedStandsClearOfItsRingAndItsBody) {
    BoardView& view = place.view();
    const Leg one = leg("C4", 0);
    const Leg other = leg("C4", 1);
    view.showHeat({{one, 1}, {other, 2}});
    view.setSelected({}, std::nullopt);
    EXPECT_FALSE(view.heatBadgeOf(leg("R5", 0)));
    const auto distance = [&](const Leg& heated) {
        const QRectF badge = view.heatBadgeOf(heated).value();
        const QPointF pad(at(heated));
        const QPointF near(std::clamp(pad.x(), badge.left(), badge.right()),
                           std::clamp(pad.y(), badge.top(), badge.bottom()));
        return QLineF(pad, near).length();
    };
    constexpr double ring = 20.0;  // the ring with its rim [px]
    EXPECT_LT(distance(one), ring) << "without a ring it stands at the leg";
    view.showProbes({one, "red: C4 Cg leg 1"}, {});
    EXPECT_GT(distance(one), ring);
    view.showProbes({}, {});
    view.setSelected(one.part, one);
    EXPECT_GT(distance(one), ring);
    EXPECT_GT(distance(other), 15.0);
    // C4 lies above its legs.
    EXPECT_GT(view.heatBadgeOf(one)->top(), at(one).y());
    EXPECT_GT(view.heatBadgeOf(other)->top(), at(other).y());
    EXPECT_FALSE(view.heatBadgeOf(one)->intersects(*view.heatBadgeOf(other)));
    // R5 lies between its legs.
    const Leg end = leg("R5", 1);
    view.showHeat({{end, 1}});
    EXPECT_GT(std::abs(view.heatBadgeOf(end)->center().x() - at(leg("R5", 0)).x()),
              std::abs(at(end).x() - at(leg("R5", 0)).x()));
}

// For the eye: both themes, drawn, photographed, at the bench.
TEST_F(BoardPlaceTest, Pictures) {
    const QDir pictures(OHMWRIGHT_PICTURES_DIR);
    ASSERT_TRUE(pictures.mkpath("."));
    place.resize(1000, 900);
    place.goTo("U1 pin 2");
    const auto grab = [&](const char* name) {
        QTest::qWait(50);
        EXPECT_TRUE(place.grab().save(pictures.filePath(name)));
    };
    grab("board-drawn.png");
    Theme::current().setKind(ThemeKind::dark);
    grab("board-drawn-dark.png");
    Theme::current().setKind(ThemeKind::light);
    place.flip();
    grab("board-solder.png");
    place.flip();
    place.setBench(true);
    Check check;
    check.red = {leg("C4", 0).part, Probe::eitherLeg, {}, "one leg of C4 Cg"};
    check.black = {leg("U1A", 1).part, 1, {}, "U1 pin 2"};
    place.showCheck(check);
    grab("board-bench.png");
    place.setBench(false);
    photograph();
    EXPECT_TRUE(document.edit(markLeg(job(), BoardSide::part, leg("C4", 0), {300, 200}), "mark"));
    EXPECT_TRUE(document.edit(markLeg(job(), BoardSide::part, leg("U1A", 1), {500, 380}), "mark"));
    place.goTo("C4 1");
    grab("board-photo.png");
}

}  // namespace
}  // namespace ohmwright
