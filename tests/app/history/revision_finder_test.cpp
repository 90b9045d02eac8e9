// Reference: tests/reference/demos/figures.csv for the bias of Harbour Lamp (output of U1 at 4.46 V).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/revision_finder.h"

#include "app/history/sentence_list.h"
#include "app/look/sign_text.h"
#include "core/files/job_file.h"
#include "core/files/shop_folder.h"
#include "tests/support/open_job.h"
#include "tests/support/temporary_folder.h"

#include <gtest/gtest.h>
#include <QLabel>
#include <QLineEdit>
#include <QTest>

namespace ohmwright::test {
namespace {

class RevisionFinderTest : public testing::Test {
protected:
    RevisionFinderTest() {
        Job older = open.job();
        older.unit.boardRevision = "PB-14 rev 1";
        findPart(older.stock, "r12")->value = 22e3;
        EXPECT_TRUE(saveJob(older, folder / "older.ohmjob"));
        open.shop.open(QString::fromStdString(folder.path().string()));
        open.shop.setJobs(readShopJobs(folder.path()));
        finder.resize(400, 800);
        finder.show();
    }

    [[nodiscard]] QLineEdit& field(const QString& name) {
        for (QLineEdit* each : finder.findChildren<QLineEdit*>()) {
            if (each->accessibleName() == name) {
                return *each;
            }
        }
        ADD_FAILURE() << name.toStdString();
        return *finder.findChild<QLineEdit*>();
    }
    void read(const QString& red, const QString& black, const QString& value) {
        field("Place read").setText(red);
        field("To, for ohms").setText(black);
        field("Reading").setText(value);
        QTest::keyClick(&field("Reading"), Qt::Key_Return);
    }
    [[nodiscard]] bool says(const QString& words) {
        for (const SignText* each : finder.findChildren<SignText*>()) {
            if (each->text().contains(words)) {
                return true;
            }
        }
        return false;
    }
    bool waitFor(const QString& words) {
        return QTest::qWaitFor([&] { return says(words); }, 60'000);
    }

    TemporaryFolder folder;
    OpenJob open;
    RevisionFinder finder{open.document, open.shop};
};

// Half supply from two 12k is 4.46 V; with 22k below it would be 5.8 V.
TEST_F(RevisionFinderTest, ReadingsTypedOneByOneRankTheShopsDrawings) {
    read("U1A pin 1", "", "4.46");
    EXPECT_TRUE(waitFor("Harbour Lamp, PB-14 rev 2 fits best: misfit 0.00 over 1 reading."));
    EXPECT_TRUE(says("U1A pin 1: 4.46 V read, 4.46 V expected"));
    EXPECT_TRUE(says("Harbour Lamp, PB-14 rev 1: misfit"));
    read("R12 leg 1", "ground", "12.0k");
    EXPECT_TRUE(waitFor("over 2 readings"));
    // The board of the older revision: the same place, another reading.
    read("R12 leg 1", "ground", "22.0k");
    EXPECT_TRUE(waitFor("over 3 readings"));
}

TEST_F(RevisionFinderTest, APlaceThatIsNoneIsSaidAndNothingIsLost) {
    read("U7 pin 1", "", "4.46");
    EXPECT_TRUE(says("is no place of this drawing"));
    EXPECT_EQ(field("Place read").text(), "U7 pin 1");
    read("U1A pin 1", "", "4k7n");
    EXPECT_TRUE(says("4k7n"));
}

}  // namespace
}  // namespace ohmwright::test
