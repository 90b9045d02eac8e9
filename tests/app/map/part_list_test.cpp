// The list of parts of a circuit without drawing, by keys, wheel and pointer, as it reads and as it looks.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_list.h"

#include "app/map/level_rail.h"
#include "app/map/map_view.h"
#include "app/map/part_list_model.h"
#include "app/map/stage_map.h"
#include "app/map/zone_strip.h"
#include "core/files/netlist_job.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"
#include "tests/support/undrawn_circuits.h"

#include <QContextMenuEvent>
#include <QElapsedTimer>
#include <QSignalSpy>
#include <QWheelEvent>

namespace ohmwright::test {
namespace {

constexpr const char* everyKind =
    "Every kind\n"
    "VIN in 0 AC 1\n"
    "R1 in g 47k\n"
    "C1 g 0 10n\n"
    "J1 vcc g e JP\n"
    "M1 vcc g e 0 MN\n"
    "R2 e 0 1k\n"
    "E1 out 0 e 0 2\n"
    "B1 c 0 V=tanh(V(out))\n"
    "R3 c 0 1k\n"
    "X1 vcc g k KOREN_TRIODE MU=100 EX=1.4 KG1=1060 KP=600 KVB=300\n"
    "R4 k 0 1500\n"
    "X2 in out outer\n"
    ".subckt inner i o\n"
    "R1 i o 2200\n"
    ".ends\n"
    ".subckt outer i o\n"
    "R1 i m 1k\n"
    "X1 m o inner\n"
    ".ends\n"
    "VCC vcc 0 9\n"
    ".model JP PJF(VTO=-2 BETA=1m)\n"
    ".model MN NMOS(VTO=1 KP=1m)\n"
    ".end\n";

/// Without the drawing that a netlist of this size would be given.
Job jobOf(const std::string& text) {
    Result<Netlist> netlist = readNetlist(text);
    EXPECT_TRUE(netlist) << (netlist ? "" : netlist.error().message);
    Result<NetlistJob> taken = jobFromNetlist(std::move(*netlist), "test");
    EXPECT_TRUE(taken) << (taken ? "" : taken.error().message);
    taken->job.stock = stripped(std::move(taken->job.stock));
    return std::move(taken->job);
}

std::string manyParts(int count) {
    QString text = "A long ladder\nVIN n0 0 AC 1\n";
    for (int k = 0; k < count; ++k) {
        const QString to = k + 1 == count ? QString("out") : QString("n%1").arg(k + 1);
        text += QString("R%1 n%1 %2 1k\n").arg(QString::number(k), to);
    }
    return (text + "RL out 0 1k\n.end\n").toStdString();
}

struct OpenList {
    explicit OpenList(const std::string& text = everyKind) {
        document.setJob(jobOf(text), {});
        map.resize(1040, 405);
        map.show();
        settle();
    }

    static void settle() { QCoreApplication::processEvents(); }
    [[nodiscard]] PartTable& table() { return map.table(); }
    [[nodiscard]] const Job& job() const { return *document.job(); }
    [[nodiscard]] QModelIndex cell(const PartId& part, int column) {
        const auto* model = static_cast<const PartListModel*>(table().model());
        const int row = model->rowOf(part);
        EXPECT_GE(row, 0) << part;
        return model->index(row, column);
    }
    [[nodiscard]] std::string words(const PartId& part, int column) {
        return cell(part, column).data().toString().toStdString();
    }
    void key(Qt::Key pressed, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(&table(), pressed, modifiers);
        settle();
    }
    void wheelOver(const QModelIndex& index, int eighths) {
        const QPoint at = table().visualRect(index).center();
        QWheelEvent event(at, table().viewport()->mapToGlobal(at), {}, {0, eighths}, Qt::NoButton, Qt::NoModifier,
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(table().viewport(), &event);
    }
    void change(const PartId& part, double value) {
        ASSERT_TRUE(document.edit(setPartValue(job(), part, value), "Change"));
        settle();
    }

    JobDocument document;
    Selection selection;
    SolverService solver{document, selection};
    StageMap map{document, selection, solver};
};

TEST(PartList, StandsInTheDrawingsPlaceWhereNothingIsDrawn) {
    OpenList open;
    EXPECT_TRUE(open.map.showsList());
    EXPECT_TRUE(open.table().isVisible());
    EXPECT_FALSE(open.map.view().isVisible());
    EXPECT_FALSE(open.map.findChild<ZoneStrip*>()->isVisible());
    open.map.setLevelRailShown(true);
    EXPECT_FALSE(open.map.findChild<LevelRail*>()->isVisible());
    EXPECT_TRUE(shownWords(open.map).contains("No drawing yet: the circuit as a list."));

    open.document.setJob(harbourLamp(), {});
    OpenList::settle();
    EXPECT_FALSE(open.map.showsList());
    EXPECT_TRUE(open.map.view().isVisible());
    EXPECT_TRUE(open.map.findChild<ZoneStrip*>()->isVisible());
    EXPECT_TRUE(open.map.findChild<LevelRail*>()->isVisible());
    EXPECT_FALSE(open.table().isVisible());
}

TEST(PartList, SaysPartKindValueAndNetsOfEveryPart) {
    OpenList open;
    EXPECT_EQ(open.table().model()->rowCount(), static_cast<int>(open.job().stock.parts.size()));
    EXPECT_EQ(open.words("R1", 0), "R1");
    EXPECT_EQ(open.words("R1", 1), "resistor");
    EXPECT_EQ(open.words("R1", 2), "47k");
    EXPECT_EQ(open.words("R1", 3), "in, g");
    EXPECT_EQ(open.words("J1", 1), "JFET");
    EXPECT_EQ(open.words("J1", 2), "JP");
    EXPECT_EQ(open.words("J1", 3), "vcc, g, e") << "drain, gate, source";
    EXPECT_EQ(open.words("M1", 3), "vcc, g, e, ground");
    EXPECT_EQ(open.words("E1", 2), "2 V/V");
    EXPECT_EQ(open.words("B1", 2).substr(0, 9), "V = tanh(");
    EXPECT_EQ(open.words("VCC", 2), "9 V");
    EXPECT_EQ(open.words("VIN", 2), "100 mVpk") << "the input's level is the player's";
    for (int row = 0; row < open.table().model()->rowCount(); ++row) {
        for (int column = 0; column < 4; ++column) {
            EXPECT_FALSE(open.table().model()->index(row, column).data().toString().isEmpty()) << row << column;
        }
    }
}

TEST(PartList, PartsInsideACallAreIndentedByIt) {
    OpenList open;
    EXPECT_EQ(open.cell("R1", 0).data(PartListModel::depthRole).toInt(), 0);
    EXPECT_EQ(open.cell("X2.R1", 0).data(PartListModel::depthRole).toInt(), 1);
    EXPECT_EQ(open.cell("X2.X1.R1", 0).data(PartListModel::depthRole).toInt(), 2);
}

TEST(PartList, ArrowsChoosePartsAndTheChosenOneComesIntoView) {
    OpenList open(manyParts(100));
    open.key(Qt::Key_Down);
    EXPECT_EQ(open.selection.part(), "VIN");
    open.key(Qt::Key_Down);
    EXPECT_EQ(open.selection.part(), "R0");
    open.key(Qt::Key_Right);
    EXPECT_EQ(open.selection.part(), "R1");
    open.key(Qt::Key_Left);
    open.key(Qt::Key_Up);
    open.key(Qt::Key_Up);
    EXPECT_EQ(open.selection.part(), "VIN") << "the list ends there";
    open.key(Qt::Key_End);
    EXPECT_EQ(open.selection.part(), "RL");
    EXPECT_TRUE(open.table().viewport()->rect().contains(open.table().visualRect(open.cell("RL", 0)).center()));
    open.selection.setPart("R2");
    OpenList::settle();
    EXPECT_TRUE(open.table().viewport()->rect().contains(open.table().visualRect(open.cell("R2", 0)).center()));
    EXPECT_EQ(open.table().currentIndex().row(), open.cell("R2", 0).row());
    open.selection.setPart({});
    OpenList::settle();
    EXPECT_FALSE(open.table().currentIndex().isValid());
}

TEST(PartList, APressChoosesAndAnEditKeepsThePlace) {
    OpenList open;
    QTest::mouseClick(open.table().viewport(), Qt::LeftButton, {},
                      open.table().visualRect(open.cell("C1", 1)).center());
    OpenList::settle();
    EXPECT_EQ(open.selection.part(), "C1");
    open.change("C1", 22e-9);
    EXPECT_EQ(open.table().currentIndex().row(), open.cell("C1", 0).row());
    EXPECT_EQ(open.selection.part(), "C1");
}

TEST(PartList, AChangedValueHasItsStockStruckThroughAndItsMod) {
    OpenList open;
    open.change("R1", 33e3);
    const QModelIndex value = open.cell("R1", PartListModel::valueColumn);
    EXPECT_EQ(value.data(PartListModel::stockRole).toString(), "47k");
    EXPECT_EQ(value.data(PartListModel::nowRole).toString(), "33k");
    EXPECT_EQ(value.data(PartListModel::markRole).toString(), "A");
    EXPECT_TRUE(value.data(PartListModel::markOnRole).toBool());
    EXPECT_TRUE(open.cell("R2", PartListModel::valueColumn).data(PartListModel::stockRole).toString().isEmpty());
    const QImage picture = takePicture(open.map, "part-list-changed", ThemeKind::light);
    EXPECT_GT(pixelsOf(picture, Theme::current().colours().now), 60);

    open.selection.setHoldsStock(true);
    OpenList::settle();
    EXPECT_TRUE(open.cell("R1", PartListModel::valueColumn).data(PartListModel::stockRole).toString().isEmpty());
    EXPECT_EQ(open.words("R1", 2), "47k");
}

TEST(PartList, LiftedAndAddedAreSaidBesideTheValue) {
    OpenList open;
    ASSERT_TRUE(open.document.edit(addMod(open.job(), Lift{"C1", 1}), "Lift"));
    OpenList::settle();
    EXPECT_EQ(open.cell("C1", PartListModel::valueColumn).data(PartListModel::fittingRole).toString(), "leg 2 lifted");
}

TEST(PartList, DigitsAndLettersAreAValueForTheChosenPart) {
    OpenList open;
    QSignalSpy typed(&open.map, &StageMap::typedOnPart);
    QTest::keyClick(&open.table(), Qt::Key_1);
    EXPECT_EQ(typed.count(), 0) << "nothing is chosen";
    open.selection.setPart("R1");
    OpenList::settle();
    QTest::keyClick(&open.table(), Qt::Key_1);
    ASSERT_EQ(typed.count(), 1);
    EXPECT_EQ(typed.at(0).at(0).toString(), "1");
    EXPECT_EQ(open.selection.part(), "R1") << "no search for a name";
}

TEST(PartList, PageKeysStepTheValueAndTheWheelDoesOverTheChosenValueAlone) {
    OpenList open;
    QSignalSpy stepped(&open.map, &StageMap::valueStepped);
    open.selection.setPart("R1");
    OpenList::settle();
    open.key(Qt::Key_PageUp, Qt::ShiftModifier);
    ASSERT_EQ(stepped.count(), 1);
    EXPECT_EQ(stepped.at(0).at(1).toInt(), 1);
    EXPECT_EQ(stepped.at(0).at(2).value<Qt::KeyboardModifiers>(), Qt::ShiftModifier);
    open.wheelOver(open.cell("R1", PartListModel::valueColumn), -240);
    ASSERT_EQ(stepped.count(), 2);
    EXPECT_EQ(stepped.at(1).at(1).toInt(), -2);
    open.wheelOver(open.cell("C1", PartListModel::valueColumn), 120);
    EXPECT_EQ(stepped.count(), 2) << "not chosen: the list scrolls";
    open.wheelOver(open.cell("R1", PartListModel::valueColumn), 120);
    EXPECT_EQ(stepped.count(), 2) << "still scrolling";
    open.selection.setPart("E1");
    OpenList::settle();
    QTest::qWait(600);
    open.wheelOver(open.cell("E1", PartListModel::valueColumn), 120);
    EXPECT_EQ(stepped.count(), 2) << "a gain is no value to step";
}

TEST(PartList, TheContextMenuIsAskedForThePartUnderThePointer) {
    OpenList open;
    QSignalSpy asked(&open.map, &StageMap::contextMenuAsked);
    const QPoint at = open.table().visualRect(open.cell("R2", 2)).center();
    QContextMenuEvent event(QContextMenuEvent::Mouse, at, open.table().viewport()->mapToGlobal(at));
    QCoreApplication::sendEvent(open.table().viewport(), &event);
    ASSERT_EQ(asked.count(), 1);
    EXPECT_EQ(asked.at(0).at(0).value<PartId>(), "R2");
    EXPECT_EQ(open.selection.part(), "R2");
}

TEST(PartList, IsSpokenByNameAndByPart) {
    OpenList open;
    EXPECT_EQ(open.table().accessibleName(), "Parts");
    open.change("C1", 22e-9);
    EXPECT_EQ(open.cell("C1", 0).data(Qt::AccessibleTextRole).toString(),
              "C1, capacitor, stock 10 nano, now 22 nano, mod A, drawn");
}

TEST(PartList, AFaultIsSaidAboveAndMarkedAtItsPart) {
    PartList list;
    MapState state;
    state.job = std::make_shared<const Job>(jobOf(everyKind));
    state.fault = "R2 has no value: type one.";
    state.faultPlace = "R2";
    list.resize(900, 400);
    list.setState(state);
    list.show();
    const auto* model = static_cast<const PartListModel*>(list.table().model());
    EXPECT_TRUE(model->index(model->rowOf("R2"), 0).data(PartListModel::faultRole).toBool());
    EXPECT_FALSE(model->index(model->rowOf("R1"), 0).data(PartListModel::faultRole).toBool());
    const QImage picture = takePicture(list, "part-list-fault", ThemeKind::light);
    EXPECT_GT(pixelsOf(picture, Theme::current().colours().stop), 40);
}

TEST(PartList, TwoThousandPartsAreShownWithoutAPause) {
    OpenList open(manyParts(2000));
    QElapsedTimer clock;
    clock.start();
    for (int edit = 0; edit < 10; ++edit) {
        open.change("R7", 2e3 + edit);
        open.key(Qt::Key_Down);
        open.map.grab();
    }
    // Four tenths of a second each on the busiest machine; an ordinary one takes some milliseconds.
    EXPECT_LT(clock.elapsed(), 10 * 400);
}

TEST(PartList, LooksTheSameInBothThemes) {
    OpenList open;
    open.change("R1", 33e3);
    open.selection.setPart("R1");
    OpenList::settle();
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark}) {
        const QImage picture = takePicture(open.map, "part-list", kind);
        EXPECT_EQ(picture.pixelColor(picture.width() - 30, picture.height() - 3), coloursOf(kind).canvas);
        EXPECT_GT(pixelsOf(picture, coloursOf(kind).ink), 300);
    }
}

}  // namespace
}  // namespace ohmwright::test
