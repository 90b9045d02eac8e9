/// Whatever a colour says is said a second time without it: line kind, shape, strike. Read from grey pictures, as of a
/// printer that has no colours.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/look/grey_picture.h"

#include "app/look/painters.h"
#include "app/look/print_ink.h"
#include "app/look/sign_text.h"
#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

#include <map>

namespace ohmwright {
namespace {

/// Below this two shapes of 20 px are taken for one another (measured: the same sign in two colours 0.00 to 0.03).
constexpr double tellsApart = 0.25;

using Painting = std::function<void(QPainter&)>;

void expectAllApart(const std::map<std::string, Painting>& signs, const QSize& size) {
    std::map<std::string, QImage> pictures;
    for (const auto& [name, paint] : signs) {
        pictures[name] = greyOf(size, paint);
    }
    for (const auto& [name, picture] : pictures) {
        for (const auto& [otherName, other] : pictures) {
            if (name < otherName) {
                EXPECT_GE(shapeDifference(picture, other), tellsApart)
                    << themeName(Theme::current().kind()) << ": " << name << " and " << otherName;
            }
        }
    }
}

void expectLinesApart(const std::map<std::string, QPen>& pens) {
    for (const auto& [name, pen] : pens) {
        const LineLook look = lookOf(pen);
        EXPECT_GT(look.inked, 0.1) << name << " is not seen";
        for (const auto& [otherName, other] : pens) {
            if (name < otherName) {
                EXPECT_FALSE(look.isLike(lookOf(other)))
                    << themeName(Theme::current().kind()) << ": " << name << " and " << otherName << ", "
                    << look.thickness << " px, " << look.inked << " inked, dash " << look.dash;
            }
        }
    }
}

class GreySigns : public testing::TestWithParam<ThemeKind> {
protected:
    GreySigns() { Theme::current().setKind(GetParam()); }
    ~GreySigns() override { Theme::current().setKind(ThemeKind::light); }
    GreySigns(const GreySigns&) = delete;
    GreySigns& operator=(const GreySigns&) = delete;
};

TEST_P(GreySigns, LinesOfTheCurvesDifferInDashOrWidth) {
    const Theme& theme = Theme::current();
    expectLinesApart({{"stock", theme.stockPen()},
                      {"now", theme.nowPen()},
                      {"ghost", theme.ghostPen()},
                      {"pinned W", theme.throwPen(0)},
                      {"pinned X", theme.throwPen(1)},
                      {"pinned Y", theme.throwPen(2)},
                      {"pinned Z", theme.throwPen(3)}});
}

TEST_P(GreySigns, AColourAloneIsNoSecondSign) {
    const ThemeColours& colours = Theme::current().colours();
    EXPECT_TRUE(lookOf(QPen(colours.now, 2.0)).isLike(lookOf(QPen(colours.stock, 2.0))));
    const auto dot = [](const QColor& colour) {
        return [colour](QPainter& painter) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(colour);
            painter.drawEllipse(QPointF(10, 10), 8, 8);
        };
    };
    EXPECT_LT(shapeDifference(greyOf({20, 20}, dot(colours.warn)), greyOf({20, 20}, dot(colours.stop))), tellsApart);
}

TEST_P(GreySigns, SignsBesideWordsDifferInShape) {
    const QRectF box(0, 0, 20, 20);
    std::map<std::string, Painting> signs;
    for (const auto& [name, kind] : {std::pair{"tick", SignKind::tick}, std::pair{"note", SignKind::note},
                                     std::pair{"care", SignKind::care}, std::pair{"stop", SignKind::stop}}) {
        signs[name] = [kind = kind, box](QPainter& painter) { paintSign(painter, box, kind); };
    }
    expectAllApart(signs, {20, 20});
}

TEST_P(GreySigns, AModThatIsOnIsFilledAndOneThatIsOffIsDashed) {
    const QRectF box(0, 0, 22, 20);
    expectAllApart({{"on", [box](QPainter& p) { paintRevisionTriangle(p, box, "A", TriangleState::active); }},
                    {"off", [box](QPainter& p) { paintRevisionTriangle(p, box, "A", TriangleState::off); }}},
                   {22, 20});
}

TEST_P(GreySigns, WhatIsKnownOfAPartIsAShape) {
    const QPointF centre(6, 6);
    expectAllApart({{"drawn", [centre](QPainter& p) { paintKnowledgeDot(p, centre, Knowledge::drawn); }},
                    {"seen", [centre](QPainter& p) { paintKnowledgeDot(p, centre, Knowledge::seen); }},
                    {"measured", [centre](QPainter& p) { paintKnowledgeDot(p, centre, Knowledge::measured); }}},
                   {12, 12});
}

/// Between x-height and base line: a line from edge to edge there is the strike.
bool isStruck(const QImage& grey, double width) {
    constexpr int scale = 4;
    const int ground = qGray(Theme::current().colours().canvas.rgb());
    const int right = static_cast<int>(width * scale) - scale;
    for (int y = 0; y < grey.height(); ++y) {
        bool isWhole = true;
        for (int x = scale; x < right && isWhole; ++x) {
            isWhole = isInk(grey, x, y, ground);
        }
        if (isWhole) {
            return true;
        }
    }
    return false;
}

TEST_P(GreySigns, AValueThatLeavesTheUnitIsStruckThrough) {
    double width = 0.0;
    const QImage struck =
        greyOf({60, 24}, [&width](QPainter& painter) { width = paintStruck(painter, QPointF(0, 18), "56n"); });
    EXPECT_TRUE(isStruck(struck, width));
    const QImage plain = greyOf({60, 24}, [](QPainter& painter) {
        painter.setPen(Theme::current().colours().stock);
        painter.drawText(QPointF(0, 18), "56n");
    });
    EXPECT_FALSE(isStruck(plain, width));
}

TEST_P(GreySigns, ABoxThatIsTickedIsNotEmpty) {
    const ThemeColours& colours = Theme::current().colours();
    const QRectF box(2, 2, 16, 16);
    expectAllApart({{"on", [&](QPainter& p) { paintCheckBox(p, box, true, colours.now, colours.onNow); }},
                    {"off", [&](QPainter& p) { paintCheckBox(p, box, false, colours.now, colours.onNow); }}},
                   {20, 20});
}

INSTANTIATE_TEST_SUITE_P(Themes, GreySigns, testing::ValuesIn(bothThemes),
                         [](const auto& kind) { return std::string(themeName(kind.param)); });

TEST(GreyPrint, LinesOfAPrintedCurveDifferInDashOrWidth) {
    expectLinesApart({{"stock", print::stockPen()},
                      {"now", print::nowPen()},
                      {"pinned W", print::pinnedPen(0)},
                      {"pinned X", print::pinnedPen(1)},
                      {"pinned Y", print::pinnedPen(2)},
                      {"pinned Z", print::pinnedPen(3)}});
}

}  // namespace
}  // namespace ohmwright
