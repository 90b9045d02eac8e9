// Expected: the contract of netlist_job.h; parts, values and nets as they stand in the netlists themselves.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_job.h"

#include "core/files/job_file.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

Result<NetlistJob> jobOf(std::string_view text) {
    Result<Netlist> netlist = readNetlist(text);
    EXPECT_TRUE(netlist) << (netlist ? "" : netlist.error().message);
    return jobFromNetlist(*std::move(netlist), "from its name");
}

constexpr std::string_view divider =
    "Half of it\n"
    "VIN in 0 DC 0 AC 1\n"
    "R1 in OUT 10k\n"
    "R2 OUT 0 10k\n"
    "VSUP v 0 DC 9\n"
    "R3 v 0 1k\n"
    ".end\n";

TEST(NetlistJob, TakesTheEndsFromTheNetlistAndLeavesTheRestToIt) {
    const Result<NetlistJob> taken = jobOf(divider);
    ASSERT_TRUE(taken) << taken.error().message;
    const Job& job = taken->job;
    EXPECT_EQ(job.unit.name, "Half of it");
    EXPECT_EQ(job.stock.ports.source, "VIN");
    EXPECT_EQ(job.stock.ports.output, "OUT");
    EXPECT_EQ(job.stock.ports.clipNode, "OUT");
    EXPECT_EQ(job.stock.ports.battery, "") << "VSUP stands at its own 9 V";
    EXPECT_EQ(job.stock.ports.load, "");
    EXPECT_TRUE(job.stock.knobs.empty());
    EXPECT_TRUE(job.plan.empty());
    EXPECT_EQ(job.setting, Setting());
    ASSERT_EQ(job.stock.parts.size(), 5U);
    EXPECT_EQ(displayName(job.stock.parts[1]), "R1");
    EXPECT_TRUE(taken->notes.empty());
}

TEST(NetlistJob, IsDrawnAsAMap) {
    const Job job = jobOf(divider)->job;
    for (const Part& part : job.stock.parts) {
        EXPECT_TRUE(part.placement) << part.reference;
    }
    EXPECT_FALSE(job.stock.drawing.wires.empty());
    ASSERT_FALSE(job.stock.stages.empty());
    EXPECT_EQ(job.stock.stages.back().output, "OUT");
}

TEST(NetlistJob, OfMorePartsThanAMapHoldsIsAListAndSaysSo) {
    std::string text = "A ladder\nVIN n0 0 AC 1\n";
    for (std::size_t i = 0; i < mostPartsOfAMap; ++i) {
        const std::string from = std::to_string(i);
        text.append("R")
            .append(from)
            .append(" n")
            .append(from)
            .append(" n")
            .append(std::to_string(i + 1))
            .append(" 1k\n");
    }
    text.append("RL n").append(std::to_string(mostPartsOfAMap)).append(" out 1k\nRO out 0 1k\n.end\n");
    const Result<NetlistJob> taken = jobOf(text);
    ASSERT_TRUE(taken);
    EXPECT_EQ(taken->job.stock.drawing, Drawing());
    EXPECT_TRUE(taken->job.stock.stages.empty());
    ASSERT_EQ(taken->notes.size(), 1U);
    EXPECT_NE(taken->notes.front().message.find("opened as a list"), std::string::npos);
}

TEST(NetlistJob, IsNamedAfterItsFileWhereItHasNoTitle) {
    const std::string cards(divider.substr(divider.find('\n')));
    EXPECT_EQ(jobOf(cards)->job.unit.name, "from its name");
    EXPECT_EQ(jobOf("*" + cards)->job.unit.name, "from its name");
    EXPECT_EQ(jobOf("* Half \tof it *" + cards)->job.unit.name, "Half  of it");
}

TEST(NetlistJob, OfALongTitleTheNameIsWhatStandsFirst) {
    const std::string cards(divider.substr(divider.find('\n')));
    const UnitCard unit = jobOf("Moss Engine, stock: two-transistor fuzz. fuzz 10, volume 10" + cards)->job.unit;
    EXPECT_EQ(unit.name, "Moss Engine, stock");
    EXPECT_EQ(unit.kind, "two-transistor fuzz. fuzz 10, volume 10");
    EXPECT_EQ(jobOf("Moss Engine: fuzz" + cards)->job.unit.name, "Moss Engine: fuzz");
}

TEST(NetlistJob, SaysWhatTheReaderSaidAndWhichInputWasAssumed) {
    const Result<NetlistJob> taken = jobOf(
        "t\n"
        "VIN in 0 0\n"
        "R1 in out 1k\n"
        "C1 out 0 1M\n"
        ".end\n");
    ASSERT_TRUE(taken) << taken.error().message;
    ASSERT_EQ(taken->notes.size(), 2U);
    EXPECT_EQ(taken->notes[0].line, 4) << "1M is milli";
    EXPECT_EQ(taken->notes[1].line, 0);
    EXPECT_NE(taken->notes[1].message.find("VIN is taken as the input"), std::string::npos);
    EXPECT_EQ(findPart(taken->job.stock, "VIN")->acAmplitude, 1.0);
}

TEST(NetlistJob, WithoutClearEndsIsRefusedWithWhatToDo) {
    const Result<NetlistJob> twoInputs = jobOf("t\nV1 a 0 AC 1\nV2 b 0 AC 1\nR1 a out 1k\nR2 b out 1k\n.end\n");
    ASSERT_FALSE(twoInputs);
    EXPECT_NE(twoInputs.error().message.find("V1"), std::string::npos) << twoInputs.error().message;
    EXPECT_NE(twoInputs.error().message.find("Write AC 1 on the card of the input alone"), std::string::npos);
    const Result<NetlistJob> noOutput = jobOf("t\nV1 a 0 AC 1\nR1 a b 1k\nR2 b 0 1k\n.end\n");
    ASSERT_FALSE(noOutput);
    EXPECT_NE(noOutput.error().message.find("call the output net out"), std::string::npos) << noOutput.error().message;
}

TEST(NetlistJob, OfEveryKindOfPartIsSavedAsAJobAndReadBackEqual) {
    const Result<NetlistJob> taken = jobOf(
        "every kind\n"
        "VIN in 0 AC 1 SIN(0 0.1 220)\n"
        "R1 in g 1m\n"
        "C1 g 0 10p\n"
        "L1 a 0 1\n"
        "L2 b 0 4\n"
        "K1 L1 L2 0.99\n"
        "VB vcc 0 9\n"
        "I1 vcc a 1u\n"
        "D1 a 0 DD\n"
        "Q1 vcc g e QN\n"
        "J1 vcc g e JN\n"
        "M1 vcc g e 0 MN W=2 L=1\n"
        "R2 e 0 1k\n"
        "E1 out 0 e 0 2\n"
        "G1 0 b a 0 1m\n"
        "F1 b 0 VB 0.1\n"
        "H1 h 0 VB 10\n"
        "B1 c 0 V=tanh(V(h))\n"
        "B2 0 c I=1m*V(out)\n"
        "X1 vcc g e KOREN_TRIODE MU=100 EX=1.4 KG1=1060 KP=600 KVB=300\n"
        "X2 in out half\n"
        ".subckt half i o\n"
        "R1 i m 1k\n"
        "R2 m o 1k\n"
        "R3 m 0 1k\n"
        ".ends\n"
        ".model DD D(IS=2.52n)\n"
        ".model QN NPN(BF=200)\n"
        ".model JN NJF(VTO=-2 BETA=1m)\n"
        ".model MN NMOS(VTO=1 KP=1m)\n"
        ".end\n");
    ASSERT_TRUE(taken) << taken.error().message;
    ASSERT_NE(findPart(taken->job.stock, "X2.R2"), nullptr);
    const Result<Job> again = readJob(writeJob(taken->job));
    ASSERT_TRUE(again) << again.error().message;
    EXPECT_EQ(*again, taken->job);
}

TEST(NetlistJob, AFileIsANetlistByItsNameOrElseByItsFirstCharacter) {
    EXPECT_TRUE(isNetlistFile("moss.cir", "{}"));
    EXPECT_TRUE(isNetlistFile("MOSS.CIR", ""));
    EXPECT_FALSE(isNetlistFile("moss.OhmJob", "title\n"));
    EXPECT_TRUE(isNetlistFile("moss.txt", "title\n"));
    EXPECT_FALSE(isNetlistFile("moss.txt", "\n  {\"version\": 1}"));
    EXPECT_FALSE(isNetlistFile("empty", " \n"));
}

TEST(NetlistJob, AnErrorIsSaidAtItsLineOfItsFile) {
    EXPECT_EQ(inNetlistFile("a.cir", {ErrorCode::fileDamaged, "line 7: R1 has no value.", "line 7"}).message,
              "a.cir:7: R1 has no value.");
    EXPECT_EQ(inNetlistFile("a.cir", {ErrorCode::invalidInput, "There is no net \"out\".", "out"}).message,
              "a.cir: There is no net \"out\".");
}

}  // namespace
}  // namespace ohmwright
