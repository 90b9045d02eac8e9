// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/bipolar.h"

#include "tests/support/small_circuits.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmwright {
namespace {

BipolarLaw lawOf(std::map<std::string, double> parameters, double kelvin = 300.15) {
    return BipolarLaw({"", PartKind::bipolar, std::move(parameters), ""}, kelvin);
}

TEST(Bipolar, EverySlopeIsTheDerivative) {
    auto card = test::card2N3904();
    card["ISC"] = 1e-14;
    card["VAR"] = 20.0;
    card["IKR"] = 0.1;
    card["TR"] = 2e-8;
    const BipolarLaw law = lawOf(card);
    const double step = 1e-6;
    for (const auto& volts : {std::pair{0.65, -4.0}, {0.7, 0.55}, {0.2, 0.6}, {-1.0, -5.0}, {0.75, -0.1}}) {
        const double be = volts.first;
        const double bc = volts.second;
        const auto at = law.at(be, bc);
        const auto check = [&](auto member, const char* name) {
            const double byEmitter =
                ((law.at(be + step, bc).*member).value - (law.at(be - step, bc).*member).value) / (2.0 * step);
            const double byCollector =
                ((law.at(be, bc + step).*member).value - (law.at(be, bc - step).*member).value) / (2.0 * step);
            EXPECT_NEAR((at.*member).byBaseEmitter, byEmitter,
                        2e-6 * std::abs(byEmitter) + 1e-9 * std::abs((at.*member).value))
                << name << be << bc;
            EXPECT_NEAR((at.*member).byBaseCollector, byCollector,
                        2e-6 * std::abs(byCollector) + 1e-9 * std::abs((at.*member).value))
                << name << be << bc;
        };
        check(&BipolarLaw::Point::collector, "collector ");
        check(&BipolarLaw::Point::base, "base ");
        check(&BipolarLaw::Point::chargeEmitter, "qbe ");
        check(&BipolarLaw::Point::chargeCollector, "qbc ");
    }
}

TEST(Bipolar, TheIdealLawGivesTheTextbookCurrents) {
    // Ebers-Moll: IC = IS exp(VBE/Vt), IB = IC/BF in the forward region; closed form.
    const BipolarLaw law = lawOf({{"IS", 1e-14}, {"BF", 200.0}});
    const double expected = 1e-14 * std::exp(0.65 / 25.8649257863e-3);
    EXPECT_NEAR(law.at(0.65, -5.0).collector.value, expected, 1e-9 * expected);
    EXPECT_NEAR(law.at(0.65, -5.0).base.value, expected / 200.0, 1e-9 * expected);
}

TEST(Bipolar, HeatLowersTheVoltageOfAGivenCurrent) {
    // About -1.8 mV/K for IS 1e-14, N 1 at 1 mA: the diode figure -1.774 mV/K, computed independently.
    const auto voltsFor = [](double kelvin) {
        const BipolarLaw law = lawOf({{"IS", 1e-14}, {"BF", 200.0}}, kelvin);
        double low = 0.3;
        double high = 0.9;
        for (int k = 0; k < 100; ++k) {
            const double middle = (low + high) / 2.0;
            (law.at(middle, -5.0).collector.value < 1e-3 ? low : high) = middle;
        }
        return low;
    };
    EXPECT_NEAR((voltsFor(305.15) - voltsFor(295.15)) / 10.0, -1.774e-3, 2e-5);
}

}  // namespace
}  // namespace ohmwright
