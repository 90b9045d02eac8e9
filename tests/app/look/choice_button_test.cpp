// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/choice_button.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

TEST(ChoiceButton, GrowsWithALongReasonAndIsNeverLow) {
    const ChoiceButton brief("47 pF", "by code");
    const ChoiceButton wordy("47 pF",
                             "capacitor code, 47 and no zeros, in pF, as it is printed on small ceramic discs "
                             "and on film capacitors of the last forty years");
    EXPECT_GE(brief.heightForWidth(270), 48);
    EXPECT_GT(wordy.heightForWidth(270), brief.heightForWidth(270) + 10);
}

TEST(ChoiceButton, IsInkOnRaisedAndIsPressedBySpace) {
    const ThemeGuard guard;
    ChoiceButton button("470 pF", "printed in pF");
    button.resize(270, 56);
    QSignalSpy clicks(&button, &QAbstractButton::clicked);
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const QImage image = grabbedPicture("choice-button", button);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).ink), 40);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).raised), 5000);
        EXPECT_EQ(pixelsOf(image, coloursOf(kind).now), 0) << "a question is not a plan yet";
    }
    QTest::keyClick(&button, Qt::Key_Space);
    EXPECT_EQ(clicks.count(), 1);
}

}  // namespace
}  // namespace ohmwright
