// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/commandline/called.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::answered;
using test::numberIn;
using test::rowsOf;
using test::rowWith;

const std::string job = test::harbourLampPath();

TEST(ResponseVerb, AgreesWithTheDemosFiguresForEveryPlan) {
    int tested = 0;
    for (const test::CsvRow& expected : test::referenceTable("harbour-lamp-figures.csv")) {
        const std::string& state = expected.at("state");
        const std::string& condition = expected.at("condition");
        const bool isPlan = state == "stock" || state.find_first_not_of("ABCD+") == std::string::npos;
        const bool onlyFrequency = condition.starts_with("hz=") && condition.find(';') == std::string::npos;
        if (expected.at("figure") != "response" || !isPlan || !onlyFrequency || expected.at("where") != "VSIG to out")
            continue;
        const auto rows = rowsOf(answered({"response", job, "--variant", state, "--at", condition.substr(3)}));
        ASSERT_EQ(rows.size(), 1U);
        EXPECT_NEAR(numberIn(rows[0], "magnitude_db"), std::stod(expected.at("value")),
                    std::stod(expected.at("tolerance")))
            << state << " " << condition;
        ++tested;
    }
    EXPECT_GE(tested, 100);
}

TEST(ResponseVerb, TheGridIsFromTimesTenToTheKOverN) {
    const auto rows = rowsOf(answered({"response", job, "--from", "100", "--to", "1k", "--per-decade", "4"}));
    ASSERT_EQ(rows.size(), 5U);
    for (std::size_t k = 0; k < rows.size(); ++k)
        EXPECT_NEAR(numberIn(rows[k], "frequency_hz"), 100.0 * std::pow(10.0, static_cast<double>(k) / 4.0), 1e-6);
}

TEST(ResponseVerb, UnaskedItCoversTheAudioRange) {
    const auto rows = rowsOf(answered({"response", job}));
    ASSERT_GE(rows.size(), 60U) << "three decades of at least 20 points";
    EXPECT_NEAR(numberIn(rows.front(), "frequency_hz"), 20.0, 1e-9);
    EXPECT_NEAR(numberIn(rows.back(), "frequency_hz"), 20000.0, 1e-6);
    for (const test::CsvRow& row : rows) EXPECT_LE(std::abs(numberIn(row, "phase_deg")), 180.0);
}

// What the unit does from the jack on is the gain from the pickup less the pickup's gain to the jack.
TEST(ResponseVerb, DrivenAtTheJackThePickupIsLeftOut) {
    const std::string at = "82.41,330,1000,5000";
    const auto whole = rowsOf(answered({"response", job, "--at", at}));
    const auto toJack = rowsOf(answered({"response", job, "--at", at, "--output", "in"}));
    const auto unit = rowsOf(answered({"response", job, "--at", at, "--set", "source=jack"}));
    ASSERT_EQ(unit.size(), 4U);
    for (std::size_t k = 0; k < unit.size(); ++k)
        EXPECT_NEAR(numberIn(unit[k], "magnitude_db"),
                    numberIn(whole[k], "magnitude_db") - numberIn(toJack[k], "magnitude_db"), 1e-6);
}

TEST(ResponseVerb, AFrequencyThatIsNoneIsRefused) {
    for (const char* at : {"0", "-3", "x", "1e999"})
        test::refused({"response", job, "--at", at}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "100", "--to", "50"}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "0"}, ExitStatus::callWrong);
    test::refused({"response", job, "--per-decade", "0"}, ExitStatus::callWrong);
    test::refused({"response", job, "--from", "1e-300", "--to", "1e300", "--per-decade", "10000"},
                  ExitStatus::callWrong);
}

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

}  // namespace
}  // namespace ohmwright
