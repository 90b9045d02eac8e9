// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/zones.h"

#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Circuit after(const EditResult& edit) {
    if (!edit) {
        ADD_FAILURE() << edit.error().message;
        return {};
    }
    return edit->circuit;
}

/// A source at the left, three resistors to an output at the right, all on one line.
Circuit chain() {
    Part source;
    source.kind = PartKind::voltageSource;
    source.acAmplitude = 1.0;
    Circuit circuit = after(placePart({}, source, {{2, 4}, 1, false, 3, LabelSide::automatic}));
    circuit = after(placeFlag(circuit, {FlagKind::ground, {}, {2, 7}, {}}));
    Part resistor;
    resistor.value = 1000.0;
    for (const int x : {2, 8, 14}) {
        circuit = after(placePart(circuit, resistor, {{x, 4}, 0, false, 3, LabelSide::automatic}));
    }
    circuit = after(drawWire(circuit, {{5, 4}, {8, 4}}));
    circuit = after(drawWire(circuit, {{11, 4}, {14, 4}}));
    return after(placeFlag(circuit, {FlagKind::terminal, {}, {17, 4}, "out"}));
}

TEST(Zones, StagesHoldWhatStandsInThemAndKnowTheirBorders) {
    Circuit circuit = after(beginStage(chain(), 99, "Source"));
    circuit = after(beginStage(circuit, 12, "Second"));
    circuit = after(beginStage(circuit, 6, "First"));
    ASSERT_EQ(circuit.stages.size(), 3U);
    EXPECT_EQ(circuit.stages[0].firstColumn, 0);
    EXPECT_EQ(circuit.stages[1].name, "First");
    EXPECT_EQ(circuit.stages[0].parts, (std::vector<PartId>{"v1", "r1"}));
    EXPECT_EQ(circuit.stages[1].parts, (std::vector<PartId>{"r2"}));
    EXPECT_EQ(circuit.stages[2].parts, (std::vector<PartId>{"r3"}));
    EXPECT_EQ(circuit.stages[1].input, findPart(circuit, "r1")->nets[1]);
    EXPECT_EQ(circuit.stages[1].output, findPart(circuit, "r3")->nets[0]);
    EXPECT_EQ(circuit.stages[2].output, circuit.ports.output);
    EXPECT_FALSE(beginStage(circuit, 6, "Twice"));
    EXPECT_FALSE(beginStage(circuit, 9, ""));
}

TEST(Zones, AnEndedStageGoesToItsNeighbour) {
    Circuit circuit = after(beginStage(chain(), 0, "Source"));
    circuit = after(beginStage(circuit, 6, "First"));
    circuit = after(endStage(circuit, 1));
    EXPECT_EQ(circuit.stages[0].parts.size(), 4U);
    EXPECT_FALSE(endStage(circuit, 1));
}

TEST(Zones, AMovedBorderTakesParts) {
    Circuit circuit = after(beginStage(chain(), 0, "Source"));
    circuit = after(beginStage(circuit, 6, "First"));
    circuit = after(moveStage(circuit, 1, 12));
    EXPECT_EQ(circuit.stages[0].parts, (std::vector<PartId>{"v1", "r1", "r2"}));
    EXPECT_FALSE(moveStage(circuit, 1, 0));
    EXPECT_FALSE(moveStage(circuit, 0, 3));
}

TEST(Zones, PartsInAFieldBelongToNoStage) {
    Circuit circuit = after(beginStage(chain(), 0, "Source"));
    circuit = after(frameField(circuit, {"Supply", "", {1, 8}, {0, 3}}));
    EXPECT_TRUE(circuit.stages[0].parts.empty() || circuit.stages[0].parts.front() != "v1" ||
                circuit.drawing.fields[0].bottomRight.x < 2);
    circuit = after(frameField(circuit, {"Whole", "", {0, 0}, {20, 9}}));
    EXPECT_TRUE(circuit.stages[0].parts.empty());
    EXPECT_EQ(circuit.drawing.fields[0].topLeft, (GridPoint{0, 3}));
    EXPECT_FALSE(frameField(circuit, {"", "", {0, 0}, {2, 2}}));
    EXPECT_FALSE(frameField(circuit, {"Thin", "", {0, 0}, {0, 2}}));
}

TEST(Zones, BordersOfTheDemosAreFoundFromTheirDrawing) {
    int asked = 0;
    for (const std::filesystem::path& path : test::demoJobPaths()) {
        const Circuit stock = test::jobIn(path).stock;
        for (std::size_t i = 1; i < stock.stages.size(); ++i) {
            // Three Hills counts its driver up to the op-amp, before the resistor that stands in the same zone.
            const bool isBefore = stock.stages[i].input == "o1" && stock.stages[i].name == "Tone network";
            if (!isBefore && !stock.stages[i].input.empty() && stock.stages[i - 1].output == stock.stages[i].input) {
                ++asked;
                EXPECT_EQ(borderNet(stock, stock.stages[i].firstColumn), stock.stages[i].input) << path << " " << i;
            }
        }
    }
    EXPECT_GT(asked, 10);
}

TEST(Zones, RoomIsMadeWithoutTouchingANet) {
    for (const std::filesystem::path& path : test::demoJobPaths()) {
        const Circuit stock = test::jobIn(path).stock;
        int made = 0;
        for (int column = 0; column < stock.drawing.size.x; ++column) {
            const EditResult room = makeRoom(stock, {column, 0}, {4, 0});
            if (room) {
                ++made;
                EXPECT_EQ(rejoin(room->circuit).circuit, room->circuit) << path << " " << column;
                for (std::size_t i = 0; i < stock.parts.size(); ++i) {
                    EXPECT_EQ(room->circuit.parts[i].nets, stock.parts[i].nets);
                }
            }
        }
        EXPECT_GT(made, 3) << path;
    }
}

TEST(Zones, StagesAndFramesAreOnTheSheet) {
    // "stage -5" put a stage before the source's, which lost its input; "frame F -50,-9 700,700" was taken.
    const Circuit circuit = after(beginStage(chain(), 0, "Source"));
    EXPECT_EQ(beginStage(circuit, -5, "Odd").error().message, "A stage begins at a column of the sheet: 0 to 400.");
    EXPECT_FALSE(beginStage(circuit, 700, "Far"));
    EXPECT_FALSE(frameField(circuit, {"F", "", {-50, -9}, {700, 700}}));
    EXPECT_FALSE(frameField(circuit, {"F", "", {2, 2}, {2, 401}}));
    EXPECT_TRUE(frameField(circuit, {"F", "", {2, 8}, {10, 12}}));
    Circuit moved = circuit;
    moved.stages.front().firstColumn = 3;
    EXPECT_FALSE(beginStage(moved, 1, "Before")) << "the first stage stays the first";
}

}  // namespace
}  // namespace ohmwright
