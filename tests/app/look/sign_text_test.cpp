// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/sign_text.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const QString sentence = "+5.89 dB at 110 Hz is bigger than the spread, ±1.19 dB at 110 Hz";

TEST(SignText, WrapsToItsWidth) {
    SignText text;
    text.setSentence(sentence, SignKind::tick);
    EXPECT_GT(text.heightForWidth(180), text.heightForWidth(600));
    EXPECT_GT(text.heightForWidth(10), 0) << "no width at all still answers";
    EXPECT_EQ(text.accessibleName(), sentence);
}

TEST(SignText, EachSignHasItsColourAndOnlyAStopColoursTheWords) {
    const ThemeGuard guard;
    SignText text;
    text.resize(240, 48);
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        text.setSentence(sentence, SignKind::tick);
        EXPECT_GT(pixelsOf(grabbedPicture("sentence-tick", text), c.ok), 5);
        text.setSentence(sentence, SignKind::care);
        EXPECT_GT(pixelsOf(grabbedPicture("sentence-care", text), c.warnFill), 15);
        text.setSentence(sentence, SignKind::none);
        const QImage plain = grabbedPicture("sentence-plain", text);
        EXPECT_EQ(pixelsOf(plain, c.stop) + pixelsOf(plain, c.warnFill) + pixelsOf(plain, c.ok), 0);
        text.setSentence(sentence, SignKind::stop);
        const QImage stop = grabbedPicture("sentence-stop", text);
        EXPECT_GT(pixelsOf(stop.copy(30, 0, 200, 48), c.stop), 40) << "words";
        EXPECT_GT(pixelsOf(stop.copy(0, 0, 20, 20), c.stop), 60) << "octagon";
    }
}

}  // namespace
}  // namespace ohmwright
