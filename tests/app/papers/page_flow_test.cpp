// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/page_flow.h"

#include "app/look/language.h"
#include "tests/app/papers/paper_text.h"

#include <gtest/gtest.h>
#include <QBuffer>
#include <QPainter>
#include <QPdfWriter>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <vector>

namespace ohmwright {
namespace {

/// A4 at 96 dpi.
const QSizeF a4(793.7, 1122.5);

PageFlow::Paint nothing() {
    return [](QPainter&, const QRectF&) {};
}

/// Prints and tells where each block was drawn, page by page.
struct Printed {
    explicit Printed(const PageFlow& flow) {
        QBuffer buffer;
        buffer.open(QIODevice::WriteOnly);
        QPdfWriter writer(&buffer);
        writer.setResolution(96);
        QPainter painter(&writer);
        for (int page = 0; page < flow.pageCount(); ++page) {
            flow.paintPage(painter, page);
        }
    }
};

TEST(PageFlow, AnEmptySheetIsOnePage) {
    EXPECT_EQ(PageFlow(a4, {}).pageCount(), 1);
}

TEST(PageFlow, BlocksStayInsideThePage) {
    PageFlow flow(a4, {});
    std::vector<QRectF> places;
    for (int i = 0; i < 60; ++i) {
        flow.add(50.0, [&places](QPainter&, const QRectF& box) { places.push_back(box); });
    }
    const Printed printed(flow);
    ASSERT_EQ(places.size(), 60U);
    for (const QRectF& place : places) {
        EXPECT_GE(place.left(), 40.0);
        EXPECT_LE(place.right(), a4.width() - 40.0);
        EXPECT_LE(place.bottom(), a4.height() - 60.0);
    }
    // 60 blocks of 50 px are 3000 px; a page holds some 900.
    EXPECT_EQ(flow.pageCount(), 4);
}

TEST(PageFlow, AHeadingIsNeverTheLastOnAPage) {
    // Whatever stands before it, the heading and the first block behind it are on one page.
    for (double before = 700.0; before < 960.0; before += 7.0) {
        PageFlow flow(a4, {});
        QRectF first;
        flow.add(before, nothing());
        flow.beginSection("Order of work", "sign each box");
        flow.add(60.0, [&first](QPainter&, const QRectF& box) { first = box; });
        const Printed printed(flow);
        const bool isOnSecond = flow.pageCount() == 2;
        // On the second page the heading's 32 px stand above it, under the banner.
        if (isOnSecond) {
            EXPECT_NEAR(first.top(), 140.0, 1.0) << before;
        } else {
            EXPECT_NEAR(first.top(), 108.0 + before + 32.0, 1.0) << before;
        }
    }
}

TEST(PageFlow, WhatIsKeptWithNextGoesAlong) {
    PageFlow flow(a4, {});
    std::vector<double> tops;
    const auto note = [&tops](QPainter&, const QRectF& box) { tops.push_back(box.top()); };
    flow.add(900.0, nothing());
    flow.add(30.0, note, true);
    flow.add(30.0, note, true);
    flow.add(30.0, note);
    const Printed printed(flow);
    EXPECT_EQ(flow.pageCount(), 2);
    ASSERT_EQ(tops.size(), 3U);
    EXPECT_LT(tops[0], tops[1]);
    EXPECT_LT(tops[1], tops[2]);
    EXPECT_LT(tops[0], 200.0);
}

/// Where a word stands on the first page of a PDF, [pt]; empty where it is not there.
QRectF placeOfWord(const QString& pdf, const QString& word) {
    const QString words = test::run("pdftotext", {"-bbox", "-l", "1", pdf, "-"});
    const QRegularExpression place(
        "<word xMin=\"([\\d.]+)\" yMin=\"([\\d.]+)\" xMax=\"([\\d.]+)\" yMax=\"([\\d.]+)\">" +
        QRegularExpression::escape(word) + "</word>");
    const QRegularExpressionMatch found = place.match(words);
    const auto number = [&found](int group) { return found.captured(group).toDouble(); };
    return found.hasMatch() ? QRectF(QPointF(number(1), number(2)), QPointF(number(3), number(4))) : QRectF();
}

// "Platine" is longer than "board" and touched the number behind it.
TEST(PageFlow, WordsOfTheBannerStandClearOfWhatTheyNameInEveryLanguage) {
    PageBanner banner;
    banner.unit = "Lamp";
    banner.customer = "Customer";
    banner.planState = "A";
    banner.board = "PB-14";
    banner.visit = "2";
    const QTemporaryDir folder;
    const QString path = folder.filePath("banner.pdf");
    for (const Language language : {Language::english, Language::german}) {
        speak(language);
        QPdfWriter writer(path);
        writer.setResolution(96);
        QPainter painter(&writer);
        PageFlow(a4, banner).paintPage(painter, 0);
        painter.end();
        const bool isGerman = language == Language::german;
        speak(Language::english);
        const QRectF word = placeOfWord(path, isGerman ? "Platine" : "board");
        const QRectF named = placeOfWord(path, "PB-14");
        ASSERT_FALSE(word.isEmpty() || named.isEmpty());
        EXPECT_GE(named.left() - word.right(), 3.0);
        EXPECT_NEAR(named.top(), word.top(), 2.0);
    }
}

}  // namespace
}  // namespace ohmwright
