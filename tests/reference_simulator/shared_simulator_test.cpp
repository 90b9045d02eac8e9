/// The wrapper about the reference simulator answers as closed forms do, and survives circuits that it cannot solve.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/shared_simulator.h"
#include "tests/reference_simulator/reference_answers.h"
#include "tests/reference_simulator/suite.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <stdexcept>

namespace ohmwright::reference {

namespace {

constexpr const char* divider = "A divider\nV1 in 0 DC 3 AC 1\nR1 in out 1k\nR2 out 0 2k\nC1 out 0 10n\n.end\n";

}  // namespace

TEST(SharedSimulator, DividerHasItsBiasAndCorner) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(divider);
    simulator.run("op");
    EXPECT_NEAR(simulator.real("out").at(0), 2.0, 1e-9);
    EXPECT_NEAR(simulator.real("V1#branch").at(0), -1e-3, 1e-9);
    simulator.run("ac lin 1 23.8732414637843k 23.8732414637843k");  // 1 / (2 pi 10n 666.7)
    EXPECT_NEAR(std::abs(simulator.complex("out").at(0)), 2.0 / 3.0 / std::numbers::sqrt2, 1e-9);
}

TEST(SharedSimulator, ThermalNoiseIsThatOfTheParallelResistance) {
    SharedSimulator& simulator = SharedSimulator::only();
    simulator.load(divider);
    simulator.run("noise v(out) V1 dec 1 1 10");
    const double boltzmann = 1.380649e-23;
    EXPECT_NEAR(simulator.real("onoise_spectrum").at(0), std::sqrt(4.0 * boltzmann * 300.15 * 2000.0 / 3.0), 1e-13);
}

TEST(SharedSimulator, RefusalsAndFailuresLeaveItUsable) {
    SharedSimulator& simulator = SharedSimulator::only();
    EXPECT_THROW(simulator.load("A type that is not there\nV1 a 0 1\nQ1 a b 0 NOWHERE\n.end\n"), std::runtime_error);
    simulator.load("Two sources against each other\nV1 a 0 1\nV2 a 0 2\nR1 a 0 1k\n.end\n");
    EXPECT_THROW(simulator.run("op"), std::runtime_error);
    simulator.load(divider);
    simulator.run("op");
    EXPECT_THROW(static_cast<void>(simulator.real("nowhere")), std::runtime_error);
    EXPECT_NEAR(simulator.real("out").at(0), 2.0, 1e-9);
}

TEST(SharedSimulator, CardsOfTheFileDoNotRun) {
    const auto lines =
        simulatorLines("T\nR1 a 0 1k\n.tran 1u\n+ 1m\n.OPTIONS reltol=1\nV1 a 0 1\n.end\nR2 a 0 1\n", {});
    ASSERT_EQ(lines.size(), 5U);
    EXPECT_EQ(lines[1], "R1 a 0 1k");
    EXPECT_EQ(lines[2], "V1 a 0 1");
    EXPECT_EQ(lines[4], ".end");
}

TEST(SharedSimulator, SettledRectangleHasTheHarmonicsOfItsSeries) {
    std::vector<double> period(512);
    for (std::size_t k = 0; k < period.size(); ++k) {
        period[k] = k < 256 ? 1.0 : -1.0;
    }
    const auto harmonics = harmonicAmplitudes(period, 3);
    EXPECT_NEAR(harmonics[1], 4.0 / std::numbers::pi, 1e-4);
    EXPECT_NEAR(harmonics[2], 0.0, 1e-12);
    EXPECT_NEAR(harmonics[3], 4.0 / (3.0 * std::numbers::pi), 1e-4);
}

TEST(SharedSimulator, InterpolationIsExactForCubics) {
    const std::vector<double> times{0.0, 0.1, 0.25, 0.5, 0.7, 1.0};
    std::vector<double> values;
    for (const double t : times) {
        values.push_back(t * t * t - 2.0 * t);
    }
    const auto between = interpolated(times, values, {0.05, 0.6, 0.99});
    EXPECT_NEAR(between[0], 0.05 * 0.05 * 0.05 - 0.1, 1e-12);
    EXPECT_NEAR(between[1], 0.6 * 0.6 * 0.6 - 1.2, 1e-12);
    EXPECT_NEAR(between[2], 0.99 * 0.99 * 0.99 - 1.98, 1e-12);
}

TEST(ReferenceSuiteFiles, ThereAreTwoHundredAndEachSaysWhatItIs) {
    const std::vector<std::string> names = suiteNames();
    EXPECT_GE(names.size(), 200U);
    std::set<std::string> titles;
    for (const std::string& name : names) {
        const SuiteNetlist netlist = loadSuiteNetlist(name);
        EXPECT_TRUE(titles.insert(netlist.text.substr(0, netlist.text.find('\n'))).second) << name;
    }
}

TEST(ReferenceSuiteFiles, DrivenSourceIsReadFromItsLine) {
    const SuiteNetlist netlist{.name = "t", .text = "T\nVA a 0 DC 10m AC 2 30\nIB 0 b 1u AC\nVC c 0 5\n"};
    const DrivenSource first = drivenSource(netlist, "");
    EXPECT_EQ(first.name, "VA");
    EXPECT_DOUBLE_EQ(first.dc, 0.01);
    EXPECT_DOUBLE_EQ(first.acAmplitude, 2.0);
    EXPECT_DOUBLE_EQ(first.acDegrees, 30.0);
    const DrivenSource second = drivenSource(netlist, "ib");
    EXPECT_DOUBLE_EQ(second.dc, 1e-6);
    EXPECT_DOUBLE_EQ(second.acAmplitude, 1.0);
    EXPECT_THROW(static_cast<void>(drivenSource(netlist, "VX")), std::runtime_error);
}

}  // namespace ohmwright::reference
