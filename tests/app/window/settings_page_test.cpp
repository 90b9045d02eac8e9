// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/settings_page.h"

#include "app/look/value_field.h"
#include "tests/app/window/open_window.h"

#include <QPushButton>

namespace ohmwright::test {
namespace {

class SettingsPageTest : public OpenWindow {
protected:
    SettingsPageTest() {
        QTest::keyClick(&*window, Qt::Key_Comma, Qt::ControlModifier);
        page = window->findChild<SettingsPage*>();
    }
    ~SettingsPageTest() override {
        Settings().clear();
        applyLookSettings(Settings());
    }

    void press(const QString& name) {
        for (QPushButton* button : page->findChildren<QPushButton*>()) {
            if (button->accessibleName() == name || button->text() == name) {
                QTest::mouseClick(button, Qt::LeftButton);
                QCoreApplication::processEvents();
                return;
            }
        }
        ADD_FAILURE() << "no button is called " << name.toStdString();
    }

    [[nodiscard]] QString wordsAt(const char* reference) {
        QString words;
        for (const LabelLine& line : window->map().scene().layout().labelOf(idOf(reference))->label.block) {
            for (const LabelRun& run : line.runs) {
                words += run.text + " ";
            }
        }
        return words;
    }

    QPointer<SettingsPage> page;
};

TEST_F(SettingsPageTest, TheOpenJobIsWrittenAnewAtOnce) {
    ASSERT_NE(page, nullptr);
    EXPECT_FALSE(page->isModal());
    const auto before = window->document().job();
    EXPECT_TRUE(wordsAt("C4").contains("120n")) << wordsAt("C4").toStdString();
    press("values: 4.7 k");
    EXPECT_TRUE(wordsAt("C4").contains("120 n")) << wordsAt("C4").toStdString();
    clickPart("C4");
    EXPECT_EQ(window->findChild<ValueField*>()->text(), "120 n");
    EXPECT_EQ(window->document().job(), before) << "nothing was edited";
    EXPECT_TRUE(window->document().isSaved());
    press("Back to the defaults");
    EXPECT_TRUE(wordsAt("C4").contains("120n")) << wordsAt("C4").toStdString();
}

// A value typed in the old style is read in the new one, and back.
TEST_F(SettingsPageTest, EitherStyleIsReadInEither) {
    press("values: 4.7 k");
    page->close();
    window->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&*window));
    clickPart("R5");
    type("2k7");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    QCoreApplication::processEvents();
    EXPECT_TRUE(wordsAt("R5").contains("2.7 k")) << wordsAt("R5").toStdString();
    type("3.3 k");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    QCoreApplication::processEvents();
    EXPECT_TRUE(wordsAt("R5").contains("3.3 k")) << wordsAt("R5").toStdString();
}

TEST_F(SettingsPageTest, EscapeClosesItAndTheMenuMarksWhatWasChosen) {
    press("text: 115 %");
    EXPECT_DOUBLE_EQ(Theme::current().textScale(), 1.15);
    QTest::keyClick(page, Qt::Key_Escape);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    EXPECT_TRUE(page.isNull());
    QMenu* sizes = window->actions().action("view.textSize")->menu();
    emit sizes->aboutToShow();
    EXPECT_TRUE(sizes->actions().at(1)->isChecked());
}

}  // namespace
}  // namespace ohmwright::test
