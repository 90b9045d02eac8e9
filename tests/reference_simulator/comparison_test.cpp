/// Every netlist of tests/reference/suite solved by core/ and by the reference simulator in the same run.
///
/// Tolerances: bias and DC transfer 0.1 mV or 1e-4, the larger; linear gain 0.001 dB and 0.01 degree; noise 0.1 %;
/// settled waves 0.5 % of their peak, root mean square; harmonics 0.1 dB and 3e-5 of the fundamental, above -60 dB.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/reference_simulator/core_answers.h"
#include "tests/reference_simulator/reference_answers.h"
#include "tests/reference_simulator/suite.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <string>

namespace ohmwright::reference {

namespace {

constexpr double biasVolts = 1e-4;
constexpr double biasShare = 1e-4;
// Ten times the reference's abstol, and what gmin makes of 10 V.
constexpr double biasAmperes = 1e-10;
constexpr double linearDb = 0.001;
constexpr double linearDegrees = 0.01;
// A gain this far under the greatest of its curve is rounding in both: the bottom of a notch.
constexpr double rounding = 1e-9;
constexpr double noiseShare = 1e-3;
constexpr double waveShareOfPeak = 5e-3;
constexpr double harmonicDb = 0.1;
constexpr double harmonicShareOfFundamental = 3e-5;
constexpr double quietestHarmonicDb = -60.0;
constexpr int harmonicCount = 9;
// The reference's start-up is over when its last two periods differ by less than a hundredth of what is tolerated.
constexpr double settledShare = 5e-5;
// Poles and zeros are figures of their own; a curve made of them keeps this.
constexpr double productDb = 0.01;
constexpr double productDegrees = 0.1;
constexpr double closedFormShare = 1e-6;

double decibels(double ratio) {
    return 20.0 * std::log10(ratio);
}

double degreesBetween(std::complex<double> a, std::complex<double> b) {
    return std::abs(std::arg(a / b)) * 180.0 / std::numbers::pi;
}

double greatestMagnitude(const std::vector<std::complex<double>>& values) {
    double greatest = 0.0;
    for (const auto& value : values) {
        greatest = std::max(greatest, std::abs(value));
    }
    return greatest;
}

void expectSameBias(const std::map<std::string, double>& ours, const std::map<std::string, double>& theirs,
                    double smallest, const char* what) {
    EXPECT_FALSE(theirs.empty());
    for (const auto& [name, value] : theirs) {
        const auto found = ours.find(name);
        ASSERT_NE(found, ours.end()) << "core has no " << what << " of " << name;
        EXPECT_NEAR(found->second, value, std::max(smallest, biasShare * std::abs(value))) << what << " of " << name;
    }
}

void expectSameCurve(const std::vector<double>& hertz, const std::vector<std::complex<double>>& ours,
                     const std::vector<std::complex<double>>& theirs, double db, double degrees) {
    ASSERT_EQ(ours.size(), theirs.size());
    const double floor = rounding * greatestMagnitude(theirs);
    for (std::size_t k = 0; k < theirs.size(); ++k) {
        if (std::abs(ours[k] - theirs[k]) > floor) {
            EXPECT_NEAR(decibels(std::abs(ours[k])), decibels(std::abs(theirs[k])), db) << "at " << hertz[k] << " Hz";
            EXPECT_LE(degreesBetween(ours[k], theirs[k]), degrees) << "at " << hertz[k] << " Hz";
        }
    }
}

void compareBias(const SuiteNetlist& netlist, const Comparison& comparison) {
    const ReferenceBias theirs = referenceBias(netlist);
    const CoreAnswers ours(netlist, comparison);
    expectSameBias(ours.volts(), theirs.volts, biasVolts, "voltage");
    expectSameBias(ours.sourceAmperes(), theirs.sourceAmperes, biasAmperes, "current");
}

void compareResponse(const SuiteNetlist& netlist, const Comparison& comparison) {
    const ReferenceResponse theirs = referenceResponse(netlist, comparison);
    const CoreAnswers ours(netlist, comparison);
    expectSameCurve(theirs.hertz, ours.response(theirs.hertz), theirs.gain, linearDb, linearDegrees);
}

void compareNoise(const SuiteNetlist& netlist, const Comparison& comparison) {
    const ReferenceNoise theirs = referenceNoise(netlist, comparison);
    const CoreAnswers::Noise ours = CoreAnswers(netlist, comparison).noise(theirs.hertz);
    for (std::size_t k = 0; k < theirs.hertz.size(); ++k) {
        EXPECT_NEAR(ours.output[k] / theirs.output[k], 1.0, noiseShare) << "output at " << theirs.hertz[k] << " Hz";
        EXPECT_NEAR(ours.input[k] / theirs.input[k], 1.0, noiseShare) << "input at " << theirs.hertz[k] << " Hz";
    }
}

void compareTransfer(const SuiteNetlist& netlist, const Comparison& comparison) {
    const ReferenceTransfer theirs = referenceTransfer(netlist, comparison);
    ASSERT_EQ(double(theirs.input.size()), comparison.numbers.at(2));
    const std::vector<double> ours = CoreAnswers(netlist, comparison).transfer(theirs.input);
    for (std::size_t k = 0; k < theirs.input.size(); ++k) {
        EXPECT_NEAR(ours[k], theirs.output[k], std::max(biasVolts, biasShare * std::abs(theirs.output[k])))
            << "with " << theirs.input[k] << " at the input";
    }
}

// Each form as the file gives it, of a pair the upper one, is one of the figures.
void expectClosedForms(const std::vector<std::complex<double>>& forms, const std::vector<std::complex<double>>& found,
                       const char* what) {
    double greatest = 0.0;
    for (const auto& form : forms) {
        greatest = std::max(greatest, std::abs(form));
    }
    for (const auto& form : forms) {
        const double size = std::abs(form) == 0.0 ? greatest : std::abs(form);
        double nearest = std::numeric_limits<double>::infinity();
        for (const auto& figure : found) {
            nearest = std::min(nearest, std::abs(figure - form));
        }
        EXPECT_LE(nearest, closedFormShare * size + 1e-6) << what << ' ' << form << " Hz is not found";
    }
}

// The curve that poles and zeros make, up to a factor; overflow is kept away by pairing them.
std::vector<std::complex<double>> curveOf(const PolesAndZeros& figures, const std::vector<double>& hertz) {
    std::vector<std::complex<double>> curve;
    for (const double frequency : hertz) {
        const std::complex<double> s(0.0, frequency);
        std::complex<double> product = 1.0;
        const std::size_t count = std::max(figures.poles.size(), figures.zeros.size());
        for (std::size_t k = 0; k < count; ++k) {
            product *= k < figures.zeros.size() ? (s - figures.zeros[k]) / frequency : 1.0 / frequency;
            product /= k < figures.poles.size() ? (s - figures.poles[k]) / frequency : 1.0 / frequency;
        }
        curve.push_back(product);
    }
    return curve;
}

void comparePoles(const SuiteNetlist& netlist, const Comparison& comparison) {
    const CoreAnswers ours(netlist, comparison);
    const PolesAndZeros figures = ours.polesAndZeros();
    expectClosedForms(netlist.poles, figures.poles, "pole");
    expectClosedForms(netlist.zeros, figures.zeros, "zero");
    EXPECT_FALSE(figures.poles.empty());
    Comparison grid = comparison;
    if (grid.numbers.empty()) {
        grid.numbers = {20.0, 20e3, 10.0};
    }
    // All of them together: their product is the reference's response but for one factor, taken where it is largest.
    const ReferenceResponse theirs = referenceResponse(netlist, grid);
    auto curve = curveOf(figures, theirs.hertz);
    const auto largest = std::max_element(theirs.gain.begin(), theirs.gain.end(),
                                          [](auto a, auto b) { return std::abs(a) < std::abs(b); });
    const std::complex<double> factor = *largest / curve[std::size_t(largest - theirs.gain.begin())];
    for (auto& gain : curve) {
        gain *= factor;
    }
    expectSameCurve(theirs.hertz, curve, theirs.gain, productDb, productDegrees);
}

double peakOf(const std::vector<double>& volts) {
    const auto [lowest, highest] = std::minmax_element(volts.begin(), volts.end());
    return (*highest - *lowest) / 2.0;
}

double rootMeanSquareDifference(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t k = 0; k < a.size(); ++k) {
        sum += (a[k] - b[k]) * (a[k] - b[k]);
    }
    return std::sqrt(sum / double(a.size()));
}

// One settled period, ours by shooting: sample k at (k + 1) / size, brought to the reference's phases.
std::vector<double> atReferencePhases(const std::vector<double>& period) {
    const double steps = double(period.size());
    std::vector<double> phases, volts, wanted;
    for (int turn = -1; turn <= 1; ++turn) {
        for (std::size_t k = 0; k < period.size(); ++k) {
            phases.push_back(turn + double(k + 1) / steps);
            volts.push_back(period[k]);
        }
    }
    for (int k = 0; k < samplesPerPeriod; ++k) {
        wanted.push_back(double(k) / samplesPerPeriod);
    }
    return interpolated(phases, volts, wanted);
}

void expectSameHarmonics(const std::vector<double>& ourPeriod, const std::vector<double>& theirPeriod) {
    const std::vector<double> ours = harmonicAmplitudes(ourPeriod, harmonicCount);
    const std::vector<double> theirs = harmonicAmplitudes(theirPeriod, harmonicCount);
    const double fundamental = theirs[1];
    EXPECT_NEAR(decibels(ours[1] / theirs[1]), 0.0, harmonicDb) << "fundamental";
    for (int n = 2; n <= harmonicCount; ++n) {
        const auto at = std::size_t(n);
        if (decibels(theirs[at] / fundamental) < quietestHarmonicDb) {
            continue;
        }
        const double tolerance =
            theirs[at] * (std::pow(10.0, harmonicDb / 20.0) - 1.0) + harmonicShareOfFundamental * fundamental;
        EXPECT_NEAR(ours[at], theirs[at], tolerance)
            << "harmonic " << n << " at " << decibels(theirs[at] / fundamental) << " dB";
    }
}

void compareSettled(const SuiteNetlist& netlist, const Comparison& comparison) {
    const CoreAnswers core(netlist, comparison);
    for (const double hertz : comparison.lists.at("tone")) {
        for (const double peak : comparison.lists.at("level")) {
            SCOPED_TRACE(std::to_string(hertz) + " Hz, " + std::to_string(peak) + " V");
            const ReferencePeriod theirs = referencePeriod(netlist, comparison, hertz, peak);
            ASSERT_LT(theirs.changeFromPeriodBefore, settledShare) << "the reference has not settled";
            const std::vector<double> period = core.settledPeriod(hertz, peak);
            EXPECT_LE(rootMeanSquareDifference(atReferencePhases(period), theirs.volts),
                      waveShareOfPeak * peakOf(theirs.volts));
            expectSameHarmonics(period, theirs.volts);
        }
    }
}

void compareTwoTone(const SuiteNetlist& netlist, const Comparison& comparison) {
    const std::vector<double>& tones = comparison.lists.at("tone");
    constexpr int order = 5;
    const TwoToneSpectrum ours =
        CoreAnswers(netlist, comparison).twoTone(tones.at(0), tones.at(1), comparison.first("level"), order);
    const auto commonHz = double(std::gcd(std::lround(tones[0]), std::lround(tones[1])));
    ASSERT_NEAR(ours.commonHz, commonHz, 1e-9 * commonHz);
    const int highest = int(std::lround(ours.products.back().hertz / commonHz));
    const std::vector<double> theirs = referenceTwoTone(netlist, comparison, commonHz, highest);
    const double first = theirs.at(std::size_t(std::lround(tones[0] / commonHz)));
    EXPECT_NEAR(decibels(ours.firstToneVoltsPeak / first), 0.0, harmonicDb) << "first tone";
    int compared = 0;
    for (const TwoToneProduct& product : ours.products) {
        const double volts = theirs.at(std::size_t(std::lround(product.hertz / commonHz)));
        if (decibels(volts / first) < quietestHarmonicDb) {
            continue;
        }
        const double tolerance = volts * (std::pow(10.0, harmonicDb / 20.0) - 1.0) + harmonicShareOfFundamental * first;
        EXPECT_NEAR(product.voltsPeak, volts, tolerance)
            << product.hertz << " Hz at " << decibels(volts / first) << " dB";
        ++compared;
    }
    EXPECT_GE(compared, 8) << "tones that hardly meet prove nothing";
}

void compareCold(const SuiteNetlist& netlist, const Comparison& comparison) {
    const double hertz = comparison.first("tone");
    const std::vector<double> theirs = referenceColdWave(netlist, comparison);
    std::vector<double> seconds(theirs.size());
    for (std::size_t k = 0; k < seconds.size(); ++k) {
        seconds[k] = double(k) / (hertz * samplesPerPeriod);
    }
    const auto ours = CoreAnswers(netlist, comparison).coldWave(hertz, comparison.first("level"), seconds);
    EXPECT_LE(rootMeanSquareDifference(ours, theirs), waveShareOfPeak * peakOf(theirs));
}

void compare(const SuiteNetlist& netlist, const Comparison& comparison) {
    SCOPED_TRACE(comparison.kind);
    if (comparison.kind == "bias") {
        compareBias(netlist, comparison);
    } else if (comparison.kind == "response") {
        compareResponse(netlist, comparison);
    } else if (comparison.kind == "noise") {
        compareNoise(netlist, comparison);
    } else if (comparison.kind == "transfer") {
        compareTransfer(netlist, comparison);
    } else if (comparison.kind == "poles") {
        comparePoles(netlist, comparison);
    } else if (comparison.kind == "settled") {
        compareSettled(netlist, comparison);
    } else if (comparison.kind == "two-tone") {
        compareTwoTone(netlist, comparison);
    } else if (comparison.kind == "cold") {
        compareCold(netlist, comparison);
    } else {
        FAIL() << "no comparison is called " << comparison.kind;
    }
}

std::string testName(const testing::TestParamInfo<std::string>& info) {
    std::string name = info.param;
    std::replace(name.begin(), name.end(), '/', '_');
    return name;
}

class ReferenceSuite : public testing::TestWithParam<std::string> {};

}  // namespace

TEST_P(ReferenceSuite, Agrees) {
    const SuiteNetlist netlist = loadSuiteNetlist(GetParam());
    for (const Comparison& comparison : netlist.comparisons) {
        try {
            compare(netlist, comparison);
        } catch (const std::runtime_error& reason) {
            ADD_FAILURE() << comparison.kind << ": " << reason.what();
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Suite, ReferenceSuite, testing::ValuesIn(suiteNames()), testName);

}  // namespace ohmwright::reference
