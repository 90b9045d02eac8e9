// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/expression/formula_parser.h"

#include "core/expression/expression.h"
#include "tests/support/spoken.h"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

namespace ohmwright {
namespace {

double constant(const std::string& text) {
    const Result<double> value = evaluateConstant(text, {});
    EXPECT_TRUE(value) << text << ": " << value.error().message;
    return value ? *value : 0.0;
}

TEST(FormulaParser, AFaultIsAskedForWholeInAnotherLanguage) {
    const test::Spoken german(
        {{"The bracket at character %1 is never closed: add '%2'.", "Klammer ohne '%2', Zeichen %1"},
         {"%1 could mean %2 or %3: write %2.", "%1: %2 oder %3?"}});
    EXPECT_EQ(evaluateConstant("(1+2", {}).error().message, "Klammer ohne ')', Zeichen 1");
    EXPECT_EQ(readNetlistNumber("4k7").error().message.substr(0, 14), "4k7: 4.7k oder");
}

// By the rules of arithmetic: powers first and from the right, then signs, then * and /, then + and -.
TEST(FormulaParser, PrecedenceIsThatOfArithmetic) {
    const struct {
        const char* text;
        double value;
    } rows[] = {
        {"1+2*3", 7},        {"(1+2)*3", 9},    {"8-4-2", 2},
        {"8/4/2", 1},        {"2-3+4", 3},      {"-2**2", -4},
        {"-2^2", -4},        {"(-2)**2", 4},    {"2**3**2", 512},
        {"2^3^2", 512},      {"(2**3)**2", 64}, {"2**-1", 0.5},
        {"2^-2^2", 0.0625},  {"2*-3", -6},      {"2--3", 5},
        {"2+-3", -1},        {"- - 2", 2},      {"+2", 2},
        {"-+-+2", 2},        {"6/2*3", 9},      {"2*3**2", 18},
        {"-3*-3", 9},        {"{1+1}*2", 4},    {"{(1+1)*2}", 4},
        {" 1 +\t2 ", 3},     {"4/2**2", 1},     {"min(1,2)+max(3,4)", 5},
        {"max(4,7k)", 7000}, {"SQRT(4)", 2},    {"Min( 4 , 3 )", 3},
        {"pow(2,3)", 8},     {"1k*1m", 1},      {"2**0.5**2", 1.189207115002721},
    };
    for (const auto& row : rows) {
        EXPECT_DOUBLE_EQ(constant(row.text), row.value) << row.text;
    }
}

TEST(FormulaParser, ErrorsAreSentencesThatNameThePlace) {
    const struct {
        std::string text;
        std::string where;
        std::string message;
    } rows[] = {
        {"", "", "The formula is empty: write a number or an expression."},
        {"  ", "", "The formula is empty: write a number or an expression."},
        {"1+", "", "The formula ends where a value is missing: complete it or take the last sign away."},
        {"(1+2", "(", "The bracket at character 1 is never closed: add ')'."},
        {"{1+2", "{", "The bracket at character 1 is never closed: add '}'."},
        {"{1+2)", ")", "')' at character 5 stands where an operator or '}' was expected: write one of them."},
        {"max(1,2", "(", "The bracket at character 4 is never closed: add ')'."},
        {"1+2)", ")", "The ')' at character 4 closes no bracket: take it away."},
        {"()", ")", "A value is missing before the ')' at character 2: write one."},
        {"1*/2", "/", "A value is missing at character 3, where '/' stands: write a number, a name or v(net)."},
        {"1+(-2)**0.5", "**",
         "A negative number is raised to a power that is not whole at character 7, which has no value: make the number "
         "positive or the power whole."},
        {"pow(-2,1.5)", "**",
         "A negative number is raised to a power that is not whole at character 1, which has no value: make the number "
         "positive or the power whole."},
        {"2 3", "3", "An operator is missing before '3' at character 3: write + - * / or **."},
        {"2(3)", "(", "An operator is missing before '(' at character 2: write + - * / or **."},
        {"1<2", "<",
         "The formula has '<' at character 2, which has no meaning here: it knows + - * / ** ^ ( ) and functions."},
        {"gain*2", "gain",
         "The name 'gain' at character 1 is no parameter here: define it by .param, or write v(gain) for the voltage "
         "of a net."},
        {"tanh*2", "tanh", "The function tanh at character 1 has no brackets: write tanh(...)."},
        {"2*foo(1)", "foo",
         "There is no function 'foo' at character 3: write one of exp, ln, sqrt, abs, tanh, min, max, sin, cos, v(net) "
         "or "
         "i(source)."},
        {"max(1)", "max",
         "max at character 1 needs two values between its brackets and has one value: correct their number."},
        {"exp()", "exp", "exp at character 1 needs one value between its brackets and has none: correct their number."},
        {"min(1,2,3)", "min",
         "min at character 1 needs two values between its brackets and has more: correct their number."},
        {"v()", "v", "The voltage at character 1 is not complete: write v(net) or v(net,net)."},
        {"v(a b)", "v", "The voltage at character 1 is not complete: write v(net) or v(net,net)."},
        {"v(a,)", "v", "The voltage at character 1 is not complete: write v(net) or v(net,net)."},
        {"i(V1,V2)", "i", "The current at character 1 is not complete: write i(source)."},
        {"v(a", "(", "The bracket at character 2 is never closed: add ')'."},
        {"1,2", "1,2", "1,2 could mean 1.2 or 1 and then 2: write 1.2."},
        {"v(a),2", ",",
         "The comma at character 5 stands outside the brackets of a function: write a point in a number."},
        {"2*4k7", "4k7", "4k7 could mean 4.7k or 4k: write 4.7k."},
        {"max(1,(4,7k))", "4,7k", "4,7k could mean 4.7k or 4 and then 7k: write 4.7k."},
        {"2pi*3", "2pi", "2pi could mean 2*pi or 2p: write 2*pi or 2p."},
    };
    for (const auto& row : rows) {
        const Result<ParsedFormula> parsed = parseFormula(row.text, {});
        ASSERT_FALSE(parsed) << row.text;
        EXPECT_EQ(parsed.error().code, ErrorCode::invalidInput);
        EXPECT_EQ(parsed.error().message, row.message) << row.text;
        EXPECT_EQ(parsed.error().where, row.where) << row.text;
    }
}

std::string nested(int depth) {
    return std::string(std::size_t(depth), '(') + "1" + std::string(std::size_t(depth), ')');
}

TEST(FormulaParser, DepthLengthAndVariablesAreBounded) {
    EXPECT_TRUE(parseFormula(nested(200), {}));
    const Result<ParsedFormula> deep = parseFormula(nested(201), {});
    ASSERT_FALSE(deep);
    EXPECT_EQ(deep.error().message,
              "The formula is nested more than 200 deep at character 201: break it into parameters or several "
              "sources.");
    EXPECT_FALSE(parseFormula(nested(30000), {}));
    std::string tower = "1";
    for (int k = 0; k < 20000; ++k) {
        tower += "^1";
    }
    EXPECT_FALSE(parseFormula(tower, {}));
    EXPECT_TRUE(parseFormula(std::string(65000, '-') + "1", {}));

    const Result<ParsedFormula> longer = parseFormula(std::string(65537, '1'), {});
    ASSERT_FALSE(longer);
    EXPECT_EQ(longer.error().message,
              "The formula has 65537 characters and may have 65536: split it over several sources.");

    std::string many = "0";
    for (int k = 0; k < 200; ++k) {
        many += "+v(n" + std::to_string(k) + ")";
    }
    EXPECT_TRUE(parseFormula(many, {}));
    const Result<ParsedFormula> tooMany = parseFormula(many + "+v(one_more)", {});
    ASSERT_FALSE(tooMany);
    EXPECT_EQ(tooMany.error().message,
              "The formula reads more than 200 voltages and currents: split it over several sources.");
}

TEST(FormulaParser, AFormulaThatCannotBeWrittenBackIsRefused) {
    std::string text = "v(a)";
    while (text.size() < 30000) {
        text += "*g";
    }
    const Result<Expression> grown = Expression::parse(text, {{"g", 1.0 / 3.0}});
    ASSERT_FALSE(grown);
    EXPECT_EQ(grown.error().message,
              "With its parameters put in, the formula has more than 65536 characters: split it over several sources.");
}

TEST(FormulaParser, ConstantsArePutTogether) {
    const auto steps = [](const std::string& text) {
        const Result<ParsedFormula> parsed = parseFormula(text, {{"a", 2.0}});
        return parsed ? parsed->steps.size() : 0;
    };
    EXPECT_EQ(steps("2*3+4**2-exp(0)"), 1u);
    EXPECT_EQ(steps("v(x)*(2*pi*a)"), 3u);
    EXPECT_EQ(steps("v(x)**2"), 2u);
    EXPECT_EQ(steps("-(-v(x))"), 1u);
    EXPECT_EQ(steps("1/0"), 3u);
    EXPECT_EQ(steps("ln(exp(v(x))+1)"), 2u);
}

TEST(FormulaParser, TextOfChanceNeverCrashes) {
    std::mt19937 engine(5);
    const std::vector<std::string> words{
        "v(a)", "(",    ")",  "{",  "}",  "+", "-", "*",  "/",        "**", "^",   ",", "1",         "4.7k",
        "exp(", "max(", "pi", "i(", "v(", "e", ".", "1e", "\xCE\xA9", " ",  "\0x", "$", "ln(1+exp(", "0"};
    int read = 0;
    for (int round = 0; round < 20000; ++round) {
        std::string text;
        for (auto k = engine() % 12; k > 0; --k) {
            text += words[engine() % words.size()];
        }
        const Result<Expression> parsed = Expression::parse(text);
        if (parsed) {
            ++read;
            const Result<Expression> again = Expression::parse(parsed->text());
            ASSERT_TRUE(again) << text << " became " << parsed->text();
            ASSERT_EQ(again->text(), parsed->text()) << text;
        } else {
            ASSERT_TRUE(parsed.error().message.ends_with('.')) << parsed.error().message;
        }
    }
    EXPECT_GT(read, 400);
}

}  // namespace
}  // namespace ohmwright
