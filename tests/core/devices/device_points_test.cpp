// Laws with Berkeley cards against an independent circuit simulator, between the terminals, cold and hot.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/bipolar.h"
#include "core/devices/diode.h"
#include "core/devices/jfet.h"
#include "core/devices/mosfet.h"
#include "tests/core/devices/law_probe.h"
#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <sstream>

namespace ohmwright {
namespace {

/// A number as cards write it: 4.5, 6.7f, 54.4m.
double cardNumber(const std::string& text) {
    std::size_t end = 0;
    const double number = std::stod(text, &end);
    const std::map<std::string, double> suffixes{{"", 1.0},   {"f", 1e-15}, {"p", 1e-12},
                                                 {"n", 1e-9}, {"u", 1e-6},  {"m", 1e-3}};
    return number * suffixes.at(text.substr(end));
}

std::map<std::string, double> cardParameters(const std::string& text) {
    std::map<std::string, double> parameters;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        const std::size_t equals = word.find('=');
        std::string name = word.substr(0, equals);
        std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return char(std::toupper(c)); });
        parameters[name] = cardNumber(word.substr(equals + 1));
    }
    return parameters;
}

std::vector<double> numbers(const std::string& text) {
    std::vector<double> list;
    std::istringstream words(text);
    for (std::string word; std::getline(words, word, ';');) list.push_back(std::stod(word));
    return list;
}

double largest(const std::vector<double>& list) {
    double size = 0.0;
    for (const double value : list) size = std::max(size, std::abs(value));
    return size;
}

/// Compares one row. Tolerances: 2e-6 for the simulator's older constants and its convergence, and beside it a share of
/// the row's largest figure; in reverse 2e-17 A for its own smallest conductance.
template <class Law>
void compare(const test::CsvRow& row) {
    auto parameters = cardParameters(row.at("card"));
    parameters["POLARITY"] = std::stod(row.at("polarity"));
    const Law law =
        test::lawOf<Law>(parameters, std::stod(row.at("celsius")) + 273.15, cardParameters(row.at("device")));
    const test::Terminals found = test::terminalsOf(law, numbers(row.at("volts")));
    const std::string where =
        row.at("card") + " " + row.at("device") + " " + row.at("celsius") + " °C at " + row.at("volts");

    const std::vector<double> amperes = numbers(row.at("amperes"));
    const std::vector<double> siemens = numbers(row.at("siemens"));
    const std::vector<double> farads = numbers(row.at("farads"));
    const std::size_t pins = amperes.size();
    for (std::size_t pin = 0; pin < pins; ++pin) {
        EXPECT_NEAR(found.amperes[pin], amperes[pin], 1e-4 * std::abs(amperes[pin]) + 1e-9 * largest(amperes) + 2e-14)
            << where << ", current of pin " << pin;
        for (std::size_t by = 0; by < pins; ++by) {
            const double conductance = siemens[pin * pins + by];
            EXPECT_NEAR(found.siemens[pin][by], conductance,
                        1e-4 * std::abs(conductance) + 1e-7 * largest(siemens) + 1e-13)
                << where << ", conductance " << pin << " by " << by;
            const double capacitance = farads[pin * pins + by];
            EXPECT_NEAR(found.farads[pin][by], capacitance,
                        1e-4 * std::abs(capacitance) + 1e-5 * largest(farads) + 1e-20)
                << where << ", capacitance " << pin << " by " << by;
        }
    }
}

class DevicePoints : public testing::TestWithParam<const char*> {};

TEST_P(DevicePoints, AgreeWithAnIndependentSimulator) {
    const std::string kind = GetParam();
    int compared = 0;
    for (const auto& row : test::referenceTable("device_points.csv")) {
        if (row.at("kind") != kind) continue;
        ++compared;
        if (kind == "diode") compare<DiodeLaw>(row);
        if (kind == "bipolar") compare<BipolarLaw>(row);
        if (kind == "jfet") compare<JfetLaw>(row);
        if (kind == "mosfet") compare<MosfetLaw>(row);
    }
    EXPECT_GE(compared, 35);
}

INSTANTIATE_TEST_SUITE_P(EveryKind, DevicePoints, testing::Values("diode", "bipolar", "jfet", "mosfet"),
                         [](const auto& each) { return std::string(each.param); });

}  // namespace
}  // namespace ohmwright
