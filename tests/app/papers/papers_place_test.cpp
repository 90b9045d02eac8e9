// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/papers_place.h"

#include "app/background/paper_service.h"
#include "app/papers/page_view.h"
#include "app/papers/paper_list.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <gmock/gmock.h>
#include <QFile>
#include <QPrinter>
#include <QPushButton>
#include <QTemporaryDir>

namespace ohmwright::test {
namespace {

using testing::HasSubstr;

class PapersPlaceTest : public testing::Test {
protected:
    PapersPlaceTest() {
        place.setPaperSize(PaperSize::a4);
        place.resize(1600, 900);
        place.show();
        place.activateWindow();
    }
    [[nodiscard]] bool waitForPages() {
        constexpr int patience = 60000;
        return QTest::qWaitFor([this] { return place.isReady() || !service.fault().isEmpty(); }, patience) &&
               service.fault().isEmpty();
    }
    [[nodiscard]] std::string words() const { return place.words().toStdString(); }
    [[nodiscard]] QPushButton* button(const QString& begin) const {
        for (auto* each : place.findChildren<QPushButton*>()) {
            if (each->text().contains(begin)) {
                return each;
            }
        }
        ADD_FAILURE() << "no button " << begin.toStdString();
        return nullptr;
    }
    [[nodiscard]] const Visit& visit() const { return open.job().visit; }

    QTemporaryDir folder;
    OpenJob open;
    PaperService service{open.document, open.solver, open.shop};
    PapersPlace place{open.document, service};
};

TEST_F(PapersPlaceTest, ShowsEveryPaperAsItWillBePrinted) {
    const std::pair<PaperKind, const char*> titles[] = {{PaperKind::bench, "Take C4 Cg out"},
                                                        {PaperKind::wayBack, "Undo, in this order: "},
                                                        {PaperKind::customer, "You asked for: "},
                                                        {PaperKind::label, "Cut along the line: "},
                                                        {PaperKind::quote, "Work and parts"}};
    for (const auto& [kind, expected] : titles) {
        place.choose(kind);
        ASSERT_TRUE(waitForPages()) << service.fault().toStdString();
        EXPECT_THAT(words(), HasSubstr(QString(expected).trimmed().toStdString()));
        EXPECT_THAT(words(), HasSubstr(std::string(paperName(kind))));
        EXPECT_THAT(words(), HasSubstr(stateHash(open.job())));
    }
}

TEST_F(PapersPlaceTest, TheListIsWalkedByKeys) {
    ASSERT_TRUE(waitForPages());
    auto* row = place.findChildren<PaperRow*>().first();
    row->setFocus();
    QTest::keyClick(row, Qt::Key_Down);
    EXPECT_EQ(place.chosen(), PaperKind::wayBack);
}

// What leaves the printer is listed in the visit, one step of undo each.
TEST_F(PapersPlaceTest, ASavedPaperIsRecordedAndCanBeUndone) {
    ASSERT_TRUE(waitForPages());
    const QString path = folder.filePath("sheet.pdf");
    ASSERT_TRUE(place.savePdf(path));
    EXPECT_TRUE(QFile::exists(path));
    ASSERT_EQ(visit().papers.size(), 1u);
    EXPECT_EQ(visit().papers.front().kind, "bench");
    EXPECT_EQ(visit().papers.front().hash, stateHash(open.job()));
    EXPECT_TRUE(place.list().stateWords(PaperKind::bench).startsWith("current, "));
    EXPECT_TRUE(place.printed().front().endsWith(": current"));
    EXPECT_TRUE(place.isReady());
    EXPECT_EQ(open.document.undoStack().undoText(), "List the bench sheet as printed");
    open.document.undoStack().undo();
    EXPECT_TRUE(visit().papers.empty());
    EXPECT_EQ(place.list().stateWords(PaperKind::bench), "not printed yet");
}

TEST_F(PapersPlaceTest, APaperOfAnEarlierPlanIsShownAsVoid) {
    ASSERT_TRUE(waitForPages());
    ASSERT_TRUE(place.savePdf(folder.filePath("sheet.pdf")));
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4");
    EXPECT_EQ(place.list().stateWords(PaperKind::bench), "void: printed from an earlier plan");
    EXPECT_TRUE(place.printed().front().contains("void, printed from an earlier plan"));
    // Back to the plan that it was printed from, it holds again.
    open.document.undoStack().undo();
    EXPECT_TRUE(place.list().stateWords(PaperKind::bench).startsWith("current"));
}

TEST_F(PapersPlaceTest, NothingLeavesWhileTheFiguresAreOld) {
    ASSERT_TRUE(waitForPages());
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4");
    EXPECT_FALSE(button("Save as PDF")->isEnabled());
    EXPECT_FALSE(place.savePdf(folder.filePath("sheet.pdf")));
    EXPECT_FALSE(QFile::exists(folder.filePath("sheet.pdf")));
    EXPECT_TRUE(visit().papers.empty());
    ASSERT_TRUE(waitForPages());
    EXPECT_TRUE(button("Save as PDF")->isEnabled());
    EXPECT_FALSE(place.view().isStale());
}

// A sentence names the part, and the button beside it is the way on.
TEST_F(PapersPlaceTest, APartThatNobodySawIsNamedAndCanBeMarked) {
    Job job = open.job();
    findPart(job.stock, "c4")->knowledge = Knowledge::drawn;
    open.document.setJob(job, {});
    ASSERT_FALSE(waitForPages());
    EXPECT_THAT(words(), HasSubstr("the plan works on C4 Cg, which is known from the drawing alone"));
    EXPECT_FALSE(button("Print")->isEnabled());
    EXPECT_FALSE(place.savePdf(folder.filePath("sheet.pdf")));
    QTest::mouseClick(button("C4 Cg looked at on the board: mark as seen"), Qt::LeftButton);
    EXPECT_EQ(findPart(open.job().stock, "c4")->knowledge, Knowledge::seen);
    ASSERT_TRUE(waitForPages());
    EXPECT_THAT(words(), HasSubstr("Take C4 Cg out"));
    EXPECT_EQ(open.document.undoStack().undoText(), "Mark C4 Cg as seen");
}

TEST_F(PapersPlaceTest, AFolderThatIsNotThereIsSaidAndNothingIsRecorded) {
    ASSERT_TRUE(waitForPages());
    EXPECT_FALSE(place.savePdf("/no such folder/sheet.pdf"));
    EXPECT_TRUE(visit().papers.empty());
}

TEST_F(PapersPlaceTest, ThePrinterGetsAllPagesAndIsRecorded) {
    ASSERT_TRUE(waitForPages());
    const QString path = folder.filePath("printed.pdf");
    QPrinter printer(QPrinter::HighResolution);
    printer.setOutputFormat(QPrinter::PdfFormat);
    printer.setOutputFileName(path);
    ASSERT_TRUE(place.printOn(printer));
    EXPECT_EQ(visit().papers.size(), 1u);
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    EXPECT_TRUE(file.readAll().startsWith("%PDF"));
}

TEST_F(PapersPlaceTest, LetterIsAnotherPage) {
    ASSERT_TRUE(waitForPages());
    const QSizeF a4 = place.view().paper()->flow.pageSize();
    button("Letter")->click();
    EXPECT_EQ(place.paperSize(), PaperSize::letter);
    // 8.5 by 11 inches (ANSI/ASME Y14.1, size A).
    EXPECT_NEAR(place.view().paper()->flow.pageSize().width(), 816.0, 0.5);
    EXPECT_NEAR(place.view().paper()->flow.pageSize().height(), 1056.0, 0.5);
    EXPECT_NE(a4, place.view().paper()->flow.pageSize());
}

TEST_F(PapersPlaceTest, LooksItsPart) {
    ASSERT_TRUE(waitForPages());
    takePicture(place, "papers-place", ThemeKind::light);
    takePicture(place, "papers-place", ThemeKind::dark);
    EXPECT_TRUE(clippedWords(place).isEmpty()) << clippedWords(place).join(" | ").toStdString();
}

}  // namespace
}  // namespace ohmwright::test
