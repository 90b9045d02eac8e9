// Reads the PDFs as a person would: by their text, drawn out with pdftotext.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/customer_papers.h"

#include "core/files/job_file.h"

#include <gtest/gtest.h>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

namespace ohmwright {
namespace {

Job demoJob(const std::string& folder = "harbour-lamp") {
    const auto loaded = loadJob(OHMWRIGHT_SOURCE_DIR "/demo-projects/" + folder + "/" + folder + ".ohmjob");
    EXPECT_TRUE(loaded);
    return loaded ? loaded->job : Job{};
}

Job withOnly(Job job, const std::string& letters) {
    for (Mod& mod : job.plan) {
        mod.on = letters.find(mod.letter) != std::string::npos;
    }
    return job;
}

/// Runs of spaces as one.
QString textOf(const Paper& paper) {
    const QTemporaryDir folder;
    QFile file(folder.filePath("paper.pdf"));
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(pdfOf(paper));
    file.close();
    QProcess process;
    process.start("pdftotext", {"-layout", file.fileName(), "-"});
    EXPECT_TRUE(process.waitForFinished()) << "pdftotext is missing: install poppler-utils";
    return QString::fromUtf8(process.readAllStandardOutput()).replace(QRegularExpression("\\s+"), " ");
}

QString hashOf(const Job& job) {
    return QString::fromStdString(stateHash(job));
}

QString customerText(const Job& job) {
    const Result<Paper> sheet = customerSheet(job, PaperSize::a4);
    EXPECT_TRUE(sheet) << sheet.error().message;
    return sheet ? textOf(*sheet) : QString();
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

TEST(CustomerSheet, AnUnsolvableJobHasNone) {
    Job job = demoJob();
    findPart(job.stock, "r5")->nets = {"adrift", "nowhere"};
    const Result<Paper> sheet = customerSheet(job, PaperSize::a4);
    ASSERT_FALSE(sheet);
    EXPECT_NE(sheet.error().message.find("No sheet"), std::string::npos);
}

TEST(LidLabel, NamesSerialVisitDateStateAndEveryMod) {
    Job job = withOnly(demoJob(), "AB");
    job.visit.date = "2026-03-14";
    job.visit.state = VisitState::proven;
    const QString text = textOf(lidLabel(job, PaperSize::a4));
    for (const QString& words : {QString("serial HL-0231"), "visit 2 14 Mar 2026 " + hashOf(job),
                                 QString::fromStdString("A " + job.plan[0].name)}) {
        EXPECT_TRUE(text.contains(words)) << words.toStdString() << "\n" << text.toStdString();
    }
    EXPECT_FALSE(text.contains(QString::fromStdString(job.plan[2].name))) << text.toStdString();
    EXPECT_FALSE(text.contains("not done"));
}

TEST(LidLabel, HighVoltageStandsOnIt) {
    EXPECT_TRUE(textOf(lidLabel(demoJob("night-ferry"), PaperSize::letter)).contains("HIGH VOLTAGE"));
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
    const Result<Quote> quote = makeQuote(job, {}, rates);
    ASSERT_TRUE(quote) << quote.error().message;
    const QString text = textOf(quoteSheet(job, *quote, PaperSize::a4, true));
    for (const char* words : {"minutes EUR", " 10.00 ", " 6 6.00 ", " 1.00 ", "Total 6 17.00 EUR", "are assumed",
                              "Needs your consent", "accepted, date"}) {
        EXPECT_TRUE(text.contains(words)) << words << "\n" << text.toStdString();
    }
}

}  // namespace
}  // namespace ohmwright
