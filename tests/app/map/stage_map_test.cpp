// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/stage_map.h"

#include "app/look/settings.h"
#include "app/look/symbols.h"
#include "app/map/level_rail.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/zone_strip.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <QContextMenuEvent>
#include <QPaintEvent>
#include <QSignalSpy>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace ohmwright::test {
namespace {

class StageMapTest : public testing::Test {
protected:
    StageMapTest() {
        map.resize(1040, 405);  // as in a window of 1600 x 1000
        map.show();
        QCoreApplication::processEvents();
    }

    [[nodiscard]] MapView& view() { return map.view(); }
    [[nodiscard]] QPoint centreOf(const PartId& part) {
        const DrawnPart* drawn = map.scene().layout().part(part);
        EXPECT_NE(drawn, nullptr) << part;
        return drawn ? view().mapFromScene(drawn->body.center()) : QPoint();
    }
    void key(Qt::Key pressed, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(&view(), pressed, modifiers);
        QCoreApplication::processEvents();
    }
    void wheel(const QPoint& at, int eighths, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QWheelEvent event(at, view().viewport()->mapToGlobal(at), {}, {0, eighths}, Qt::NoButton, modifiers,
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(view().viewport(), &event);
    }
    /// Moves over the map without buttons; a widget that is not on a screen gets no moves of its own.
    void pointAt(const QPointF& scenePoint) {
        const QPoint at = view().mapFromScene(scenePoint);
        QMouseEvent move(QEvent::MouseMove, at, view().viewport()->mapToGlobal(at), Qt::NoButton, Qt::NoButton, {});
        QCoreApplication::sendEvent(view().viewport(), &move);
    }

    OpenJob open;
    StageMap map{open.document, open.selection, open.solver};
};

TEST_F(StageMapTest, AllThatIsDrawnFillsTheView) {
    const auto isShown = [this] {
        const QRectF shown = view().mapFromScene(map.scene().layout().extent).boundingRect().adjusted(1, 1, -1, -1);
        return QRectF(view().viewport()->rect()).contains(shown);
    };
    EXPECT_TRUE(isShown());
    EXPECT_GT(view().transform().m11(), 0.93);
    EXPECT_LT(view().transform().m11(), 1.1);
    map.resize(3000, 2000);
    EXPECT_TRUE(isShown());
    EXPECT_DOUBLE_EQ(view().transform().m11(), 2.0) << "symbols of a small unit have their limit";
    map.resize(520, 300);
    EXPECT_TRUE(isShown());
    EXPECT_LT(view().transform().m11(), 0.56);
}

TEST_F(StageMapTest, APressSelectsThePartOrItsWords) {
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, centreOf("r5"));
    EXPECT_EQ(open.selection.part(), "r5");
    const MapLabel* label = map.scene().layout().labelOf("c7");
    ASSERT_NE(label, nullptr);
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, view().mapFromScene(label->label.boxes.back().center()));
    EXPECT_EQ(open.selection.part(), "c7");
}

TEST_F(StageMapTest, APressOnEmptyGroundKeepsTheSelection) {
    open.selection.setPart("c4");
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, view().mapFromScene(QPointF(460, 40)));
    EXPECT_EQ(open.selection.part(), "c4");
}

TEST_F(StageMapTest, ArrowsWalkTheSignalPathFromFirstToLastPart) {
    key(Qt::Key_Right);
    EXPECT_EQ(open.selection.part(), view().parts().front().id);
    std::vector<PartId> walked{open.selection.part()};
    for (std::size_t i = 1; i < view().parts().size(); ++i) {
        key(Qt::Key_Right);
        walked.push_back(open.selection.part());
    }
    for (std::size_t i = 0; i < walked.size(); ++i) {
        EXPECT_EQ(walked[i], view().parts()[i].id);
    }
    key(Qt::Key_Right);
    EXPECT_EQ(open.selection.part(), walked.back()) << "the path ends there";
    key(Qt::Key_Left);
    EXPECT_EQ(open.selection.part(), walked[walked.size() - 2]);
}

TEST_F(StageMapTest, UpAndDownGoToTheNextPartThere) {
    open.selection.setPart("d1");
    QCoreApplication::processEvents();
    key(Qt::Key_Down);
    EXPECT_EQ(open.selection.part(), "d2");
    key(Qt::Key_Up);
    EXPECT_EQ(open.selection.part(), "d1");
}

TEST_F(StageMapTest, TheWheelAsksForTheNextValueOfThePartUnderIt) {
    QSignalSpy stepped(&map, &StageMap::valueStepped);
    wheel(centreOf("c4"), 120);
    wheel(centreOf("c4"), -240, Qt::ControlModifier);
    ASSERT_EQ(stepped.size(), 2);
    EXPECT_EQ(stepped[0][0].value<PartId>(), "c4");
    EXPECT_EQ(stepped[0][1].toInt(), 1);
    EXPECT_EQ(stepped[1][1].toInt(), -2);
    EXPECT_EQ(stepped[1][2].value<Qt::KeyboardModifiers>(), Qt::ControlModifier);
    EXPECT_EQ(open.selection.part(), "c4");
    EXPECT_EQ(open.job(), harbourLamp()) << "the map itself edits nothing";
}

TEST_F(StageMapTest, AFinelyDividedWheelAddsUpToWholeSteps) {
    QSignalSpy stepped(&map, &StageMap::valueStepped);
    for (int i = 0; i < 7; ++i) {
        wheel(centreOf("c4"), 30);
    }
    EXPECT_EQ(stepped.size(), 1);
    wheel(view().mapFromScene(QPointF(460, 40)), 120);
    EXPECT_EQ(stepped.size(), 1) << "no part, no step";
}

TEST_F(StageMapTest, PageKeysStepTheSelectedPart) {
    QSignalSpy stepped(&map, &StageMap::valueStepped);
    key(Qt::Key_PageUp);
    EXPECT_EQ(stepped.size(), 0);
    open.selection.setPart("r5");
    QCoreApplication::processEvents();
    key(Qt::Key_PageUp);
    key(Qt::Key_PageDown);
    ASSERT_EQ(stepped.size(), 2);
    EXPECT_EQ(stepped[0][1].toInt(), 1);
    EXPECT_EQ(stepped[1][1].toInt(), -1);
}

TEST_F(StageMapTest, DigitsAndLettersStartAValueOnlyWithAPartSelected) {
    QSignalSpy typed(&map, &StageMap::typedOnPart);
    QTest::keyClicks(&view(), "4");
    EXPECT_EQ(typed.size(), 0);
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    QTest::keyClicks(&view(), "4r.");
    ASSERT_EQ(typed.size(), 3);
    EXPECT_EQ(typed[0][0].toString(), "4");
    EXPECT_EQ(typed[1][0].toString(), "r");
    EXPECT_EQ(typed[2][0].toString(), ".");
    key(Qt::Key_1, Qt::ControlModifier);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(typed.size(), 3) << "commands are not values";
}

TEST_F(StageMapTest, ARightPressAsksForTheMenuOfThePart) {
    QSignalSpy asked(&map, &StageMap::contextMenuAsked);
    const QPoint at = centreOf("d2");
    const QPoint global = view().viewport()->mapToGlobal(at);
    QContextMenuEvent event(QContextMenuEvent::Mouse, at, global);
    QCoreApplication::sendEvent(view().viewport(), &event);
    ASSERT_EQ(asked.size(), 1);
    EXPECT_EQ(asked[0][0].value<PartId>(), "d2");
    EXPECT_EQ(asked[0][1].toPoint(), global);
    EXPECT_EQ(open.selection.part(), "d2");
}

TEST_F(StageMapTest, TheNetUnderThePointerIsNamed) {
    ASSERT_TRUE(open.waitForAnswers());
    QCoreApplication::processEvents();
    const auto wirePixels = [this] { return pixelsOf(map.grab().toImage(), coloursOf(ThemeKind::light).wire); };
    const int before = wirePixels();
    pointAt({460, 100});
    EXPECT_EQ(map.scene().pointedNet(), "ip");
    EXPECT_GT(wirePixels(), before + 100) << "the wire to U1's input is 160 px long";
    pointAt({460, 40});
    EXPECT_EQ(map.scene().pointedNet(), "");
    EXPECT_NEAR(wirePixels(), before, 20);
}

TEST_F(StageMapTest, AnEditIsDrawnAndTakenBack) {
    const auto valueOf = [this](const PartId& part) { return map.scene().layout().part(part)->view.nowValue; };
    EXPECT_EQ(valueOf("c4"), "120n");
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4 to 150n");
    QCoreApplication::processEvents();
    EXPECT_EQ(valueOf("c4"), "150n");
    open.document.undoStack().undo();
    QCoreApplication::processEvents();
    EXPECT_EQ(valueOf("c4"), "120n");
    open.selection.setHoldsStock(true);
    QCoreApplication::processEvents();
    EXPECT_EQ(valueOf("c4"), "56n");
}

/// What of a widget is painted, by its own paint events.
class PaintedRegion : public QObject {
public:
    explicit PaintedRegion(QWidget& widget) : m_widget(widget) { widget.installEventFilter(this); }
    ~PaintedRegion() override { m_widget.removeEventFilter(this); }

    [[nodiscard]] const QRegion& region() const { return m_region; }

private:
    bool eventFilter(QObject* /*watched*/, QEvent* event) override {
        if (event->type() == QEvent::Paint) {
            m_region += static_cast<QPaintEvent*>(event)->region();
        }
        return false;
    }

    QWidget& m_widget;
    QRegion m_region;
};

// The halo of every letter is slow to paint: a wheel over one part paints that part, not the map.
TEST_F(StageMapTest, AValueThatChangesLeavesTheRestOfTheDrawingAlone) {
    open.selection.setPart("c4");
    ASSERT_TRUE(open.waitForAnswers());
    QTest::qWait(50);
    const PaintedRegion painted(*view().viewport());
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4 to 150n");
    QTest::qWait(50);
    EXPECT_TRUE(painted.region().contains(centreOf("c4")));
    EXPECT_FALSE(painted.region().contains(centreOf("r10")));
}

TEST_F(StageMapTest, BracketsAloneFollowTheSelection) {
    ASSERT_TRUE(open.waitForAnswers());
    QCoreApplication::processEvents();
    const DrawnPart* before = map.scene().layout().part("c4");
    open.selection.setPart("r9");
    QCoreApplication::processEvents();
    EXPECT_EQ(map.scene().layout().part("c4"), before) << "the drawing is not made anew for a selection";
}

TEST_F(StageMapTest, IrisIsSpentOnThePlanAlone) {
    const QColor now = coloursOf(ThemeKind::light).now;
    EXPECT_GT(pixelsOf(takePicture(map, "stage-map-unsolved", ThemeKind::light), now), 200);
    open.selection.setHoldsStock(true);
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    EXPECT_EQ(pixelsOf(takePicture(map, "stage-map-held", ThemeKind::light), now), 0);
}

// Demo figures: own solver, checked against an independent circuit simulator.
TEST_F(StageMapTest, TheSolvedDemoSaysGainLevelsAndBias) {
    ASSERT_TRUE(open.waitForAnswers());
    open.selection.setPart("c4");
    QCoreApplication::processEvents();
    const QString stages = map.findChild<ZoneStrip*>()->accessibleName();
    EXPECT_TRUE(stages.contains("3 Clip stage, 9.54 to 15.4 dB")) << stages.toStdString();
    const QString levels = map.findChild<LevelRail*>()->accessibleName();
    EXPECT_TRUE(levels.contains("−28.3 to −26.2 dBV")) << levels.toStdString();
    EXPECT_TRUE(levels.contains("±0.44 V")) << levels.toStdString();
    bool saysBias = false;
    for (const MapText& text : map.scene().layout().texts) {
        saysBias = saysBias || text.block.front().runs.front().text == "4.46 V";
    }
    EXPECT_TRUE(saysBias);
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
        EXPECT_GT(pixelsOf(takePicture(map, "stage-map", kind), coloursOf(kind).now), 500);
    }
}

TEST_F(StageMapTest, AFaultIsMarkedInOxbloodWithItsSentence) {
    ASSERT_TRUE(open.waitForAnswers());
    Job job = harbourLamp();
    for (Part& part : job.stock.parts) {
        if (part.reference == "R4") {
            part.nets = {"vb", "vb"};  // pin 3 of U1 has no path for its bias left
        }
    }
    open.document.setJob(job, {});
    ASSERT_TRUE(QTest::qWaitFor([this] { return !open.solver.fault().isEmpty(); }, 60000));
    QCoreApplication::processEvents();
    const QImage picture = takePicture(map, "stage-map-fault", ThemeKind::light);
    EXPECT_GT(pixelsOf(picture, coloursOf(ThemeKind::light).stop), 100);
    EXPECT_GT(pixelsOf(picture, coloursOf(ThemeKind::light).stopSoft), 1000);
}

TEST_F(StageMapTest, AnEmptyJobIsSaidInWords) {
    open.document.setJob({}, {});
    QCoreApplication::processEvents();
    EXPECT_TRUE(view().parts().empty());
    const QImage picture = takePicture(map, "stage-map-empty", ThemeKind::light);
    EXPECT_GT(pixelsOf(picture, coloursOf(ThemeKind::light).edge), 50);
    key(Qt::Key_Right);
    key(Qt::Key_Up);
    EXPECT_EQ(open.selection.part(), "");
}

TEST_F(StageMapTest, TheTextSettingReachesTheMap) {
    const double before = map.scene().layout().labelOf("r9")->label.boxes.front().height();
    Theme::current().setTextScale(1.3);
    QCoreApplication::processEvents();
    const double after = map.scene().layout().labelOf("r9")->label.boxes.front().height();
    takePicture(map, "stage-map-text-130", ThemeKind::light);
    Theme::current().setTextScale(1.0);
    EXPECT_GT(after, 1.2 * before);
}

TEST_F(StageMapTest, FollowsTheStandardOfItsSymbolsAtOnce) {
    const auto zigzags = [this] {
        int count = 0;
        for (const DrawnPart& part : map.scene().layout().parts) {
            const Part* drawn = findPart(open.job().stock, part.id);
            count += drawn->kind == PartKind::resistor && part.symbols.front().symbol.outline.isEmpty() ? 1 : 0;
        }
        return count;
    };
    EXPECT_EQ(zigzags(), 0);
    Settings settings;
    settings.setSymbols(SymbolStandard::ieee315);
    applyLookSettings(settings);
    EXPECT_GT(zigzags(), 8);
    takePicture(map, "symbols-ieee315", ThemeKind::light);
    settings.setSymbols(SymbolStandard::iec60617);
    applyLookSettings(settings);
    EXPECT_EQ(zigzags(), 0);
}

/// Story: closing a window whose map was brought nearer ended the program in a crash. Each of these ends near.
class SheetOfTheMap : public StageMapTest {
protected:
    [[nodiscard]] double scale() { return view().transform().m11(); }
    void press(Qt::MouseButton button, const QPoint& at) { QTest::mousePress(view().viewport(), button, {}, at); }
    void dragTo(Qt::MouseButton button, const QPoint& at) {
        QMouseEvent move(QEvent::MouseMove, at, view().viewport()->mapToGlobal(at), Qt::NoButton, button, {});
        QCoreApplication::sendEvent(view().viewport(), &move);
    }
    /// Ground without a part under it.
    [[nodiscard]] QPoint emptyGround() { return view().mapFromScene(QPointF(460, 40)); }
};

TEST_F(SheetOfTheMap, CtrlWheelOnEmptyGroundZoomsAboutThePointer) {
    const double before = scale();
    const QPoint at = emptyGround();
    ASSERT_FALSE(view().partUnder(at).has_value());
    wheel(at, 480, Qt::ControlModifier);
    EXPECT_NEAR(scale(), before * std::pow(1.15, 4), 1e-9);
    EXPECT_LT((view().mapFromScene(QPointF(460, 40)) - at).manhattanLength(), 4) << "what is under the pointer stays";
    EXPECT_FALSE(view().showsWhole());
    wheel(at, -4800, Qt::ControlModifier);
    EXPECT_TRUE(view().showsWhole()) << "farther than the whole there is nothing";
    EXPECT_NEAR(scale(), before, 0.02 * before) << "but for how the words stand";
    wheel(at, 48000, Qt::ControlModifier);
    EXPECT_LE(scale(), 5.0);
}

TEST_F(SheetOfTheMap, KeysZoomAndMoveAndShowTheWhole) {
    const double before = scale();
    key(Qt::Key_Plus);
    key(Qt::Key_Plus);
    key(Qt::Key_Plus);
    key(Qt::Key_Minus);
    EXPECT_NEAR(scale(), before * 1.15 * 1.15, 1e-9);
    const QPointF middle = view().mapToScene(view().viewport()->rect().center());
    key(Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_GT(view().mapToScene(view().viewport()->rect().center()).x(), middle.x() + 20);
    EXPECT_EQ(open.selection.part(), "") << "Shift with an arrow moves the sheet, not the selection";
    key(Qt::Key_Home);
    EXPECT_NEAR(scale(), before, 0.02 * before);
}

TEST_F(SheetOfTheMap, ADragOnEmptyGroundOrWithTheMiddleButtonMovesTheSheet) {
    for (int i = 0; i < 6; ++i) {
        key(Qt::Key_Plus);
    }
    for (const Qt::MouseButton button : {Qt::LeftButton, Qt::MiddleButton}) {
        const QPoint from = button == Qt::LeftButton ? emptyGround() : centreOf("r5");
        const QPointF held = view().mapToScene(from);
        press(button, from);
        dragTo(button, from + QPoint(-40, -20));
        EXPECT_LT((view().mapToScene(from + QPoint(-40, -20)) - held).manhattanLength(), 3.0);
        QTest::mouseRelease(view().viewport(), button, {}, from + QPoint(-40, -20));
    }
    EXPECT_EQ(open.selection.part(), "");
}

/// Story: every turn of a value threw the technician back to the whole sheet.
TEST_F(SheetOfTheMap, ScaleAndPlaceStayWhenAValueChanges) {
    for (int i = 0; i < 6; ++i) {
        key(Qt::Key_Plus);
    }
    key(Qt::Key_Right, Qt::ShiftModifier);
    const double kept = scale();
    const QPoint c4 = view().mapFromScene(map.scene().layout().part("c4")->body.center());
    open.document.edit(setPartValue(open.job(), "c4", 150e-9), "Change C4");
    QCoreApplication::processEvents();
    EXPECT_DOUBLE_EQ(scale(), kept);
    EXPECT_LT((view().mapFromScene(map.scene().layout().part("c4")->body.center()) - c4).manhattanLength(), 3);
}

TEST_F(SheetOfTheMap, TheWalkBringsThePartIntoSight) {
    for (int i = 0; i < 10; ++i) {
        key(Qt::Key_Plus);
    }
    for (const PartId& part : {PartId("rpu"), PartId("r10")}) {
        open.selection.setPart(part);
        QCoreApplication::processEvents();
        const DrawnPart* drawn = map.scene().layout().part(part);
        if (drawn) {
            EXPECT_TRUE(view().viewport()->rect().contains(view().mapFromScene(drawn->body).boundingRect())) << part;
        }
    }
}

TEST_F(SheetOfTheMap, TheZoneHeadsFollow) {
    const std::vector<double> before = view().zoneEdges();
    for (int i = 0; i < 6; ++i) {
        key(Qt::Key_Plus);
    }
    const std::vector<double> after = view().zoneEdges();
    ASSERT_EQ(after.size(), before.size());
    EXPECT_NE(after, before);
    EXPECT_TRUE(std::is_sorted(after.begin(), after.end()));
    EXPECT_DOUBLE_EQ(after.front(), 0.0);
    EXPECT_DOUBLE_EQ(after.back(), view().viewport()->width());
}

TEST_F(SheetOfTheMap, ADragUpOnAPartAsksForAValueByItsWay) {
    QSignalSpy began(&map, &StageMap::valueDragBegan);
    QSignalSpy dragged(&map, &StageMap::valueDragged);
    QSignalSpy dropped(&map, &StageMap::valueDropped);
    const QPoint at = centreOf("r5");
    press(Qt::LeftButton, at);
    dragTo(Qt::LeftButton, at - QPoint(0, 2));
    EXPECT_EQ(began.size(), 0) << "a hand that trembles turns no value";
    dragTo(Qt::LeftButton, at - QPoint(0, 120));
    ASSERT_EQ(began.size(), 1);
    EXPECT_EQ(began[0][0].value<PartId>(), "r5");
    EXPECT_DOUBLE_EQ(dragged.last()[0].toDouble(), 0.5);
    dragTo(Qt::LeftButton, at + QPoint(0, 240));
    EXPECT_DOUBLE_EQ(dragged.last()[0].toDouble(), -1.0);
    QTest::mouseRelease(view().viewport(), Qt::LeftButton, Qt::AltModifier, at);
    ASSERT_EQ(dropped.size(), 1);
    EXPECT_EQ(dropped[0][0].value<Qt::KeyboardModifiers>(), Qt::AltModifier);
    EXPECT_EQ(open.selection.part(), "r5");
}

}  // namespace
}  // namespace ohmwright::test
