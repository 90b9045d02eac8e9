// Two windows on one job, files that others write, take away or damage: what the window says and offers.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/file_band.h"

#include "app/knobs/knob_dial.h"
#include "core/files/job_file.h"
#include "core/plan/edits.h"
#include "tests/app/window/open_window.h"

#include <QPushButton>

namespace ohmwright::test {
namespace {

constexpr int patienceMilliseconds = 5000;

class FileBandTest : public OpenWindow {
protected:
    [[nodiscard]] static QPushButton* button(MainWindow& in, const QString& words) {
        for (QPushButton* each : in.findChildren<QPushButton*>()) {
            if (each->text() == words && each->isVisible()) {
                return each;
            }
        }
        return nullptr;
    }
    [[nodiscard]] static QString said(MainWindow& in) { return in.findChild<FileBand*>()->sentence(); }
    static void press(MainWindow& in, const QString& words) {
        QPushButton* found = button(in, words);
        ASSERT_NE(found, nullptr) << words.toStdString() << " is not offered; said: " << said(in).toStdString();
        found->setFocus();
        QTest::keyClick(found, Qt::Key_Space);
        QCoreApplication::processEvents();
    }
    bool change(MainWindow& in, double farads) {
        return in.document().edit(setPartValue(*in.document().job(), "c4", farads), "Change C4");
    }
    void writeOutside(const std::string& text) const {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(text.data(), static_cast<qint64>(text.size()));
    }
    void readInto(std::string& text) const {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly));
        text = file.readAll().toStdString();
    }
};

TEST_F(FileBandTest, ASecondWindowShowsTheJobSaysWhoHasItAndGetsItOnceItIsFree) {
    MainWindow second;
    second.show();
    ASSERT_TRUE(second.openFile(path));
    EXPECT_TRUE(said(second).startsWith("harbour-lamp.ohmjob is open in another window")) << said(second).toStdString();
    EXPECT_FALSE(change(second, 150e-9));
    EXPECT_TRUE(second.refusal().contains("is open in another window"));
    press(second, "Look again");
    EXPECT_TRUE(said(second).contains("is open in another window")) << "it still is";
    window.reset();
    press(second, "Look again");
    EXPECT_EQ(said(second), "");
    EXPECT_TRUE(change(second, 150e-9));
    EXPECT_EQ(button(second, "Look again"), nullptr);
}

TEST_F(FileBandTest, AKnobThatIsTurnedInVainStandsWhereItStood) {
    MainWindow second;
    second.show();
    ASSERT_TRUE(second.openFile(path));
    const Setting before = second.document().job()->setting;
    int knobs = 0;
    for (KnobDial* knob : second.findChildren<KnobDial*>()) {
        const QImage picture = knob->grab().toImage();
        QTest::keyClick(knob, Qt::Key_Up);
        QTest::mouseClick(knob, Qt::LeftButton, {}, {knob->width() / 2, 4});
        EXPECT_EQ(knob->grab().toImage(), picture) << knob->accessibleName().toStdString();
        ++knobs;
    }
    EXPECT_GT(knobs, 0);
    EXPECT_EQ(second.document().job()->setting, before);
}

TEST_F(FileBandTest, WhatAnotherProgramWroteIsNoticedAndTakenOnOnePress) {
    ASSERT_TRUE(change(*window, 150e-9));
    const Job mine = job();
    const Job theirs = *setPartValue(mine, "c4", 22e-9);
    writeOutside(writeJob(theirs));
    ASSERT_TRUE(QTest::qWaitFor([this] { return !said(*window).isEmpty(); }, patienceMilliseconds));
    EXPECT_TRUE(said(*window).startsWith("harbour-lamp.ohmjob was changed by another program"));
    EXPECT_NE(button(*window, "Keep mine as another file …"), nullptr);
    window->actions().action("job.save")->trigger();
    std::string onDisk;
    readInto(onDisk);
    EXPECT_EQ(onDisk, writeJob(theirs)) << "never overwritten silently";
    press(*window, "Take what the file holds");
    EXPECT_EQ(job(), theirs);
    EXPECT_EQ(said(*window), "");
    window->actions().action("edit.undo")->trigger();
    EXPECT_EQ(job(), mine);
}

TEST_F(FileBandTest, AFileThatWasTakenAwayIsNoticedAndWrittenAnewOnOnePress) {
    ASSERT_TRUE(QFile::remove(path));
    ASSERT_TRUE(QTest::qWaitFor([this] { return !said(*window).isEmpty(); }, patienceMilliseconds));
    EXPECT_TRUE(said(*window).contains("is no longer in its folder"));
    EXPECT_TRUE(reads("not saved yet"));
    press(*window, "Save it there anew");
    EXPECT_TRUE(QFile::exists(path));
    EXPECT_EQ(said(*window), "");
}

TEST_F(FileBandTest, ASaveOfItsOwnIsNoChangeFromOutside) {
    for (const double farads : {150e-9, 22e-9, 100e-9}) {
        ASSERT_TRUE(change(*window, farads));
        window->actions().action("job.save")->trigger();
        QTest::qWait(500);  // Longer than the watch rests.
        EXPECT_EQ(said(*window), "");
    }
    EXPECT_TRUE(window->document().isSaved());
}

TEST_F(FileBandTest, ADamagedFileShowsWhatIsSoundAndEveryPlaceThatIsNot) {
    std::string text;
    readInto(text);
    for (const std::string value : {"5.6e-08,", "3900,"}) {
        ASSERT_NE(text.find(value), std::string::npos);
        text.replace(text.find(value), value.size(), "\"?\",");
    }
    writeOutside(text);
    ASSERT_TRUE(window->openFile(path));
    EXPECT_TRUE(said(*window).startsWith("harbour-lamp.ohmjob is damaged. In line ")) << said(*window).toStdString();
    EXPECT_TRUE(said(*window).contains("left out"));
    press(*window, "Show all 2");
    QWidget* page = QApplication::activeWindow();
    ASSERT_NE(page, nullptr);
    EXPECT_TRUE(page->windowTitle().contains("harbour-lamp.ohmjob"));
    page->close();
    EXPECT_FALSE(change(*window, 150e-9));
    std::string after;
    readInto(after);
    EXPECT_EQ(after, text);
}

}  // namespace
}  // namespace ohmwright::test
