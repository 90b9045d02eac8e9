// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/start_page.h"

#include "app/look/settings.h"
#include "app/look/theme.h"
#include "app/window/demo_tile.h"
#include "app/window/recent_list.h"
#include "app/window/stage_tile.h"
#include "app/window/writing_choices.h"

#include <gtest/gtest.h>
#include <QAbstractButton>
#include <QFile>
#include <QScrollArea>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

namespace ohmwright {
namespace {

class StartPageTest : public testing::Test {
protected:
    StartPageTest() {
        QSettings().clear();
        page.resize(1366, 768);
        page.show();
        page.activateWindow();
        QCoreApplication::processEvents();
    }
    ~StartPageTest() override {
        settings.clear();
        applyLookSettings(settings);
    }

    [[nodiscard]] QAbstractButton* named(const QString& words) const {
        for (QAbstractButton* button : page.findChildren<QAbstractButton*>()) {
            if (button->accessibleName() == words || button->text() == words) {
                return button;
            }
        }
        ADD_FAILURE() << "nothing is called " << words.toStdString();
        return nullptr;
    }

    Settings settings;
    StartPage page{settings};
};

TEST_F(StartPageTest, OffersToOpenAJobAndTheDemos) {
    QSignalSpy open(&page, &StartPage::openAsked);
    QSignalSpy demo(&page, &StartPage::demoAsked);
    named("Open a job or a netlist")->click();
    for (const char* name :
         {"Harbour Lamp", "Quarry Bell", "Small Rooster", "Moss Engine", "Paper Boat", "Night Ferry", "Three Hills"}) {
        named(name)->click();
    }
    EXPECT_EQ(open.count(), 1);
    ASSERT_EQ(demo.count(), 7);
    EXPECT_EQ(demo.at(5).at(0).toString(), "night-ferry");
}

TEST_F(StartPageTest, TheFirstDemoIsOneKeyAway) {
    QSignalSpy demo(&page, &StartPage::demoAsked);
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    ASSERT_NE(QApplication::focusWidget(), nullptr);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    ASSERT_EQ(demo.count(), 1);
    EXPECT_EQ(demo.at(0).at(0).toString(), "harbour-lamp");
}

TEST_F(StartPageTest, OffersToPasteANetlistByLinkAndByKeys) {
    QSignalSpy paste(&page, &StartPage::pasteAsked);
    named("paste a netlist")->click();
    EXPECT_EQ(paste.count(), 1);
    QTest::keyClick(&page, Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(paste.count(), 2);
}

TEST_F(StartPageTest, AUnitBeginsWithAStageOrWithNothing) {
    QSignalSpy join(&page, &StartPage::joinAsked);
    QSignalSpy draw(&page, &StartPage::drawAsked);
    named("Soft clip")->click();
    named("draw it part by part")->click();
    ASSERT_EQ(join.count(), 1);
    EXPECT_EQ(join.at(0).at(0).toString(), "soft-clip");
    EXPECT_EQ(draw.count(), 1);
    EXPECT_GE(page.findChildren<StageTile*>().size(), 12);
}

TEST_F(StartPageTest, EachDemoShowsWhatItsFirstModDoes) {
    const auto tiles = page.findChildren<DemoTile*>();
    ASSERT_EQ(tiles.size(), 7);
    ASSERT_TRUE(QTest::qWaitFor([&] { return tiles.back()->lesson().has_value(); }, 60'000));
    for (const DemoTile* tile : tiles) {
        ASSERT_TRUE(tile->lesson()) << tile->id().toStdString();
        EXPECT_TRUE(tile->accessibleDescription().contains(tile->lesson()->change));
        EXPECT_FALSE(tile->lesson()->change.isEmpty());
    }
}

TEST_F(StartPageTest, OffersTheJobsOpenedLastWithTheirVisit) {
    const QTemporaryDir folder;
    const QString job = folder.filePath("lamp.ohmjob");
    ASSERT_TRUE(QFile::copy(QString(OHMWRIGHT_SOURCE_DIR) + "/demo-projects/harbour-lamp/harbour-lamp.ohmjob", job));
    const QString netlist = folder.filePath("moss.cir");
    QFile file(netlist);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("moss\nV1 a 0 1\nR1 a 0 1k\n");
    file.close();
    QSignalSpy asked(&page, &StartPage::fileAsked);
    page.setRecentFiles({job, netlist, folder.filePath("gone.ohmjob")});
    const auto* list = page.findChild<RecentList*>();
    ASSERT_TRUE(QTest::qWaitFor([&] { return list->files().size() == 3; }, 60'000));
    QAbstractButton* lamp = list->findChildren<QAbstractButton*>().at(0);
    EXPECT_EQ(lamp->accessibleName(), "Harbour Lamp");
    EXPECT_TRUE(lamp->accessibleDescription().startsWith("HL-0231 visit 2 draft "))
        << lamp->accessibleDescription().toStdString();
    lamp->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.at(0).at(0).toString(), job);
    EXPECT_TRUE(named("moss.cir")->accessibleDescription().startsWith("netlist, "));
    EXPECT_FALSE(named("gone")->isEnabled());
    EXPECT_EQ(named("gone")->accessibleDescription(), "not there any more");
}

TEST_F(StartPageTest, HowThingsAreWrittenIsInForceAtOnceAndRemembered) {
    QSignalSpy changed(&page, &StartPage::writingChanged);
    named("values: 4.7 k")->click();
    named("symbols: IEEE 315")->click();
    named("levels: dBu")->click();
    named("light: Night")->click();
    EXPECT_EQ(changed.count(), 4);
    EXPECT_EQ(formatPartValue({4700.0, Unit::ohm}), "4.7 k");
    EXPECT_EQ(symbolStandard(), SymbolStandard::ieee315);
    EXPECT_EQ(Theme::current().kind(), ThemeKind::dark);
    EXPECT_EQ(Settings().valueStyle(), ValueStyle::letterBehind);
    EXPECT_EQ(Settings().levelUnit(), LevelUnit::dbu);
    // Chosen elsewhere, it stands here too.
    settings.setTheme(ThemeChoice::light);
    applyLookSettings(settings);
    EXPECT_TRUE(qobject_cast<QAbstractButton*>(named("light: Day"))->isChecked());
}

TEST_F(StartPageTest, NoTileLiesOnAnotherAtAnyTextSize) {
    for (const double scale : {1.0, 1.15, 1.3}) {
        Theme::current().setTextScale(scale);
        for (const QSize& size : {QSize(960, 600), QSize(1366, 768), QSize(1920, 1080)}) {
            page.resize(size);
            QCoreApplication::processEvents();
            QList<QWidget*> tiles;
            for (DemoTile* tile : page.findChildren<DemoTile*>()) {
                tiles.append(tile);
            }
            for (StageTile* tile : page.findChildren<StageTile*>()) {
                tiles.append(tile);
            }
            for (const QWidget* tile : tiles) {
                EXPECT_TRUE(QTest::qWaitFor([tile] {
                    return tile->height() >= tile->minimumSizeHint().height() &&
                           tile->width() >= tile->minimumSizeHint().width();
                })) << tile->accessibleName().toStdString();
                for (const QWidget* other : tiles) {
                    EXPECT_TRUE(other == tile || other->parentWidget() != tile->parentWidget() ||
                                !other->geometry().intersects(tile->geometry()))
                        << tile->accessibleName().toStdString() << " and " << other->accessibleName().toStdString();
                }
            }
        }
    }
    Theme::current().setTextScale(1.0);
}

}  // namespace
}  // namespace ohmwright
