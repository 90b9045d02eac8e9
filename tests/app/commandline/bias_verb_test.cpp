// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string job = test::harbourLampPath();

TEST(BiasVerb, AgreesWithTheDemosFigures) {
    const auto tables = test::tablesOf(answered({"bias", job}));
    ASSERT_EQ(tables.size(), 2U);
    int tested = 0;
    for (const test::CsvRow& expected : test::referenceTable("harbour-lamp-figures.csv")) {
        if (expected.at("state") != "stock" || expected.at("figure") != "bias" || !expected.at("condition").empty())
            continue;
        EXPECT_NEAR(numberIn(rowWith(tables[0], "node", expected.at("where")), "voltage_v"),
                    std::stod(expected.at("value")), std::stod(expected.at("tolerance")))
            << expected.at("where");
        ++tested;
    }
    EXPECT_EQ(tested, 20);
}

TEST(BiasVerb, TheSupplyCurrentLeavesTheBattery) {
    const double milliamperes = test::expectedFigure("stock", "supply_current", "VBAT", "");
    const auto tables = test::tablesOf(answered({"bias", job}));
    ASSERT_EQ(tables.size(), 2U);
    for (const test::CsvRow& row : tables[1])
        if (row.at("part") == "VBAT" && row.at("terminal") == "plus") {
            EXPECT_NEAR(numberIn(row, "current_a"), -milliamperes / 1000.0, 2e-5);
            return;
        }
    FAIL() << "no current of VBAT";
}

TEST(BiasVerb, CurrentsIntoEveryPartSumToNothing) {
    const auto tables = test::tablesOf(answered({"bias", job}));
    ASSERT_EQ(tables.size(), 2U);
    std::map<std::string, double> sums;
    for (const test::CsvRow& row : tables[1]) sums[row.at("part")] += numberIn(row, "current_a");
    ASSERT_GE(sums.size(), 30U);
    for (const auto& [part, amperes] : sums) EXPECT_NEAR(amperes, 0.0, 1e-9) << part;
}

TEST(BiasVerb, ALowerBatteryLowersTheBias) {
    const auto nodes = rowsOf(answered({"bias", job, "--set", "battery=7.2"}));
    EXPECT_NEAR(numberIn(rowWith(nodes, "node", "vb"), "voltage_v"),
                test::expectedFigure("stock", "bias", "vb", "battery_v=7.2"), 0.0018);
}

TEST(BiasVerb, OfADividerIsOhmsLaw) {
    const test::ScratchFolder folder;
    const std::string csv = answered({"bias", folder.write("divider.cir", test::netlists::divider)});
    EXPECT_EQ(csv.substr(0, csv.find('\n')), "node,voltage_v");
    const auto tables = test::tablesOf(csv);
    ASSERT_EQ(tables.size(), 2U);
    ASSERT_EQ(tables[0].size(), 2U) << "ground is not listed";
    EXPECT_EQ(tables[0][0].at("node"), "in");
    EXPECT_NEAR(numberIn(tables[0][0], "voltage_v"), 10.0, 1e-9);
    EXPECT_NEAR(numberIn(tables[0][1], "voltage_v"), 4.0, 1e-9);
    ASSERT_EQ(tables[1].size(), 6U);
    EXPECT_EQ(tables[1][0].at("part"), "VIN");
    EXPECT_NEAR(numberIn(tables[1][0], "current_a"), -1e-3, 1e-12) << "out of the plus of a battery that feeds";
    EXPECT_NEAR(numberIn(rowWith(tables[1], "part", "R2"), "current_a"), 1e-3, 1e-12);
}

// Every row of the published table: a source, 1 kOhm or more, and a diode to ground.
TEST(BiasVerb, OfAResistorAndADiodeAgreesWithThePublishedPoints) {
    const test::ScratchFolder folder;
    int tested = 0;
    for (const test::CsvRow& point : test::referenceTable("diode_clipper_points.csv")) {
        // Far in reverse the diode law falls short of IS by up to 5e-5, the table's does not.
        if (point.at("circuit") != "single" || std::stod(point.at("V_source")) < 0.0) continue;
        const std::string file =
            folder.write("clipper.cir", "clipper\nVIN in 0 DC " + point.at("V_source") + " AC 1\nR1 in out " +
                                            point.at("R_ohm") + "\nD1 out 0 DX\n.model DX D(IS=" + point.at("IS_A") +
                                            " N=" + point.at("N") + ")\n.end\n");
        const auto nodes = rowsOf(answered({"bias", file}));
        const double volts = std::stod(point.at("v_out"));
        // The conductance of 1e-12 S across the junction is not in the table.
        const double leak = 1e-12 * std::stod(point.at("R_ohm")) * std::abs(volts);
        EXPECT_NEAR(numberIn(rowWith(nodes, "node", "out"), "voltage_v"), volts, leak + 1e-9) << point.at("V_source");
        ++tested;
    }
    EXPECT_GE(tested, 5);
}

TEST(BiasVerb, ACallIsAPartWithItsPins) {
    const test::ScratchFolder folder;
    const auto tables = test::tablesOf(answered({"bias", folder.write("called.cir", test::netlists::called)}));
    ASSERT_EQ(tables.size(), 2U);
    ASSERT_EQ(tables[0].size(), 3U) << "in, mid, out and no net from inside the call";
    std::map<std::string, double> pins;
    for (const test::CsvRow& row : tables[1]) {
        EXPECT_EQ(row.at("part").find("X1."), std::string::npos) << "parts inside the call are not listed";
        if (row.at("part") == "X1") pins[row.at("terminal")] = numberIn(row, "current_a");
    }
    ASSERT_EQ(pins.size(), 3U);
    EXPECT_NEAR(pins.at("a"), 1e-3, 1e-12);
    EXPECT_NEAR(pins.at("b"), -1e-3, 1e-12);
    EXPECT_NEAR(pins.at("o"), 0.0, 1e-12) << "nothing is connected there";
}

TEST(BiasVerb, ACurrentSourceCarriesItsOwnCurrentInsideACallToo) {
    const test::ScratchFolder folder;
    const auto tables = test::tablesOf(
        answered({"bias", folder.write("drain.cir",
                                       "drain\nVB bat 0 9\nI1 bat 0 2m\nX1 bat 0 DRAIN\n.subckt DRAIN p n\nIQ p n "
                                       "1.4m\nRQ p n 9k\n.ends\n.end\n")}));
    ASSERT_EQ(tables.size(), 2U);
    std::map<std::string, double> currents;
    for (const test::CsvRow& row : tables[1])
        currents[row.at("part") + " " + row.at("terminal")] = numberIn(row, "current_a");
    EXPECT_NEAR(currents.at("I1 from"), 2e-3, 1e-12);
    EXPECT_NEAR(currents.at("I1 to"), -2e-3, 1e-12);
    EXPECT_NEAR(currents.at("X1 p"), 2.4e-3, 1e-12);
    EXPECT_NEAR(currents.at("X1 n"), -2.4e-3, 1e-12);
    EXPECT_NEAR(currents.at("VB plus"), -4.4e-3, 1e-12);
}

TEST(BiasVerb, CallsWhoseNamesBeginAlikeKeepTheirCurrentsApart) {
    // Once the call "X1" took the currents of the call "X1.a" for its own.
    const test::ScratchFolder folder;
    const auto tables = test::tablesOf(
        answered({"bias", folder.write("alike.cir",
                                       "alike\nV1 a 0 1\nX1 a 0 ONE\nX1.a a 0 TWO\n.subckt ONE p q\nR1 p q 1k\n.ends\n"
                                       ".subckt TWO p q\nR1 p q 2k\n.ends\n.end\n")}));
    ASSERT_EQ(tables.size(), 2U);
    std::map<std::string, double> currents;
    for (const test::CsvRow& row : tables[1])
        currents[row.at("part") + " " + row.at("terminal")] = numberIn(row, "current_a");
    EXPECT_NEAR(currents.at("X1 p"), 1e-3, 1e-12);
    EXPECT_NEAR(currents.at("X1.a p"), 0.5e-3, 1e-12);
}

TEST(BiasVerb, AFollowersOutputHasItsCurrentBesideTheInputOnItsNet) {
    // Two pins of one call on one net: the second's current was left empty. 5 V behind 1 kΩ, into 1 kΩ outside: 2.5 mA
    // leave the output; the inverting input takes 5 V / 1 MΩ. The same one call deeper.
    const test::ScratchFolder folder;
    for (const std::string call : {"X1 in out out FOLLOWS\n", "X1 in out out WRAPPED\n"}) {
        const auto tables = test::tablesOf(answered(
            {"bias", folder.write("follower.cir", "follower\nVIN in 0 5\nRL out 0 1k\n" + call +
                                                      ".subckt WRAPPED p n o\nX2 p n o FOLLOWS\n.ends\n"
                                                      ".subckt FOLLOWS plus minus o\nE1 s 0 plus 0 1\nR1 s o 1k\n"
                                                      "R2 minus 0 1meg\nR3 plus 0 1meg\n.ends\n.end\n")}));
        ASSERT_EQ(tables.size(), 2U);
        std::vector<double> amperes;
        for (const test::CsvRow& row : tables[1])
            if (row.at("part") == "X1") amperes.push_back(numberIn(row, "current_a"));
        ASSERT_EQ(amperes.size(), 3U) << call;
        const double volts = 5.0 / (1.0 + 1e3 / 1e3 + 1e3 / 1e6);
        EXPECT_NEAR(amperes[0], 5e-6, 1e-11) << call;
        EXPECT_NEAR(amperes[1], volts / 1e6, 1e-11) << call;
        EXPECT_NEAR(amperes[2], -(volts / 1e3 + volts / 1e6), 1e-9) << call;
    }
}

TEST(BiasVerb, AGroundInsideACallIsNoneOfItsPins) {
    // Inside, 1 kΩ on the pin "low" and 1 kΩ on ground itself both end on net 0: only the first current, 1 V / 1 kΩ,
    // goes through the pin. The call takes both at "high".
    const test::ScratchFolder folder;
    const auto tables = test::tablesOf(answered({"bias", folder.write("ground.cir",
                                                                      "ground\nVIN in 0 1\nX1 in 0 BOTH\n"
                                                                      ".subckt BOTH high low\nR1 high low 1k\n"
                                                                      "R2 high 0 1k\n.ends\n.end\n")}));
    ASSERT_EQ(tables.size(), 2U);
    std::map<std::string, double> currents;
    for (const test::CsvRow& row : tables[1])
        currents[row.at("part") + " " + row.at("terminal")] = numberIn(row, "current_a");
    EXPECT_NEAR(currents.at("X1 high"), 2e-3, 1e-12);
    EXPECT_NEAR(currents.at("X1 low"), -1e-3, 1e-12);
}

TEST(BiasVerb, NeedsNeitherInputNorOutput) {
    const test::ScratchFolder folder;
    const std::string file = folder.write("battery.cir", "battery\nVB bat 0 9\nR1 bat 0 9k\n.end\n");
    EXPECT_NEAR(numberIn(rowsOf(answered({"bias", file})).at(0), "voltage_v"), 9.0, 1e-9);
    test::refused({"bias", file, "--output", "nowhere"}, ExitStatus::callWrong);
    test::refused({"bias", file, "--input", "V9"}, ExitStatus::callWrong);
}

}  // namespace
}  // namespace ohmwright
