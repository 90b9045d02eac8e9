// Reads the PDF as a person would: by its text, drawn out with pdftotext.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/bench_sheet.h"

#include "app/look/level_units.h"
#include "core/plan/correct.h"
#include "tests/app/papers/paper_text.h"

#include <gtest/gtest.h>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <optional>

namespace ohmwright {
namespace {

using test::answersOf;
using test::run;
using test::withOnly;

Job demoJob() {
    return test::demoJob("harbour-lamp");
}

/// The text of a sheet, runs of spaces as one.
class Sheet {
public:
    explicit Sheet(const Job& job, PaperSize paper = PaperSize::a4) {
        const QString path = m_folder.filePath("sheet.pdf");
        test::writePdf(benchSheet(answersOf(PaperKind::bench, job), paper), path);
        m_text = run("pdftotext", {"-layout", path, "-"});
        m_text.replace(QRegularExpression("[ \\t]+"), " ");
        m_info = run("pdfinfo", {path});
        m_fonts = run("pdffonts", {path});
        m_images = run("pdfimages", {"-list", path});
    }

    [[nodiscard]] bool says(const QString& words) const { return m_text.contains(words); }
    [[nodiscard]] std::string text() const { return m_text.toStdString(); }
    [[nodiscard]] int pages() const { return QRegularExpression("Pages:\\s+(\\d+)").match(m_info).captured(1).toInt(); }
    [[nodiscard]] const QString& info() const { return m_info; }
    [[nodiscard]] const QString& fonts() const { return m_fonts; }
    /// Lines of the list less its two heading lines.
    [[nodiscard]] qsizetype pictures() const { return m_images.split('\n', Qt::SkipEmptyParts).size() - 2; }

private:
    QTemporaryDir m_folder;
    QString m_text;
    QString m_info;
    QString m_fonts;
    QString m_images;
};

/// The same of the way back.
QString wayBackText(const Job& job) {
    return test::pdfTextOf(wayBackSheet(answersOf(PaperKind::wayBack, job), PaperSize::a4));
}

class BenchSheet : public testing::Test {
protected:
    static const Sheet& gainCap() {
        static const Sheet sheet(withOnly(demoJob(), "A"));
        return sheet;
    }
    static const Sheet& allFour() {
        static const Sheet sheet(withOnly(demoJob(), "ABCD"));
        return sheet;
    }
};

// The unit was built with 68n: what comes off, and goes back one day, is that, and not what the drawing says.
TEST_F(BenchSheet, ACorrectedDrawingIsSaidAndTheWayBackLeadsToTheBoard) {
    Correction correction;
    correction.part = "c4";
    correction.found = ValueFound{68e-9, "683"};
    const Result<Job> corrected = correct(withOnly(demoJob(), "A"), correction);
    ASSERT_TRUE(corrected) << corrected.error().message;
    const Sheet sheet(*corrected);
    EXPECT_TRUE(
        sheet.says("On this board: C4 Cg: 68n (printed 683), the drawing says 56n (printed 563) (board differs)"))
        << sheet.text();
    EXPECT_TRUE(sheet.says("board like PB-14 rev 2")) << sheet.text();
    EXPECT_TRUE(sheet.says("C4 Cg back to 68n (printed 683)")) << sheet.text();
    const QString back = wayBackText(*corrected);
    EXPECT_TRUE(back.contains("C4 Cg back to 68n (printed 683)")) << back.toStdString();
    EXPECT_FALSE(back.contains("back to 56n")) << back.toStdString();
}

TEST_F(BenchSheet, EveryPageNamesUnitVisitStateAndItsNumber) {
    const QString hash = QString::fromStdString(stateHash(withOnly(demoJob(), "A")));
    ASSERT_GE(gainCap().pages(), 1);
    for (int page = 1; page <= gainCap().pages(); ++page) {
        EXPECT_TRUE(gainCap().says(QString("%1 of %2").arg(page).arg(gainCap().pages()))) << gainCap().text();
    }
    for (const QString& words : {QString("Bench sheet"), QString("Harbour Lamp, HL-0231"), QString("PB-14 rev 2"), hash,
                                 "HL-0231 visit 2 " + hash, QString("3k9 = 3.9 k\u2126")}) {
        EXPECT_TRUE(gainCap().says(words)) << words.toStdString() << "\n" << gainCap().text();
    }
}

TEST_F(BenchSheet, SaysWhatWasAskedFor) {
    EXPECT_TRUE(gainCap().says("Asked for:"));
    EXPECT_TRUE(gainCap().says("Low strings vanish in the band, and chords fold flat.")) << gainCap().text();
}

TEST_F(BenchSheet, TheTableHoldsTheDemosFigures) {
    // Demo figures: own solver, checked against an independent circuit simulator. C4 120n against 56n.
    for (const char* row : {"82.4 \u221210.5 \u22124.71 +5.77", "110 \u22128.27 \u22122.37 +5.89",
                            "220 \u22122.81 2.56 +5.37", "1k 5.75 7.10 +1.35"}) {
        EXPECT_TRUE(gainCap().says(row)) << row << "\n" << gainCap().text();
    }
    EXPECT_TRUE(gainCap().says("corner 729 Hz"));
    EXPECT_TRUE(gainCap().says("corner 340 Hz"));
}

TEST_F(BenchSheet, ThresholdAndPeakAreTwoFigures) {
    // Demo figures, as above: A thresholds at 26 mVpk, peaks 0.36 to 0.44 V, slope 0.52 to 0.36.
    EXPECT_TRUE(gainCap().says("clip threshold, U1 pin 1 \u00B10.24 \u00B10.23")) << gainCap().text();
    EXPECT_TRUE(gainCap().says("51 / 51 26 / 26"));
    EXPECT_TRUE(gainCap().says("peak at 100 mVpk, U1 pin 1 \u00B10.36 \u00B10.44"));
    EXPECT_TRUE(gainCap().says("level slope 0.52 0.36 \u22120.16"));
}

// 26 and 51 mV peak are -34.7 and -28.9 dBV; 100 mV peak -23.0 dBV. Volts of the clip node stay volts.
TEST_F(BenchSheet, LevelsArePrintedInTheUnitThatTheyAreReadIn) {
    LevelUnits::current().setUnit(LevelUnit::dbv);
    const Sheet sheet(withOnly(demoJob(), "A"));
    LevelUnits::current().setUnit(LevelUnit::millivoltsPeak);
    EXPECT_TRUE(sheet.says("peak at \u221223.0 dBV, U1 pin 1 \u00B10.36 \u00B10.44")) << sheet.text();
    EXPECT_TRUE(sheet.says("220 Hz, \u221223.0 dBV picked")) << sheet.text();
    EXPECT_TRUE(sheet.says("dBV: pick level, at the string")) << sheet.text();
    EXPECT_FALSE(sheet.says("mVpk")) << sheet.text();
}

TEST_F(BenchSheet, PartsCarryTheirPrintedMarkings) {
    EXPECT_TRUE(gainCap().says("563 56n 124 120n not chosen yet stock assumed")) << gainCap().text();
    for (const char* words : {"D3 new", "1N4148", "red-violet-red", "333 33n", "band = cathode"}) {
        EXPECT_TRUE(allFour().says(words)) << words << "\n" << allFour().text();
    }
}

// The body that is fitted is the drawer's: its marking, its build, its lot and what a meter said of it.
TEST_F(BenchSheet, ThePartsComeOutOfTheirLots) {
    DrawerLot lot;
    lot.id = "C-120n-a";
    lot.lot = "0417";
    lot.kind = PartKind::capacitor;
    lot.value = 120e-9;
    lot.quantity = 3;
    lot.printed = "u12";
    lot.build = "film, 5 mm, 63 V";
    lot.measured = 118e-9;
    PaperRequest request;
    request.job = std::make_shared<const Job>(withOnly(demoJob(), "AC"));
    request.drawer.lots.push_back(lot);
    request.isStockAssumed = false;
    const Result<PaperAnswers> answers = answersOfPaper(request);
    ASSERT_TRUE(answers) << answers.error().message;
    const QString text = test::pdfTextOf(benchSheet(*answers, PaperSize::a4));
    EXPECT_TRUE(text.contains("563 56n u12 120n film, 5 mm, 63 V 0417, 118 nF")) << text.toStdString();
    EXPECT_TRUE(text.contains("none: order")) << text.toStdString();
}

TEST_F(BenchSheet, CautionsAreOnEverySheet) {
    for (const char* words :
         {"capacitors hold their charge: discharge through 1 k\u03a9, then measure",
          "Fumes:", "Lead solder:", "Eyes:", "Hot iron:", "ESD:",
          "mains or valve voltages only by licensed or suitably trained people; follow local codes"}) {
        EXPECT_TRUE(gainCap().says(words)) << words << "\n" << gainCap().text();
    }
}

TEST_F(BenchSheet, WorkIsNumberedAndStopsBeforePower) {
    for (const char* words : {"Photograph, then power off and discharge", "Take C4 Cg out, 56n, printed 563",
                              "one leg to U1 pin 2; other leg to one leg of R5 Rg", "Stop. Do not power yet.",
                              "Way back, in this order: C4 Cg back to 56n", "handed back, date"}) {
        EXPECT_TRUE(gainCap().says(words)) << words << "\n" << gainCap().text();
    }
}

TEST_F(BenchSheet, IsVectorWithItsTypefaceEmbedded) {
    EXPECT_EQ(gainCap().pictures(), 0);
    EXPECT_TRUE(gainCap().fonts().contains("B612")) << gainCap().fonts().toStdString();
    EXPECT_FALSE(gainCap().fonts().contains(" no  no ")) << gainCap().fonts().toStdString();
}

TEST_F(BenchSheet, ComesOnA4AndOnLetter) {
    EXPECT_TRUE(gainCap().info().contains("(A4)")) << gainCap().info().toStdString();
    const Sheet letter(withOnly(demoJob(), "A"), PaperSize::letter);
    EXPECT_TRUE(letter.info().contains("(letter)")) << letter.info().toStdString();
    EXPECT_TRUE(letter.says(QString("%1 of %1").arg(letter.pages()))) << letter.text();
}

TEST_F(BenchSheet, LongAndOddTextsAreElidedAndBreakNothing) {
    Job job = withOnly(demoJob(), "A");
    const std::string odd = "\"Q\" \u03A9 \u00B5 \u0416 \u6F22 <b>&amp;</b>\n\t";
    std::string longText;
    while (longText.size() < 500) {
        longText += odd;
    }
    job.shop = longText;
    job.unit.name = longText;
    job.unit.serial = longText;
    job.unit.boardRevision = longText;
    job.customer.name = longText;
    job.visit.complaint = longText;
    job.visit.agreed = std::string(500, 'W');
    job.plan[0].name = longText;
    job.plan[0].letter = longText;
    const Part* capacitor = findPartByReference(job.stock, "C4");
    ASSERT_NE(capacitor, nullptr);
    Part* part = findPart(job.stock, capacitor->id);
    part->function = longText;
    part->printed = longText;
    part->build = longText;
    const Sheet sheet(job);
    EXPECT_LE(sheet.pages(), 4);
    EXPECT_TRUE(sheet.says(QString("1 of %1").arg(sheet.pages()))) << sheet.text();
    EXPECT_TRUE(sheet.says("\u2026")) << sheet.text();
    EXPECT_TRUE(sheet.says(QString::fromStdString(stateHash(job)))) << sheet.text();
}

// The figures stand on paper long after the answers that they came from are gone.
TEST_F(BenchSheet, ASheetKeepsWhatItDraws) {
    std::optional<PaperAnswers> answers = answersOf(PaperKind::bench, withOnly(demoJob(), "A"));
    const Paper sheet = benchSheet(*answers, PaperSize::a4);
    const QString before = test::pdfTextOf(sheet);
    answers.reset();
    EXPECT_EQ(test::pdfTextOf(sheet), before);
    EXPECT_TRUE(before.contains("corner 340 Hz"));
}

TEST_F(BenchSheet, HighVoltageIsSaidBeforeAnythingElse) {
    EXPECT_TRUE(test::pdfTextOf(benchSheet(answersOf(PaperKind::bench, test::demoJob("night-ferry")), PaperSize::a4))
                    .contains("High voltage: "));
}

/// One crop for each step of the hands.
StepPhotos photosFor(const PaperAnswers& answers) {
    StepPhotos photos;
    for (const BenchStep& step : answers.work.steps) {
        StepPhoto photo;
        if (!step.legs.empty()) {
            photo.picture = QImage(600, 400, QImage::Format_RGB32);
            photo.picture.fill(Qt::darkGreen);
            photo.side = "part side";
            photo.rings = {{"leg 1", {250.0, 200.0}}, {"leg 2", {350.0, 200.0}}};
        }
        photos.steps.push_back(photo);
    }
    return photos;
}

// Taken out and fitted: both steps show the place with its legs named; without photos the sheet holds no picture.
TEST_F(BenchSheet, StepsOfTheHandsShowTheirPhotoCrop) {
    const PaperAnswers answers = answersOf(PaperKind::bench, withOnly(demoJob(), "A"));
    const QTemporaryDir folder;
    const QString path = folder.filePath("sheet.pdf");
    test::writePdf(benchSheet(answers, PaperSize::a4, photosFor(answers)), path);
    const QString text = run("pdftotext", {"-layout", path, "-"});
    EXPECT_EQ(text.count("part side"), 2) << text.toStdString();
    EXPECT_EQ(text.count("leg 1"), 2) << text.toStdString();
    EXPECT_EQ(text.count("leg 2"), 2);
    EXPECT_EQ(run("pdfimages", {"-list", path}).split('\n', Qt::SkipEmptyParts).size() - 2, 2);
    EXPECT_EQ(gainCap().pictures(), 0);
}

TEST_F(BenchSheet, SaysWhyThePhotoIsNotBesideTheSteps) {
    const PaperAnswers answers = answersOf(PaperKind::bench, withOnly(demoJob(), "A"));
    StepPhotos photos;
    photos.faults << "lamp.jpg is not there.";
    EXPECT_TRUE(test::pdfTextOf(benchSheet(answers, PaperSize::a4, photos))
                    .contains("No photo beside the steps: lamp.jpg is not there."));
}

// D, C, B, A is the reverse of fitting; stock has 47n, 3k9, no third diode, 56n.
TEST(WayBackSheet, ListsTheModsInReverseWithStockValuesAndItsReadings) {
    const QString text = wayBackText(withOnly(demoJob(), "ABCD"));
    EXPECT_TRUE(text.contains("Way-back sheet")) << text.toStdString();
    EXPECT_TRUE(text.contains("D, C, B, A")) << text.toStdString();
    for (const char* words : {"47n", "3k9", "D3 out", "56n", "No exact way back", "Cautions", "Order of work"}) {
        EXPECT_TRUE(text.contains(words)) << words;
    }
    // Stock's own gain resistor read in the circuit: 3.9 k.
    EXPECT_TRUE(
        QRegularExpression("red top of Rg, black jack sleeve \\(ground\\): 3\\.[67]\\d k").match(text).hasMatch() ||
        text.contains("3.7"))
        << text.toStdString();
}

TEST(WayBackSheet, WithoutAModThereIsNothingToUndo) {
    EXPECT_TRUE(wayBackText(withOnly(demoJob(), "")).contains("no mod is on"));
}

// A discharge comes before the camera where the supply is dangerous, and the step is on the sheet.
TEST(WayBackSheet, HighVoltageIsDischargedBeforeAnything) {
    const QString text = wayBackText(test::demoJob("night-ferry"));
    const auto discharge = text.indexOf("Power off and discharge, then measure");
    const auto photograph = text.indexOf("Photograph both sides");
    EXPECT_GT(discharge, 0) << text.toStdString();
    EXPECT_GT(photograph, discharge) << text.toStdString();
    EXPECT_TRUE(text.contains("can kill")) << text.toStdString();
}

}  // namespace
}  // namespace ohmwright
