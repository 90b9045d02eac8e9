// Volts at the nodes, as the map shows and says them.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "app/map/part_item.h"
#include "app/map/stage_map.h"
#include "core/plan/edits.h"
#include "tests/support/open_job.h"

#include <algorithm>

namespace ohmwright::test {
namespace {

class ProbesOnMap : public testing::Test {
protected:
    ProbesOnMap() {
        map.resize(1040, 405);  // as in a window of 1600 x 1000
        map.show();
        EXPECT_TRUE(open.waitForLinear());
        QCoreApplication::processEvents();
    }

    void probe(bool on = true) {
        open.selection.setProbesVolts(on);
        QCoreApplication::processEvents();
    }
    [[nodiscard]] QString said(const NetName& net) {
        for (const ProbeMark& mark : map.scene().probeMarks()) {
            if (mark.net == net) {
                return mark.text;
            }
        }
        return {};
    }
    [[nodiscard]] QString spoken(const PartId& id) {
        for (const SpokenPart& part : map.view().parts()) {
            if (part.id == id) {
                return part.name;
            }
        }
        return {};
    }

    OpenJob open;
    StageMap map{open.document, open.selection, open.solver};
};

TEST_F(ProbesOnMap, ArePrintedWhileTheProbeIsOn) {
    EXPECT_TRUE(map.scene().probeMarks().empty());
    probe();
    // JOB 6.1 and tests/reference/harbour-lamp-figures.csv: emitter of Q1 2.76 V, half supply 4.46 V.
    const NetName emitter = findPartByReference(open.job().stock, "Q1")->nets[2];
    EXPECT_EQ(said(emitter), "2.76 V");
    EXPECT_EQ(map.scene().probeMarks().back().text, "Volts against ground, no signal");
    // It stood above what the view shows.
    EXPECT_TRUE(map.scene().layout().extent.contains(map.scene().probeMarks().back().box));
    takePicture(map, "probes", ThemeKind::light);
    takePicture(map, "probes", ThemeKind::dark);
    probe(false);
    EXPECT_TRUE(map.scene().probeMarks().empty());
}

TEST_F(ProbesOnMap, NoWordsLieOnOthers) {
    probe();
    const std::vector<ProbeMark>& marks = map.scene().probeMarks();
    EXPECT_GT(marks.size(), 8u);
    for (const ProbeMark& mark : marks) {
        for (const ProbeMark& other : marks) {
            EXPECT_TRUE(&mark == &other || !mark.box.intersects(other.box)) << mark.net << " " << other.net;
        }
        for (const MapLabel& label : map.scene().layout().labels) {
            for (const QRectF& box : label.label.boxes) {
                EXPECT_FALSE(mark.box.intersects(box)) << mark.net << " over the words of " << label.part;
            }
        }
        for (const DrawnPart& part : map.scene().layout().parts) {
            EXPECT_FALSE(mark.box.intersects(part.body)) << mark.net << " over " << part.id;
        }
    }
}

// "4.90 → 4.51 V" touched a bracket of the collector's resistor.
TEST_F(ProbesOnMap, KeepOffTheBracketsOfTheSelectedPart) {
    open.document.setJob(jobIn(demoJobPath("moss-engine")), {});
    ASSERT_TRUE(open.waitForLinear());
    probe();
    int marks = 0;
    for (const DrawnPart& part : map.scene().layout().parts) {
        open.selection.setPart(part.id);
        QCoreApplication::processEvents();
        const QRectF brackets = bracketBox(*map.scene().layout().part(part.id)).adjusted(-1, -1, 1, 1);
        for (const ProbeMark& mark : map.scene().probeMarks()) {
            EXPECT_FALSE(mark.box.intersects(brackets)) << part.id << ": " << mark.text.toStdString();
            ++marks;
        }
    }
    EXPECT_GT(marks, 50);
}

TEST_F(ProbesOnMap, AreSpokenAtThePinsAndForTheWholeMap) {
    probe();
    EXPECT_TRUE(spoken("q1").contains("emitter 2.76 V")) << spoken("q1").toStdString();
    EXPECT_TRUE(map.view().accessibleDescription().startsWith("Volts against ground, no signal: "))
        << map.view().accessibleDescription().toStdString();
    probe(false);
    EXPECT_FALSE(spoken("q1").contains("emitter"));
    EXPECT_EQ(map.view().accessibleDescription(), "");
}

TEST_F(ProbesOnMap, AModThatMovesTheBiasStandsBesideStock) {
    probe();
    // The divider's upper resistor moves all of Vb, and with it both inputs of the op-amp.
    open.document.edit(setPartValue(open.job(), "r11", 22e3), "Change R11");
    ASSERT_TRUE(open.waitForLinear());
    QCoreApplication::processEvents();
    takePicture(map, "probes-moved", ThemeKind::light);
    const NetName input = findPartByReference(open.job().stock, "U1A")->nets[0];
    EXPECT_TRUE(said(input).startsWith(QString::fromUtf8("4.46 → "))) << said(input).toStdString();
    const NetName emitter = findPartByReference(open.job().stock, "Q1")->nets[2];
    EXPECT_NE(said(emitter), "") << "where both have no room, what is now";
    open.selection.setHoldsStock(true);
    QCoreApplication::processEvents();
    EXPECT_EQ(said(emitter), "2.76 V");
}

/// Story: volts of the last sound circuit stood on one that cannot be solved.
TEST_F(ProbesOnMap, ACircuitThatIsNotSolvedHasNoVolts) {
    probe();
    Job job = open.job();
    job.stock.ports.output = "nowhere";
    open.document.setJob(job, {});
    ASSERT_TRUE(QTest::qWaitFor([this] { return !open.solver.fault().isEmpty(); }, 60000));
    QCoreApplication::processEvents();
    EXPECT_TRUE(map.scene().probeMarks().empty());
    EXPECT_EQ(map.view().accessibleDescription(), "No volts: the circuit is not solved.");
}

}  // namespace
}  // namespace ohmwright::test
