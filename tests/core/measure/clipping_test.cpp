// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/clipping.h"

#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

using test::SmallCircuit;

const std::map<std::string, double> silicon{{"IS", 2.52e-9}, {"N", 1.752}};

ClipCurve curveOf(const Circuit& circuit, const LargeSignalOptions& options = {}) {
    const auto solved = solveCircuit(circuit, {});
    EXPECT_TRUE(solved) << solved.error().message;
    const auto curve = measureClipCurve(*solved, "out", 220.0, options);
    EXPECT_TRUE(curve) << curve.error().message;
    return *curve;
}

/// Static clippers have a closed form, so their peak follows the input's peak: V = v + R i(v), solved for v by halving.
/// `forward` diodes in series conduct in the half-wave looked at, `backward` against it.
double staticPeak(double volts, int forward, int backward) {
    const double emission = 1.752 * 25.8649257863e-3;
    double low = 0.0;
    double high = volts;
    for (int k = 0; k < 200; ++k) {
        const double v = (low + high) / 2.0;
        const double amperes =
            2.52e-9 * (std::expm1(v / (forward * emission)) - std::expm1(-v / (backward * emission)));
        (v + 2.2e3 * amperes < volts ? low : high) = v;
    }
    return low;
}

/// Where the difference over half a decibel either way has fallen to 1/sqrt 2 of the slope at rest.
double staticThreshold(int forward, int backward) {
    const double k = std::pow(10.0, 0.5 / 20.0);
    const double atRest = staticPeak(1e-4, forward, backward) / 1e-4;
    double low = 0.01;
    double high = 3.0;
    for (int step = 0; step < 100; ++step) {
        const double level = std::sqrt(low * high);
        const double gain = (staticPeak(level * k, forward, backward) - staticPeak(level / k, forward, backward)) /
                            (level * (k - 1.0 / k));
        (gain > atRest / std::sqrt(2.0) ? low : high) = level;
    }
    return low;
}

TEST(Clipping, ThresholdOfAStaticClipperIsWhereItsSlopeHasFallenThreeDecibels) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 2.2e3).d("D1", "out", "0", silicon).d("D2", "0", "out", silicon);
    const ClipCurve curve = curveOf(circuit, {.clipToVoltsPeak = 1.0});
    ASSERT_TRUE(curve.positive && curve.negative);
    const double expected = staticThreshold(1, 1);
    EXPECT_NEAR(curve.positive->pickVoltsPeak, expected, 1e-3 * expected);
    EXPECT_NEAR(curve.positive->volts, staticPeak(expected, 1, 1), 1e-4);
    EXPECT_NEAR(curve.negative->volts, -curve.positive->volts, 1e-4);
    for (std::size_t point = 1; point < curve.pickVoltsPeak.size(); ++point) {
        EXPECT_NEAR(curve.positiveVolts[point], staticPeak(curve.pickVoltsPeak[point], 1, 1), 2e-4);
    }
}

TEST(Clipping, ALopsidedClipperHasAThresholdForEachHalfWave) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 2.2e3)
        .d("D1", "out", "j", silicon)
        .d("D3", "j", "0", silicon)
        .d("D2", "0", "out", silicon);
    const ClipCurve curve = curveOf(circuit, {.clipToVoltsPeak = 1.0});
    ASSERT_TRUE(curve.positive && curve.negative);
    const double positive = staticThreshold(2, 1);
    const double negative = staticThreshold(1, 2);
    EXPECT_NEAR(curve.positive->pickVoltsPeak, positive, 1e-3 * positive);
    EXPECT_NEAR(curve.positive->volts, staticPeak(positive, 2, 1), 2e-4);
    EXPECT_NEAR(curve.negative->pickVoltsPeak, negative, 1e-3 * negative);
    EXPECT_NEAR(curve.negative->volts, -staticPeak(negative, 1, 2), 2e-4);
}

TEST(Clipping, ACircuitThatNeverFlattensHasNoThreshold) {
    SmallCircuit circuit;
    circuit.r("R1", "in", "out", 1e3).r("R2", "out", "0", 1e3);
    const ClipCurve curve = curveOf(circuit);
    EXPECT_FALSE(curve.positive);
    EXPECT_FALSE(curve.negative);
    EXPECT_NEAR(curve.positiveVolts.back(), 0.1, 1e-5);
}

}  // namespace
}  // namespace ohmwright
