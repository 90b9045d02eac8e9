// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"

#include "core/base/number_text.h"
#include "core/base/said_meaning.h"
#include "core/base/value_text.h"

#include <gtest/gtest.h>

#include <string_view>

namespace ohmwright {
namespace {

/// A language of one sentence, put in force for a test.
class SaidTest : public testing::Test {
protected:
    static void speakGerman() {
        setTranslation([](const char* english) {
            return std::string(std::string_view(english) == "%1 goes to %2." ? "An %2 liegt %1." : english);
        });
    }
    void TearDown() override {
        setTranslation(nullptr);
        setMeaningTranslation(nullptr);
        setDecimalMark(DecimalMark::point);
    }
};

TEST_F(SaidTest, PlacesAreFilledInTheOrderOfTheSentence) {
    EXPECT_EQ(said("%1 goes to %2.", "C4", "U1 pin 2"), "C4 goes to U1 pin 2.");
    EXPECT_EQ(said("Leg %2 of %1: %1.", "R1", 2), "Leg 2 of R1: R1.");
    EXPECT_EQ(said("It is dead."), "It is dead.");
}

TEST_F(SaidTest, AnotherLanguageMayTurnTheOrder) {
    speakGerman();
    EXPECT_EQ(said("%1 goes to %2.", "C4", "U1"), "An U1 liegt C4.");
    EXPECT_EQ(said("Nobody knows this one."), "Nobody knows this one.");
}

TEST_F(SaidTest, OneEnglishTextMayHaveTwoMeanings) {
    EXPECT_EQ(saidMeaning("two places", "%1 to %2", {"R5", "C4"}), "R5 to C4");
    setMeaningTranslation([](const char* english, const char* meaning) {
        return std::string(std::string_view(meaning) == "two places" ? "%1 gegen %2" : english);
    });
    EXPECT_EQ(saidMeaning("two places", "%1 to %2", {"R5", "C4"}), "R5 gegen C4");
    EXPECT_EQ(said("%1 to %2", "4.1 V", "4.5 V"), "4.1 V to 4.5 V");
    const InEnglish key;
    EXPECT_EQ(saidMeaning("two places", "%1 to %2", {"R5", "C4"}), "R5 to C4");
}

TEST_F(SaidTest, AKeyOfWordsIsEnglishInEveryLanguage) {
    speakGerman();
    setDecimalMark(DecimalMark::comma);
    {
        const InEnglish key;
        EXPECT_EQ(said("%1 goes to %2.", "C4", "U1"), "C4 goes to U1.");
        EXPECT_EQ(formatFixed(1.5, 1), "1.5");
        setValueStyle(ValueStyle::letterBehind);
        EXPECT_EQ(formatPartValue({4700.0, Unit::ohm}), "4k7");
    }
    EXPECT_EQ(formatPartValue({4700.0, Unit::ohm}), "4,7 k");
    setValueStyle(ValueStyle::letterAsPoint);
    EXPECT_EQ(said("%1 goes to %2.", "C4", "U1"), "An U1 liegt C4.");
    EXPECT_EQ(formatFixed(1.5, 1), "1,5");
}

TEST_F(SaidTest, WhatFillsAPlaceIsNeverReadAsASentence) {
    EXPECT_EQ(said("%1, then %2.", "%2", "%1"), "%2, then %1.");
}

TEST_F(SaidTest, APercentSignIsAPercentSign) {
    EXPECT_EQ(said("5 % of %1", "R1"), "5 % of R1");
    EXPECT_EQ(said("100 %"), "100 %");
    EXPECT_EQ(said("%2 is left open", "R1"), "%2 is left open");
    EXPECT_EQ(said("50%"), "50%");
}

TEST_F(SaidTest, NothingIsSaidOfNothing) {
    // A catalogue keeps its own head under the empty sentence.
    setTranslation([](const char*) { return std::string("Language: de"); });
    EXPECT_EQ(said(""), "");
    EXPECT_EQ(said(std::string_view()), "");
}

TEST_F(SaidTest, AWordThatIsAnIdentityIsSaidWhereItIsShown) {
    setTranslation([](const char* english) {
        return std::string(std::string_view(english) == "resistor" ? "Widerstand" : english);
    });
    const std::string_view kind = std::string_view("resistors").substr(0, 8);
    EXPECT_EQ(said(kind), "Widerstand");
    EXPECT_EQ(kind, "resistor");
}

TEST_F(SaidTest, AListTakesTheJoiningWordOfTheLanguage) {
    EXPECT_EQ(saidList({}), "");
    EXPECT_EQ(saidList({"C4"}), "C4");
    EXPECT_EQ(saidList({"C4", "R5"}), "C4 and R5");
    EXPECT_EQ(saidList({"C4", "R5", "R6"}), "C4, R5 and R6");
    setTranslation([](const char* english) {
        return std::string(std::string_view(english) == "%1 and %2" ? "%1 und %2" : english);
    });
    EXPECT_EQ(saidList({"C4", "R5", "R6"}), "C4, R5 und R6");
}

// ISO 80000-1:2009, 7.3.2: either mark; the language chooses it, the digits stay.
TEST_F(SaidTest, FiguresTakeTheCommaOfTheLanguage) {
    setDecimalMark(DecimalMark::comma);
    EXPECT_EQ(formatFigure(5.774), "5,77");
    EXPECT_EQ(formatFixed(-0.004, 2), "0,00");
    EXPECT_EQ(formatFrequency(1049.0), "1,05 kHz");
    EXPECT_EQ(formatQuantity({4700.0, Unit::ohm}), "4,70 kΩ");
    EXPECT_EQ(formatPartValue({4700.0, Unit::ohm}, ValueStyle::letterBehind), "4,7 k");
    EXPECT_EQ(formatPartValue({4700.0, Unit::ohm}, ValueStyle::letterAsPoint), "4k7");
}

TEST_F(SaidTest, WhatIsWrittenWithACommaIsReadBack) {
    setDecimalMark(DecimalMark::comma);
    for (const double ohms : {1.7, 4700.0, 2.2e6}) {
        const auto read = parsePartValue(formatPartValue({ohms, Unit::ohm}, ValueStyle::letterBehind), Unit::ohm);
        ASSERT_TRUE(read);
        EXPECT_DOUBLE_EQ(read->si, ohms);
    }
}

}  // namespace
}  // namespace ohmwright
