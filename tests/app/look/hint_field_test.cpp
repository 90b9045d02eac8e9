// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/hint_field.h"

#include <gtest/gtest.h>
#include <QImage>
#include <QPixmap>

namespace ohmwright {
namespace {

/// Columns of pixels that are not of the background, inside the frame.
int inkedColumns(HintField& field) {
    const QImage picture = field.grab().toImage();
    constexpr int frame = 4;
    int inked = 0;
    for (int x = frame; x < picture.width() - frame; ++x) {
        bool hasInk = false;
        for (int y = frame; y < picture.height() - frame; ++y) {
            hasInk = hasInk || picture.pixel(x, y) != picture.pixel(frame, frame);
        }
        inked += hasInk ? 1 : 0;
    }
    return inked;
}

TEST(HintField, ShowsItsWholeHintAtItsOwnWidth) {
    for (const QString& hint : {QString("how many"), QString("Bauteil und Bein, etwa C4 1")}) {
        HintField field(hint);
        field.resize(field.sizeHint());
        HintField wide(hint);
        wide.resize(2 * field.width(), field.height());
        EXPECT_GT(inkedColumns(wide), 20);
        EXPECT_EQ(inkedColumns(field), inkedColumns(wide)) << hint.toStdString();
    }
}

TEST(HintField, GrowsWithItsLetters) {
    HintField field("how many");
    const int before = field.sizeHint().width();
    QFont larger = field.font();
    larger.setPixelSize(40);
    field.setFont(larger);
    EXPECT_GT(field.sizeHint().width(), before + 20);
    EXPECT_EQ(field.minimumSizeHint(), field.sizeHint());
}

}  // namespace
}  // namespace ohmwright
