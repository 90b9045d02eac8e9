// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/themed_label.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(ThemedLabel, FollowsThemeAndTextSize) {
    const ThemeGuard guard;
    ThemedLabel label(TextRole::lead, true, &ThemeColours::ink3);
    label.setText("Harbour Lamp");
    label.resize(label.sizeHint());
    const int plain = label.sizeHint().width();
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        EXPECT_GT(pixelsOf(grabbedPicture("themed-label", label), coloursOf(kind).ink3), 40) << themeName(kind);
    }
    Theme::current().setTextScale(1.3);
    EXPECT_GT(label.sizeHint().width(), plain);
}

TEST(ThemedLabel, ShowsMarkupAsItStands) {
    ThemedLabel label(TextRole::body, false, &ThemeColours::ink);
    label.setText("<b>C4</b>");
    EXPECT_EQ(label.textFormat(), Qt::PlainText) << "names from a job file are text, not markup";
}

}  // namespace
}  // namespace ohmwright
