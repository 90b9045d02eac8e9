// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/diode.h"

#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace ohmwright {
namespace {

/// Voltage at a current, by halving: the inverse of the law under test.
double voltsAt(const DiodeLaw& law, double amperes) {
    double low = 0.0;
    double high = 10.0;
    for (int k = 0; k < 200; ++k) {
        const double middle = (low + high) / 2.0;
        (law.current(middle).value < amperes ? low : high) = middle;
    }
    return low + amperes * law.seriesOhms();
}

TEST(Diode, ForwardVoltagesMatchThePublishedCards) {
    // diode_vf.csv: V = N Vt ln(I/IS + 1) + I RS, computed independently for published cards.
    const std::map<std::string, std::map<std::string, double>> cards{
        {"1N4148/1N914 (A", {{"IS", 2.52e-9}, {"N", 1.752}, {"RS", 0.568}}},
        {"1N4148 (B", {{"IS", 2.495e-9}, {"N", 1.679}, {"RS", 0.4755}}},
        {"1N4148 (D", {{"IS", 4.352e-9}, {"N", 1.906}, {"RS", 0.6458}}},
        {"1N34A", {{"IS", 200e-9}, {"N", 1.3}, {"RS", 7.0}}},
        {"1N5817", {{"IS", 31.7e-6}, {"N", 1.373}, {"RS", 0.051}}},
    };
    int compared = 0;
    for (const auto& row : test::referenceTable("diode_vf.csv")) {
        for (const auto& [name, parameters] : cards) {
            if (row.at("card").rfind(name, 0) != 0) {
                continue;
            }
            const DiodeLaw law({"", PartKind::diode, parameters, ""}, std::stod(row.at("T_K")));
            for (const auto& [column, text] : row) {
                if (column.rfind("VF@", 0) == 0) {
                    const double amperes = std::stod(column.substr(3));
                    EXPECT_NEAR(voltsAt(law, amperes), std::stod(text), 6e-6) << name << " " << column;
                    ++compared;
                }
            }
        }
    }
    EXPECT_GE(compared, 40);
}

TEST(Diode, ForwardVoltageFallsWithHeat) {
    // Card A without RS, XTI 3, EG 1.11, at 1 mA: 0 °C 0.6381286, 27 °C 0.5841717, 50 °C 0.5377106 V; computed
    // independently and reproduced with a general-purpose simulator.
    const Model card{"", PartKind::diode, {{"IS", 2.52e-9}, {"N", 1.752}, {"EG", 1.11}, {"XTI", 3.0}}, ""};
    EXPECT_NEAR(voltsAt(DiodeLaw(card, 273.15), 1e-3), 0.6381286, 5e-7);
    EXPECT_NEAR(voltsAt(DiodeLaw(card, 300.15), 1e-3), 0.5841717, 5e-7);
    EXPECT_NEAR(voltsAt(DiodeLaw(card, 323.15), 1e-3), 0.5377106, 5e-7);
}

TEST(Diode, ChargeIsDepletionAndTransit) {
    const DiodeLaw law({"", PartKind::diode, {{"IS", 1e-9}, {"CJO", 4e-12}, {"TT", 20e-9}}, ""}, 300.15);
    const double step = 1e-6;
    for (const double volts : {-3.0, 0.1, 0.45, 0.6}) {
        const double difference = (law.charge(volts + step).value - law.charge(volts - step).value) / (2.0 * step);
        EXPECT_NEAR(law.charge(volts).slope, difference, 1e-6 * difference);
    }
    // At 0 V only the zero-bias capacitance and TT times the slope of the current are left.
    EXPECT_NEAR(law.charge(0.0).slope, 4e-12 + 20e-9 * law.current(0.0).slope, 1e-20);
}

}  // namespace
}  // namespace ohmwright
