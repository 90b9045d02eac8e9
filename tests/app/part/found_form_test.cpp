// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/found_form.h"

#include "app/look/sign_text.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>
#include <QComboBox>
#include <QLineEdit>
#include <QRadioButton>
#include <QTest>

#include <optional>

namespace ohmwright::test {
namespace {

class FoundFormTest : public testing::Test {
protected:
    FoundFormTest() {
        form.resize(320, 600);
        form.show();
        QObject::connect(&form, &FoundForm::entered, &form,
                         [this](const Correction& correction) { entered = correction; });
    }

    template <class Widget>
    [[nodiscard]] Widget& named(const QString& name) {
        for (Widget* each : form.findChildren<Widget*>()) {
            if (each->accessibleName() == name) {
                return *each;
            }
        }
        ADD_FAILURE() << name.toStdString();
        return *form.findChild<Widget*>();
    }
    void begin(const PartId& part, const QString& what) {
        entered.reset();
        form.begin(stock, part);
        QComboBox& things = named<QComboBox>("What differs");
        ASSERT_GE(things.findText(what), 0) << what.toStdString();
        things.setCurrentIndex(things.findText(what));
    }
    void enter(const QString& reading) {
        named<QLineEdit>("What the board has").setText(reading);
        QTest::keyClick(&named<QLineEdit>("What the board has"), Qt::Key_Return);
    }
    [[nodiscard]] QString message() { return form.findChild<SignText*>()->text(); }

    Circuit stock = harbourLamp().stock;
    FoundForm form;
    std::optional<Correction> entered;
};

TEST_F(FoundFormTest, AValueCarriesItsMarkingAndItsReason) {
    begin("c4", "Another value");
    named<QLineEdit>("Printed on the body").setText("683");
    form.findChildren<QRadioButton*>()[1]->setChecked(true);
    named<QLineEdit>("Note").setText("newer solder");
    enter("68n");
    ASSERT_TRUE(entered);
    EXPECT_EQ(std::get<ValueFound>(entered->found), (ValueFound{68e-9, "683"}));
    EXPECT_EQ(entered->reason, CorrectionReason::earlierMod);
    EXPECT_EQ(entered->note, "newer solder");
}

TEST_F(FoundFormTest, WhatIsNoValueIsSaidAndNotTaken) {
    begin("c4", "Another value");
    enter("68x");
    EXPECT_FALSE(entered);
    EXPECT_TRUE(message().contains("68x")) << message().toStdString();
}

TEST_F(FoundFormTest, OfAPotItsLawInPercent) {
    begin("vr1", "Another law");
    named<QComboBox>("On the board").setCurrentIndex(2);
    enter("12");
    ASSERT_TRUE(entered);
    EXPECT_EQ(std::get<LawFound>(entered->found), (LawFound{Taper::reverseLogarithmic, 0.12}));
    begin("vr1", "Another tolerance");
    enter("10");
    EXPECT_EQ(std::get<ToleranceFound>(entered->found), ToleranceFound{0.1});
}

TEST_F(FoundFormTest, OfADiodeItsTypeOutOfTheLibrary) {
    Model other = *findModel(stock, "1N4148");
    other.name = "BAT41";
    form.setModels({other});
    begin("d1", "Another type");
    named<QComboBox>("On the board").setCurrentText("BAT41");
    QTest::keyClick(&named<QComboBox>("On the board"), Qt::Key_Return);
    ASSERT_TRUE(entered);
    EXPECT_EQ(std::get<TypeFound>(entered->found).model, other);
}

TEST_F(FoundFormTest, ALegAtAnotherNetAndAPartThatIsNotThere) {
    begin("c7", "A leg sits elsewhere");
    named<QComboBox>("On the board").setCurrentIndex(1);
    QComboBox& nets = named<QComboBox>("Where the leg sits");
    nets.setCurrentIndex(nets.findData("o1"));
    QTest::keyClick(&nets, Qt::Key_Return);
    ASSERT_TRUE(entered);
    EXPECT_EQ(std::get<LegFound>(entered->found), (LegFound{1, "o1"}));
    begin("c7", "The part is not there");
    QTest::keyClick(&named<QComboBox>("What differs"), Qt::Key_Return);
    ASSERT_TRUE(entered);
    EXPECT_FALSE(std::get<PresenceFound>(entered->found).part);
}

}  // namespace
}  // namespace ohmwright::test
