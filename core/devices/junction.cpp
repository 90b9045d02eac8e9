// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/junction.h"

#include "core/devices/constants.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

/// What the built-in voltage of any silicon junction changes by from 300.15 K, beside its share of T.
double builtInShift(double kelvin) {
    const double vt = thermalVolts(kelvin);
    const double gaps = siliconGap(nominalKelvin) / thermalVolts(nominalKelvin) - siliconGap(kelvin) / vt;
    return -vt * (3.0 * std::log(kelvin / nominalKelvin) + gaps);
}

}  // namespace

double siliconGap(double kelvin) {
    return 1.16 - 7.02e-4 * kelvin * kelvin / (kelvin + 1108.0);
}

DepletionLaw::DepletionLaw(double zeroBiasFarads, double builtInVolts, double grading, double forwardShare)
    : m_zeroBiasFarads(zeroBiasFarads),
      m_inverseVolts(1.0 / builtInVolts),
      m_grading(grading),
      m_chargeScale(zeroBiasFarads * builtInVolts / (1.0 - grading)),
      m_bend(forwardShare * builtInVolts) {
    const double base = 1.0 - forwardShare;
    const double power = inversePower(base, grading);
    m_faradsAtBend = zeroBiasFarads * power;
    m_chargeAtBend = m_chargeScale * (1.0 - base * power);
    m_faradsPerVolt = m_faradsAtBend * grading / (base * builtInVolts);
}

double criticalVolts(double saturationAmperes, double emissionVolts) {
    return emissionVolts * std::log(emissionVolts / (std::numbers::sqrt2 * saturationAmperes));
}

double limitedJunctionVolts(double proposed, double previous, double emissionVolts, double critical) {
    if (proposed <= critical || std::abs(proposed - previous) <= 2.0 * emissionVolts) {
        return proposed;
    }
    if (previous <= 0.0) {
        return emissionVolts * std::log(proposed / emissionVolts);
    }
    const double argument = 1.0 + (proposed - previous) / emissionVolts;
    return argument > 0.0 ? previous + emissionVolts * std::log(argument) : critical;
}

double saturationAtTemperature(double nominalAmperes, double kelvin, double bandGapElectronVolts, double exponent,
                               double emission, double atKelvin) {
    const double ratio = kelvin / atKelvin;
    return nominalAmperes * std::pow(ratio, exponent / emission) *
           std::exp((ratio - 1.0) * bandGapElectronVolts / (emission * thermalVolts(kelvin)));
}

BuiltIn builtInAtTemperature(BuiltIn nominal, double grading, double kelvin, double atKelvin) {
    if (kelvin == atKelvin) {
        return nominal;
    }
    constexpr double lowestVolts = 0.01;
    constexpr double perKelvin = 4e-4;  // of a silicon junction's capacitance (Vladimirescu, Liu)
    const double reference = (nominal.volts - builtInShift(atKelvin)) * nominalKelvin / atKelvin;
    const auto capacitanceFactor = [&](double at, double volts) {
        return 1.0 + grading * (perKelvin * (at - nominalKelvin) - (volts - reference) / reference);
    };
    const double volts = std::max(reference * kelvin / nominalKelvin + builtInShift(kelvin), lowestVolts);
    const double factor = capacitanceFactor(kelvin, volts) / capacitanceFactor(atKelvin, nominal.volts);
    return {volts, nominal.farads * std::max(factor, 0.0)};
}

}  // namespace ohmwright
