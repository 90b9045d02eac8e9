// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/start_page.h"

#include "app/look/choice_button.h"
#include "app/look/theme.h"

#include <gtest/gtest.h>
#include <QSignalSpy>
#include <QTest>

namespace ohmwright {
namespace {

ChoiceButton* buttonNamed(const StartPage& page, const QString& words) {
    for (ChoiceButton* button : page.findChildren<ChoiceButton*>()) {
        if (button->text() == words) {
            return button;
        }
    }
    return nullptr;
}

TEST(StartPage, OffersToOpenAJobAndTheDemos) {
    StartPage page;
    QSignalSpy open(&page, &StartPage::openAsked);
    QSignalSpy demo(&page, &StartPage::demoAsked);
    ASSERT_NE(buttonNamed(page, "Open a job or a netlist"), nullptr);
    buttonNamed(page, "Open a job or a netlist")->click();
    for (const char* name :
         {"Harbour Lamp", "Quarry Bell", "Small Rooster", "Moss Engine", "Paper Boat", "Night Ferry", "Three Hills"}) {
        ASSERT_NE(buttonNamed(page, name), nullptr) << name;
        buttonNamed(page, name)->click();
    }
    EXPECT_EQ(open.count(), 1);
    ASSERT_EQ(demo.count(), 7);
    EXPECT_EQ(demo.at(5).at(0).toString(), "night-ferry");
}

TEST(StartPage, OffersToPasteANetlistByButtonAndByKeys) {
    StartPage page;
    page.show();
    page.activateWindow();
    page.setFocus();
    QCoreApplication::processEvents();
    QSignalSpy paste(&page, &StartPage::pasteAsked);
    ASSERT_NE(buttonNamed(page, "Paste a netlist"), nullptr);
    buttonNamed(page, "Paste a netlist")->click();
    EXPECT_EQ(paste.count(), 1);
    QTest::keyClick(&page, Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(paste.count(), 2);
}

TEST(StartPage, OffersTheJobsOpenedLast) {
    StartPage page;
    QSignalSpy asked(&page, &StartPage::fileAsked);
    page.setRecentFiles({"/jobs/quarry-bell.ohmjob", "/jobs/harbour-lamp.ohmjob"});
    ASSERT_NE(buttonNamed(page, "harbour-lamp"), nullptr);
    buttonNamed(page, "harbour-lamp")->click();
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.at(0).at(0).toString(), "/jobs/harbour-lamp.ohmjob");
    page.setRecentFiles({"/jobs/quarry-bell.ohmjob"});
    EXPECT_EQ(buttonNamed(page, "harbour-lamp"), nullptr);
    page.setRecentFiles({"/jobs/moss.ohmjob", "/jobs/moss.cir"});
    EXPECT_NE(buttonNamed(page, "moss"), nullptr);
    EXPECT_NE(buttonNamed(page, "moss.cir"), nullptr) << "a netlist of the same name says what it is";
}

// A complaint of two lines stood over the edge of its button.
TEST(StartPage, EveryDemosComplaintHasRoomAtEveryTextSize) {
    StartPage page;
    page.resize(1366, 768);
    page.show();
    for (const double scale : {1.0, 1.15, 1.3}) {
        Theme::current().setTextScale(scale);
        QCoreApplication::processEvents();
        for (const ChoiceButton* button : page.findChildren<ChoiceButton*>()) {
            EXPECT_GE(button->height(), button->heightForWidth(button->width())) << button->text().toStdString();
            for (const ChoiceButton* other : page.findChildren<ChoiceButton*>()) {
                EXPECT_TRUE(other == button || !other->geometry().intersects(button->geometry()))
                    << button->text().toStdString() << " and " << other->text().toStdString();
            }
        }
    }
    Theme::current().setTextScale(1.0);
}

}  // namespace
}  // namespace ohmwright
