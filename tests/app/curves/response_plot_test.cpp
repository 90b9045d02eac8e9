// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_plot.h"

#include "app/curves/string_ticks.h"
#include "tests/app/curves/sample_answers.h"
#include "tests/support/heard_events.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QSignalSpy>
#include <QTest>
#include <QWheelEvent>

namespace ohmwright {
namespace {

class ResponsePlotTest : public testing::Test {
protected:
    ResponsePlotTest() {
        m_plot.resize(520, 260);
        m_plot.show();
    }
    void show(const LinearAnswer& answer) {
        m_plot.setAnswer(&answer);
        m_plot.replotNow();
    }
    QWidget& surface() { return *m_plot.findChild<QWidget*>(QString(), Qt::FindDirectChildrenOnly); }
    QPoint at(double hz) { return {static_cast<int>(m_plot.xOf(hz)), 100}; }

    ResponsePlot m_plot;
};

TEST_F(ResponsePlotTest, IsEmptyBeforeTheFirstAnswer) {
    m_plot.replotNow();
    EXPECT_TRUE(m_plot.curvesShown().isEmpty());
    EXPECT_EQ(readingSentence(m_plot.reading()).toStdString(), "open A, 110 Hz: stock none, now none, change none");
}

TEST_F(ResponsePlotTest, StockStaysWhenNowChanges) {
    LinearAnswer answer = test::sampleLinearAnswer(false);
    show(answer);
    const auto before = m_plot.reading();
    answer.now = test::sampleLinear(200.0);
    show(answer);
    EXPECT_EQ(m_plot.curvesShown(), (QStringList{"stock", "now"}));
    EXPECT_EQ(m_plot.reading().stockDb, before.stockDb);
    EXPECT_NE(m_plot.reading().nowDb, before.nowDb);
}

TEST_F(ResponsePlotTest, GhostIsDrawnBetweenStockAndNow) {
    show(test::sampleLinearAnswer());
    EXPECT_EQ(m_plot.curvesShown(), (QStringList{"stock", "ghost", "now"}));
}

TEST_F(ResponsePlotTest, ReadsTheDemoAtTheOpenA) {
    show(test::sampleLinearAnswer());
    // Demo figures at 110 Hz: −8.27 and −2.37 dB (own solver, checked against an independent circuit
    // simulator); the sample's formula leaves input and output coupling out.
    EXPECT_NEAR(*m_plot.reading().stockDb, -8.27, 0.1);
    EXPECT_NEAR(*m_plot.reading().nowDb, -2.37, 0.1);
}

TEST_F(ResponsePlotTest, HoldingStockShowsNothingElse) {
    show(test::sampleLinearAnswer());
    m_plot.setHoldsStock(true);
    m_plot.replotNow();
    EXPECT_EQ(m_plot.curvesShown(), QStringList{"stock"});
    EXPECT_EQ(m_plot.cornerWords(), QStringList{"corner 729 Hz"});
    m_plot.setHoldsStock(false);
    m_plot.replotNow();
    EXPECT_EQ(m_plot.curvesShown(), (QStringList{"stock", "ghost", "now"}));
}

TEST_F(ResponsePlotTest, NamesBothCorners) {
    show(test::sampleLinearAnswer());
    EXPECT_EQ(m_plot.cornerWords(), (QStringList{"corner 340 Hz", "corner 729 Hz"}));
}

TEST_F(ResponsePlotTest, OneCornerIsNamedOnce) {
    LinearAnswer answer = test::sampleLinearAnswer(false);
    answer.now = answer.stock;
    show(answer);
    EXPECT_EQ(m_plot.cornerWords(), QStringList{"corner 729 Hz"});
}

TEST_F(ResponsePlotTest, CornerWordsNeverTouchAtAnyCorner) {
    LinearAnswer answer = test::sampleLinearAnswer(false);
    for (double corner = 25.0; corner < 19000.0; corner *= 1.17) {
        answer.now = test::sampleLinear(corner);
        show(answer);
        const std::vector<QRectF> boxes = m_plot.cornerBoxes();
        ASSERT_EQ(boxes.size(), 2U) << corner;
        EXPECT_FALSE(boxes[0].intersects(boxes[1])) << corner;
        for (const QRectF& box : boxes) {
            EXPECT_GE(box.left(), m_plot.xOf(20.0)) << corner;
            EXPECT_LE(box.right(), m_plot.xOf(20000.0)) << corner;
        }
    }
}

TEST_F(ResponsePlotTest, TheAxisKeepsWhatItHasGrownUntilAnotherJobComes) {
    LinearAnswer answer = test::sampleLinearAnswer(false);
    show(answer);
    EXPECT_EQ(m_plot.gainShown(), (PlotRange{-30, 12}));
    const LinearState quiet = answer.now;
    for (double& gain : answer.now.response.gainDb) {
        gain += 12.0;
    }
    show(answer);
    EXPECT_EQ(m_plot.gainShown(), (PlotRange{-30, 24}));
    answer.now = quiet;
    show(answer);
    EXPECT_EQ(m_plot.gainShown(), (PlotRange{-30, 24}));
    m_plot.resetRange();
    EXPECT_EQ(m_plot.gainShown(), (PlotRange{-30, 12}));
}

TEST_F(ResponsePlotTest, AValueAtRestLetsTheAxisGo) {
    LinearAnswer answer = test::sampleLinearAnswer(false);
    for (double& gain : answer.now.response.gainDb) {
        gain += 12.0;
    }
    show(answer);
    show(test::sampleLinearAnswer(false));
    EXPECT_EQ(m_plot.gainShown(), (PlotRange{-30, 24}));
    EXPECT_TRUE(QTest::qWaitFor([this] { return m_plot.gainShown() == PlotRange{-30, 12}; }, 3000));
}

TEST_F(ResponsePlotTest, AClickNearAStringPutsTheCursorOnIt) {
    show(test::sampleLinearAnswer());
    QSignalSpy moved(&m_plot, &ResponsePlot::cursorMoved);
    QTest::mouseClick(&surface(), Qt::LeftButton, Qt::NoModifier, at(196.0) + QPoint(2, 0));
    EXPECT_EQ(m_plot.cursorHz(), 196.0);
    ASSERT_EQ(moved.count(), 1);
    EXPECT_EQ(moved[0][0].toDouble(), 196.0);
    QTest::mouseClick(&surface(), Qt::LeftButton, Qt::AltModifier, at(196.0) + QPoint(2, 0));
    EXPECT_NE(m_plot.cursorHz(), 196.0);
}

TEST_F(ResponsePlotTest, DraggingCarriesTheCursor) {
    show(test::sampleLinearAnswer());
    QTest::mousePress(&surface(), Qt::LeftButton, Qt::NoModifier, at(500.0));
    QTest::mouseMove(&surface(), at(700.0));
    QTest::mouseMove(&surface(), at(1000.0));
    QTest::mouseRelease(&surface(), Qt::LeftButton, Qt::NoModifier, at(1000.0));
    EXPECT_NEAR(m_plot.cursorHz(), 1000.0, 15.0);
}

TEST_F(ResponsePlotTest, ArrowsWalkInSemitonesAndHomeAndEndReachTheEnds) {
    show(test::sampleLinearAnswer());
    for (int i = 0; i < 5; ++i) {
        QTest::keyClick(&m_plot, Qt::Key_Right);
    }
    EXPECT_EQ(m_plot.cursorHz(), 146.83);
    QTest::keyClick(&m_plot, Qt::Key_Left, Qt::ShiftModifier);
    EXPECT_NEAR(m_plot.cursorHz(), 146.83 / std::exp2(0.1 / 12.0), 0.01);
    QTest::keyClick(&m_plot, Qt::Key_Home);
    EXPECT_EQ(m_plot.cursorHz(), 20.0);
    QTest::keyClick(&m_plot, Qt::Key_End);
    EXPECT_EQ(m_plot.cursorHz(), 20000.0);
}

QWheelEvent wheel(const QPoint& at, int notches, Qt::KeyboardModifiers modifiers) {
    return {at, at, {}, {0, 120 * notches}, Qt::NoButton, modifiers, Qt::NoScrollPhase, false};
}

// Only the frequencies are zoomed, about the pointer; stock and now keep one scale.
TEST_F(ResponsePlotTest, TheWheelWithCtrlZoomsFrequenciesAboutThePointer) {
    show(test::sampleLinearAnswer());
    const PlotRange gains = m_plot.gainShown();
    const double x = m_plot.xOf(500.0);
    QWheelEvent nearer = wheel(at(500.0), 2, Qt::ControlModifier);
    QApplication::sendEvent(&surface(), &nearer);
    EXPECT_TRUE(m_plot.isZoomed());
    EXPECT_GT(m_plot.hzShown().low, 30.0);
    EXPECT_LT(m_plot.hzShown().high, 15000.0);
    EXPECT_NEAR(m_plot.xOf(500.0), x, 2.0);
    EXPECT_EQ(m_plot.gainShown(), gains);
    EXPECT_EQ(m_plot.cursorHz(), 110.0) << "the cursor stays";
    QTest::mouseDClick(&surface(), Qt::LeftButton, Qt::NoModifier, at(1000.0));
    EXPECT_EQ(m_plot.hzShown(), wholeHz);
}

TEST_F(ResponsePlotTest, KeysZoomAtTheCursorWhichStaysInSight) {
    show(test::sampleLinearAnswer());
    for (int k = 0; k < 30; ++k) {
        QTest::keyClick(&m_plot, Qt::Key_Plus);
    }
    EXPECT_NEAR(m_plot.hzShown().high / m_plot.hzShown().low, 2.0, 1e-9) << "an octave is the narrowest";
    EXPECT_LE(m_plot.hzShown().low, 110.0);
    EXPECT_GE(m_plot.hzShown().high, 110.0);
    QTest::keyClick(&m_plot, Qt::Key_End);
    EXPECT_EQ(m_plot.cursorHz(), 20000.0);
    EXPECT_DOUBLE_EQ(m_plot.hzShown().high, 20000.0);
    QTest::keyClick(&m_plot, Qt::Key_Minus);
    EXPECT_GT(m_plot.hzShown().high / m_plot.hzShown().low, 2.0);
    QTest::keyClick(&m_plot, Qt::Key_0);
    EXPECT_FALSE(m_plot.isZoomed());
}

// The mouse's drag with the keyboard: a semitone up from 340.1 Hz is 360.3 Hz.
TEST_F(ResponsePlotTest, AltAndAnArrowAskForTheCornerASemitoneAway) {
    QSignalSpy dragged(&m_plot, &ResponsePlot::cornerDragged);
    QTest::keyClick(&m_plot, Qt::Key_Right, Qt::AltModifier);
    EXPECT_EQ(dragged.count(), 0) << "there is no corner yet";
    show(test::sampleLinearAnswer());
    QTest::keyClick(&m_plot, Qt::Key_Right, Qt::AltModifier);
    ASSERT_EQ(dragged.count(), 1);
    EXPECT_NEAR(dragged[0][0].toDouble(), 360.3, 0.1);
    QTest::keyClick(&m_plot, Qt::Key_Left, Qt::AltModifier);
    EXPECT_NEAR(dragged[1][0].toDouble(), 321.0, 0.1);
}

TEST_F(ResponsePlotTest, TheReadOutIsItsAccessibleValue) {
    show(test::sampleLinearAnswer(false));
    m_plot.setCursorHz(1000.0);
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(&m_plot);
    ASSERT_NE(spoken, nullptr);
    EXPECT_EQ(spoken->role(), QAccessible::Chart);
    const std::string value = spoken->text(QAccessible::Value).toStdString();
    EXPECT_EQ(value, readingSentence(m_plot.reading()).toStdString());
    EXPECT_EQ(value.rfind("1.00 kHz: stock ", 0), 0U);
    EXPECT_EQ(m_plot.accessibleDescription().toStdString(), value);
}

TEST_F(ResponsePlotTest, WhoHearsTheCurvesMovesTheCursor) {
    show(test::sampleLinearAnswer(false));
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(&m_plot);
    QAccessibleValueInterface* value = spoken->valueInterface();
    ASSERT_NE(value, nullptr);
    EXPECT_DOUBLE_EQ(value->minimumValue().toDouble(), 20.0);
    EXPECT_DOUBLE_EQ(value->maximumValue().toDouble(), 20e3);
    QSignalSpy moved(&m_plot, &CurvePlot::cursorMoved);
    value->setCurrentValue(220.0);
    EXPECT_DOUBLE_EQ(value->currentValue().toDouble(), 220.0);
    EXPECT_EQ(moved.count(), 1);
    EXPECT_TRUE(spoken->text(QAccessible::Value).startsWith("220 Hz: stock "))
        << spoken->text(QAccessible::Value).toStdString();
}

TEST_F(ResponsePlotTest, AnOldCurveIsFaintAndStamped) {
    show(test::sampleLinearAnswer());
    const QImage current = m_plot.grab().toImage();
    m_plot.setState({false, "U1A: pin 2 has no DC path; fit a resistor to ground."});
    m_plot.replotNow();
    EXPECT_NE(m_plot.grab().toImage(), current);
    EXPECT_EQ(m_plot.curvesShown(), (QStringList{"stock", "ghost", "now"}));
}

TEST_F(ResponsePlotTest, AMoveOfTheCursorIsToldWithWhatItReadsThere) {
    show(test::sampleLinearAnswer());
    m_plot.setCursorHz(110.0);
    const test::HeardEvents heard;
    QTest::keyClick(&m_plot, Qt::Key_Right);
    const auto moved = heard.of(QAccessible::ValueChanged);
    ASSERT_EQ(moved.size(), 1u);
    EXPECT_NEAR(moved[0].value, 116.54, 0.01) << "A sharp, a semitone above the open A of 110 Hz";
    EXPECT_EQ(moved[0].name, "Response");
    const auto read = heard.of(QAccessible::DescriptionChanged);
    ASSERT_EQ(read.size(), 1u);
    EXPECT_EQ(read[0].description, m_plot.cursorSentence());
    EXPECT_TRUE(read[0].description.contains("117 Hz")) << read[0].description.toStdString();
}

}  // namespace
}  // namespace ohmwright
