// Who owns the cursor's frequency, as the map shows and says it.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/owner_item.h"
#include "app/map/owner_legend.h"
#include "app/map/stage_map.h"
#include "tests/support/open_job.h"

#include <QSignalSpy>

#include <algorithm>
#include <cmath>

namespace ohmwright::test {
namespace {

class OwnersOnMap : public testing::Test {
protected:
    OwnersOnMap() {
        map.resize(1040, 405);  // as in a window of 1600 x 1000
        map.show();
        QCoreApplication::processEvents();
    }

    bool ask() {
        constexpr int patience = 60000;
        open.selection.setPinsOwners(true);
        QCoreApplication::processEvents();
        return QTest::qWaitFor([this] { return map.legend().isVisible(); }, patience);
    }
    [[nodiscard]] QString spoken(const PartId& id) {
        for (const SpokenPart& part : map.view().parts()) {
            if (part.id == id) {
                return part.name;
            }
        }
        return {};
    }

    OpenJob open;
    StageMap map{open.document, open.selection, open.solver};
};

TEST_F(OwnersOnMap, NothingIsSaidBeforeItIsAsked) {
    EXPECT_FALSE(map.legend().isVisible());
    EXPECT_EQ(map.view().accessibleDescription(), "");
    EXPECT_FALSE(spoken("c4").contains("ten percent"));
}

TEST_F(OwnersOnMap, TheLegendNamesTheStrongestInOrder) {
    ASSERT_TRUE(ask());
    const QStringList ranks = map.legend().ranks();
    ASSERT_EQ(ranks.size(), 3);
    // tests/reference/harbour-lamp-figures.csv: C4 +0.763, RVR1 +0.423, R6 +0.372 dB with mod A at 110 Hz.
    EXPECT_EQ(ranks[0], "1 C4 Cg +0.76");
    EXPECT_TRUE(ranks[1].startsWith("2 VR1") && ranks[1].endsWith("+0.42")) << ranks[1].toStdString();
    EXPECT_TRUE(ranks[2].startsWith("3 R6") && ranks[2].endsWith("+0.37")) << ranks[2].toStdString();
    EXPECT_TRUE(map.legend().accessibleName().contains("110 Hz"));
    EXPECT_TRUE(map.view().accessibleDescription().contains("1 C4 Cg +0.76"));
    EXPECT_EQ(map.legend().geometry().intersected(map.rect()), map.legend().geometry()) << "inside the map";
    takePicture(map, "owners", ThemeKind::light);
    takePicture(map, "owners", ThemeKind::dark);
}

TEST_F(OwnersOnMap, CtrlArrowsWalkFromTheStrongestOwnerDown) {
    ASSERT_TRUE(ask());
    const auto press = [this](Qt::Key key) {
        QTest::keyClick(&map.view(), key, Qt::ControlModifier);
        QCoreApplication::processEvents();
        return open.selection.part();
    };
    EXPECT_EQ(press(Qt::Key_Right), "c4");
    EXPECT_EQ(press(Qt::Key_Right), "vr1");
    EXPECT_EQ(press(Qt::Key_Right), "r6");
    EXPECT_EQ(press(Qt::Key_Left), "vr1");
    EXPECT_TRUE(spoken("vr1").endsWith("raises 0.42 dB for ten percent more")) << spoken("vr1").toStdString();
    open.selection.setPart("r7");
    QCoreApplication::processEvents();
    EXPECT_EQ(map.legend().ranks().size(), 4) << "the selected part is named though it is far down";
    EXPECT_TRUE(spoken("r7").endsWith("lowers 0.03 dB for ten percent more")) << spoken("r7").toStdString();
    QTest::keyClick(&map.view(), Qt::Key_Right);
    QCoreApplication::processEvents();
    EXPECT_NE(open.selection.part(), "vr1") << "plain arrows still walk the signal path";
}

TEST_F(OwnersOnMap, PlatesLieBehindTheirSymbolsAndFiguresKeepOffEachOther) {
    ASSERT_TRUE(ask());
    const std::vector<Owner> owners{
        {"c4", "C4", "C4 Cg", 0.76}, {"r6", "R6", "R6 Rf", 0.37}, {"r7", "R7", "R7", -0.03}};
    const std::vector<OwnerMark> marks = markOwners(map.scene().layout(), owners, 1.0);
    ASSERT_EQ(marks.size(), 3u);
    for (const OwnerMark& mark : marks) {
        EXPECT_TRUE(mark.plate.contains(map.scene().layout().part(mark.part)->body)) << mark.part;
        for (const OwnerMark& other : marks) {
            EXPECT_TRUE(&mark == &other || !mark.figureBox.intersects(other.figureBox)) << mark.part;
        }
        for (const MapLabel& label : map.scene().layout().labels) {
            for (const QRectF& box : label.label.boxes) {
                const QRectF common = mark.figureBox.intersected(box.adjusted(0, 2, 0, -2));
                EXPECT_TRUE(common.isEmpty()) << mark.part << " over " << label.part;
            }
        }
    }
    EXPECT_EQ(marks[0].figure, "+0.76");
    EXPECT_EQ(marks[2].figure, QString::fromUtf8("\u22120.03"));
}

TEST_F(OwnersOnMap, ThePlateIsOnTheScreenInItsColour) {
    const QImage before = takePicture(map, "owners-none", ThemeKind::light);
    const QColor strongest = Theme::current().colours().raise[3];
    EXPECT_EQ(pixelsOf(before, strongest), 0);
    ASSERT_TRUE(ask());
    EXPECT_GT(pixelsOf(takePicture(map, "owners-some", ThemeKind::light), strongest), 500);
    open.selection.setPinsOwners(false);
    QCoreApplication::processEvents();
    EXPECT_EQ(pixelsOf(takePicture(map, "owners-gone", ThemeKind::light), strongest), 0);
}

}  // namespace
}  // namespace ohmwright::test
