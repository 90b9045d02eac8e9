// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/page_view.h"

#include "app/look/theme.h"
#include "app/papers/page_text.h"
#include "app/papers/sheet_text.h"

#include <gtest/gtest.h>
#include <QPainter>
#include <QScrollBar>
#include <QTest>

namespace ohmwright {
namespace {

/// Three pages, each with its number in words.
Paper threePages() {
    Paper paper = paperOf(Job{}, "Trial sheet", PaperSize::a4);
    for (const char* words : {"first of all", "then this", "and last"}) {
        paper.flow.add(700.0, [words](QPainter& painter, const QRectF& box) {
            drawText(painter, {box.left(), box.top(), 200.0, 20.0}, words);
            drawText(painter, {box.left() + 300.0, box.top(), 200.0, 20.0}, "beside it", Qt::AlignLeft, true,
                     print::headingPixels);
        });
    }
    return paper;
}

class PageViewTest : public testing::Test {
protected:
    PageViewTest() {
        view.resize(900, 700);
        view.show();
        view.setPaper(threePages());
    }
    void press(Qt::Key key) { QTest::keyClick(&view, key); }

    PageView view;
};

TEST_F(PageViewTest, KeysWalkThePages) {
    EXPECT_EQ(view.pages(), 3);
    EXPECT_EQ(view.page(), 0);
    press(Qt::Key_PageDown);
    EXPECT_EQ(view.page(), 1);
    press(Qt::Key_End);
    EXPECT_EQ(view.page(), 2);
    press(Qt::Key_PageDown);
    EXPECT_EQ(view.page(), 2);
    press(Qt::Key_PageUp);
    EXPECT_EQ(view.page(), 1);
    press(Qt::Key_Home);
    EXPECT_EQ(view.page(), 0);
}

TEST_F(PageViewTest, KeysChangeTheSizeAndFit) {
    const double fitting = view.zoom();
    press(Qt::Key_Plus);
    EXPECT_GT(view.zoom(), fitting);
    EXPECT_EQ(view.fit(), PageView::Fit::none);
    press(Qt::Key_Minus);
    press(Qt::Key_Minus);
    EXPECT_LT(view.zoom(), fitting);
    press(Qt::Key_W);
    EXPECT_NEAR(view.zoom(), fitting, 1e-9);
    press(Qt::Key_A);
    // A whole A4 page of 1122.5 px stands in 700 px less the room round it.
    EXPECT_LT(1122.5 * view.zoom(), 700.0);
    EXPECT_EQ(view.verticalScrollBar()->singleStep(), 40);
}

TEST_F(PageViewTest, ThePageStaysWhenAnotherPaperComes) {
    press(Qt::Key_PageDown);
    view.setPaper(threePages());
    EXPECT_EQ(view.page(), 1);
    view.setPaper(std::nullopt);
    EXPECT_EQ(view.pages(), 0);
    EXPECT_TRUE(view.words().isEmpty());
}

TEST_F(PageViewTest, WordsAreReadLineByLine) {
    const QString words = view.words();
    EXPECT_TRUE(words.contains("first of all  beside it\n")) << words.toStdString();
    EXPECT_TRUE(words.contains("1 of 3"));
    EXPECT_TRUE(words.contains("3 of 3"));
    EXPECT_EQ(view.accessibleDescription(), words);
    EXPECT_FALSE(textOfPage(view.paper()->flow, 1).contains("first of all"));
}

// Paper is white in both themes, and pale with a stamp while its figures are old.
TEST_F(PageViewTest, OldPagesArePaleAndStamped) {
    const QImage fresh = view.grab().toImage();
    view.setStale(true);
    const QImage stale = view.grab().toImage();
    // The line under the head is black, then grey.
    const auto darkest = [](const QImage& picture) {
        int least = 255;
        for (int y = 0; y < 150; ++y) {
            least = std::min(least, qGray(picture.pixel(450, y)));
        }
        return least;
    };
    EXPECT_LT(darkest(fresh), 40);
    EXPECT_GT(darkest(stale), 120);
    EXPECT_NE(fresh, stale);
}

}  // namespace
}  // namespace ohmwright
