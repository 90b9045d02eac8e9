// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/bias.h"

#include "core/solve/response.h"
#include "tests/support/csv_rows.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::SmallCircuit;

/// Net voltages of a circuit; fails the test with the solver's sentence when there are none.
double voltsOf(const Circuit& circuit, const NetName& net, const Setting& setting = {}) {
    const auto equations = Equations::compile(circuit, setting);
    if (!equations) {
        ADD_FAILURE() << equations.error().message;
        return 0.0;
    }
    const auto bias = solveBias(*equations);
    if (!bias) {
        ADD_FAILURE() << bias.error().message;
        return 0.0;
    }
    EXPECT_LT(bias->report.worstResidualAmperes, 1e-9);
    return bias->x[std::size_t(equations->indexOfNet(net))];
}

TEST(Bias, ResistorAndDiodesMeetTheLambertWPoints) {
    // diode_clipper_points.csv: 12 digits by bisection and by the Lambert W form of Banwell and Jayakumar, Electronics
    // Letters 36(4) (2000) 291. The solver has gmin 1e-12 S across the junction: under 1e-9 V here. Reversed by more
    // than 3 N Vt, the Berkeley law leaves the exponential for a cube that differs by under 0.8 % of IS.
    int compared = 0;
    for (const auto& row : test::referenceTable("diode_clipper_points.csv")) {
        const std::map<std::string, double> card{{"IS", std::stod(row.at("IS_A"))}, {"N", std::stod(row.at("N"))}};
        SmallCircuit circuit(std::stod(row.at("V_source")));
        circuit.r("R1", "in", "out", std::stod(row.at("R_ohm"))).d("D1", "out", "0", card);
        if (row.at("circuit") == "antiparallel") {
            circuit.d("D2", "0", "out", card);
        } else if (row.at("circuit") != "single") {
            continue;
        }
        const double cube = 0.008 * std::stod(row.at("IS_A")) * std::stod(row.at("R_ohm"));
        EXPECT_NEAR(voltsOf(circuit, "out"), std::stod(row.at("v_out")), 2e-8 + cube) << row.at("V_source");
        ++compared;
    }
    EXPECT_GE(compared, 20);
}

SmallCircuit commonEmitter(std::map<std::string, double> card) {
    // 9 V, 82k/15k, RC 4.7k, RE 1k: the references' bias example.
    SmallCircuit circuit;
    circuit.v("VCC", "vcc", "0", 9.0)
        .r("R1", "vcc", "b", 82e3)
        .r("R2", "b", "0", 15e3)
        .c("CIN", "in", "b", 1.0)
        .r("RIN", "in", "0", 1e6)
        .r("RC", "vcc", "out", 4.7e3)
        .q("Q1", "out", "b", "e", std::move(card))
        .r("RE", "e", "0", 1e3);
    return circuit;
}

TEST(Bias, CommonEmitterStageMatchesTheFullExponentialSolution) {
    // Solved independently with the full exponential law and reproduced with a general-purpose simulator, 27 °C.
    const auto ideal = commonEmitter({{"IS", 1e-14}, {"BF", 200.0}, {"BR", 1.0}});
    EXPECT_NEAR(voltsOf(ideal, "b"), 1.3474871, 1e-6);
    EXPECT_NEAR(voltsOf(ideal, "out"), 5.7185946, 1e-6);
    EXPECT_NEAR(voltsOf(ideal, "e"), 0.7016622, 1e-6);
    const auto early = commonEmitter({{"IS", 1e-14}, {"BF", 200.0}, {"BR", 1.0}, {"VAF", 100.0}});
    EXPECT_NEAR(voltsOf(early, "b"), 1.3491643, 1e-6);
    EXPECT_NEAR(voltsOf(early, "out"), 5.7053947, 1e-6);
    const auto sheet = commonEmitter(test::card2N3904());
    EXPECT_NEAR(voltsOf(sheet, "b"), 1.3278023, 1e-6);
    EXPECT_NEAR(voltsOf(sheet, "out"), 5.8554625, 1e-6);
    EXPECT_NEAR(voltsOf(sheet, "e"), 0.6740938, 1e-6);
}

TEST(Bias, HeatMovesTheStageAsPublished) {
    // Same stage, 2N3904 card with its sheet's EG 1.11, XTI 3, XTB 1.5: VC 6.0942246 at 0 °C, 5.6534456 at 50 °C.
    auto card = test::card2N3904();
    card["XTB"] = 1.5;
    const auto stage = commonEmitter(card);
    Setting cold;
    cold.temperatureKelvin = 273.15;
    Setting hot;
    hot.temperatureKelvin = 323.15;
    EXPECT_NEAR(voltsOf(stage, "out", cold), 6.0942246, 1e-4);
    EXPECT_NEAR(voltsOf(stage, "out", hot), 5.6534456, 1e-4);
}

TEST(Bias, CurrentGainOfTheSheetCardIsThatOfItsCurrents) {
    // 2N3904 card at VCE 5 V, 27 °C: IB 1 uA -> 0.1000 mA, 5 uA -> 0.6609 mA, 20 uA -> 3.175 mA (general-purpose
    // simulator).
    for (const auto& [base, collector] : {std::pair{1e-6, 0.1000e-3}, {5e-6, 0.6609e-3}, {20e-6, 3.175e-3}}) {
        SmallCircuit circuit;
        circuit.r("RX", "in", "0", 1e3)
            .i("IB", "0", "b", base)
            .v("VC", "c", "0", 5.0)
            .q("Q1", "c", "b", "0", test::card2N3904())
            .r("ROUT", "c", "out", 1.0)
            .r("RL", "out", "0", 1e9);
        const auto equations = Equations::compile(circuit, {});
        ASSERT_TRUE(equations) << equations.error().message;
        const auto bias = solveBias(*equations);
        ASSERT_TRUE(bias) << bias.error().message;
        const auto currents = equations->terminalCurrents(*findPart(circuit, "Q1"), bias->x);
        EXPECT_NEAR(currents[0], collector, 6e-4 * collector);
    }
}

TEST(Bias, FeedbackPairHoldsTheOpampAtItsInput) {
    // Op-amp with a feedback pair, Rg 3.3k, Rf 330k, 100 mV in: diode voltage 0.4237639 V, output = diode voltage +
    // input, for an ideal amplifier (closed form). Gain 2e5 leaves about 3 uV, the output resistance nothing at DC,
    // gmin under 1 uV.
    SmallCircuit circuit(0.1);
    const std::map<std::string, double> diode{{"IS", 2.52e-9}, {"N", 1.752}};
    circuit.v("VP", "vp", "0", 9.0)
        .v("VN", "0", "vn", 9.0)
        .opamp("U1", {"in", "im", "out", "vp", "vn"}, {})
        .r("RG", "im", "0", 3.3e3)
        .r("RF", "im", "out", 330e3)
        .d("D1", "im", "out", diode)
        .d("D2", "out", "im", diode);
    EXPECT_NEAR(voltsOf(circuit, "out"), 0.1 + 0.4237639408, 2e-5);
}

TEST(Bias, RailsHoldTheOutput) {
    // 9 V single supply, headroom 1.9 V less one clamp diode's drop: 3.3 V either way of 4.5 V is the demo's
    // definition.
    for (const double input : {0.0, 9.0}) {
        SmallCircuit circuit(input);
        circuit.v("VP", "vp", "0", 9.0)
            .v("VREF", "vref", "0", 4.5)
            .opamp("U1", {"in", "vref", "out", "vp", "0"}, {})
            .r("RL", "out", "vref", 100e3);
        EXPECT_NEAR(std::abs(voltsOf(circuit, "out") - 4.5), 3.3, 0.05);
    }
}

TEST(Bias, AStageThatPlainNewtonMissesIsReachedByStepping) {
    // Sixteen direct-coupled saturating stages from a cold start.
    SmallCircuit circuit(0.7);
    circuit.v("VCC", "vcc", "0", 250.0);
    std::string previous = "in";
    for (int k = 0; k < 16; ++k) {
        const std::string net = k == 15 ? "out" : "c" + std::to_string(k);
        circuit.r("RC" + std::to_string(k), "vcc", net, 100e3)
            .r("RB" + std::to_string(k), previous, "b" + std::to_string(k), 10e3)
            .q("Q" + std::to_string(k), net, "b" + std::to_string(k), "0", {{"IS", 1e-15}, {"BF", 300.0}});
        previous = net;
    }
    const double volts = voltsOf(circuit, "out");
    EXPECT_GE(volts, 0.0);
    EXPECT_LE(volts, 250.0);
}

TEST(Bias, AnAmplifierWithoutItsBatteryHasNoBias) {
    // 1.4 mA drawn from a net that only 32 kΩ hold: the clamps then fight, and 1 A missing once passed as a share of
    // currents that exist on paper alone.
    SmallCircuit circuit(0.0);
    circuit.r("R1", "vcc", "ref", 10e3)
        .r("R2", "ref", "0", 22e3)
        .opamp("U1", {"ref", "out", "out", "vcc", "0"}, {})
        .r("RIN", "in", "0", 1e6)
        .r("RL", "out", "0", 1e6);
    const auto equations = Equations::compile(circuit, {});
    ASSERT_TRUE(equations) << equations.error().message;
    const auto bias = solveBias(*equations);
    ASSERT_FALSE(bias) << bias->report.worstResidualAmperes << " A are missing at " << bias->report.worstNode;
    EXPECT_EQ(bias.error().code, ErrorCode::noConvergence);
    EXPECT_NE(bias.error().message.find("U1"), std::string::npos) << bias.error().message;
}

TEST(Bias, AStoppedSolveIsCancelled) {
    const auto equations = Equations::compile(commonEmitter(test::card2N3904()), {});
    ASSERT_TRUE(equations);
    std::stop_source source;
    source.request_stop();
    const auto bias = solveBias(*equations, nullptr, source.get_token());
    ASSERT_FALSE(bias);
    EXPECT_EQ(bias.error().code, ErrorCode::cancelled);
}

TEST(Bias, AValuePutBackGivesTheSameResultBitForBit) {
    SmallCircuit circuit = commonEmitter(test::card2N3904());
    const double before = voltsOf(circuit, "out");
    findPart(circuit.circuit(), "RC")->value = 5.6e3;
    EXPECT_NE(voltsOf(circuit, "out"), before);
    findPart(circuit.circuit(), "RC")->value = 4.7e3;
    EXPECT_EQ(voltsOf(circuit, "out"), before);
}

TEST(Bias, AFormulaMayReckonWithAnyNumberOfAmperes) {
    // A computing block: 20 MA into 1 Ω for 2 V at the input. The bound on what a part carries is for parts.
    SmallCircuit circuit(2.0);
    circuit.r("R1", "in", "0", 1e3).r("R2", "out", "0", 1.0).i("B1", "0", "out", 0.0);
    Part& formula = *findPart(circuit.circuit(), "B1");
    formula.kind = PartKind::behaviouralCurrent;
    formula.law = "1e7*v(in)";
    const auto equations = Equations::compile(circuit, {});
    ASSERT_TRUE(equations) << equations.error().message;
    const auto bias = solveBias(*equations);
    ASSERT_TRUE(bias) << bias.error().message;
    EXPECT_NEAR(bias->x[std::size_t(equations->indexOfNet("out"))], 2e7, 1.0);
}

}  // namespace
}  // namespace ohmwright
