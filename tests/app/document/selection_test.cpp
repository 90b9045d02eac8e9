// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/document/selection.h"

#include <gtest/gtest.h>
#include <QSignalSpy>

#include <limits>

namespace ohmwright {
namespace {

TEST(Selection, SaysOnlyWhatReallyChanged) {
    Selection selection;
    QSignalSpy parts(&selection, &Selection::partChanged);
    selection.setPart("c4");
    selection.setPart("c4");
    EXPECT_EQ(parts.count(), 1);
    EXPECT_EQ(selection.part(), "c4");

    QSignalSpy ghosts(&selection, &Selection::ghostChanged);
    selection.setGhost(SwapValue{"c4", 120e-9});
    selection.setGhost(SwapValue{"c4", 120e-9});
    selection.setGhost(std::nullopt);
    EXPECT_EQ(ghosts.count(), 2);

    QSignalSpy holds(&selection, &Selection::holdsStockChanged);
    selection.setHoldsStock(true);
    selection.setHoldsStock(true);
    EXPECT_EQ(holds.count(), 1);
    EXPECT_TRUE(selection.holdsStock());
}

TEST(Selection, CursorTakesNoFrequencyThatIsNone) {
    Selection selection;
    const double before = selection.cursorHz();
    for (const double hz :
         {0.0, -1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        selection.setCursorHz(hz);
        EXPECT_EQ(selection.cursorHz(), before);
    }
    selection.setCursorHz(82.41);
    EXPECT_EQ(selection.cursorHz(), 82.41);
}

}  // namespace
}  // namespace ohmwright
