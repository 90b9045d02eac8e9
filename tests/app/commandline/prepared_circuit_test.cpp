// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/prepared_circuit.h"

#include "tests/app/commandline/called.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

Netlist read(const std::string& text) {
    Result<Netlist> netlist = readNetlist(text);
    if (netlist) return *std::move(netlist);
    ADD_FAILURE() << netlist.error().message;
    return {};
}

TEST(PreparedCircuit, UnaskedTheInputHasTheAcValueAndTheOutputIsOut) {
    const auto prepared = prepareNetlist(read(test::netlists::called), Request(), Ends::both);
    ASSERT_TRUE(prepared) << prepared.error().message;
    EXPECT_EQ(prepared->circuit.ports.source, "VIN");
    EXPECT_EQ(prepared->circuit.ports.output, "out");
    EXPECT_THAT(prepared->nets, ElementsAre("in", "mid", "out"));
    ASSERT_EQ(prepared->calls.size(), 1U);
    EXPECT_EQ(prepared->title, "calls");
    EXPECT_FALSE(prepared->job);
    EXPECT_DOUBLE_EQ(prepared->setting.temperatureKelvin, 300.15);
}

TEST(PreparedCircuit, AnEndThatIsNotNeededMayBeMissing) {
    const Netlist battery = read("battery\nVA a 0 9\nVB b 0 9\nR1 a b 1k\n.end\n");
    const auto free = prepareNetlist(battery, Request(), Ends::none);
    ASSERT_TRUE(free) << free.error().message;
    EXPECT_TRUE(free->circuit.ports.source.empty());
    EXPECT_TRUE(free->circuit.ports.output.empty());
    EXPECT_FALSE(prepareNetlist(battery, Request(), Ends::input));
    EXPECT_FALSE(prepareNetlist(battery, Request(), Ends::output));
    Request named;
    named.input = "vb";
    const auto input = prepareNetlist(battery, named, Ends::input);
    ASSERT_TRUE(input) << input.error().message;
    EXPECT_EQ(input->circuit.ports.source, "VB");
    EXPECT_TRUE(input->circuit.ports.output.empty());
    named.output = "nowhere";
    EXPECT_FALSE(prepareNetlist(battery, named, Ends::none)) << "what is named must be there";
}

TEST(PreparedCircuit, AnInputThatWasGuessedIsSaid) {
    const auto guessed =
        prepareNetlist(read("no ac\nV1 a 0 0\nR1 a out 1k\nR2 out 0 1k\n.end\n"), Request(), Ends::both);
    ASSERT_TRUE(guessed) << guessed.error().message;
    ASSERT_EQ(guessed->notes.size(), 1U);
    EXPECT_THAT(guessed->notes.front(), HasSubstr("V1"));
    EXPECT_TRUE(prepareNetlist(read(test::netlists::divider), Request(), Ends::both)->notes.empty());
}

TEST(PreparedCircuit, WhatIsOfJobsIsRefused) {
    Request set;
    set.settings = {"drive=3"};
    EXPECT_THAT(prepareNetlist(read(test::netlists::divider), set, Ends::none).error().message, HasSubstr("--set"));
    Request variant;
    variant.variant = "stock";
    const auto refused = prepareNetlist(read(test::netlists::divider), variant, Ends::none);
    EXPECT_EQ(refused.error().code, ErrorCode::invalidInput);
    EXPECT_THAT(refused.error().message, HasSubstr("--variant"));
}

TEST(PreparedCircuit, TheTemperatureIsInCelsius) {
    Request request;
    request.temperature = "-10";
    EXPECT_DOUBLE_EQ(withTemperature(Setting(), request)->temperatureKelvin, 263.15);
    request.temperature = "125.1";
    EXPECT_FALSE(withTemperature(Setting(), request));
}

TEST(PreparedCircuit, ACircuitWithoutASolutionIsNotTheCallsFault) {
    PreparedCircuit prepared;
    prepared.circuit = read("loop\nV1 a 0 1\nV2 a 0 2\n.end\n").circuit;
    const auto solved = solveAtRest(prepared, {});
    ASSERT_FALSE(solved);
    EXPECT_EQ(solved.error().code, ErrorCode::unsolvable);
    EXPECT_THAT(solved.error().message, HasSubstr("V"));
}

TEST(PreparedCircuit, PartsOfOneReferenceAreToldApartByTheirIds) {
    Circuit circuit;
    circuit.parts.resize(3);
    circuit.parts[0].id = "r5", circuit.parts[0].reference = "R5";
    circuit.parts[1].id = "r5b", circuit.parts[1].reference = "R5";
    circuit.parts[2].id = "c1", circuit.parts[2].reference = "C1";
    EXPECT_THAT(uniqueNames(circuit), ElementsAre("r5", "r5b", "C1"));
}

}  // namespace
}  // namespace ohmwright
