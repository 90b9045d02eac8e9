// Thousands of random edits: every one leaves a drawing whose nets are what it shows, or a reason and nothing changed.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/rejoin.h"
#include "core/files/job_file.h"
#include "tests/support/demo_job.h"
#include "tests/support/drawn_joints.h"
#include "tests/support/random_hand.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace ohmwright {
namespace {

/// OHMWRIGHT_RANDOM_EDITS asks for more by hand.
int editCount() {
    const char* asked = std::getenv("OHMWRIGHT_RANDOM_EDITS");
    return asked ? std::atoi(asked) : 1500;
}

void expectSound(const Circuit& circuit, int step) {
    ASSERT_EQ(rejoin(circuit).circuit, circuit) << "step " << step;
    for (const Wire& wire : circuit.drawing.wires) {
        ASSERT_GE(wire.corners.size(), 2U);
        for (std::size_t i = 1; i < wire.corners.size(); ++i) {
            const bool level = wire.corners[i].y == wire.corners[i - 1].y;
            ASSERT_NE(level, wire.corners[i].x == wire.corners[i - 1].x) << "step " << step;
        }
    }
    const std::vector<std::string> faults = test::jointFaults(circuit);
    ASSERT_TRUE(faults.empty()) << "step " << step << ": " << faults.front();
    for (const Part& part : circuit.parts) {
        ASSERT_EQ(part.nets.size(), static_cast<std::size_t>(pinCount(part.kind)));
        ASSERT_TRUE(std::none_of(part.nets.begin(), part.nets.end(), [](const NetName& net) { return net.empty(); }))
            << "step " << step << " " << part.id;
    }
}

TEST(DrawnJoints, AGapAndAShortAreNoticed) {
    Circuit gap = test::jobIn(test::harbourLampPath()).stock;
    ASSERT_TRUE(test::jointFaults(gap).empty()) << test::jointFaults(gap).front();
    Circuit shorted = gap;
    gap.drawing.wires.erase(gap.drawing.wires.begin());
    EXPECT_FALSE(test::jointFaults(gap).empty());
    const Part& part = *findPartByReference(shorted, "R7");
    shorted.drawing.wires.push_back({part.nets[0], {pinPoint(part, 0), pinPoint(part, 1)}});
    EXPECT_FALSE(test::jointFaults(shorted).empty());
}

TEST(RandomEdits, EveryEditLeavesASoundDrawingOrTheOldOne) {
    int taken = 0;
    for (unsigned seed = 1; seed <= 6; ++seed) {
        test::RandomHand hand(seed);
        Circuit circuit = seed % 2 == 0 ? test::jobIn(test::harbourLampPath()).stock : Circuit();
        for (int step = 0; step < editCount() / 6; ++step) {
            const EditResult edit = hand.edit(circuit);
            if (!edit) {
                EXPECT_FALSE(edit.error().message.empty());
                continue;
            }
            ++taken;
            circuit = edit->circuit;
            ASSERT_NO_FATAL_FAILURE(expectSound(circuit, step));
        }
        Job job;
        job.stock = circuit;
        const Result<Job> again = readJob(writeJob(job));
        ASSERT_TRUE(again) << again.error().message;
        EXPECT_EQ(again->stock, circuit) << "a drawn circuit is kept whole by its file";
    }
    EXPECT_GT(taken, editCount() / 6);
}

}  // namespace
}  // namespace ohmwright
