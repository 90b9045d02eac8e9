// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/settings.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QTemporaryDir>

#include <set>

namespace ohmwright {
namespace {

/// Has a settings folder of its own, so that tests may run beside each other.
class SettingsTest : public testing::Test {
protected:
    SettingsTest() { QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, m_folder.path()); }

    const QTemporaryDir m_folder;
    const ThemeGuard m_guard;
};

TEST_F(SettingsTest, DefaultsAreThoseOfTheTable) {
    const Settings settings;
    EXPECT_EQ(settings.theme(), ThemeChoice::system);
    EXPECT_DOUBLE_EQ(settings.textScale(), 1.0);
    EXPECT_EQ(settings.symbols(), SymbolStandard::iec60617);
    EXPECT_EQ(settings.levelUnit(), LevelUnit::millivoltsPeak);
    EXPECT_TRUE(settings.recentFiles().isEmpty());
    EXPECT_TRUE(settings.windowGeometry().isEmpty());
    std::set<std::string> names;
    for (const SettingEntry& entry : settingEntries()) {
        EXPECT_TRUE(names.insert(entry.name).second) << entry.name;
    }
    EXPECT_EQ(names.size(), 11U);
}

TEST_F(SettingsTest, WhatIsSetIsReadByTheNextRun) {
    {
        Settings settings;
        settings.setLanguage(Language::german);
        settings.setTheme(ThemeChoice::dark);
        settings.setTextScale(1.15);
        settings.setSymbols(SymbolStandard::ieee315);
        settings.setLevelUnit(LevelUnit::dbu);
        settings.setValueStyle(ValueStyle::letterBehind);
        settings.setWindowGeometry("geometry");
        settings.setWindowState("state");
        settings.setKeepsStill(true);
    }
    const Settings next;
    EXPECT_EQ(next.language(), Language::german);
    EXPECT_EQ(next.theme(), ThemeChoice::dark);
    EXPECT_DOUBLE_EQ(next.textScale(), 1.15);
    EXPECT_EQ(next.symbols(), SymbolStandard::ieee315);
    EXPECT_EQ(next.levelUnit(), LevelUnit::dbu);
    EXPECT_EQ(next.valueStyle(), ValueStyle::letterBehind);
    EXPECT_EQ(next.windowGeometry().toStdString(), "geometry");
    EXPECT_EQ(next.windowState().toStdString(), "state");
    EXPECT_TRUE(next.keepsStill());
}

TEST_F(SettingsTest, NonsenseInTheFileReadsAsTheDefault) {
    QSettings file;
    file.setValue("look/theme", "purple");
    file.setValue("look/textScale", "huge");
    file.setValue("look/symbols", 7);
    const Settings settings;
    EXPECT_EQ(settings.theme(), ThemeChoice::system);
    EXPECT_DOUBLE_EQ(settings.textScale(), 1.0);
    EXPECT_EQ(settings.symbols(), SymbolStandard::iec60617);
    file.setValue("look/textScale", 40.0);
    EXPECT_DOUBLE_EQ(Settings().textScale(), 1.3) << "the nearest size there is";
}

TEST_F(SettingsTest, RecentFilesAreNewestFirstEachOnceAndEight) {
    Settings settings;
    for (int job = 0; job < 10; ++job) {
        settings.addRecentFile(QString("/jobs/%1.ohmjob").arg(job));
    }
    EXPECT_EQ(settings.recentFiles().size(), 8);
    EXPECT_EQ(settings.recentFiles().first().toStdString(), "/jobs/9.ohmjob");
    settings.addRecentFile("/jobs/5.ohmjob");
    EXPECT_EQ(settings.recentFiles().size(), 8);
    EXPECT_EQ(settings.recentFiles().first().toStdString(), "/jobs/5.ohmjob");
    EXPECT_EQ(settings.recentFiles().count("/jobs/5.ohmjob"), 1);
    settings.removeRecentFile("/jobs/5.ohmjob");
    EXPECT_FALSE(settings.recentFiles().contains("/jobs/5.ohmjob"));
}

TEST_F(SettingsTest, TheShopFolderIsInTheDocumentsUntilItIsChosen) {
    Settings settings;
    EXPECT_TRUE(settings.shopFolder().endsWith("/Ohmwright shop")) << settings.shopFolder().toStdString();
    settings.setShopFolder("/srv/tern-and-tallow");
    EXPECT_EQ(Settings().shopFolder().toStdString(), "/srv/tern-and-tallow");
}

TEST_F(SettingsTest, ClearForgetsEverythingOfTheTable) {
    Settings settings;
    settings.setTheme(ThemeChoice::dark);
    settings.addRecentFile("/jobs/1.ohmjob");
    settings.clear();
    EXPECT_EQ(settings.theme(), ThemeChoice::system);
    EXPECT_TRUE(settings.recentFiles().isEmpty());
}

TEST_F(SettingsTest, LookSettingsComeIntoForce) {
    Settings settings;
    settings.setTheme(ThemeChoice::dark);
    settings.setTextScale(1.3);
    applyLookSettings(settings);
    EXPECT_EQ(Theme::current().kind(), ThemeKind::dark);
    EXPECT_DOUBLE_EQ(Theme::current().textScale(), 1.3);
    EXPECT_EQ(themeKindOf(ThemeChoice::system), Theme::systemKind());
    EXPECT_EQ(themeKindOf(ThemeChoice::light), ThemeKind::light);
}

// A test that kept a stage wrote it among the documents of whoever ran it, and the next test found it there.
TEST(Settings, TheShopOfATestLiesApartFromTheUsersDocuments) {
    QSettings().clear();
    EXPECT_TRUE(Settings().shopFolder().startsWith(qEnvironmentVariable("XDG_CONFIG_HOME")))
        << Settings().shopFolder().toStdString();
}

}  // namespace
}  // namespace ohmwright
