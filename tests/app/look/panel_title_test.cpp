// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/panel_title.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(PanelTitle, ColumnHeadingEndsWhereItWasPut) {
    const ThemeGuard guard;
    PanelTitle title("Mods");
    title.setColumns({{"alone", 60}, {"share", 0}});
    title.resize(228, title.sizeHint().height());
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const QImage image = grabbedPicture("panel-title", title);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).ink), 20);
        int gap = 0;  // between "alone" and "share" nothing is painted
        for (int x = 170; x < 190; ++x) {
            gap += pixelsOf(image.copy(x, 0, 1, image.height()), coloursOf(kind).panel) == image.height() ? 1 : 0;
        }
        EXPECT_GE(gap, 10) << themeName(kind);
    }
    EXPECT_EQ(title.accessibleName().toStdString(), "Mods");
}

TEST(PanelTitle, GrowsWithTheTextSize) {
    const ThemeGuard guard;
    const PanelTitle title("Knob translation");
    const QSize plain = title.sizeHint();
    Theme::current().setTextScale(1.3);
    EXPECT_GT(title.sizeHint().width(), plain.width());
    EXPECT_GT(title.sizeHint().height(), plain.height());
}

}  // namespace
}  // namespace ohmwright
