// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/owner_list.h"

#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QSignalSpy>

namespace ohmwright::test {
namespace {

constexpr int patience = 60000;

class OwnerListTest : public testing::Test {
protected:
    OwnerListTest() {
        list.resize(304, 600);
        list.show();
    }

    [[nodiscard]] QListWidget& rows() const { return *list.findChild<QListWidget*>(); }
    [[nodiscard]] QStringList said() const {
        QStringList said;
        for (int row = 0; row < rows().count(); ++row) {
            said << rows().item(row)->data(Qt::AccessibleTextRole).toString();
        }
        return said;
    }
    [[nodiscard]] bool waitForRows() const {
        return QTest::qWaitFor([this] { return rows().count() > 0; }, patience);
    }

    OpenJob open;
    OwnerList list{open.document, open.selection};
};

// Figures of tests/reference/harbour-lamp-figures.csv, influence_per_ten_percent at 110 Hz with mod A.
TEST_F(OwnerListTest, NamesTheStrongestOwnersOfTheCursorFirst) {
    ASSERT_TRUE(waitForRows());
    EXPECT_EQ(rows().accessibleName(), "Who owns 110 Hz?");
    ASSERT_GE(said().size(), 3);
    EXPECT_EQ(said()[0], "C4 Cg, gain-leg capacitor, +0.76 dB for +10 %");
    EXPECT_TRUE(said()[1].startsWith("VR1")) << said()[1].toStdString();
    EXPECT_TRUE(said()[2].startsWith("R6 Rf")) << said()[2].toStdString();
    EXPECT_TRUE(shownWords(list).contains("dB for +10 % of the part"));
    takePicture(list, "owner-list", ThemeKind::light);
    takePicture(list, "owner-list", ThemeKind::dark);
}

TEST_F(OwnerListTest, APressOrEnterChoosesThePart) {
    ASSERT_TRUE(waitForRows());
    const QSignalSpy chosen(&list, &OwnerList::partChosen);
    QTest::mouseClick(rows().viewport(), Qt::LeftButton, {}, rows().visualItemRect(rows().item(0)).center());
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].value<PartId>(), "c4");
    rows().setFocus();
    QTest::keyClick(&rows(), Qt::Key_Down);
    QTest::keyClick(&rows(), Qt::Key_Return);
    ASSERT_EQ(chosen.size(), 2);
    EXPECT_EQ(chosen[1][0].value<PartId>(), "vr1");
}

TEST_F(OwnerListTest, FollowsTheCursorAndHasNoRowsOfBefore) {
    ASSERT_TRUE(waitForRows());
    const QStringList before = said();
    open.selection.setCursorHz(5000.0);
    ASSERT_TRUE(QTest::qWaitFor([&] { return rows().count() > 0 && said() != before; }, patience));
    EXPECT_EQ(rows().accessibleName(), "Who owns 5.00 kHz?");
    EXPECT_FALSE(said()[0].startsWith("C4")) << "the gain leg does not own 5 kHz";
}

/// Story: while a slow answer was awaited the empty list was hidden, and the keyboard went elsewhere.
TEST_F(OwnerListTest, TheKeyboardStaysWhileAnAnswerIsAwaited) {
    ASSERT_TRUE(waitForRows());
    rows().setFocus();
    ASSERT_TRUE(rows().hasFocus());
    Job job = open.job();
    job.stock.ports.output = "nowhere";
    open.document.setJob(job, {});
    ASSERT_TRUE(QTest::qWaitFor([this] { return rows().count() == 0; }, patience));
    EXPECT_TRUE(rows().hasFocus());
}

TEST_F(OwnerListTest, SaysWhyThereAreNone) {
    Job job = open.job();
    job.stock.ports.output = "nowhere";
    open.document.setJob(job, {});
    const auto isRefused = [this] { return shownWords(list).join(' ').contains("nowhere"); };
    ASSERT_TRUE(QTest::qWaitFor(isRefused, patience)) << shownWords(list).join('|').toStdString();
    EXPECT_EQ(rows().count(), 0);
    open.document.setJob(Job(), {});
    QCoreApplication::processEvents();
    EXPECT_EQ(shownWords(list).size(), 1) << "an empty drawing has no owners to ask for";
}

}  // namespace
}  // namespace ohmwright::test
