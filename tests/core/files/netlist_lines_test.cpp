/// Lines, comments and continuations. No outside source: the rules are the program's own, after Nagel, UCB/ERL M520
/// (1975).
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_lines.h"

#include "netlist_text.h"

#include <gmock/gmock.h>

namespace ohmwright {
namespace {

TEST(NetlistLines, TheFirstLineIsAlwaysTheTitle) {
    const Result<Netlist> netlist = readNetlist("R9 a 0 5k\nR1 a 0 1k\n");
    ASSERT_TRUE(netlist.hasValue());
    EXPECT_EQ(netlist->title, "R9 a 0 5k");
    EXPECT_EQ(netlist->circuit.parts.size(), 1u);
    EXPECT_TRUE(hasNote(*netlist, 1, "looks like a card")) << notesOf(*netlist);
}

TEST(NetlistLines, AnEmptyTitleIsATitle) {
    const Result<Netlist> netlist = readNetlist("\nR1 a 0 1k\n");
    ASSERT_TRUE(netlist.hasValue());
    EXPECT_EQ(netlist->title, "");
    EXPECT_EQ(netlist->circuit.parts.size(), 1u);
}

TEST(NetlistLines, EveryLineEndAndAByteOrderMarkAreTaken) {
    for (const char* text : {"\xEF\xBB\xBFtitle\r\nR1 a 0 1k\r\nR2 a 0\r\n+ 2k\r\n.end\r\n",
                             "title\rR1 a 0 1k\rR2 a 0\r+ 2k\r.end", "title\nR1 a 0 1k\nR2 a 0\n+ 2k"}) {
        const Result<Netlist> netlist = readNetlist(text);
        ASSERT_TRUE(netlist.hasValue()) << netlist.error().message;
        EXPECT_EQ(netlist->title, "title");
        ASSERT_EQ(netlist->circuit.parts.size(), 2u);
        EXPECT_EQ(netlist->circuit.parts[1].value, 2000.0);
    }
}

TEST(NetlistLines, LinesAreCountedOverEveryLineEnd) {
    EXPECT_THAT(readNetlist("t\r\nR1 a 0 1k\r\nR2 a 0 x\r\n").error().message, testing::StartsWith("line 3:"));
    EXPECT_THAT(readNetlist("t\rR1 a 0 1k\rR2 a 0 x").error().message, testing::StartsWith("line 3:"));
}

TEST(NetlistLines, CommentsAreLeftOut) {
    const Netlist netlist = sound(
        "* a comment\n"
        "  * another\n"
        "; a third\n"
        "R1 a 0 1k ; one k\n"
        "R2 a 0 2k;two k\n"
        "R3 a 0 3k $ three k\n"
        "$ a fourth\n"
        "R4 $net 0 4k\n");
    ASSERT_EQ(netlist.circuit.parts.size(), 4u);
    EXPECT_EQ(netlist.circuit.parts[1].value, 2000.0);
    EXPECT_EQ(netlist.circuit.parts[2].value, 3000.0);
    EXPECT_EQ(netlist.circuit.parts[3].nets[0], "$net");
}

TEST(NetlistLines, ACardGoesOnOverCommentsAndEmptyLines) {
    const Netlist netlist = sound("R1 a\n* a comment\n\n  +  0 ; here\n+1k\n");
    ASSERT_EQ(netlist.circuit.parts.size(), 1u);
    EXPECT_EQ(netlist.circuit.parts[0].nets, (std::vector<NetName>{"a", "0"}));
    EXPECT_EQ(netlist.circuit.parts[0].value, 1000.0);
}

TEST(NetlistLines, AFaultNamesTheLineOfItsWord) {
    EXPECT_THAT(faultOf("R1 a\n+ 0\n+ x\n"), testing::StartsWith("line 4:"));
}

TEST(NetlistLines, AfterEndNothingIsReadAndThatIsSaid) {
    const Netlist netlist = sound("R1 a 0 1k\n.END\n\n* fine\nR2 a 0 nonsense\n");
    EXPECT_EQ(netlist.circuit.parts.size(), 1u);
    EXPECT_TRUE(hasNote(netlist, 6, "after .end")) << notesOf(netlist);
    EXPECT_FALSE(hasNote(sound("R1 a 0 1k\n.end\n* fine\n"), 4, "after .end"));
}

TEST(NetlistLines, NoBreakSpacesAreBlanks) {
    EXPECT_EQ(partOf(sound("R1\xC2\xA0"
                           "a 0 1k\n"),
                     "R1")
                  .value,
              1000.0);
}

TEST(NetlistLines, AnOldEncodingInATitleOrCommentDoesNoHarm) {
    const Result<Netlist> netlist = readNetlist("t\xFCr\n* \xB5\nR1 a 0 1k ; \xB5\n");
    ASSERT_TRUE(netlist.hasValue());
    EXPECT_EQ(netlist->title, "t?r");
}

TEST(NetlistLines, BoundsAreFaultsOfALine) {
    EXPECT_THAT(faultOf("R1 a 0 1k " + std::string(1'100'000, ' ') + "\n"), testing::HasSubstr("1,000,000"));
    EXPECT_THAT(faultOf("R1 a 0 1k\n" + std::string(1'100'000, '+') + "\n"), testing::HasSubstr("line 2"));
    std::string many;
    for (int index = 0; index < 500'001; ++index) {
        many += "r\n";
    }
    EXPECT_THAT(faultOf(many), testing::HasSubstr("500,000"));
    std::string plus = "R1 a 0 1k\n";
    for (int index = 0; index < 600'000; ++index) {
        plus += "+\n";
    }
    EXPECT_EQ(faultOf(plus), "read");
}

}  // namespace
}  // namespace ohmwright
