// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/expression.h"

#include <gtest/gtest.h>

#include <atomic>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <functional>
#include <limits>
#include <numbers>
#include <random>
#include <string>
#include <thread>
#include <vector>

namespace ohmwright {
namespace {

Expression parsed(const std::string& text, const std::map<std::string, double>& parameters = {}) {
    Result<Expression> expression = Expression::parse(text, parameters);
    if (!expression) {
        ADD_FAILURE() << text << ": " << expression.error().message;
        return *Expression::parse("0");
    }
    return *expression;
}

double valueOf(const std::string& text, const std::vector<double>& variables = {}) {
    return parsed(text).value(variables);
}

struct Point {
    double value = 0.0;
    std::vector<double> slopes;
};

Point at(const Expression& expression, const std::vector<double>& variables) {
    Point point{0.0, std::vector<double>(variables.size())};
    point.value = expression.valueAndSlopes(variables, point.slopes);
    return point;
}

std::uint64_t bits(double number) {
    std::uint64_t pattern = 0;
    std::memcpy(&pattern, &number, sizeof pattern);
    return pattern;
}

/// A formula of chance beside the same formula in C++: what it must be.
struct Grown {
    std::string text;
    std::function<double(const std::vector<double>&)> means;
};

class Garden {
public:
    explicit Garden(unsigned seed) : m_engine(seed) {}

    double share() { return double(m_engine()) / 4294967296.0; }
    int below(int count) { return int(m_engine() % unsigned(count)); }

    /// Everything that it grows is smooth, and has numbers, for variables between 0.2 and 1.5.
    Grown grow(int depth, int variables) {
        if (depth == 0) {
            return below(3) == 0 ? number() : variable(variables);
        }
        const Grown a = grow(depth - 1, variables);
        switch (below(14)) {
            case 0:
            case 1:
                return both(a, grow(depth - 1, variables), "+", [](double x, double y) { return x + y; });
            case 2:
                return both(a, grow(depth - 1, variables), "-", [](double x, double y) { return x - y; });
            case 3:
            case 4:
                return both(a, grow(depth - 1, variables), "*", [](double x, double y) { return x * y; });
            case 5: {
                const Grown b = grow(depth - 1, variables);
                const Grown safe{"(2+(" + b.text + ")**2)",
                                 [b](const auto& v) { return 2.0 + std::pow(b.means(v), 2); }};
                return both(a, safe, "/", [](double x, double y) { return x / y; });
            }
            case 6:
                return of(a, "tanh(", ")", [](double x) { return std::tanh(x); });
            case 7:
                return of(a, "exp(tanh(", "))", [](double x) { return std::exp(std::tanh(x)); });
            case 8:
                return of(a, "ln(1+exp(tanh(", ")))", [](double x) { return std::log(1.0 + std::exp(std::tanh(x))); });
            case 9:
                return of(a, "sqrt(1+(", ")^2)", [](double x) { return std::sqrt(1.0 + x * x); });
            case 10:
                return of(a, "-(", ")", [](double x) { return -x; });
            case 11:
                return of(a, "sin(", ")", [](double x) { return std::sin(x); });
            case 12:
                return of(a, "atan(", ")", [](double x) { return std::atan(x); });
            default: {
                const Grown b = grow(depth - 1, variables);
                return {"(1.5+sin(" + a.text + "))**(" + b.text + ")/(1+abs(3+cos(" + b.text + ")))",
                        [a, b](const auto& v) {
                            return std::pow(1.5 + std::sin(a.means(v)), b.means(v)) /
                                   (1.0 + std::abs(3.0 + std::cos(b.means(v))));
                        }};
            }
        }
    }

private:
    Grown number() {
        const int tenths = 1 + below(40);
        return {std::to_string(tenths) + "e-1", [tenths](const auto&) { return double(tenths) / 10.0; }};
    }
    Grown variable(int variables) {
        const std::size_t which = std::size_t(below(variables));
        const std::string name(1, char('a' + int(which)));
        return {"v(" + name + ")", [which](const auto& v) { return v[which]; }};
    }
    static Grown both(const Grown& a, const Grown& b, const std::string& sign, double (*join)(double, double)) {
        return {"(" + a.text + ")" + sign + "(" + b.text + ")",
                [a, b, join](const auto& v) { return join(a.means(v), b.means(v)); }};
    }
    static Grown of(const Grown& a, const std::string& before, const std::string& after, double (*act)(double)) {
        return {before + a.text + after, [a, act](const auto& v) { return act(a.means(v)); }};
    }

    std::mt19937 m_engine;
};

/// The values of the variables that a formula reads, in its order, from those of a, b, c.
std::vector<double> inOrder(const Expression& expression, const std::vector<double>& all) {
    std::vector<double> values;
    for (const LawVariable& variable : expression.variables()) {
        values.push_back(all[std::size_t(variable.first[0] - 'a')]);
    }
    return values;
}

TEST(Expression, FormulasOfChanceGiveWhatTheyMean) {
    Garden garden(20);
    for (int round = 0; round < 3000; ++round) {
        const Grown grown = garden.grow(1 + garden.below(4), 3);
        const Expression expression = parsed(grown.text);
        const std::vector<double> all{0.2 + 1.3 * garden.share(), 0.2 + 1.3 * garden.share(),
                                      0.2 + 1.3 * garden.share()};
        const double expected = grown.means(all);
        const std::vector<double> values = inOrder(expression, all);
        EXPECT_NEAR(expression.value(values), expected, 1e-12 * (1.0 + std::abs(expected))) << grown.text;
        EXPECT_NEAR(at(expression, values).value, expected, 1e-12 * (1.0 + std::abs(expected))) << grown.text;
    }
}

/// d f / d v by central differences at two steps, extrapolated (Richardson): error of the order of step^4.
double differenceQuotient(const Expression& expression, std::vector<double> values, std::size_t which) {
    const auto quotient = [&](double step) {
        std::vector<double> up = values;
        std::vector<double> down = values;
        up[which] += step;
        down[which] -= step;
        return (expression.value(up) - expression.value(down)) / (up[which] - down[which]);
    };
    constexpr double step = 1e-4;
    return (4.0 * quotient(step / 2) - quotient(step)) / 3.0;
}

TEST(Expression, SlopesOfFormulasOfChanceAreTheirDifferenceQuotients) {
    Garden garden(21);
    int compared = 0;
    for (int round = 0; round < 2000; ++round) {
        const Grown grown = garden.grow(1 + garden.below(4), 3);
        const Expression expression = parsed(grown.text);
        const std::vector<double> all{0.2 + 1.3 * garden.share(), 0.2 + 1.3 * garden.share(),
                                      0.2 + 1.3 * garden.share()};
        const std::vector<double> values = inOrder(expression, all);
        const Point point = at(expression, values);
        for (std::size_t k = 0; k < values.size(); ++k) {
            const double expected = differenceQuotient(expression, values, k);
            const double scale = 1.0 + std::abs(point.value) + std::abs(expected);
            if (std::abs(expected) > 1e6) {
                continue;  // A tower of powers: the quotient itself has no digits left.
            }
            EXPECT_NEAR(point.slopes[k], expected, 1e-8 * scale) << grown.text << " by " << k;
            ++compared;
        }
    }
    EXPECT_GT(compared, 2500);
}

struct SlopeRow {
    const char* text;
    double x;
    double value;
    double slope;
};

// By hand, from the table of derivatives.
TEST(Expression, SlopesOfEachFunctionAreThoseOfTheTables) {
    const SlopeRow rows[] = {
        {"exp(v(a))", 1.0, std::numbers::e, std::numbers::e},
        {"ln(v(a))", 2.0, std::numbers::ln2, 0.5},
        {"log(v(a))", 4.0, 2.0 * std::numbers::ln2, 0.25},
        {"log10(v(a))", 100.0, 2.0, 0.01 * std::numbers::log10e},
        {"sqrt(v(a))", 9.0, 3.0, 1.0 / 6.0},
        {"abs(v(a))", -3.0, 3.0, -1.0},
        {"tanh(v(a))", 0.5, 0.46211715726000975, 1.0 - 0.46211715726000975 * 0.46211715726000975},
        {"sin(v(a))", std::numbers::pi / 6, 0.5, std::numbers::sqrt3 / 2},
        {"cos(v(a))", std::numbers::pi / 3, 0.5, -std::numbers::sqrt3 / 2},
        {"tan(v(a))", std::numbers::pi / 4, 1.0, 2.0},
        {"atan(v(a))", 1.0, std::numbers::pi / 4, 0.5},
        {"arctan(v(a))", 1.0, std::numbers::pi / 4, 0.5},
        {"sinh(v(a))", std::numbers::ln2, 0.75, 1.25},
        {"cosh(v(a))", std::numbers::ln2, 1.25, 0.75},
        {"sgn(v(a))", -0.1, -1.0, 0.0},
        {"u(v(a))", 0.1, 1.0, 0.0},
        {"min(v(a),1)", 2.0, 1.0, 0.0},
        {"max(v(a),1)", 2.0, 2.0, 1.0},
        {"v(a)**3", -2.0, -8.0, 12.0},
        {"v(a)^-2", -2.0, 0.25, 0.25},
        {"v(a)**1.5", 4.0, 8.0, 3.0},
        {"2**v(a)", 3.0, 8.0, 8.0 * std::numbers::ln2},
        {"pow(v(a),10)", 2.0, 1024.0, 5120.0},
        {"pwr(v(a),2)", -3.0, -9.0, 6.0},
        {"pwr(v(a),1.5)", 4.0, 8.0, 3.0},
        {"1/v(a)", 4.0, 0.25, -0.0625},
        {"ln(1+exp(v(a)))", 0.0, std::numbers::ln2, 0.5},
        {"ln(exp(v(a))+1)", 300.0, 300.0, 1.0},
    };
    for (const SlopeRow& row : rows) {
        const Point point = at(parsed(row.text), {row.x});
        EXPECT_NEAR(point.value, row.value, 4e-15 * std::abs(row.value)) << row.text;
        EXPECT_NEAR(point.slopes[0], row.slope, 4e-15 * std::abs(row.slope)) << row.text;
        EXPECT_NEAR(valueOf(row.text, {row.x}), row.value, 4e-15 * std::abs(row.value)) << row.text;
    }
}

TEST(Expression, IdentitiesHold) {
    std::mt19937 engine(7);
    const Expression identities[] = {
        parsed("sin(v(a))**2+cos(v(a))**2-1"),
        parsed("cosh(v(a))^2-sinh(v(a))^2-1"),
        parsed("tanh(v(a))-sinh(v(a))/cosh(v(a))"),
        parsed("exp(ln(v(a)))/v(a)-1"),
        parsed("sqrt(v(a))**2/v(a)-1"),
        parsed("log10(v(a))*ln(10)-ln(v(a))"),
        parsed("pow(v(a),2.5)/(v(a)*v(a)*sqrt(v(a)))-1"),
        parsed("max(v(a),1)+min(v(a),1)-v(a)-1"),
        parsed("tan(atan(v(a)))/v(a)-1"),
    };
    for (int round = 0; round < 200; ++round) {
        const double x = 0.05 + 2.5 * double(engine()) / 4294967296.0;
        for (const Expression& identity : identities) {
            const Point point = at(identity, {x});
            EXPECT_NEAR(point.value, 0.0, 2e-13) << identity.text() << " at " << x;
            EXPECT_NEAR(point.slopes[0], 0.0, 1e-11) << identity.text() << " at " << x;
        }
    }
}

TEST(Expression, PowersAreThoseOfAlgebra) {
    EXPECT_EQ(valueOf("(-2)**3"), -8.0);
    EXPECT_EQ(valueOf("(-2)^2"), 4.0);
    EXPECT_EQ(valueOf("v(a)**3", {-2.0}), -8.0);
    EXPECT_EQ(valueOf("v(a)**-3", {-2.0}), -0.125);
    EXPECT_EQ(valueOf("0**0"), 1.0);
    EXPECT_EQ(valueOf("v(a)**0", {0.0}), 1.0);
    // An exponent that is not whole, or not fixed, takes the magnitude.
    EXPECT_FALSE(Expression::parse("(-4)**1.5").hasValue());
    EXPECT_DOUBLE_EQ(valueOf("v(a)**1.5", {-4.0}), 8.0);
    EXPECT_DOUBLE_EQ(valueOf("v(a)**v(b)", {-2.0, 3.0}), 8.0);
    EXPECT_DOUBLE_EQ(valueOf("pwr(v(a),3)", {-2.0}), -8.0);
    EXPECT_DOUBLE_EQ(valueOf("pwr(-2,2)"), -4.0);
}

TEST(Expression, SlopesAtBaseZeroAreFinite) {
    for (const char* text : {"v(a)**2", "v(a)**3", "v(a)**1", "v(a)**0", "v(a)**1.4", "v(a)**0.5", "sqrt(v(a))",
                             "v(a)**v(b)", "pwr(v(a),0.5)", "max(v(a),0)**1.5", "v(a)**-1", "1/v(a)", "ln(v(a))"}) {
        const Expression expression = parsed(text);
        const Point point = at(expression, std::vector<double>(expression.variables().size(), 0.0));
        EXPECT_TRUE(std::isfinite(point.value)) << text;
        for (const double slope : point.slopes) {
            EXPECT_TRUE(std::isfinite(slope)) << text;
        }
    }
    EXPECT_EQ(at(parsed("v(a)**2"), {0.0}).slopes[0], 0.0);
    EXPECT_EQ(at(parsed("v(a)**1"), {0.0}).slopes[0], 1.0);
    EXPECT_EQ(at(parsed("v(a)**1.4"), {0.0}).slopes[0], 0.0);
}

TEST(Expression, WhatHasNoNumberIsNone) {
    for (const char* text : {"ln(v(a))", "log10(v(a))", "sqrt(v(a))", "ln(v(a)-v(a))", "1/(v(a)-v(a))",
                             "(v(a)-v(a))**-1", "(v(a)-v(a))**-0.5", "pwr(v(a)-v(a),-1)"}) {
        EXPECT_FALSE(std::isfinite(valueOf(text, {-1.0}))) << text;
    }
}

TEST(Expression, NewtonIsGivenAContinuousFormulaEverywhere) {
    struct Edge {
        const char* text;
        double x;
        double step;
        double jump;  ///< The value may move by this between x - step and x + step.
    };
    const Edge edges[] = {{"exp(v(a))", 80.0, 1e-9, 1.2e26},     {"sinh(v(a))", -80.0, 1e-9, 6e25},
                          {"cosh(v(a))", -80.0, 1e-9, 6e25},     {"ln(v(a))", 1e-30, 1e-36, 3e-6},
                          {"log10(v(a))", 1e-30, 1e-36, 1.5e-6}, {"sqrt(v(a))", 1e-24, 1e-30, 3e-18},
                          {"sqrt(v(a))", 0.0, 1e-30, 2e-18},     {"v(a)**0.5", 1e-24, 1e-30, 3e-18},
                          {"v(a)**-1", 1e-30, 1e-36, 3e24},      {"2/v(a)", 1e-30, 1e-36, 6e24}};
    for (const Edge& edge : edges) {
        const Expression expression = parsed(edge.text);
        const double below = at(expression, {edge.x - edge.step}).value;
        const double above = at(expression, {edge.x + edge.step}).value;
        EXPECT_LE(std::abs(above - below), edge.jump) << edge.text;
    }
    EXPECT_EQ(at(parsed("sqrt(v(a))"), {-1.0}).value, 0.0);
    EXPECT_EQ(at(parsed("sqrt(v(a))"), {-1.0}).slopes[0], 0.0);
    // The tangent at 80: e^80 (1 + (x - 80)).
    EXPECT_DOUBLE_EQ(at(parsed("exp(v(a))"), {100.0}).value, 21.0 * std::exp(80.0));
    EXPECT_DOUBLE_EQ(at(parsed("exp(v(a))"), {1e6}).slopes[0], std::exp(80.0));
    EXPECT_DOUBLE_EQ(at(parsed("ln(v(a))"), {-1.0}).slopes[0], 1e30);
}

TEST(Expression, SlopesBeyondTheEdgesAreThoseOfWhatIsGiven) {
    const char* texts[] = {"exp(v(a))", "sinh(v(a))", "cosh(v(a))", "ln(1+exp(v(a)))"};
    for (const char* text : texts) {
        const Expression expression = parsed(text);
        for (const double x : {-300.0, -90.0, 95.0, 400.0}) {
            const Point point = at(expression, {x});
            const double h = 1e-3;
            const double quotient = (at(expression, {x + h}).value - at(expression, {x - h}).value) / (2.0 * h);
            EXPECT_NEAR(point.slopes[0], quotient, 1e-9 * (1.0 + std::abs(quotient))) << text << " at " << x;
        }
    }
}

// A tone x sin(t) through a corner with the slopes p and q has the fundamental x (p + q)/2: half of each half wave.
// abs once had the gain 1 at 0, where a full-wave rectifier gives nothing at the tone.
TEST(Expression, KinksHaveTheMeanSlopeOfBothSides) {
    EXPECT_EQ(at(parsed("abs(v(a))"), {0.0}).slopes[0], 0.0);
    EXPECT_EQ(at(parsed("max(v(a),0)"), {0.0}).slopes[0], 0.5);
    EXPECT_EQ(at(parsed("min(v(a),0)"), {0.0}).slopes[0], 0.5);
    const Point least = at(parsed("min(v(a),3*v(b))"), {3.0, 1.0});
    EXPECT_EQ(least.slopes[0], 0.5);
    EXPECT_EQ(least.slopes[1], 1.5);
    EXPECT_EQ(at(parsed("u(v(a))"), {0.0}).value, 0.5);
    EXPECT_EQ(at(parsed("sgn(v(a))"), {0.0}).value, 0.0);
}

// A source of sqrt(v) at rest at 0 V had a gain of 240 dB, which was the slope of the chord that Newton goes by.
TEST(Expression, KnowsWhereASlopeIsInfinite) {
    const auto steep = [](const char* text, const std::vector<double>& variables) {
        return parsed(text).steepFunctionAt(variables);
    };
    EXPECT_EQ(steep("sqrt(v(a))", {0.0}), "sqrt");
    EXPECT_EQ(steep("1+2*sqrt(3*v(a)-6)", {2.0}), "sqrt");
    EXPECT_EQ(steep("v(a)**0.5", {0.0}), "pow");
    EXPECT_EQ(steep("pow(v(a),v(b))", {0.0, 0.3}), "pow");
    EXPECT_EQ(steep("pwr(v(a),1/3)", {0.0}), "pwr");
    EXPECT_EQ(steep("sgn(v(a))", {0.0}), "sgn");
    EXPECT_EQ(steep("u(v(a)-1)", {1.0}), "u");
    // Finite all the same: beside the edge, or reached by nothing that moves, or handed on by a factor of 0.
    EXPECT_EQ(steep("sqrt(v(a))", {1e-9}), "");
    EXPECT_EQ(steep("sqrt(v(a)**2)", {0.0}), "");
    EXPECT_EQ(steep("v(a)*sqrt(v(a))", {0.0}), "");
    EXPECT_EQ(steep("v(a)**1.5+pwr(v(a),1)", {0.0}), "");
    EXPECT_EQ(steep("u(v(a))*v(a)", {0.0}), "");
    EXPECT_EQ(steep("abs(v(a))+max(v(a),0)", {0.0}), "");
}

TEST(Expression, NamesEachVariableOnceInTheOrderOfMention) {
    const Expression expression = parsed("v(out)*i(Vin)+V(a, b)-v(out)+v(a)+i(VIN)*v(n+)");
    const std::vector<LawVariable> expected{
        {LawVariable::What::voltage, "out", "0"}, {LawVariable::What::current, "Vin", ""},
        {LawVariable::What::voltage, "a", "b"},   {LawVariable::What::voltage, "a", "0"},
        {LawVariable::What::current, "VIN", ""},  {LawVariable::What::voltage, "n+", "0"}};
    EXPECT_EQ(expression.variables(), expected);
}

TEST(Expression, ParametersArePutIn) {
    const std::map<std::string, double> parameters{{"mu", 100.0}, {"kp", 600.0}, {"pi", 3.0}};
    EXPECT_EQ(parsed("v(a)*{MU}+Kp", parameters).value(std::vector<double>{2.0}), 800.0);
    EXPECT_EQ(parsed("pi", parameters).value({}), 3.0);
    EXPECT_EQ(parsed("PI").value({}), std::numbers::pi);
}

// The formula of a triode as it stands in a netlist, against the same law written out in C++.
TEST(Expression, ReadsTheLawOfAValve) {
    const std::map<std::string, double> card{{"mu", 100}, {"ex", 1.4}, {"kg1", 1060}, {"kp", 600}, {"kvb", 300}};
    const Expression inner = parsed("v(a,k)/{KP}*ln(1+exp({KP}*(1/{MU}+v(g,k)/sqrt({KVB}+v(a,k)*v(a,k)))))", card);
    const Expression current = parsed("2*(max(v(e1),0)^{EX})/{KG1}", card);
    const auto law = [](double anode, double grid) {
        return anode / 600.0 * std::log1p(std::exp(600.0 * (0.01 + grid / std::sqrt(300.0 + anode * anode))));
    };
    const double e1 = inner.value(std::vector<double>{150.0, -1.2});
    EXPECT_NEAR(e1, law(150.0, -1.2), 1e-13 * e1);
    EXPECT_NEAR(current.value(std::vector<double>{e1}), 2.0 * std::pow(e1, 1.4) / 1060.0, 1e-17);
    EXPECT_EQ(current.value(std::vector<double>{-1.0}), 0.0);
    // A grid driven far positive: the exponent is beyond 80, and the law still has its value.
    const std::vector<double> driven{20.0, 8.0};
    EXPECT_NEAR(at(inner, driven).value, 20.0 * (0.01 + 8.0 / std::sqrt(700.0)), 1e-12);
}

TEST(Expression, TextIsReadBackBitForBit) {
    Garden garden(22);
    for (int round = 0; round < 2000; ++round) {
        const Expression expression = parsed(garden.grow(1 + garden.below(5), 3).text);
        const Expression again = parsed(expression.text());
        ASSERT_EQ(again.variables(), expression.variables()) << expression.text();
        ASSERT_EQ(again.text(), expression.text());
        std::vector<double> values;
        for (std::size_t k = 0; k < expression.variables().size(); ++k) {
            values.push_back(3.0 * garden.share() - 1.5);
        }
        ASSERT_EQ(bits(again.value(values)), bits(expression.value(values))) << expression.text();
        const Point first = at(expression, values);
        const Point second = at(again, values);
        ASSERT_EQ(bits(first.value), bits(second.value)) << expression.text();
        for (std::size_t k = 0; k < values.size(); ++k) {
            ASSERT_EQ(bits(first.slopes[k]), bits(second.slopes[k])) << expression.text();
        }
    }
}

TEST(Expression, TextKeepsOrderOfOperationsAndSigns) {
    const struct {
        const char* written;
        const char* text;
    } rows[] = {
        {"v(a)-(v(b)-v(c))", "v(a)-(v(b)-v(c))"},
        {"(v(a)-v(b))-v(c)", "v(a)-v(b)-v(c)"},
        {"v(a)+(v(b)+v(c))", "v(a)+(v(b)+v(c))"},
        {"v(a)/(v(b)*v(c))", "v(a)/(v(b)*v(c))"},
        {"-(v(a)*v(b))", "-(v(a)*v(b))"},
        {"-v(a)*v(b)", "-v(a)*v(b)"},
        {"-(-v(a))", "v(a)"},
        {"v(a)*(-3)", "v(a)*-3"},
        {"2*3+v(a)", "6+v(a)"},
        {"v(a)**2**3", "pow(v(a),8)"},
        {"(v(a)+1)**v(b)", "pow(v(a)+1,v(b))"},
        {"(-3)**v(a)", "pow(3,v(a))"},
        {"1/3*v(a)", "0.3333333333333333*v(a)"},
        {"v(a,b)+i(V1)", "v(a,b)+i(V1)"},
        {"ln(1+exp(v(a)))", "ln(1+exp(v(a)))"},
        {"log(v(a))", "ln(v(a))"},
        {"1/0+v(a)", "1/0+v(a)"},
    };
    for (const auto& row : rows) {
        EXPECT_EQ(parsed(row.written).text(), row.text);
        EXPECT_EQ(parsed(row.text).text(), row.text);
    }
}

TEST(Expression, VariablesAreRenamed) {
    const Expression expression = parsed("v(a,b)*v(c)+i(V1)");
    const auto rename = [](const LawVariable& own) {
        LawVariable named = own;
        named.first = "x." + own.first;
        named.second = own.second == "b" ? "0" : own.second;
        return named;
    };
    EXPECT_EQ(expression.text(rename), "v(x.a)*v(x.c)+i(x.V1)");
}

TEST(Expression, LongChainsAreReadEvaluatedAndWrittenBack) {
    std::string text = "v(a)";
    while (text.size() < 60000) {
        text += "+v(a)";
    }
    const Expression expression = parsed(text);
    const double terms = double((text.size() + 1) / 5);
    EXPECT_EQ(expression.value(std::vector<double>{1.0}), terms);
    EXPECT_EQ(at(expression, {1.0}).slopes[0], terms);
    EXPECT_EQ(expression.text(), text);
}

TEST(Expression, IsSafeBetweenThreads) {
    std::string text = "v(a)";
    for (int k = 0; k < 400; ++k) {
        text += "*(1+0.001*tanh(v(b)))+0.01*v(a)";
    }
    const Expression expression = parsed(text);
    const std::vector<double> values{0.7, 0.3};
    const Point alone = at(expression, values);
    std::atomic<int> different = 0;
    std::vector<std::thread> threads;
    for (int thread = 0; thread < 4; ++thread) {
        threads.emplace_back([&] {
            for (int round = 0; round < 200; ++round) {
                const Point point = at(expression, values);
                different += point.value != alone.value || point.slopes != alone.slopes ? 1 : 0;
            }
        });
    }
    for (std::thread& thread : threads) {
        thread.join();
    }
    EXPECT_EQ(different, 0);
}

TEST(Expression, NumbersThatMayMeanSomethingElseAreSaid) {
    const Expression expression = parsed("v(a)/1M+2meg");
    ASSERT_EQ(expression.doubts().size(), 1u);
    EXPECT_EQ(expression.doubts()[0], "1M is read as 1 milli: write 1meg where a million is meant.");
    EXPECT_EQ(expression.value(std::vector<double>{1.0}), 2001000.0);
    EXPECT_TRUE(parsed("1m+1meg+1MEG").doubts().empty());
}

TEST(EvaluateConstant, GivesNumbers) {
    const std::map<std::string, double> parameters{{"r", 4700.0}, {"c", 1e-7}};
    EXPECT_DOUBLE_EQ(*evaluateConstant("1/(2*pi*R*C)", parameters), 1.0 / (2.0 * std::numbers::pi * 4.7e-4));
    EXPECT_EQ(*evaluateConstant("{r}/2", parameters), 2350.0);
    EXPECT_EQ(*evaluateConstant("sqrt(16)", {}), 4.0);
    const Result<NetlistNumber> doubtful = evaluateDoubtfulConstant("1M+2M", {});
    ASSERT_TRUE(doubtful);
    EXPECT_DOUBLE_EQ(doubtful->value, 0.003);
    EXPECT_NE(doubtful->doubt.find("2M is read as 2 milli"), std::string::npos);
}

TEST(EvaluateConstant, RefusesWhatIsNone) {
    for (const char* text : {"1/0", "ln(0)", "sqrt(-1)", "1e300*1e300", "exp(1000)"}) {
        const Result<double> value = evaluateConstant(text, {});
        ASSERT_FALSE(value) << text;
        EXPECT_EQ(value.error().message, std::string(text) +
                                             " has no finite value: look for a division by 0, a root or a logarithm of "
                                             "a negative, or far too large a number.");
    }
    const Result<double> read = evaluateConstant("2*v(out)", {});
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().message,
              "A value cannot depend on the circuit, and this one reads out: use a B source, or a number.");
    const Result<double> infinite = evaluateConstant("r", {{"r", std::numeric_limits<double>::infinity()}});
    ASSERT_FALSE(infinite);
    EXPECT_EQ(infinite.error().message, "The parameter r is no finite number: correct its value.");
}

}  // namespace
}  // namespace ohmwright
