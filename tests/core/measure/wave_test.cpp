// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/wave.h"

#include "tests/support/csv_rows.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace ohmwright {
namespace {

/// Samples of a function of the phase, 0..2 pi; the first is one step into the period, as settled states give them.
std::vector<double> sampled(std::size_t count, const std::function<double(double)>& wave) {
    std::vector<double> samples;
    for (std::size_t k = 1; k <= count; ++k) {
        samples.push_back(wave(2.0 * std::numbers::pi * double(k) / double(count)));
    }
    return samples;
}

constexpr std::size_t many = 200001;

TEST(Wave, ClippedSinesHaveTheirFourierSeries) {
    // clip_symmetric.csv: closed forms b1 = (2/pi)(a + r sqrt(1 - r^2)) ..., a = asin r; THD over the fundamental.
    int compared = 0;
    for (const auto& row : test::referenceTable("clip_symmetric.csv")) {
        const double r = std::stod(row.at("r=clip/peak"));
        const auto wave = sampled(many, [r](double phase) { return std::clamp(std::sin(phase), -r, r); });
        const auto harmonics = harmonicsOf(wave, 9, 1.0 / double(many));
        for (const int n : {1, 3, 5, 7, 9}) {
            // A pure sine has phase 0, so the sine coefficient is the real part.
            EXPECT_NEAR(harmonics[std::size_t(n)].real(), std::stod(row.at("b" + std::to_string(n) + "/A")), 2e-8)
                << r << " " << n;
            ++compared;
        }
        EXPECT_NEAR(std::abs(harmonics[2]), 0.0, 1e-8);
    }
    EXPECT_GE(compared, 30);
}

TEST(Wave, OneSidedClippingHasEvenHarmonicsAndAMean) {
    // clip_onesided.csv: closed forms with phi = acos r.
    for (const auto& row : test::referenceTable("clip_onesided.csv")) {
        const double r = std::stod(row.at("r=positive clip/peak"));
        const auto wave = sampled(many, [r](double phase) { return std::min(std::sin(phase), r); });
        const auto harmonics = harmonicsOf(wave, 5, 1.0 / double(many));
        EXPECT_NEAR(meanOf(wave), std::stod(row.at("DC/A")), 2e-8) << r;
        for (int n = 1; n <= 5; ++n) {
            EXPECT_NEAR(std::abs(harmonics[std::size_t(n)]), std::stod(row.at("|h" + std::to_string(n) + "|/A")), 2e-8)
                << r << " " << n;
        }
    }
}

TEST(Wave, TanhDistortsAsComputed) {
    // tanh(2 sin): b1 1.117941837, b3 .188742325, b5 .043004676, THD_F 17.340691 % (computed independently).
    const auto wave = sampled(4097, [](double phase) { return std::tanh(2.0 * std::sin(phase)); });
    const auto harmonics = harmonicsOf(wave, 60, 1.0 / 4097.0);
    EXPECT_NEAR(harmonics[1].real(), 1.117941837, 1e-8);
    EXPECT_NEAR(harmonics[3].real(), 0.188742325, 1e-8);
    EXPECT_NEAR(harmonics[5].real(), 0.043004676, 1e-8);
    EXPECT_NEAR(100.0 * totalHarmonicDistortion(harmonics), 17.340691, 1e-5);
}

TEST(Wave, PeaksLieBetweenSamples) {
    // 65 samples of a sine miss its summit by up to (pi/65)^2/2 = 0.12 %; the parabola finds it.
    const auto wave = sampled(65, [](double phase) { return 2.0 * std::sin(phase + 0.3) + 0.5; });
    EXPECT_NEAR(peaksOf(wave).highest, 2.5, 2e-5);
    EXPECT_NEAR(peaksOf(wave).lowest, -1.5, 2e-5);
}

TEST(Wave, RmsIsOfTheAlternatingPart) {
    const auto wave = sampled(257, [](double phase) { return 4.461 + 0.1 * std::sin(phase); });
    EXPECT_NEAR(alternatingRms(wave), 0.1 / std::numbers::sqrt2, 1e-12);
    EXPECT_NEAR(meanOf(wave), 4.461, 1e-12);
}

TEST(Wave, AConstantHasPeaksAtItself) {
    const std::vector<double> wave(129, 1.5);
    EXPECT_DOUBLE_EQ(peaksOf(wave).highest, 1.5);
    EXPECT_DOUBLE_EQ(peaksOf(wave).lowest, 1.5);
    EXPECT_DOUBLE_EQ(alternatingRms(wave), 0.0);
}

}  // namespace
}  // namespace ohmwright
