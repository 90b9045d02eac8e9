// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/junction.h"

#include "core/devices/constants.h"

#include <cmath>
#include <numbers>

namespace ohmwright {

namespace {

/// exp(80) = 5.5e34: no junction gets there; past it the tangent keeps the iteration finite.
constexpr double largestExponent = 80.0;

}  // namespace

ValueAndSlope exponentialCurrent(double saturationAmperes, double emissionVolts, double volts) {
    const double exponent = volts / emissionVolts;
    if (exponent > largestExponent) {
        const double top = std::exp(largestExponent);
        const double slope = saturationAmperes * top / emissionVolts;
        return {saturationAmperes * (top - 1.0) + slope * (volts - largestExponent * emissionVolts), slope};
    }
    const double exponential = std::exp(exponent);
    return {saturationAmperes * (exponential - 1.0), saturationAmperes * exponential / emissionVolts};
}

ValueAndSlope DepletionLaw::at(double volts) const {
    if (zeroBiasFarads == 0.0) {
        return {};
    }
    const double bend = forwardShare * builtInVolts;
    if (volts < bend) {
        const double base = 1.0 - volts / builtInVolts;
        const double capacitance = zeroBiasFarads * std::pow(base, -grading);
        return {builtInVolts / (1.0 - grading) * (zeroBiasFarads - base * capacitance), capacitance};
    }
    const double base = 1.0 - forwardShare;
    const double atBend = std::pow(base, -grading);
    const double chargeAtBend = zeroBiasFarads * builtInVolts / (1.0 - grading) * (1.0 - base * atBend);
    const double slopeFactor = zeroBiasFarads * atBend / base;
    const double f3 = 1.0 - forwardShare * (1.0 + grading);
    const double charge = chargeAtBend + slopeFactor * (f3 * (volts - bend) +
                                                        grading / (2.0 * builtInVolts) * (volts * volts - bend * bend));
    return {charge, slopeFactor * (f3 + grading * volts / builtInVolts)};
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
                               double emission) {
    const double ratio = kelvin / nominalKelvin;
    return nominalAmperes * std::pow(ratio, exponent / emission) *
           std::exp((ratio - 1.0) * bandGapElectronVolts / (emission * thermalVolts(kelvin)));
}

}  // namespace ohmwright
