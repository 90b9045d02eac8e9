// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/formula_tape.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

std::string letters(int index) {
    return {char('a' + index)};
}

TEST(FormulaTape, SlopesAddOverEveryWayFromAVariable) {
    // x*y + x, where x is read twice: d/dx = y + 1, d/dy = x.
    const std::vector<FormulaStep> steps{{Operation::variable, 0},
                                         {Operation::variable, 1},
                                         {Operation::multiply, 0, 1},
                                         {Operation::variable, 0},
                                         {Operation::add, 2, 3}};
    std::vector<double> slopes(2);
    EXPECT_EQ(tapeValueAndSlopes(steps, std::vector<double>{3.0, 5.0}, slopes), 18.0);
    EXPECT_EQ(slopes, (std::vector<double>{6.0, 3.0}));
    EXPECT_EQ(tapeValue(steps, std::vector<double>{3.0, 5.0}), 18.0);
    EXPECT_EQ(tapeText(steps, letters), "a*b+a");
}

TEST(FormulaTape, AVariableThatIsNotReachedHasNoSlope) {
    const std::vector<FormulaStep> steps{{Operation::variable, 0}};
    std::vector<double> slopes(2, 9.0);
    tapeValueAndSlopes(steps, std::vector<double>{3.0, 5.0}, slopes);
    EXPECT_EQ(slopes, (std::vector<double>{1.0, 0.0}));
}

TEST(FormulaTape, AWeightOfNothingCarriesNoInfinity) {
    // 0 * sqrt(x) at 0: the chord's slope times 0.
    const std::vector<FormulaStep> steps{
        {Operation::number, -1, -1, 0.0}, {Operation::variable, 0}, {Operation::sqrt, 1}, {Operation::multiply, 0, 2}};
    std::vector<double> slopes(1);
    tapeValueAndSlopes(steps, std::vector<double>{0.0}, slopes);
    EXPECT_EQ(slopes[0], 0.0);
}

TEST(FormulaTape, EveryFunctionIsWrittenByItsName) {
    for (const FormulaFunction& function : formulaFunctions()) {
        std::vector<FormulaStep> steps{{Operation::variable, 0}};
        if (function.arguments == 2) {
            steps.push_back({Operation::variable, 1});
        }
        steps.push_back({function.operation, 0, function.arguments == 2 ? 1 : -1});
        const std::string text = tapeText(steps, letters);
        // log is ln and arctan is atan; all else goes by the name it has.
        if (function.name != "log" && function.name != "arctan") {
            EXPECT_EQ(text, std::string(function.name) + (function.arguments == 2 ? "(a,b)" : "(a)"));
        }
    }
}

TEST(FormulaTape, AResultOfAStepIsTheFunction) {
    EXPECT_EQ(resultOf({Operation::signedPower, 0, 1}, -2.0, 3.0), -8.0);
    EXPECT_EQ(resultOf({Operation::power, 0, 1}, -2.0, 3.0), 8.0);
    EXPECT_EQ(resultOf({Operation::wholePower, 0, -1, 3.0}, -2.0, 0.0), -8.0);
    EXPECT_EQ(resultOf({Operation::wholePower, 0, -1, 21.0}, -2.0, 0.0), -2097152.0);
    EXPECT_NEAR(resultOf({Operation::softplus, 0}, -40.0, 0.0), 4.248354255291589e-18, 1e-32);  // e^-40
    EXPECT_TRUE(std::isnan(resultOf({Operation::divide, 0, 1}, 1.0, 0.0)));
}

}  // namespace
}  // namespace ohmwright
