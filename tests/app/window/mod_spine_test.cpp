// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/mod_spine.h"

#include "tests/support/open_job.h"

#include <QSignalSpy>

namespace ohmwright::test {
namespace {

class ModSpineTest : public testing::Test {
protected:
    ModSpineTest() {
        spine.resize(64, 640);
        spine.show();
    }
    [[nodiscard]] bool isOn(std::size_t index) const { return open.job().plan[index].on; }

    OpenJob open;
    ModSpine spine{open.document, open.solver};
};

TEST_F(ModSpineTest, APressSwitchesTheMod) {
    ASSERT_TRUE(isOn(0));
    ASSERT_FALSE(isOn(1));
    QTest::mouseClick(&spine, Qt::LeftButton, {}, spine.modBox(1).center());
    EXPECT_TRUE(isOn(1));
    QTest::mouseClick(&spine, Qt::LeftButton, {}, spine.modBox(0).center());
    EXPECT_FALSE(isOn(0));
    EXPECT_TRUE(open.document.undoStack().undoText().contains("mod A"));
}

TEST_F(ModSpineTest, KeysWalkAndSwitch) {
    QTest::keyClick(&spine, Qt::Key_Down);
    QTest::keyClick(&spine, Qt::Key_Down);
    QTest::keyClick(&spine, Qt::Key_Space);
    EXPECT_TRUE(isOn(2));
    QTest::keyClick(&spine, Qt::Key_Up);
    QTest::keyClick(&spine, Qt::Key_Space);
    EXPECT_TRUE(isOn(1));
}

TEST_F(ModSpineTest, SaysNameStateAndFigureOfEveryMod) {
    ASSERT_TRUE(open.waitForAnswers());
    // Demo figures: own solver, checked against an independent circuit simulator.
    EXPECT_TRUE(spine.accessibleDescription().startsWith("A Gain cap, on, alone +2.08 dB"))
        << spine.accessibleDescription().toStdString();
}

TEST_F(ModSpineTest, TheHeadAsksForTheWholeRail) {
    QSignalSpy asked(&spine, &ModSpine::unfoldAsked);
    QTest::mouseClick(&spine, Qt::LeftButton, {}, QPoint(32, 20));
    QTest::keyClick(&spine, Qt::Key_Return);
    EXPECT_EQ(asked.count(), 2);
}

TEST_F(ModSpineTest, AJobWithoutModsIsNoTrouble) {
    Job job = open.job();
    job.plan.clear();
    open.document.setJob(job, {});
    QTest::keyClick(&spine, Qt::Key_Down);
    QTest::keyClick(&spine, Qt::Key_Space);
    EXPECT_FALSE(spine.grab().isNull());
}

}  // namespace
}  // namespace ohmwright::test
