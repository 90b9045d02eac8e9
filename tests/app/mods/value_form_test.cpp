// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/value_form.h"

#include "tests/support/open_job.h"

#include <QAbstractButton>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>

#include <optional>

namespace ohmwright::test {
namespace {

class ValueFormTest : public testing::Test {
protected:
    void ask(Unit unit, const QString& answer = {}) {
        form.resize(232, 200);
        form.ask("Across C4 Cg: capacitor", unit, {}, [this, answer](double value) {
            taken = value;
            return answer;
        });
    }
    void type(const QString& text) const { QTest::keyClicks(field(), text); }
    [[nodiscard]] QLineEdit* field() const { return form.findChild<QLineEdit*>(); }
    [[nodiscard]] QAbstractButton* button(const QString& text) const {
        for (auto* candidate : form.findChildren<QAbstractButton*>()) {
            if (candidate->text() == text && candidate->isVisibleTo(&form)) {
                return candidate;
            }
        }
        return nullptr;
    }

    ValueForm form;
    std::optional<double> taken;
};

TEST_F(ValueFormTest, EchoesWhatItReadsAndTakesItOnEnter) {
    ask(Unit::farad);
    EXPECT_TRUE(shownWords(form).contains("Across C4 Cg: capacitor"));
    EXPECT_FALSE(button("Fit")->isEnabled());
    type("68n");
    EXPECT_TRUE(shownWords(form).contains("68.0 nF"));
    QTest::keyClick(field(), Qt::Key_Return);
    ASSERT_TRUE(taken);
    EXPECT_DOUBLE_EQ(*taken, 68e-9);
    EXPECT_TRUE(form.isHidden());
}

TEST_F(ValueFormTest, AnAmbiguousMarkingIsAChoice) {
    ask(Unit::farad);
    type("470");
    QTest::keyClick(field(), Qt::Key_Return);
    EXPECT_FALSE(taken) << "nothing is guessed";
    QCoreApplication::processEvents();  // a layout shows what is added to it later
    QAbstractButton* code = button("47.0 pF");
    ASSERT_NE(code, nullptr);
    ASSERT_NE(button("470 pF"), nullptr);
    code->click();
    ASSERT_TRUE(taken);
    EXPECT_NEAR(*taken, 47e-12, 1e-18);
}

TEST_F(ValueFormTest, WhatCannotBeReadIsSaidInPlace) {
    ask(Unit::ohm);
    type("4k7n");
    EXPECT_TRUE(shownWords(form).filter("4k7n").size() == 1);
    EXPECT_FALSE(button("Fit")->isEnabled());
    QTest::keyClick(field(), Qt::Key_Return);
    EXPECT_FALSE(taken);
}

TEST_F(ValueFormTest, ARefusedEditLeavesTheFormOpenWithTheReason) {
    ask(Unit::ohm, "R5 is lifted already.");
    type("10k");
    button("Fit")->click();
    EXPECT_FALSE(form.isHidden());
    EXPECT_TRUE(shownWords(form).contains("R5 is lifted already."));
}

TEST_F(ValueFormTest, EscapeAndCancelCloseWithoutAnEdit) {
    QSignalSpy closed(&form, &ValueForm::closed);
    ask(Unit::ohm);
    type("10k");
    QTest::keyClick(field(), Qt::Key_Escape);
    EXPECT_TRUE(form.isHidden());
    ask(Unit::ohm);
    button("Cancel")->click();
    EXPECT_TRUE(form.isHidden());
    EXPECT_EQ(closed.count(), 2);
    EXPECT_FALSE(taken);
}

}  // namespace
}  // namespace ohmwright::test
