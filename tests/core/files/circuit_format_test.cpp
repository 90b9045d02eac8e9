// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/circuit_format.h"

#include "tests/support/random_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using test::Chance;
using testing::AllOf;
using testing::HasSubstr;

template <class Value, class Read>
Result<Value> readAs(std::string_view text, const Read& read) {
    const Result<JsonNode> node = parseJson(text);
    if (!node) {
        return node.error();
    }
    ReadingState state;
    Value value = read(JsonReader(*node, state));
    if (state.error) {
        return *state.error;
    }
    return value;
}

Result<Circuit> circuitOf(std::string_view text) {
    return readAs<Circuit>(text, readCircuitNode);
}

/// A circuit of one part with these members.
Result<Circuit> circuitWithPart(const std::string& members) {
    return circuitOf(R"({"parts": [{)" + members + R"(}], "models": [], "knobs": [], "stages": [], "ports":
        {"source": "", "output": "", "battery": "", "load": "", "jack": "", "clipNode": ""}})");
}

std::string messageOf(const Result<Circuit>& circuit) {
    return circuit ? "no error" : circuit.error().message;
}

TEST(CircuitFormat, ReadsAPartByItsDescription) {
    const Result<Circuit> circuit = circuitWithPart(
        R"("id": "vr1", "reference": "VR1", "kind": "potentiometer", "value": 250000, "tolerance": 0.2,
           "taper": "logarithmic", "shareAtHalf": 0.15, "nets": ["o1", "o1", "rf"], "knowledge": "measured",
           "measured": 231000, "placement": {"at": [3, -4], "turns": 1, "span": 3, "label": "left"})");
    ASSERT_TRUE(circuit) << messageOf(circuit);
    Part expected;
    expected.id = "vr1";
    expected.reference = "VR1";
    expected.kind = PartKind::potentiometer;
    expected.value = 250e3;
    expected.tolerance = 0.2;
    expected.taper = Taper::logarithmic;
    expected.shareAtHalf = 0.15;
    expected.nets = {"o1", "o1", "rf"};
    expected.knowledge = Knowledge::measured;
    expected.measured = 231e3;
    expected.placement = Placement{{3, -4}, 1, false, 3, LabelSide::left};
    EXPECT_EQ(circuit->parts.front(), expected);
}

TEST(CircuitFormat, RandomCircuitsPlansAndSettingsComeBack) {
    Chance chance(11);
    for (int i = 0; i < 300; ++i) {
        const Job job = test::randomJob(chance);
        const Result<Circuit> circuit = circuitOf(printJson(writeCircuitNode(job.stock)));
        ASSERT_TRUE(circuit) << messageOf(circuit);
        EXPECT_EQ(*circuit, job.stock);
        const Result<Plan> plan = readAs<Plan>(printJson(writePlanNode(job.plan)), readPlanNode);
        ASSERT_TRUE(plan) << plan.error().message;
        EXPECT_EQ(*plan, job.plan);
        const Result<Setting> setting = readAs<Setting>(printJson(writeSettingNode(job.setting)), readSettingNode);
        ASSERT_TRUE(setting) << setting.error().message;
        EXPECT_EQ(*setting, job.setting);
    }
}

TEST(CircuitFormat, WhatAKindNeedsMustBeThere) {
    const std::string head = R"("id": "x", "reference": "X1", "knowledge": "drawn", "nets": ["a", "b"], )";
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "resistor", "tolerance": 0.05)")),
                AllOf(HasSubstr("parts/x"), HasSubstr("\"value\" is missing")));
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "resistor", "value": 1)")),
                HasSubstr("\"tolerance\" is missing"));
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "diode")")), HasSubstr("\"model\" is missing"));
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "voltage source", "value": 1)")),
                HasSubstr("\"ac\" is missing"));
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "coil")")), HasSubstr("\"coil\" is not known"));
    EXPECT_THAT(messageOf(circuitWithPart(head + R"("kind": "link")")), HasSubstr("no error"));
}

TEST(CircuitFormat, ASlantedWireIsRefused) {
    // The router went on beyond the sheet where a wire never came level with its end.
    const auto withWire = [](const std::string& corners) {
        return circuitOf(R"({"parts": [], "models": [], "knobs": [], "stages": [], "ports":
        {"source": "", "output": "", "battery": "", "load": "", "jack": "", "clipNode": ""},
        "drawing": {"size": [20, 10], "flags": [], "fields": [], "wires": [{"net": "a", "corners": )" +
                         corners + "}]}}");
    };
    EXPECT_THAT(messageOf(withWire("[[1, 1], [4, 3]]")), HasSubstr("level or upright"));
    EXPECT_THAT(messageOf(withWire("[[1, 1], [4, 1], [4, 3]]")), HasSubstr("no error"));
}

TEST(CircuitFormat, NumbersThatWouldHurtLaterAreRefusedHere) {
    const std::string head =
        R"("id": "x", "reference": "X1", "knowledge": "drawn", "kind": "potentiometer", "value": 1, )";
    const std::string nets = R"("nets": ["a", "b", "c"], )";
    EXPECT_THAT(
        messageOf(circuitWithPart(head + R"("tolerance": 0, "taper": "linear", "shareAtHalf": 0.5, "nets": ["a"])")),
        AllOf(HasSubstr("parts/x/nets"), HasSubstr("3 nets")));
    EXPECT_THAT(messageOf(circuitWithPart(head + nets + R"("tolerance": -1, "taper": "linear", "shareAtHalf": 0.5)")),
                HasSubstr("parts/x/tolerance"));
    EXPECT_THAT(messageOf(circuitWithPart(head + nets + R"("tolerance": 0, "taper": "linear", "shareAtHalf": 1)")),
                HasSubstr("parts/x/shareAtHalf"));
    EXPECT_THAT(messageOf(circuitWithPart(head + nets + R"("tolerance": 0, "taper": "linear", "shareAtHalf": 0.5,
                                                          "placement": {"at": [1e9, 0], "turns": 0, "span": 3})")),
                HasSubstr("parts/x/placement/at/0"));
    EXPECT_THAT(messageOf(circuitWithPart(head + nets + R"("tolerance": 0, "taper": "linear", "shareAtHalf": 0.5,
                                                          "pins": ["1", "2"])")),
                HasSubstr("parts/x/pins"));
}

TEST(CircuitFormat, IdsAndTypesStandOnce) {
    const std::string link =
        R"({"id": "w", "reference": "W1", "kind": "link", "nets": ["a", "b"], "knowledge": "drawn"})";
    EXPECT_THAT(messageOf(circuitOf(R"({"parts": [)" + link + "," + link + "]}")),
                AllOf(HasSubstr("parts/w"), HasSubstr("used twice")));
    EXPECT_THAT(messageOf(circuitWithPart(
                    R"("id": "", "reference": "W1", "kind": "link", "nets": ["a", "b"], "knowledge": "drawn")")),
                HasSubstr("id is empty"));
    const std::string type = R"({"name": "T", "kind": "diode", "parameters": {}, "source": ""})";
    EXPECT_THAT(messageOf(circuitOf(R"({"parts": [], "models": [)" + type + "," + type + "]}")),
                HasSubstr("\"T\" is described twice"));
}

TEST(CircuitFormat, EveryChangeIsReadByItsDescription) {
    const Result<Plan> plan = readAs<Plan>(
        R"([{"id": "m1", "letter": "A", "name": "n", "on": true, "change": {"do": "swap value", "part": "p", "value": 5}},
            {"id": "m2", "letter": "B", "name": "", "on": false, "change": {"do": "add in series", "part": "p", "pin": 1,
              "fitted": {"reference": "R9", "kind": "resistor", "value": 10, "tolerance": 0.01}, "reversed": true}},
            {"id": "m3", "letter": "C", "name": "", "on": true, "change": {"do": "lift", "part": "p", "pin": 2}},
            {"id": "m4", "letter": "D", "name": "", "on": true, "change": {"do": "bridge", "part": "p", "pinA": 0, "pinB": 4}}])",
        readPlanNode);
    ASSERT_TRUE(plan) << plan.error().message;
    NewPart fitted;
    fitted.reference = "R9";
    fitted.value = 10.0;
    fitted.tolerance = 0.01;
    const Plan expected{{"m1", "A", "n", SwapValue{"p", 5.0}, true},
                        {"m2", "B", "", AddInSeries{"p", 1, fitted, true}, false},
                        {"m3", "C", "", Lift{"p", 2}, true},
                        {"m4", "D", "", Bridge{"p", 0, 4}, true}};
    EXPECT_EQ(*plan, expected);
    const Result<Plan> unknown =
        readAs<Plan>(R"([{"id": "m", "letter": "A", "name": "", "on": true, "change": {"do": "paint", "part": "p"}}])",
                     readPlanNode);
    ASSERT_FALSE(unknown);
    EXPECT_THAT(unknown.error().message, AllOf(HasSubstr("m/change/do"), HasSubstr("\"paint\"")));
}

}  // namespace
}  // namespace ohmwright
