// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/probe_card.h"

#include "core/bench/judge.h"
#include "tests/support/demo_job.h"
#include "tests/support/demo_netlists.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::HasSubstr;

Circuit smallRooster() {
    Circuit circuit = test::DemoNetlist::circuitOf(test::DemoNetlist::stock("small-rooster").text(), "out");
    circuit.ports.battery = "VBAT";
    for (Part& part : circuit.parts) {
        if (part.kind == PartKind::resistor && part.id[0] == 'R' && part.id.size() == 2) {
            part.tolerance = 0.05;
        }
    }
    return circuit;
}

std::size_t lineAt(const ProbeCard& card, const NetName& net) {
    for (std::size_t k = 0; k < card.lines.size(); ++k) {
        if (card.lines[k].net == net) {
            return k;
        }
    }
    ADD_FAILURE() << "no line at " << net;
    return 0;
}

// References: Small Rooster solved apart: base 1.12, emitter 0.46, collector 4.43 V; collector 5.40 V at beta 100 and
// 3.15 V at beta 900.
TEST(ProbeCard, ABoosterHasItsVoltsAndTheBandOfItsTransistors) {
    const Circuit circuit = smallRooster();
    ProbeOptions options;
    options.devices = {{findPart(circuit, "Q1")->model, {{{"BF", 100.0}}, {{"BF", 900.0}}}}};
    const auto card = probeCard(circuit, {}, options);
    ASSERT_TRUE(card) << card.error().message;
    EXPECT_NEAR(card->lines[lineAt(*card, "b")].nominal, 1.12, 0.006);
    EXPECT_NEAR(card->lines[lineAt(*card, "e")].nominal, 0.46, 0.006);
    const ProbeLine& collector = card->lines[lineAt(*card, "c")];
    EXPECT_EQ(collector.place, "Q1 collector");
    EXPECT_NEAR(collector.nominal, 4.43, 0.006);
    EXPECT_NEAR(collector.highByDevices, 5.40, 0.006);
    EXPECT_NEAR(collector.lowByDevices, 3.15, 0.006);
    EXPECT_LT(collector.low, collector.lowByDevices);
    EXPECT_GT(collector.high, collector.highByDevices);
    ASSERT_TRUE(card->supply);
    // (9 - 4.43)/5.6k and some 20 uA through the divider.
    EXPECT_NEAR(card->supply->nominal, 0.837e-3, 0.01e-3);
}

// 7.2 V instead of 9: the collector at 4.38 V.
TEST(ProbeCard, AFlatBatteryIsACorner) {
    const Circuit circuit = smallRooster();
    ProbeOptions options;
    options.withTolerances = false;
    options.supplyShare = options.leastVolts = 0.0;
    options.lowSupplyVolts = 7.2;
    const auto card = probeCard(circuit, {}, options);
    ASSERT_TRUE(card);
    EXPECT_NEAR(card->lines[lineAt(*card, "c")].low, 4.38, 0.006);
    EXPECT_NEAR(card->lines[lineAt(*card, "c")].high, 4.43, 0.006);
}

TEST(ProbeCard, TheDemoHasItsChipAndFollowers) {
    const Job job = test::harbourLamp();
    const auto card = probeCard(job.stock, job.setting);
    ASSERT_TRUE(card);
    for (const char* net : {"ip", "im", "o1"}) {
        EXPECT_NEAR(card->lines[lineAt(*card, net)].nominal, 4.46, 0.01) << net;
    }
    EXPECT_EQ(card->lines[lineAt(*card, "o1")].place, "U1 pin 1 (output)");
    EXPECT_NEAR(card->supply->nominal, 3.91e-3, 0.01e-3);
}

// 8.9 V at the collector: the transistor is off. Solved: 9.00 with base feed or emitter open, 8.92 with collector and
// emitter exchanged.
TEST(Judge, ACollectorNearTheSupplySaysOffOrBasePathOpen) {
    const Circuit circuit = smallRooster();
    const auto card = probeCard(circuit, {});
    ASSERT_TRUE(card);
    const auto judged = judgeProbe(circuit, {}, *card, lineAt(*card, "c"), 8.9);
    ASSERT_TRUE(judged) << judged.error().message;
    EXPECT_FALSE(judged->isInBand);
    EXPECT_THAT(judged->sentence, HasSubstr("Q1 is off or its bias path is open"));
    std::vector<std::string> names;
    for (const Suspect& suspect : judged->suspects) {
        names.push_back(suspect.sentence);
    }
    EXPECT_THAT(names, testing::Contains("R1 330k open"));
    EXPECT_THAT(names, testing::Contains("R4 560R open"));
    EXPECT_THAT(names, testing::Contains("Q1 emitter open"));
    EXPECT_THAT(names, testing::Contains("Q1 with collector and emitter exchanged"));
    EXPECT_TRUE(judgeProbe(circuit, {}, *card, lineAt(*card, "c"), 4.4)->isInBand);
}

}  // namespace
}  // namespace ohmwright
