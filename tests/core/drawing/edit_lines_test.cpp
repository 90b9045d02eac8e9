// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/edit_lines.h"

#include "core/circuit/check.h"
#include "core/drawing/outline.h"
#include "core/files/part_data.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

const std::vector<Model>& houseTypes() {
    static const Result<PartLibrary> library =
        loadModels(std::string(OHMWRIGHT_SOURCE_DIR) + "/resources/part-data/models.json");
    return library.value().models;
}

constexpr std::string_view pair = R"(# two transistors in a pair
put S at 4,8
put B 9V at 4,14
put C 2u2 at 6,8
put R 33k at 13,3 turned 1
put Q 2N3904 at 11,8
put R 8k2 at 18,1 turned 1
put transistor 2N3904 at 16,6
put R 1k at 18,9 turned 1
put R 100k at 13,13
put E at 4,11
put ground at 4,17
put E at 13,10
put E at 18,12
put "supply sign" "9 V" at 4,14
put V "9 V" at 13,3
put V "9 V" at 18,1
put O at 21,4

wire 4,8 6,8
wire 9,8 11,8
wire 13,6 16,6
wire 18,4 21,4
wire 18,8 18,9
wire 16,13 20,13 20,8 18,8
wire 13,13 10,13 10,8
name 21,4 out
stage 0 Source
stage 10 Pair
)";

TEST(EditLines, AUnitIsDrawnFromText) {
    const EditResult drawn = editByLines({}, pair, houseTypes());
    ASSERT_TRUE(drawn) << drawn.error().message;
    const Circuit& circuit = drawn->circuit;
    EXPECT_EQ(circuit.parts.size(), 9U);
    for (const Fault& fault : checkCircuit(circuit)) {
        ADD_FAILURE() << fault.message;
    }
    EXPECT_EQ(circuit.ports.output, "out");
    EXPECT_EQ(findPartByReference(circuit, "Q2")->nets[0], "out");
    EXPECT_EQ(findPartByReference(circuit, "Q1")->nets[0], findPartByReference(circuit, "Q2")->nets[1]);
    EXPECT_EQ(circuit.stages.size(), 2U);
}

TEST(EditLines, PartsAreNamedByTheirReference) {
    Circuit circuit = editByLines({}, pair, houseTypes())->circuit;
    const GridPoint before = pinPoint(*findPartByReference(circuit, "R4"), 0);
    const EditResult moved = editByLine(circuit, "move R4 by 0,2", houseTypes());
    ASSERT_TRUE(moved) << moved.error().message;
    EXPECT_EQ(pinPoint(*findPartByReference(moved->circuit, "R4"), 0), (GridPoint{before.x, before.y + 2}));
    const EditResult erased = editByLine(circuit, "erase R4 R3", houseTypes());
    ASSERT_TRUE(erased);
    EXPECT_EQ(findPartByReference(erased->circuit, "R4"), nullptr);
    EXPECT_EQ(editByLine(circuit, "erase R9", houseTypes()).error().message, "There is no part R9 on the drawing.");
}

TEST(EditLines, AFaultNamesItsLine) {
    const EditResult wrong = editByLines({}, "put R 1k at 2,2\n\nput R 1k at 3,2\n", houseTypes());
    ASSERT_FALSE(wrong);
    EXPECT_EQ(wrong.error().where, "line 3");
    EXPECT_EQ(wrong.error().message, "line 3: R1 stands there already: choose a free place.");
    for (const char* line : {"put", "put R", "put R 1k", "put R 1k at 2", "put R 1k at 2,x", "put R 1k at 99999,2",
                             "wire 1,1 two", "name 1,1", "stage x y", "frame a 1,1", "room 1,1", "turn", "dance",
                             "put Y at 1,1", "put Q nothing at 1,1", "put R 1m at 1,1", "unwire 3,3"}) {
        EXPECT_FALSE(editByLine({}, line, houseTypes())) << line;
    }
    EXPECT_TRUE(editByLine({}, "  # nothing", houseTypes()));
}

TEST(EditLines, UnreadableWordsAreNotGuessed) {
    for (const char* line : {"put R 1k at 2,2 turned one", "put R 1k at 2,2 long zz", "put R 1k at 2,2 long 1",
                             "put R 1k at 2,2 long", "put \"R 1k at 2,2", "stage 0 \"Source", "put E 9V at 2,2"}) {
        EXPECT_FALSE(editByLine({}, line, houseTypes())) << line;
    }
    EXPECT_EQ(editByLine({}, "put R 1k at 2,2 long 1", houseTypes()).error().message,
              "A part is 2 to 400 steps long, not 1.");
    EXPECT_EQ(editByLine({}, "stage 0 \"Source", houseTypes()).error().message,
              "A quote is left open: end it on the same line.");
    EXPECT_EQ(editByLine({}, "put R 1k at 2,2 long 5", houseTypes())->circuit.parts.front().placement->span, 5);
}

TEST(EditLines, AnOpampsSuppliesAreNamed) {
    const Circuit circuit = editByLines({},
                                        "put U TL072 at 4,4\nput B 9V at 14,4\nput V \"9 V\" at 14,4\nput E at 14,7\n"
                                        "put R 1k at 18,4\nput V -9V at 18,4\n",
                                        houseTypes())
                                ->circuit;
    const EditResult supplied = editByLine(circuit, "supply U1 \"9 V\" -9V", houseTypes());
    ASSERT_TRUE(supplied) << supplied.error().message;
    EXPECT_EQ(supplied->circuit.parts[0].nets[3], circuit.parts[1].nets[0]);
    EXPECT_EQ(supplied->circuit.parts[0].nets[4], circuit.parts[2].nets[0]);
    EXPECT_FALSE(editByLine(circuit, "supply U1 \"9 V\"", houseTypes()));
    EXPECT_FALSE(editByLine(circuit, "supply U9 \"9 V\" 0", houseTypes()));
}

TEST(EditLines, AKindWithoutAnyTypeSaysSo) {
    // The sentence ended in "type a name such as ." where no part data was given.
    EXPECT_EQ(editByLine({}, "put J at 2,4", {}).error().message,
              "No JFET type is known here: give part data that has one.");
    EXPECT_TRUE(editByLine({}, "put J at 2,4", houseLibrary().models));
}

TEST(EditLines, TheGrammarShowsWhatIsRead) {
    // Every line of the grammar with an example is one that is understood, whatever the drawing answers to it.
    const std::string grammar = editLineGrammar();
    for (const char* verb :
         {"put", "wire", "unwire", "name", "supply", "move", "turn", "mirror", "erase", "stage", "frame", "room"}) {
        EXPECT_NE(grammar.find(std::string("  ") + verb + " "), std::string::npos) << verb;
    }
    EXPECT_NE(grammar.find("J JFET"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright
