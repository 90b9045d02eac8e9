// Reads the PDFs as a person would: by their text, drawn out with pdftotext.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/customer_papers.h"

#include "tests/app/papers/paper_text.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::answersOf;
using test::withOnly;

Job demoJob(const std::string& name = "harbour-lamp") {
    return test::demoJob(name);
}

QString textOf(const Paper& paper) {
    return test::pdfTextOf(paper);
}

QString hashOf(const Job& job) {
    return QString::fromStdString(stateHash(job));
}

QString customerText(const Job& job) {
    return textOf(customerSheet(answersOf(PaperKind::customer, job), PaperSize::a4));
}

QString labelText(const Job& job) {
    return textOf(lidLabel(answersOf(PaperKind::label, job), PaperSize::a4));
}

TEST(CustomerSheet, SaysWhatWasAskedAndWhatIsDifferent) {
    const Job job = withOnly(demoJob(), "A");
    const QString text = customerText(job);
    for (const QString& words :
         {QString("Customer sheet"), QString("Low strings vanish in the band, and chords fold flat."),
          QString("What cannot be undone"), QString("Your knobs"), hashOf(job), QString("HL-0231 visit 2")}) {
        EXPECT_TRUE(text.contains(words)) << words.toStdString() << "\n" << text.toStdString();
    }
    // Demo figures: own solver, checked against an independent circuit simulator. C4 120n against 56n.
    EXPECT_TRUE(text.contains("low strings, 82 Hz, string to output \u221210.5 \u22124.71 +5.77 dB"))
        << text.toStdString();
}

TEST(CustomerSheet, AWordThatIsNotKeptIsToldAsSuch) {
    Job job = withOnly(demoJob(), "A");
    job.visit.words = {"less squashed"};
    // The level slope falls from 0.52 to 0.36 dB per dB: more squashed, not less.
    EXPECT_TRUE(customerText(job).contains("less squashed: the other way"));
}

TEST(CustomerSheet, APlanIsNotToldAsDone) {
    Job job = withOnly(demoJob(), "A");
    job.visit.state = VisitState::quoted;
    EXPECT_TRUE(customerText(job).contains("What is planned"));
    job.visit.state = VisitState::proven;
    const QString done = customerText(job);
    EXPECT_TRUE(done.contains("What was done"));
    EXPECT_FALSE(done.contains("What is planned"));
}

// A swapped capacitor goes back out of the bag; only the diode whose lead may have been cut does not.
TEST(CustomerSheet, WhatCanGoBackIsNotListedAsLost) {
    const QString swapped = customerText(withOnly(demoJob(), "A"));
    EXPECT_TRUE(swapped.contains("None: every step goes back to the letter")) << swapped.toStdString();
    EXPECT_TRUE(swapped.contains("Keep your bag of old parts: C4 Cg 56n (printed 563)")) << swapped.toStdString();
    const QString cut = customerText(withOnly(demoJob(), "AB"));
    EXPECT_TRUE(cut.contains("D2: where its lead was cut")) << cut.toStdString();
    EXPECT_FALSE(cut.contains("None: every step"));
}

// Where a formula alone moves, the section would stand there without a line.
TEST(CustomerSheet, KnobsThatOnlyAFormulaMovesAreSaidToo) {
    PaperAnswers answers = answersOf(PaperKind::customer, withOnly(demoJob(), "A"));
    KnobTranslation plateau;
    plateau.knobName = "Drive";
    plateau.oldPosition = 5.0;
    plateau.newPosition = 3.1;
    plateau.keptEqual = "plateau_gain";
    plateau.keptEqualName = "plateau gain";
    answers.knobs = {plateau};
    const QString text = textOf(customerSheet(answers, PaperSize::a4));
    EXPECT_TRUE(text.contains("Drive: your old 5.0 is now 3.1, with equal plateau gain by its formula"))
        << text.toStdString();
}

// The whole warning stands in its bar, not the half of it.
TEST(CustomerSheet, TheHighVoltageBarIsReadToItsEnd) {
    EXPECT_TRUE(customerText(demoJob("night-ferry"))
                    .contains("High voltage inside, up to 269 V, 250 V on C3 in use. Do not open."));
}

TEST(LidLabel, NamesSerialVisitDateStateAndEveryMod) {
    Job job = withOnly(demoJob(), "AB");
    job.visit.date = "2026-03-14";
    job.visit.state = VisitState::proven;
    const QString text = labelText(job);
    for (const QString& words : {QString("serial HL-0231"), "visit 2 14 Mar 2026 " + hashOf(job),
                                 QString::fromStdString("A " + job.plan[0].name)}) {
        EXPECT_TRUE(text.contains(words)) << words.toStdString() << "\n" << text.toStdString();
    }
    EXPECT_FALSE(text.contains(QString::fromStdString(job.plan[2].name))) << text.toStdString();
    EXPECT_FALSE(text.contains("not done"));
}

// 269.4 V behind 10k are 250 V at the reservoir in use: both stand there, so that it says what the words say.
TEST(LidLabel, HighVoltageStandsOnIt) {
    EXPECT_TRUE(labelText(demoJob("night-ferry"))
                    .contains("HIGH VOLTAGE: up to 269 V, 250 V on C3 in use, also when switched off"));
}

// Fee 10.00; 6 minutes of swapping at 60.00 an hour are 6.00; one unknown part 0.50 times 2 is 1.00.
TEST(QuoteSheet, TheTotalIsTheSumOfItsLines) {
    const Job job = withOnly(demoJob(), "A");
    ShopRates rates;
    rates.perHour = 60.0;
    rates.benchFee = 10.0;
    rates.partMarkup = 2.0;
    rates.unknownPartPrice = 0.5;
    rates.minutes["swap value"] = 6.0;
    PaperRequest request;
    request.kind = PaperKind::quote;
    request.job = std::make_shared<const Job>(job);
    request.rates = rates;
    const Result<PaperAnswers> answers = answersOfPaper(request);
    ASSERT_TRUE(answers) << answers.error().message;
    const QString text = textOf(quoteSheet(*answers, PaperSize::a4));
    for (const char* words : {"minutes EUR", " 10.00 ", " 6 6.00 ", " 1.00 ", "Total 6 17.00 EUR", "are assumed",
                              "Needs your consent", "accepted, date"}) {
        EXPECT_TRUE(text.contains(words)) << words << "\n" << text.toStdString();
    }
}

}  // namespace
}  // namespace ohmwright
