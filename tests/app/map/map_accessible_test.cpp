// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_view.h"
#include "app/map/stage_map.h"
#include "tests/support/open_job.h"

#include <QAccessible>

namespace ohmwright::test {
namespace {

class MapAccessibleTest : public testing::Test {
protected:
    MapAccessibleTest() {
        map.resize(1040, 405);
        map.show();
        QCoreApplication::processEvents();
    }

    [[nodiscard]] QAccessibleInterface* list() { return QAccessible::queryAccessibleInterface(&map.view()); }
    [[nodiscard]] QAccessibleInterface* partNamed(const QString& start) {
        for (int i = 0; i < list()->childCount(); ++i) {
            QAccessibleInterface* part = list()->child(i);
            if (part && part->text(QAccessible::Name).startsWith(start)) {
                return part;
            }
        }
        return nullptr;
    }

    OpenJob open;
    StageMap map{open.document, open.selection, open.solver};
};

TEST_F(MapAccessibleTest, TheMapIsAListOfItsParts) {
    ASSERT_NE(list(), nullptr);
    EXPECT_EQ(list()->role(), QAccessible::List);
    EXPECT_EQ(list()->text(QAccessible::Name), "Stage map");
    EXPECT_EQ(list()->childCount(), static_cast<int>(map.view().parts().size()));
    EXPECT_GT(list()->childCount(), 30);
    EXPECT_EQ(list()->child(-1), nullptr);
    EXPECT_EQ(list()->child(list()->childCount()), nullptr);
}

TEST_F(MapAccessibleTest, APartIsSpokenWithValueModAndKnowledge) {
    QAccessibleInterface* part = partNamed("C4");
    ASSERT_NE(part, nullptr);
    EXPECT_EQ(part->text(QAccessible::Name), "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, seen");
    EXPECT_EQ(part->role(), QAccessible::ListItem);
    EXPECT_EQ(part->parent(), list());
    EXPECT_EQ(list()->indexOfChild(part), list()->indexOfChild(partNamed("C4 Cg")));
}

TEST_F(MapAccessibleTest, APartIsFoundWhereItIsDrawn) {
    QAccessibleInterface* part = partNamed("C4");
    ASSERT_NE(part, nullptr);
    const QPoint centre = part->rect().center();
    EXPECT_EQ(list()->childAt(centre.x(), centre.y()), part);
}

TEST_F(MapAccessibleTest, TheSelectedPartSaysSo) {
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    EXPECT_TRUE(partNamed("C4")->state().selected);
    EXPECT_FALSE(partNamed("C5")->state().selected);
    EXPECT_EQ(list()->focusChild(), partNamed("C4"));
}

TEST_F(MapAccessibleTest, AnotherJobGivesOtherParts) {
    QAccessible::setActive(true);
    ASSERT_NE(partNamed("R10"), nullptr);
    Job job = harbourLamp();
    std::erase_if(job.stock.parts, [](const Part& part) { return part.reference == "R10"; });
    open.document.setJob(job, {});
    QCoreApplication::processEvents();
    EXPECT_EQ(partNamed("R10"), nullptr);
    ASSERT_NE(partNamed("C4"), nullptr);
    QAccessible::setActive(false);
}

}  // namespace
}  // namespace ohmwright::test
