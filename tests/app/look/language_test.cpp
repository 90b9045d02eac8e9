// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/language.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QPushButton>

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

TEST(Language, TheMachinesIsTakenWhereTheProgramSpeaksIt) {
    EXPECT_EQ(languageOf(QLocale("de_AT")), Language::german);
    EXPECT_EQ(languageOf(QLocale("en_GB")), Language::english);
    EXPECT_EQ(languageOf(QLocale("fi_FI")), Language::english);
}

// One test, because a process speaks one language at a time.
TEST(Language, GermanIsSpokenByTheWindowByCoreAndByTheButtonsOfTheToolkit) {
    speak(Language::german);
    EXPECT_EQ(QCoreApplication::translate("AnyClass", "Settings"), "Einstellungen");
    EXPECT_EQ(said("Settings"), "Einstellungen");
    EXPECT_EQ(said("no sentence of ours"), "no sentence of ours");
    EXPECT_EQ(said("%1 to %2", "4", "5"), "4 bis 5");
    EXPECT_EQ(saidMeaning("two places", "%1 to %2", {"R5", "C4"}), "R5 – C4");
    EXPECT_EQ(saidMeaning("a meaning that German does not tell apart", "%1 to %2", {"4", "5"}), "4 bis 5");
    EXPECT_EQ(formatFigure(5.774), "5,77");
    EXPECT_EQ(nameInSentence("Höhen"), "Höhen") << "a noun";
    const QDialogButtonBox buttons(QDialogButtonBox::Cancel);
    EXPECT_EQ(buttons.button(QDialogButtonBox::Cancel)->text().remove('&'), "Abbrechen");

    speak(Language::english);
    EXPECT_EQ(QCoreApplication::translate("AnyClass", "Settings"), "Settings");
    EXPECT_EQ(said("Settings"), "Settings");
    EXPECT_EQ(saidMeaning("two places", "%1 to %2", {"R5", "C4"}), "R5 to C4");
    EXPECT_EQ(formatFigure(5.774), "5.77");
    EXPECT_EQ(nameInSentence("Drive"), "drive");
}

}  // namespace
}  // namespace ohmwright
