// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/value_field.h"

#include "app/look/choice_button.h"
#include "app/look/sign_text.h"
#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QAction>
#include <QApplication>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <QVBoxLayout>
#include <QWheelEvent>

#include <memory>

namespace ohmwright {
namespace {

/// The demo's gain-leg capacitor, 56n as built and 120n planned, in a shown and active window.
class ValueFieldTest : public testing::Test {
protected:
    ValueFieldTest() {
        qRegisterMetaType<Quantity>("ohmwright::Quantity");
        auto* layout = new QVBoxLayout(&m_window);
        layout->addWidget(m_field = new ValueField);
        layout->addStretch();
        m_window.resize(304, 320);
        m_field->setSubject({"C4 Cg", farads(56e-9), farads(120e-9)});
        m_window.show();
        QApplication::setActiveWindow(&m_window);
        EXPECT_TRUE(QTest::qWaitForWindowActive(&m_window));
        m_field->setFocus();
        QObject::connect(m_field, &ValueField::valueEntered, m_field, [this](Quantity value, const QString& text) {
            m_entered.push_back(value);
            m_texts.push_back(text);
        });
        QObject::connect(m_field, &ValueField::stepped, m_field,
                         [this](int direction, Qt::KeyboardModifiers keys) { m_steps.emplace_back(direction, keys); });
    }

    [[nodiscard]] QLineEdit* entry() const { return m_field->findChild<QLineEdit*>("valueEntry"); }
    [[nodiscard]] QList<ChoiceButton*> choices() const {
        QList<ChoiceButton*> shown;
        for (ChoiceButton* button : m_field->findChildren<ChoiceButton*>()) {
            if (button->isVisible()) {
                shown.append(button);
            }
        }
        return shown;
    }
    void type(const QString& text) const {
        entry()->selectAll();
        QTest::keyClicks(entry(), text);
    }
    void typeAndEnter(const QString& text) const {
        type(text);
        QTest::keyClick(entry(), Qt::Key_Return);
    }
    void turnWheel(const QPoint& angle, Qt::KeyboardModifiers keys = {}) const {
        const QPointF at = m_field->rect().center();
        QWheelEvent event(at, m_field->mapToGlobal(at), {}, angle, Qt::NoButton, keys, Qt::NoScrollPhase, false);
        QApplication::sendEvent(entry()->parentWidget(), &event);
    }

    QWidget m_window;
    ValueField* m_field = nullptr;
    std::vector<Quantity> m_entered;
    QStringList m_texts;
    std::vector<std::pair<int, Qt::KeyboardModifiers>> m_steps;
};

TEST_F(ValueFieldTest, ShowsThePlannedValueAndSaysItInWords) {
    EXPECT_EQ(m_field->text().toStdString(), "120n");
    EXPECT_EQ(m_field->message().toStdString(), "120 nF");
    m_field->setNote("120 nF ±10 %, this one 118 nF");
    EXPECT_EQ(m_field->message().toStdString(), "120 nF ±10 %, this one 118 nF");
    EXPECT_EQ(entry()->accessibleName().toStdString(), "New value of C4 Cg");
}

TEST_F(ValueFieldTest, PlannedIsIrisBesideStruckStockAndAsBuiltIsInk) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        entry()->deselect();
        m_field->setSubject({"C4 Cg", farads(56e-9), farads(120e-9)});
        entry()->deselect();
        const QImage planned = grabbedPicture("value-planned", m_window);
        EXPECT_GT(pixelsOf(planned, c.now), 150) << themeName(kind);
        EXPECT_GT(pixelsOf(planned, c.stock), 20) << themeName(kind);
        m_field->setSubject({"C4 Cg", farads(56e-9), farads(56e-9)});
        entry()->deselect();
        const QImage asBuilt = grabbedPicture("value-as-built", m_window);
        EXPECT_EQ(pixelsOf(asBuilt, c.now), 0) << "no violet where nothing is planned, " << themeName(kind);
        EXPECT_EQ(pixelsOf(asBuilt, c.stock), 0) << "nothing was taken out, nothing is struck";
        EXPECT_GT(pixelsOf(asBuilt, c.ink), 300) << themeName(kind);
    }
}

TEST_F(ValueFieldTest, TypedValueIsEchoedWhileTypingAndEnteredByEnter) {
    type("100nK");
    EXPECT_EQ(m_field->message().toStdString(), "100 nF ±10 %");
    EXPECT_TRUE(m_entered.empty()) << "nothing happens before Enter";
    QTest::keyClick(entry(), Qt::Key_Return);
    ASSERT_EQ(m_entered.size(), 1U);
    EXPECT_EQ(m_entered[0].unit, Unit::farad);
    EXPECT_NEAR(m_entered[0].si, 100e-9, 1e-18);
    EXPECT_EQ(m_texts[0].toStdString(), "100nK");
}

TEST_F(ValueFieldTest, AfterAnEditTheFocusStaysAndTheTextIsSelected) {
    typeAndEnter("100n");
    EXPECT_TRUE(entry()->hasFocus());
    EXPECT_EQ(entry()->selectedText().toStdString(), "100n");
    m_field->setSubject({"C4 Cg", farads(56e-9), farads(100e-9)});  // the panel answers
    EXPECT_EQ(entry()->selectedText().toStdString(), "100n");
    QTest::keyClicks(entry(), "8");
    EXPECT_EQ(m_field->text().toStdString(), "8") << "the next digit starts a new value";
}

TEST_F(ValueFieldTest, SameValueAgainChangesNothing) {
    QTest::keyClick(entry(), Qt::Key_Return);
    typeAndEnter("0.12u");
    EXPECT_TRUE(m_entered.empty());
    EXPECT_EQ(m_field->text().toStdString(), "120n");
}

TEST_F(ValueFieldTest, AmbiguousMarkingOpensLargeChoicesInPlace) {
    const ThemeGuard guard;
    m_field->setSubject({"C5 Cf", farads(100e-12), farads(100e-12)});
    type("470");
    EXPECT_TRUE(m_field->message().contains("Enter to choose")) << m_field->message().toStdString();
    QTest::keyClick(entry(), Qt::Key_Return);
    ASSERT_TRUE(m_field->isAsking());
    ASSERT_EQ(choices().size(), 2);
    EXPECT_TRUE(m_entered.empty());
    EXPECT_EQ(m_field->message().toStdString(), "470 can be read in 2 ways. Which is meant?");
    EXPECT_EQ(QApplication::topLevelWidgets().count(QApplication::activeModalWidget()), 0) << "no modal window";
    for (const ChoiceButton* button : choices()) {
        EXPECT_GE(button->height(), 48);
        EXPECT_FALSE(button->accessibleDescription().isEmpty()) << "why it can be read so";
    }
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        EXPECT_GT(pixelsOf(grabbedPicture("value-choices", m_window), coloursOf(kind).warnFill), 15);
    }
    // 47 and no zeros by code, or 470 printed, in pF: arrow down and Enter take the second.
    const QString second = choices()[1]->text();
    QTest::keyClick(choices()[0], Qt::Key_Down);
    EXPECT_TRUE(choices()[1]->hasFocus());
    QTest::keyClick(choices()[1], Qt::Key_Return);
    ASSERT_EQ(m_entered.size(), 1U);
    EXPECT_EQ(QString::fromStdString(formatQuantity(m_entered[0])), second);
    EXPECT_TRUE(m_entered[0].si > 46e-12 && m_entered[0].si < 471e-12);
    EXPECT_FALSE(m_field->isAsking());
    EXPECT_TRUE(choices().isEmpty());
    EXPECT_TRUE(entry()->hasFocus());
}

TEST_F(ValueFieldTest, ChoiceCanBeTakenByTheMouse) {
    m_field->setSubject({"C5 Cf", farads(100e-12), farads(100e-12)});
    typeAndEnter("470");
    ASSERT_EQ(choices().size(), 2);
    QTest::mouseClick(choices()[0], Qt::LeftButton);
    EXPECT_EQ(m_entered.size(), 1U);
    EXPECT_TRUE(choices().isEmpty());
}

TEST_F(ValueFieldTest, EscOnAChoiceGoesBackToTheOldValue) {
    m_field->setSubject({"C5 Cf", farads(100e-12), farads(100e-12)});
    typeAndEnter("470");
    ASSERT_EQ(choices().size(), 2);
    QTest::keyClick(choices()[0], Qt::Key_Escape);
    EXPECT_FALSE(m_field->isAsking());
    EXPECT_EQ(m_field->text().toStdString(), "100p");
    EXPECT_TRUE(entry()->hasFocus());
    EXPECT_TRUE(m_entered.empty());
}

TEST_F(ValueFieldTest, FactorOfEightIsAskedOnceInPlace) {
    // 56n x 8 = 448n: 440n is let through, 470n is asked about.
    typeAndEnter("440n");
    ASSERT_EQ(m_entered.size(), 1U);
    m_field->setSubject({"C4 Cg", farads(56e-9), m_entered[0]});
    typeAndEnter("470n");
    ASSERT_TRUE(m_field->isAsking());
    EXPECT_EQ(m_entered.size(), 1U);
    EXPECT_EQ(m_field->message().toStdString(), "470 nF is 8.39 times the stock 56.0 nF.");
    grabbedPicture("value-factor", m_window);
    QTest::keyClick(choices()[0], Qt::Key_Return);
    ASSERT_EQ(m_entered.size(), 2U);
    EXPECT_NEAR(m_entered[1].si, 470e-9, 1e-18);
    // Away and back: not asked again.
    m_field->setSubject({"C4 Cg", farads(56e-9), farads(100e-9)});
    typeAndEnter("470n");
    EXPECT_FALSE(m_field->isAsking());
    EXPECT_EQ(m_entered.size(), 3U);
}

TEST_F(ValueFieldTest, EightTimesExactlyIsAskedAndTheSmallSideToo) {
    m_field->setSubject({"R5 Rg", ohms(1000), ohms(1000)});
    typeAndEnter("8k");
    EXPECT_TRUE(m_field->isAsking());
    QTest::keyClick(choices()[1], Qt::Key_Return);
    EXPECT_FALSE(m_field->isAsking());
    EXPECT_EQ(m_field->text().toStdString(), "1k") << "type again keeps the plan";
    typeAndEnter("100R");
    EXPECT_TRUE(m_field->isAsking());
    EXPECT_TRUE(m_field->message().contains("divided by 10")) << m_field->message().toStdString();
    EXPECT_TRUE(m_entered.empty());
}

TEST_F(ValueFieldTest, AnotherPartIsAskedAfresh) {
    typeAndEnter("1u");
    QTest::keyClick(choices().value(0), Qt::Key_Return);
    ASSERT_EQ(m_entered.size(), 1U);
    m_field->setSubject({"C1 Cin", farads(33e-9), farads(33e-9)});
    typeAndEnter("1u");
    EXPECT_TRUE(m_field->isAsking());
}

TEST_F(ValueFieldTest, ErrorIsASentenceBelowAndTheTextStays) {
    const ThemeGuard guard;
    m_field->setSubject({"R5 Rg", ohms(3900), ohms(3900)});
    typeAndEnter("100nF");
    EXPECT_TRUE(m_entered.empty());
    EXPECT_TRUE(m_field->message().contains("100nF")) << m_field->message().toStdString();
    EXPECT_EQ(m_field->text().toStdString(), "100nF");
    EXPECT_EQ(entry()->selectedText().toStdString(), "100nF");
    const auto* sentence = m_field->findChild<SignText*>();
    EXPECT_EQ(sentence->sign(), SignKind::stop);
    EXPECT_TRUE(QTest::qWaitFor([&] {
        return sentence->height() >= sentence->heightForWidth(sentence->width()) &&
               entry()->parentWidget()->height() == entry()->parentWidget()->sizeHint().height();
    })) << "the whole sentence is seen and the box keeps its height";
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        EXPECT_GT(pixelsOf(grabbedPicture("value-error", m_window), coloursOf(kind).stop), 60) << themeName(kind);
    }
    QTest::keyClicks(entry(), "2k7");
    EXPECT_EQ(m_field->message().toStdString(), "2.70 kΩ") << "typing on takes the error away";
}

TEST_F(ValueFieldTest, EscPutsTheOldValueBackAndThenIsLeftToTheWindow) {
    int outerEscapes = 0;
    auto* out = new QAction(&m_window);
    out->setShortcut(Qt::Key_Escape);
    m_window.addAction(out);
    QObject::connect(out, &QAction::triggered, out, [&] { ++outerEscapes; });
    type("33");
    QTest::keyClick(entry(), Qt::Key_Escape);
    EXPECT_EQ(m_field->text().toStdString(), "120n");
    EXPECT_EQ(outerEscapes, 0);
    QTest::keyClick(entry(), Qt::Key_Escape);
    EXPECT_EQ(outerEscapes, 1);
}

TEST_F(ValueFieldTest, UndoBelongsToTheJobUnlessThereIsTyping) {
    int undone = 0;
    auto* undo = new QAction(&m_window);
    undo->setShortcut(QKeySequence::Undo);
    m_window.addAction(undo);
    QObject::connect(undo, &QAction::triggered, undo, [&] { ++undone; });
    QTest::keyClick(entry(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(undone, 1);
    type("33");
    QTest::keyClick(entry(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(undone, 1);
    EXPECT_NE(m_field->text().toStdString(), "33");
}

TEST_F(ValueFieldTest, PageKeysStepWithTheirModifiers) {
    QTest::keyClick(entry(), Qt::Key_PageUp);
    QTest::keyClick(entry(), Qt::Key_PageDown, Qt::ControlModifier);
    QTest::keyClick(entry(), Qt::Key_PageUp, Qt::ShiftModifier);
    ASSERT_EQ(m_steps.size(), 3U);
    EXPECT_EQ(m_steps[0], std::pair(1, Qt::KeyboardModifiers(Qt::NoModifier)));
    EXPECT_EQ(m_steps[1], std::pair(-1, Qt::KeyboardModifiers(Qt::ControlModifier)));
    EXPECT_EQ(m_steps[2], std::pair(1, Qt::KeyboardModifiers(Qt::ShiftModifier)));
}

TEST_F(ValueFieldTest, WheelStepsOnceANotchAndGathersFineTurns) {
    turnWheel({0, 120});
    turnWheel({0, -240});
    ASSERT_EQ(m_steps.size(), 3U);
    EXPECT_EQ(m_steps[0].first, 1);
    EXPECT_EQ(m_steps[2].first, -1);
    for (int turn = 0; turn < 8; ++turn) {
        turnWheel({0, 15});
    }
    EXPECT_EQ(m_steps.size(), 4U) << "eight turns of an eighth are one notch";
    turnWheel({120, 0}, Qt::AltModifier);
    ASSERT_EQ(m_steps.size(), 5U) << "with Alt the desktop turns the wheel sideways";
    EXPECT_EQ(m_steps[4], std::pair(1, Qt::KeyboardModifiers(Qt::AltModifier)));
}

TEST_F(ValueFieldTest, PlusAndMinusHalvesStepAndLeaveTheFocus) {
    const auto halves = m_field->findChildren<QAbstractButton*>();
    ASSERT_EQ(halves.size(), 2);
    for (QAbstractButton* half : halves) {
        EXPECT_GE(half->width(), 40);
        EXPECT_GE(half->height(), 24);
        QTest::mouseClick(half, Qt::LeftButton);
    }
    ASSERT_EQ(m_steps.size(), 2U);
    EXPECT_EQ(m_steps[0].first, 1);
    EXPECT_EQ(m_steps[1].first, -1);
    EXPECT_TRUE(entry()->hasFocus());
}

TEST_F(ValueFieldTest, DigitFromTheMapStartsANewValue) {
    m_window.setFocus();
    m_field->startTyping("4");
    QTest::keyClicks(entry(), "7n");
    EXPECT_EQ(m_field->text().toStdString(), "47n");
    QTest::keyClick(entry(), Qt::Key_Enter);
    ASSERT_EQ(m_entered.size(), 1U);
    EXPECT_NEAR(m_entered[0].si, 47e-9, 1e-18);
}

TEST_F(ValueFieldTest, TypingSurvivesARepeatedSubjectButNotAnother) {
    type("33");
    m_field->setSubject({"C4 Cg", farads(56e-9), farads(120e-9)});
    EXPECT_EQ(m_field->text().toStdString(), "33");
    m_field->setSubject({"R5 Rg", ohms(3900), ohms(3900)});
    EXPECT_EQ(m_field->text().toStdString(), "3k9");
}

TEST_F(ValueFieldTest, ErrorFromOutsideStandsUntilTheNextEdit) {
    m_field->showError("C4 is lifted: put its leg back first.");
    EXPECT_EQ(m_field->message().toStdString(), "C4 is lifted: put its leg back first.");
    QTest::keyClicks(entry(), "22n");
    EXPECT_EQ(m_field->message().toStdString(), "22.0 nF");
}

TEST_F(ValueFieldTest, LargeTextStillFitsItsBox) {
    const ThemeGuard guard;
    Theme::current().setTextScale(1.3);
    QApplication::processEvents();
    const QImage image = grabbedPicture("value-large-text", m_window);
    EXPECT_GE(entry()->height(), entry()->fontMetrics().height());
    EXPECT_GE(entry()->width(), entry()->fontMetrics().horizontalAdvance("120n"));
    EXPECT_GT(pixelsOf(image, Theme::current().colours().now), 150);
}

}  // namespace
}  // namespace ohmwright
