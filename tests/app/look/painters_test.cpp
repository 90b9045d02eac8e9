// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/painters.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QFontMetricsF>

namespace ohmwright {
namespace {

TEST(Painters, ActiveTriangleIsIrisAndAnOffOneHasNoIris) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        const QImage active = paintedPicture("triangle-active", {40, 40}, [](QPainter& painter) {
            paintRevisionTriangle(painter, {2, 2, 36, 36}, "A", TriangleState::active);
        });
        EXPECT_GT(pixelsOf(active, c.now), 800) << themeName(kind);
        EXPECT_GT(pixelsOf(active, c.onNow), 20) << "the letter";
        const QImage off = paintedPicture("triangle-off", {40, 40}, [](QPainter& painter) {
            paintRevisionTriangle(painter, {2, 2, 36, 36}, "B", TriangleState::off);
        });
        EXPECT_EQ(pixelsOf(off, c.now), 0) << themeName(kind);
        EXPECT_GT(pixelsOf(off, c.ink3), 40) << "the dashes";
        EXPECT_GT(pixelsOf(off, c.canvas), 4000) << "hollow";
    }
}

TEST(Painters, TwoLettersFitIntoATriangle) {
    const QImage image = paintedPicture("triangle-two-letters", {40, 40}, [](QPainter& painter) {
        paintRevisionTriangle(painter, {2, 2, 36, 36}, "AB", TriangleState::active);
    });
    // Letters wider than the triangle would touch the canvas beside it.
    for (int y = 0; y < image.height(); ++y) {
        EXPECT_NE(image.pixelColor(3, y), Theme::current().colours().onNow);
        EXPECT_NE(image.pixelColor(image.width() - 4, y), Theme::current().colours().onNow);
    }
}

TEST(Painters, CareStopAndTickHaveTheirOwnColourAndShape) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        const QImage care = paintedPicture("care", {24, 24}, [](QPainter& p) { paintCareSign(p, {2, 2, 20, 20}); });
        EXPECT_GT(pixelsOf(care, c.warnFill), 150);
        EXPECT_EQ(pixelsOf(care, c.stop), 0);
        const QImage stop = paintedPicture("stop", {24, 24}, [](QPainter& p) { paintStopSign(p, {2, 2, 20, 20}); });
        EXPECT_GT(pixelsOf(stop, c.stop), 600);
        EXPECT_EQ(stop.pixelColor(5, 5), c.canvas) << "the corner of an octagon is cut off";
        const QImage tick = paintedPicture("tick", {24, 24}, [](QPainter& p) { paintTick(p, {2, 2, 20, 20}); });
        EXPECT_GT(pixelsOf(tick, c.ok), 60);
        EXPECT_EQ(pixelsOf(tick, c.stop) + pixelsOf(tick, c.warnFill), 0);
    }
}

TEST(Painters, KnowledgeShowsAsRingHalfAndFullPine) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        const auto dot = [](const char* name, Knowledge knowledge) {
            return paintedPicture(name, {16, 16}, [&](QPainter& p) { paintKnowledgeDot(p, {8, 8}, knowledge); });
        };
        const QImage drawn = dot("dot-drawn", Knowledge::drawn);
        const QImage seen = dot("dot-seen", Knowledge::seen);
        const QImage measured = dot("dot-measured", Knowledge::measured);
        EXPECT_EQ(pixelsOf(drawn, c.measured) + pixelsOf(seen, c.measured), 0) << "pine means a meter confirmed it";
        EXPECT_GT(pixelsOf(measured, c.measured), 120);
        EXPECT_GT(pixelsOf(seen, c.stock), pixelsOf(drawn, c.stock) + 30);
        EXPECT_EQ(seen.pixelColor(19, 16), c.canvas) << "the right half stays open";
        EXPECT_EQ(seen.pixelColor(12, 16), c.stock) << "the left half is filled";
    }
}

TEST(Painters, StruckStockIsCrossedByALineAndNowStandsBoldBesideIt) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        double width = 0.0;
        const QImage image = paintedPicture("stock-to-now", {120, 24}, [&](QPainter& painter) {
            width = paintStockToNow(painter, {4, 17}, "56n", "120n");
        });
        const double stockWidth = QFontMetricsF(Theme::current().font(TextRole::body)).horizontalAdvance("56n");
        EXPECT_GT(width, stockWidth + QFontMetricsF(Theme::current().font(TextRole::body)).horizontalAdvance("120n"));
        EXPECT_LT(width, 100);
        EXPECT_GT(pixelsOf(image, c.now), 60);
        int longestRun = 0;
        for (int y = 0; y < image.height(); ++y) {
            int run = 0;
            for (int x = 0; x < image.width(); ++x) {
                run = image.pixelColor(x, y) == c.stock ? run + 1 : 0;
                longestRun = std::max(longestRun, run);
            }
        }
        EXPECT_GE(longestRun, static_cast<int>(stockWidth * 2)) << "one line through the whole word";
    }
}

TEST(Painters, OnIrisSoftTheStockTextIsDarker) {
    const QImage image = paintedPicture("struck-on-soft", {60, 24}, [](QPainter& painter) {
        painter.fillRect(QRect(0, 0, 60, 24), Theme::current().colours().nowSoft);
        paintStruck(painter, {4, 17}, "56n", Ground::nowSoft);
    });
    EXPECT_GT(pixelsOf(image, Theme::current().colours().stockOnSoft), 40);
    // Blending at the edges may meet the lighter graphite by chance.
    EXPECT_LT(pixelsOf(image, Theme::current().colours().stock), 5);
}

TEST(Painters, BracketsMarkFourCornersInInkAndLeaveTheSidesOpen) {
    const ThemeColours& c = Theme::current().colours();
    const QImage image = paintedPicture("brackets", {80, 60}, [](QPainter& painter) {
        paintSelectionBrackets(painter, {10, 10, 60, 40});
    });
    for (const QPoint corner : {QPoint(20, 20), QPoint(139, 20), QPoint(20, 99), QPoint(139, 99)}) {
        EXPECT_EQ(image.pixelColor(corner), c.ink) << corner.x() << ", " << corner.y();
    }
    EXPECT_EQ(image.pixelColor(80, 20), c.canvas);
    EXPECT_EQ(image.pixelColor(20, 60), c.canvas);
}

TEST(Painters, CheckBoxIsFilledOnlyWhenOn) {
    const ThemeColours& c = Theme::current().colours();
    const auto box = [&](const char* name, bool on) {
        return paintedPicture(name, {24, 24}, [&](QPainter& painter) {
            paintCheckBox(painter, {3, 3, 18, 18}, on, c.now, c.onNow);
        });
    };
    EXPECT_GT(pixelsOf(box("check-on", true), c.now), 500);
    EXPECT_EQ(pixelsOf(box("check-off", false), c.now), 0);
}

}  // namespace
}  // namespace ohmwright
