// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_names.h"

#include "core/expression/expression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <random>
#include <string>

namespace ohmwright {
namespace {

TEST(NetlistNumberText, IsAsShortAsATechnicianWritesIt) {
    const struct {
        double value;
        const char* text;
    } rows[] = {
        {0.0, "0"},           {-0.0, "0"},      {1.0, "1"},         {4700.0, "4.7k"},
        {1e6, "1meg"},        {250e3, "250k"},  {37.5e3, "37.5k"},  {33e-9, "33n"},
        {110e-12, "110p"},    {2.2e-6, "2.2u"}, {1e-3, "1m"},       {0.75, "0.75"},
        {-0.75, "-0.75"},     {1.7, "1.7"},     {-4.5e-3, "-4.5m"}, {6.734e-15, "6.734f"},
        {999.0, "999"},       {1000.0, "1k"},   {1e9, "1g"},        {1e11, "100g"},
        {2.5e14, "250t"},     {1e15, "1e+15"},  {1e-18, "1e-18"},   {0.1 + 0.2, "0.30000000000000004"},
        {9.1e-31, "9.1e-31"},
    };
    for (const auto& row : rows) {
        EXPECT_EQ(netlistNumber(row.value), row.text);
    }
}

TEST(NetlistNumberText, IsReadBackAsTheSameDouble) {
    std::mt19937_64 engine(3);
    for (int round = 0; round < 20000; ++round) {
        const double decade = -20.0 + 40.0 * double(engine() >> 11) / 9007199254740992.0;
        double value = std::pow(10.0, decade) * (engine() % 2 == 0 ? 1.0 : -1.0);
        if (round % 3 == 0) {
            value = std::round(value * 1000.0) / 1000.0;
        }
        const Result<double> read = readNetlistNumber(netlistNumber(value));
        ASSERT_TRUE(read) << netlistNumber(value);
        ASSERT_EQ(*read, value) << netlistNumber(value);
        ASSERT_EQ(*evaluateConstant("2*" + formulaNumber(value), {}), 2.0 * value);
    }
}

// 40,000 names alike were each tried against all before them.
TEST(NetlistNames, ManyWishesAlikeAreNumberedAtOnce) {
    NetlistNames names;
    names.reserve("node_3");
    EXPECT_EQ(names.nameFor("0", "node"), "node");
    EXPECT_EQ(names.nameFor("1", "node"), "node_2");
    EXPECT_EQ(names.nameFor("2", "NODE"), "NODE_4");
    std::string last;
    for (int k = 3; k < 200'000; ++k) {
        last = names.nameFor(std::to_string(k), "node");
    }
    EXPECT_EQ(last, "node_200001");
}

TEST(NetlistNames, AreLegalAndUniqueWhateverTheCase) {
    NetlistNames names;
    names.reserve("gnd");
    EXPECT_EQ(names.nameFor("a", "in"), "in");
    EXPECT_EQ(names.nameFor("a", "anything"), "in");
    EXPECT_EQ(names.nameFor("b", "IN"), "IN_2");
    EXPECT_EQ(names.nameFor("c", "in"), "in_3");
    EXPECT_EQ(names.nameFor("d", "GND"), "GND_2");
    EXPECT_EQ(names.nameFor("e", "V+"), "Vp");
    EXPECT_EQ(names.nameFor("f", "low pass, 2"), "low_pass_2");
    EXPECT_EQ(names.nameFor("g", ""), "n");
    EXPECT_EQ(names.nameFor("h", "\xCE\xA9"), "_");
    EXPECT_EQ(names.nameFor("i", "U1A", 'X'), "XU1A");
    EXPECT_EQ(names.nameFor("j", "x1", 'X'), "x1");
    EXPECT_EQ(names.nameFor("k", "X1.R2", 'R'), "RX1_R2");
    EXPECT_EQ(names.known("b"), "IN_2");
    EXPECT_EQ(names.known("nobody"), "");
    EXPECT_EQ(names.nameFor("l", std::string(500, 'n')).size(), 60u);
}

}  // namespace
}  // namespace ohmwright
