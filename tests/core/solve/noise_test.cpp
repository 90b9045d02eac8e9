// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/noise.h"

#include "core/devices/constants.h"
#include "core/solve/response.h"
#include "tests/support/rest.h"
#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace ohmwright {
namespace {

using test::SmallCircuit;

NoiseCurve noiseOf(const Circuit& circuit, const std::vector<double>& hertz, double kelvin) {
    Setting setting;
    setting.temperatureKelvin = kelvin;
    const auto rest = test::restOf(circuit, setting);
    if (!rest) {
        return {};
    }
    auto curve = solveNoise(rest->equations, rest->bias, rest->equations.indexOfNet("out"), hertz);
    if (!curve) {
        ADD_FAILURE() << curve.error().message;
        return {};
    }
    return *curve;
}

double partNoise(const Circuit& circuit, const NoiseCurve& curve, const PartId& id) {
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
        if (circuit.parts[k].id == id) {
            return curve.byPart[k].empty() ? 0.0 : std::sqrt(curve.byPart[k][0]);
        }
    }
    ADD_FAILURE() << id;
    return 0.0;
}

TEST(Noise, ResistorsHissAsTabulated) {
    // sqrt(4kTR) with CODATA 2018's k [nV/√Hz], recomputed to five digits.
    struct Row {
        double kelvin;
        std::vector<double> nanovolts;
    };
    const std::vector<double> ohms{1e3, 4.7e3, 10e3, 100e3, 470e3, 1e6};
    for (const Row& row : {Row{290.0, {4.0019, 8.6760, 12.655, 40.019, 86.760, 126.55}},
                           {293.15, {4.0236, 8.7230, 12.724, 40.236, 87.230, 127.24}},
                           {298.15, {4.0578, 8.7971, 12.832, 40.578, 87.971, 128.32}},
                           {300.0, {4.0704, 8.8243, 12.872, 40.704, 88.243, 128.72}},
                           {300.15, {4.0714, 8.8265, 12.875, 40.714, 88.265, 128.75}}}) {
        for (std::size_t k = 0; k < ohms.size(); ++k) {
            SmallCircuit circuit;
            circuit.r("R1", "out", "0", ohms[k]);
            const NoiseCurve curve = noiseOf(circuit, {1000.0}, row.kelvin);
            EXPECT_NEAR(curve.output[0] * 1e9, row.nanovolts[k], 5e-5 * row.nanovolts[k]);
            EXPECT_EQ(curve.gain[0], 0.0);
        }
    }
}

TEST(Noise, TenKilohmsInTheAudioBandMakeTheirMicrovolts) {
    // 10 k at 300 K in a flat 20 kHz: 1.82032 uV.
    SmallCircuit circuit;
    circuit.r("R1", "out", "0", 10e3);
    std::vector<double> hertz;
    for (int k = 0; k <= 40; ++k) {
        hertz.push_back(500.0 * k);
    }
    const NoiseCurve curve = noiseOf(circuit, hertz, 300.0);
    EXPECT_NEAR(noiseVoltsRms(curve, 0.0, 20e3) * 1e6, 1.82032, 1e-5);
    // Ends between the points, and beyond them.
    EXPECT_NEAR(noiseVoltsRms(curve, 1234.0, 11234.0) * 1e6, 1.82032 * std::sqrt(0.5), 1e-5);
    EXPECT_NEAR(noiseVoltsRms(curve, -5.0, 1e9) * 1e6, 1.82032, 1e-5);
    EXPECT_EQ(noiseVoltsRms(curve, 300.0, 300.0), 0.0);
}

TEST(Noise, ACapacitorHoldsItsShareWhateverTheResistor) {
    // sqrt(kT/C) at 300 K: 64.358, 6.4358, 2.03518, 0.643580 uV for 1 p, 100 p, 1 n, 10 n.
    for (const auto& [farads, microvolts] :
         {std::pair{1e-12, 64.358}, {100e-12, 6.4358}, {1e-9, 2.03518}, {10e-9, 0.643580}}) {
        for (const double ohms : {1e3, 100e3}) {
            SmallCircuit circuit;
            circuit.r("R1", "out", "0", ohms).c("C1", "out", "0", farads);
            const double corner = 1.0 / (2.0 * std::numbers::pi * ohms * farads);
            const auto grid = logarithmicGrid(corner * 1e-5, corner * 1e5, 200);
            EXPECT_NEAR(noiseVoltsRms(noiseOf(circuit, grid, 300.0), grid.front(), grid.back()) * 1e6, microvolts,
                        1e-4 * microvolts);
        }
    }
}

TEST(Noise, ButterworthFiltersHaveTheirNoiseBandwidth) {
    // (pi/2n)/sin(pi/2n): 1.570796, 1.110721, 1.047198, 1.026172 times the corner.
    const std::vector<std::vector<double>> elements{
        {2.0}, {1.414214, 1.414214}, {1.0, 2.0, 1.0}, {0.765367, 1.847759, 1.847759, 0.765367}};
    const std::vector<double> bandwidths{1.570796, 1.110721, 1.047198, 1.026172};
    for (std::size_t order = 1; order <= elements.size(); ++order) {
        SmallCircuit circuit;
        circuit.r("RS", "in", order <= 1 ? "out" : "n1", 1e3);
        const double w0 = 2.0 * std::numbers::pi * 1e3;
        std::string net = order <= 1 ? "out" : "n1";
        for (std::size_t k = 1; k <= order; ++k) {
            const double g = elements[order - 1][k - 1];
            const std::string n = std::to_string(k);
            if (k % 2 == 1) {
                circuit.c("C" + n, net, "0", g / (w0 * 1e3));
            } else {
                const std::string next = k + 1 >= order ? "out" : "n" + n;
                circuit.l("L" + n, net, next, g * 1e3 / w0);
                net = next;
            }
        }
        circuit.r("RL", "out", "0", 1e3);
        // The gain is 1/2 in the pass band: the integral of (2 gain)^2 is the bandwidth.
        NoiseCurve curve = noiseOf(circuit, logarithmicGrid(1e-3, 1e8, 200), 300.0);
        curve.output = curve.gain;
        const double root = 2.0 * noiseVoltsRms(curve, curve.hertz.front(), curve.hertz.back());
        EXPECT_NEAR(root * root / 1e3, bandwidths[order - 1], 2e-4) << order;
    }
}

TEST(Noise, AForwardDiodeHasHalfThePowerOfItsSlope) {
    // Ideal, 300 K, 1 mA: sqrt(2qI) rd = 0.46277 nV/√Hz, with rd = 25.852 ohm.
    SmallCircuit circuit;
    circuit.i("I1", "0", "out", 1e-3).d("D1", "out", "0", {{"IS", 1e-15}, {"TNOM", 26.85}});
    const NoiseCurve curve = noiseOf(circuit, {1000.0}, 300.0);
    EXPECT_NEAR(curve.output[0] * 1e9, 0.46277, 1e-5);
}

TEST(Noise, ATransistorHasItsEquivalentVoltage) {
    // en^2 = 4kT (rbb + 1/(2 gm)); IC 100 uA, beta 500, rbb 10 ohm, 300 K: 1.51896 nV/√Hz, without 1/f;
    // rbb also takes 10 ohm of rpi's 129 kohm from the gain.
    const double collector = 100e-6;
    const double saturation = 1e-15;
    SmallCircuit circuit(thermalVolts(300.0) * std::log(collector / saturation) + 10.0 * collector / 500.0);
    circuit.v("VCC", "vcc", "0", 9.0)
        .r("RC", "vcc", "out", 10e3)
        .q("Q1", "out", "in", "0", {{"IS", saturation}, {"BF", 500.0}, {"RB", 10.0}, {"TNOM", 26.85}});
    const NoiseCurve curve = noiseOf(circuit, {1000.0}, 300.0);
    EXPECT_NEAR(partNoise(circuit, curve, "Q1") / curve.gain[0] * 1e9, 1.51896 * (1.0 + 10.0 / 129.26e3), 2e-5);
}

TEST(Noise, ATransistorHasItsEquivalentCurrent) {
    // in^2 = 2 q IB; the same stage driven by a current into its base: 0.253154 pA/√Hz (200 nA). The collector's own
    // noise, sqrt(2 q IC)/beta, comes beside it.
    SmallCircuit circuit;
    circuit.circuit().parts.clear();
    circuit.i("VIN", "0", "b", 0.2e-6);
    circuit.v("VCC", "vcc", "0", 9.0)
        .r("RC", "vcc", "out", 10e3)
        .q("Q1", "out", "b", "0", {{"IS", 1e-15}, {"BF", 500.0}, {"TNOM", 26.85}});
    const NoiseCurve curve = noiseOf(circuit, {1000.0}, 300.0);
    const double collector = std::sqrt(2.0 * elementaryCharge * 100e-6) / 500.0;
    EXPECT_NEAR(std::sqrt(std::pow(partNoise(circuit, curve, "Q1") / curve.gain[0], 2) - collector * collector) * 1e12,
                0.253154, 2e-5);
}

TEST(Noise, NonInvertingStageHasTheWorkedExamplesParts) {
    // Rs 10k, Rg 1k, Rf 100k, en 5 nV, in 0.7 pA at both inputs, 300 K, G = 101. Output parts [nV/√Hz]: Rs 1300, en
    // 505, in+ 707, in- 70, Rg 407, Rf 40.7; total 1617.8, input-referred 16.018; 228.79 uV in a flat 20 kHz.
    SmallCircuit circuit;
    circuit.v("VP", "vp", "0", 15.0)
        .v("VN", "0", "vn", 15.0)
        .r("RS", "in", "p", 10e3)
        .opamp("U1", {"p", "m", "out", "vp", "vn"},
               {{"GAIN", 1e8}, {"GBW", 1e12}, {"ROUT", 1e-2}, {"EN", 5e-9}, {"IN", 0.7e-12}})
        .r("RG", "m", "0", 1e3)
        .r("RF", "m", "out", 100e3);
    std::vector<double> hertz;
    for (int k = 0; k <= 20; ++k) {
        hertz.push_back(1e3 * k);
    }
    const NoiseCurve curve = noiseOf(circuit, hertz, 300.0);
    EXPECT_NEAR(partNoise(circuit, curve, "RS") * 1e9, 1300.0, 0.5);
    EXPECT_NEAR(partNoise(circuit, curve, "RG") * 1e9, 407.0, 0.5);
    EXPECT_NEAR(partNoise(circuit, curve, "RF") * 1e9, 40.7, 0.05);
    EXPECT_NEAR(partNoise(circuit, curve, "U1") * 1e9, std::sqrt(505.0 * 505.0 + 707.0 * 707.0 + 70.0 * 70.0), 0.5);
    EXPECT_NEAR(curve.output[1] * 1e9, 1617.8, 0.05);
    EXPECT_NEAR(curve.gain[1], 101.0, 1e-3);
    EXPECT_NEAR(curve.inputReferred(1) * 1e9, 16.018, 5e-4);
    EXPECT_NEAR(noiseVoltsRms(curve, 0.0, 20e3) * 1e6, 228.79, 0.005);
}

TEST(Noise, FlickerRisesAsOneOverF) {
    // KF 1e-15, AF 1: KF I/f beside 2 q I; they meet at KF/2q.
    SmallCircuit circuit;
    circuit.i("I1", "0", "out", 1e-3).d("D1", "out", "0", {{"IS", 1e-15}, {"KF", 1e-15}});
    const double corner = 1e-15 / (2.0 * elementaryCharge);
    const NoiseCurve curve = noiseOf(circuit, {corner / 100.0, corner, corner * 1e6}, 300.0);
    const double white = curve.output[2] * curve.output[2];
    EXPECT_NEAR(curve.output[1] * curve.output[1] / white, 2.0, 1e-5);
    EXPECT_NEAR(curve.output[0] * curve.output[0] / white, 101.0, 1e-3);

    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    const std::vector<double> zero{0.0};
    const auto refused = solveNoise(*equations, *bias, equations->indexOfNet("out"), zero);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::invalidInput);
}

TEST(Noise, PartsAddUpAndAStopIsHeard) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 2e3).c("C1", "out", "0", 1e-9);
    const std::vector<double> hertz{20.0, 1e3, 5e4, 1e6, 2e7};
    const NoiseCurve curve = noiseOf(circuit, hertz, 300.0);
    for (std::size_t k = 0; k < hertz.size(); ++k) {
        const double sum = curve.byPart[1][k] + curve.byPart[2][k];
        EXPECT_NEAR(sum, curve.output[k] * curve.output[k], 1e-15 * sum);
    }
    EXPECT_TRUE(curve.byPart[0].empty());
    EXPECT_TRUE(curve.byPart[3].empty());
    const auto equations = Equations::compile(circuit, {});
    const auto bias = solveBias(*equations);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = solveNoise(*equations, *bias, 0, hertz, stop.get_token());
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
}

}  // namespace
}  // namespace ohmwright
