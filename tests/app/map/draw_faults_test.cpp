// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_faults.h"

#include "tests/app/map/hand_on_sheet.h"
#include "tests/support/demo_job.h"

#include <algorithm>

namespace ohmwright::test {
namespace {

class DrawFaultsTest : public HandOnSheet {
protected:
    [[nodiscard]] MapState state() const {
        MapState now;
        now.job = document.job();
        return now;
    }
    [[nodiscard]] QStringList sentences(const MapState& now) const {
        QStringList all;
        for (const DrawFaultLine& line : faultLines(drawFaults(now))) {
            all << line.sentence;
        }
        return all;
    }
    void change(const std::function<void(Circuit&)>& edit) {
        Job job = *document.job();
        edit(job.stock);
        document.setJob(job, {});
    }
};

// The first part that was put down brought a red balloon and red badges.
TEST_F(DrawFaultsTest, ADrawingBegunIsNoFault) {
    put('R', "1k", {10, 4});
    put('Q', "", {20, 8});
    for (const DrawFault& fault : drawFaults(state())) {
        EXPECT_NE(fault.severity, Severity::wrong) << fault.sentence.toStdString();
    }
    EXPECT_EQ(lacksOf(drawn()).size(), 4) << "a signal source, an output, a ground and a supply";
    EXPECT_EQ(sentences(state()).front(), "A signal source: S takes one.");
    // A jack that no wire leads to is an output only later.
    put('S', "", {4, 4});
    put('B', "9V", {4, 10});
    put('E', "", {4, 13});
    put('O', "", {30, 4});
    EXPECT_EQ(lacksOf(drawn()), QStringList{"A wire to the output jack: Space begins one."});
    for (const DrawFault& fault : drawFaults(state())) {
        EXPECT_NE(fault.severity, Severity::wrong) << fault.sentence.toStdString();
    }
}

TEST_F(DrawFaultsTest, WhatNeedsASupplyWantsABattery) {
    put('U', "", {10, 4});
    EXPECT_TRUE(lacksOf(drawn()).contains("A supply: B takes a battery."));
    put('B', "9V", {4, 6});
    EXPECT_FALSE(lacksOf(drawn()).contains("A supply: B takes a battery."));
    EXPECT_EQ(lacksOf(jobIn(harbourLampPath()).stock), QStringList());
}

// "R2 1, R2 2, , U1 ...": an open net without a place on the drawing had no name.
TEST_F(DrawFaultsTest, AnOpenPinIsNamedAlsoWithoutAPlace) {
    put('R', "1k", {10, 4});
    put('R', "1k", {20, 4});
    change([](Circuit& circuit) { circuit.parts[1].placement.reset(); });
    const QStringList all = sentences(state());
    EXPECT_TRUE(all.contains("Open pins: R1 1, R1 2, R2 1, R2 2.")) << all.join(" | ").toStdString();
}

TEST_F(DrawFaultsTest, PartsWithoutAPlaceAreListed) {
    put('R', "1k", {10, 4});
    put('R', "1k", {20, 4});
    EXPECT_FALSE(sentences(state()).join(" ").contains("no place"));
    change([](Circuit& circuit) { circuit.parts[1].placement.reset(); });
    const std::vector<DrawFault> faults = drawFaults(state());
    const auto found = std::find_if(faults.begin(), faults.end(), [](const DrawFault& fault) {
        return fault.sentence.contains("no place on the drawing");
    });
    ASSERT_NE(found, faults.end());
    EXPECT_EQ(found->part, drawn().parts[1].id);
    EXPECT_TRUE(found->isUndrawn());
}

// "Nothing: the circuit is whole." stood there also when the bias had not converged.
TEST_F(DrawFaultsTest, WhyThereIsNoAnswerIsListed) {
    document.setJob(harbourLamp(), {});
    MapState now = state();
    for (const DrawFault& fault : drawFaults(now)) {
        EXPECT_TRUE(fault.isUndrawn()) << fault.sentence.toStdString();  // the load, and the other half of the op-amp
    }
    now.fault = "The bias did not converge at R1.";
    now.faultPlace = "R1";
    const std::vector<DrawFault> faults = drawFaults(now);
    EXPECT_EQ(faults[0].sentence, now.fault);
    EXPECT_EQ(faults[0].severity, Severity::wrong);
    EXPECT_TRUE(faults[0].hasPlace);
}

TEST_F(DrawFaultsTest, ManyOpenPinsAreCounted) {
    for (int row = 0; row < 6; ++row) {
        put('R', "1k", {10, 3 + 3 * row});
    }
    EXPECT_TRUE(sentences(state()).back().endsWith("R4 2 and 4 more.")) << sentences(state()).back().toStdString();
}

}  // namespace
}  // namespace ohmwright::test
