// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/meter.h"

#include "core/bench/board_edits.h"
#include "core/files/netlist.h"
#include "tests/support/demo_netlists.h"
#include "tests/support/planned_jobs.h"
#include "tests/support/rest.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

namespace ohmwright {
namespace {

using test::harbourLampWith;
using test::nowOf;

Circuit smallRooster() {
    Circuit circuit = test::DemoNetlist::circuitOf(test::DemoNetlist::stock("small-rooster").text(), "out");
    circuit.ports.battery = "VBAT";
    return circuit;
}

double valueOf(const Result<MeterReading>& reading) {
    if (!reading) {
        ADD_FAILURE() << reading.error().message;
        return NAN;
    }
    return reading->value.value_or(INFINITY);
}

// 56 k from base to ground with 330 k to the supply line: 56.0 k while the line is open, 56k || 330k = 47.9 k when the
// supply's terminals are joined (330 k + 1.7 ohm).
TEST(Meter, ABaseResistorReadsItsValueOnlyWhileTheSupplyIsOpen) {
    const Circuit circuit = smallRooster();
    EXPECT_NEAR(valueOf(ProbedBoard(circuit, {}).ohms("b", "0")), 56.0e3, 50.0);
    const double both = 1.0 / (1.0 / 56e3 + 1.0 / 330e3);
    EXPECT_NEAR(valueOf(ProbedBoard(circuit, {}, SupplyEnd::shorted).ohms("b", "0")), both, 50.0);
}

// The capacitor of the gain leg blocks direct current, so the resistor reads alone.
TEST(Meter, TheGainResistorReadsAloneInCircuit) {
    const Circuit now = nowOf(harbourLampWith("ABC"));
    const ProbedBoard board(now, harbourLampWith("ABC").setting);
    EXPECT_NEAR(valueOf(board.ohms("leg", "0")), 2700.0, 1.0);
    const auto band = board.ohmsBand("leg", "0");
    ASSERT_TRUE(band);
    EXPECT_NEAR(*band->low, 2700.0 * 0.95 * 0.99, 1.0);
    EXPECT_NEAR(*band->high, 2700.0 * 1.05 * 1.01, 1.0);
    EXPECT_EQ(valueOf(board.ohms("im", "0")), INFINITY);
    EXPECT_EQ(valueOf(board.ohms("lp", "0")), INFINITY);
}

// 1N4148 at 1 mA: N Vt ln(1 mA / IS) + RS 1 mA = 0.585 V; two of them 1.17 V.
TEST(Meter, TheThirdDiodeDoublesTheReadingOfItsArm) {
    const Job job = harbourLampWith("ABC");
    const Circuit now = nowOf(job);
    const ProbedBoard board(now, job.setting);
    const double one = 1.752 * 0.025865 * std::log(1e-3 / 2.52e-9) + 0.568e-3;
    EXPECT_NEAR(valueOf(board.diodeVolts("im", "o1")), one, 0.005);
    EXPECT_NEAR(valueOf(board.diodeVolts("o1", "im")), 2.0 * one, 0.01);
    const auto reading = board.diodeVolts("o1", "im");
    EXPECT_TRUE(reading->hasChip);
}

/// Bias of a netlist of the reference suite, which the reference simulator confirms in its own test.
double confirmedVolts(const std::string& file, const NetName& net) {
    std::ifstream stream(std::string(OHMWRIGHT_SOURCE_DIR) + "/tests/reference/suite/bias/" + file);
    std::stringstream text;
    text << stream.rdbuf();
    const auto netlist = readNetlist(text.str());
    if (!netlist) {
        ADD_FAILURE() << netlist.error().message;
        return NAN;
    }
    const auto rest = test::restOf(netlist->circuit);
    return rest ? rest->bias.x[std::size_t(rest->equations.indexOfNet(net))] : std::nan("");
}

// The same two readings as circuits with the meter drawn in, solved by an independent simulator as well.
TEST(Meter, ReadsWhatACircuitWithTheMeterDrawnInGives) {
    const double volts = confirmedVolts("meter_ohms_at_a_base.cir", "b");
    EXPECT_NEAR(valueOf(ProbedBoard(smallRooster(), {}).ohms("b", "0")), volts / (0.2 - volts) * 200e3, 5.0);
    const Job job = harbourLampWith("ABC");
    EXPECT_NEAR(valueOf(ProbedBoard(nowOf(job), job.setting).diodeVolts("o1", "im")),
                confirmedVolts("meter_diode_range_over_two_arms.cir", "o1"), 0.2e-3);
}

// Two reversed diodes in line hold their joint by picoamperes; the loose antiparallel one leaves 70 k and no reading.
TEST(Meter, TwoReversedDiodesInLineGiveNoReading) {
    test::SmallCircuit small;
    const std::map<std::string, double> card{{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}};
    const Circuit circuit =
        small.r("R1", "in", "0", 1e3).r("R6", "a", "k", 70e3).d("D2", "k", "j", card).d("D3", "j", "a", card).circuit();
    EXPECT_EQ(valueOf(ProbedBoard(circuit, {}).diodeVolts("a", "k")), INFINITY);
}

TEST(Meter, ADiodeAloneHasNoReadingTheOtherWay) {
    test::SmallCircuit small;
    const Circuit circuit =
        small.r("R1", "in", "0", 1e3).d("D1", "a", "k", {{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}}).circuit();
    const ProbedBoard board(circuit, {});
    EXPECT_NEAR(valueOf(board.diodeVolts("a", "k")), 0.585, 0.003);
    EXPECT_EQ(valueOf(board.diodeVolts("k", "a")), INFINITY);
}

TEST(Meter, JoinedPlacesBeepAndCapacitorsStaySilent) {
    const Circuit now = nowOf(harbourLampWith("A"));
    const ProbedBoard board(now, harbourLampWith("A").setting);
    EXPECT_TRUE(*board.beeps("leg", "leg"));
    EXPECT_FALSE(*board.beeps("leg", "im"));
    EXPECT_FALSE(*board.beeps("im", "o1"));
}

TEST(Meter, APlaceThatIsNotThereIsNamed) {
    const ProbedBoard board(smallRooster(), {});
    const auto reading = board.ohms("nowhere", "0");
    ASSERT_FALSE(reading);
    EXPECT_EQ(reading.error().where, "nowhere");
}

// 0.2 V behind 200 k into 100 k || 10 uF: tau = (100k || 200k) 10 uF = 0.667 s. R(t) = v/(V - v) 200 k is within 1 % of
// 100 k when v is within 0.67 % of its end: t = tau ln(1/0.0067) = 3.34 s.
TEST(Meter, ACapacitorMakesTheReadingClimb) {
    test::SmallCircuit small;
    const Circuit circuit =
        small.r("R0", "in", "0", 1e3).r("R1", "top", "0", 100e3).c("C1", "top", "0", 10e-6).circuit();
    const auto seconds = ProbedBoard(circuit, {}).settleSeconds("top", "0");
    ASSERT_TRUE(seconds) << seconds.error().message;
    EXPECT_NEAR(*seconds, 3.34, 0.1);
}

// A lone 100 nF behind the highest range (20 M): over 20 M when v/(V - v) > 1, after 20 M 100 nF ln 2 = 1.39 s.
TEST(Meter, ALoneCapacitorRisesToNoReading) {
    test::SmallCircuit small;
    const Circuit circuit = small.r("R0", "in", "0", 1e3).c("C1", "top", "0", 100e-9).circuit();
    const auto seconds = ProbedBoard(circuit, {}).settleSeconds("top", "0");
    ASSERT_TRUE(seconds) << seconds.error().message;
    EXPECT_NEAR(*seconds, 1.386, 0.05);
}

}  // namespace
}  // namespace ohmwright
