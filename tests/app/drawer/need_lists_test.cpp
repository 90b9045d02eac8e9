// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/need_lists.h"

#include "app/look/sign_text.h"
#include "tests/support/open_job.h"

#include <QPushButton>

namespace ohmwright::test {
namespace {

const QString demos = QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects";

class NeedListsTest : public testing::Test {
protected:
    NeedListsTest() {
        lists.resize(380, 900);
        lists.show();
    }
    [[nodiscard]] QStringList sentences() const {
        QStringList words;
        for (const SignText* line : lists.findChildren<SignText*>()) {
            words << line->text();
        }
        return words;
    }
    [[nodiscard]] bool says(const QString& words) const { return !sentences().filter(words).isEmpty(); }
    void press(const QString& words) {
        for (QPushButton* button : lists.findChildren<QPushButton*>()) {
            if (button->text() == words) {
                QTest::mouseClick(button, Qt::LeftButton);
            }
        }
    }

    OpenJob open;
    NeedLists lists{open.document, open.selection, open.shop};
};

TEST_F(NeedListsTest, WithoutADrawerNothingIsCounted) {
    EXPECT_TRUE(says("Stock is assumed"));
}

TEST_F(NeedListsTest, ThePickListNamesTheLotAndItsMarking) {
    open.shop.open(demos);
    EXPECT_TRUE(says("C4: 120n film, lot CF-12 (marked 124)")) << sentences().join("|").toStdString();
}

TEST_F(NeedListsTest, ShortagesAreOverTheOpenJobsOfTheShop) {
    open.shop.open(demos);
    Job job = open.job();
    job.visit.state = VisitState::quoted;
    std::vector<ShopJob> jobs;
    for (int unit = 0; unit < 5; ++unit) {
        job.unit.serial = "HL-" + std::to_string(unit);
        jobs.push_back({"x.ohmjob", job, ""});
    }
    open.shop.setJobs(jobs);
    // Five units with 120n each, three in the drawer.
    EXPECT_TRUE(says("2 of 120n missing")) << sentences().join("|").toStdString();
}

TEST_F(NeedListsTest, SubstitutesAreRankedByTheirFiguresAndGoneWithThePart) {
    open.shop.open(demos);
    open.selection.setPart("c4");
    press("What can stand for it");
    ASSERT_TRUE(QTest::qWaitFor([this] { return says("100n instead of"); }, 60000))
        << sentences().join("|").toStdString();
    open.selection.setPart("r5");
    EXPECT_FALSE(says("100n instead of"));
}

TEST_F(NeedListsTest, AMeasuredBagSaysWhichDeviceToFit) {
    open.document.setJob(jobIn(demoJobPath("paper-boat")), {});
    open.shop.open(demos);
    const auto& parts = open.job().stock.parts;
    const auto jfet = std::find_if(parts.begin(), parts.end(), [](const Part& p) { return p.kind == PartKind::jfet; });
    ASSERT_NE(jfet, parts.end());
    open.selection.setPart(jfet->id);
    press("Which measured device");
    EXPECT_TRUE(QTest::qWaitFor([this] { return says("device "); }, 60000)) << sentences().join("|").toStdString();
}

}  // namespace
}  // namespace ohmwright::test
