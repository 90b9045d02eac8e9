// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/diode.h"

#include "core/devices/model_parameters.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// The voltage at which the breakdown's exponential starts, so that IBV flows at -BV: IS at first.
/// Source: Quarles, as in the header; an IBV that the reverse current has long passed leaves BV as it is. A breakdown
/// so soft that it would start in the forward direction starts at a tenth.
double breakdownStart(double volts, double amperes, double saturation, double thermal, double slopeVolts) {
    if (volts <= 0.0) {
        return 0.0;
    }
    if (amperes < saturation * volts / thermal) {
        return volts;
    }
    return std::max(volts - slopeVolts * std::log(amperes / saturation), volts / 10.0);
}

/// exp() that goes on as its tangent above an exponent of 80.
ValueAndSlope boundedExponential(double exponent) {
    constexpr double largest = 80.0;
    const double exponential = std::exp(std::min(exponent, largest));
    return {exponential * (1.0 + std::max(exponent - largest, 0.0)), exponential};
}

}  // namespace

DiodeLaw::DiodeLaw(const Model& model, const DeviceInstance& instance) {
    const double kelvin = instance.kelvin;
    const double nominal = nominalKelvinOf(model);
    const double devices = parallelDevices(instance);
    const double vt = thermalVolts(kelvin);
    const double gap = parameterOr(model, "EG", 1.11);
    const double exponent = parameterOr(model, "XTI", 3.0);
    const double emission = parameterOr(model, "N", 1.0);
    const double recombinationEmission = parameterOr(model, "NR", 2.0);

    m_saturation =
        devices * saturationAtTemperature(parameterOr(model, "IS", 1e-14), kelvin, gap, exponent, emission, nominal);
    m_emissionVolts = emission * vt;
    m_critical = criticalVolts(m_saturation, m_emissionVolts);
    m_seriesOhms = parameterOr(model, "RS", 0.0) / devices;
    m_transitSeconds = parameterOr(model, "TT", 0.0);
    m_inverseKnee = inverseOrNone(model, "IKF") / devices;
    m_recombination = devices * saturationAtTemperature(parameterOr(model, "ISR", 0.0), kelvin, gap, exponent,
                                                        recombinationEmission, nominal);
    m_recombinationVolts = recombinationEmission * vt;

    m_grading = parameterOr(model, "M", 0.5);
    const double zeroBias = parameterOr(model, "CJO", parameterOr(model, "CJ0", 0.0));
    const BuiltIn builtIn = builtInAtTemperature({parameterOr(model, "VJ", 1.0), zeroBias}, m_grading, kelvin, nominal);
    m_builtInVolts = builtIn.volts;
    m_depletion = {builtIn.farads * devices, builtIn.volts, m_grading, parameterOr(model, "FC", 0.5)};

    m_breakdownVolts = parameterOr(model, "NBV", emission) * vt;
    m_breakdownStart = breakdownStart(parameterOr(model, "BV", 0.0), devices * parameterOr(model, "IBV", 1e-3),
                                      m_saturation, vt, m_breakdownVolts);
    m_currentAtStart = exponentialCurrent(m_saturation, m_emissionVolts, -m_breakdownStart).value;
    const double growth =
        boundedExponential((parameterOr(model, "BV", 0.0) - m_breakdownStart) / m_breakdownVolts).value;
    const double wanted = devices * parameterOr(model, "IBV", 1e-3);
    m_breakdownScale = growth > 1.0 ? (wanted + m_currentAtStart) / (growth - 1.0) : m_saturation;
    m_flicker = flickerOf(model, instance);
    m_flickerExponent = parameterOr(model, "AF", 1.0);
}

ValueAndSlope DiodeLaw::current(double volts) const {
    if (m_breakdownStart > 0.0 && volts < -m_breakdownStart) {
        const ValueAndSlope growth = boundedExponential(-(volts + m_breakdownStart) / m_breakdownVolts);
        return {m_currentAtStart - m_breakdownScale * (growth.value - 1.0),
                m_breakdownScale * growth.slope / m_breakdownVolts};
    }
    ValueAndSlope flow = exponentialCurrent(m_saturation, m_emissionVolts, volts);
    if (m_inverseKnee > 0.0 && flow.value > 0.0) {
        const double root = std::sqrt(flow.value * m_inverseKnee);
        flow.slope *= (1.0 + 0.5 * root) / ((1.0 + root) * (1.0 + root));
        flow.value /= 1.0 + root;
    }
    if (m_recombination > 0.0) {
        const ValueAndSlope more = recombination(volts);
        flow.value += more.value;
        flow.slope += more.slope;
    }
    return flow;
}

ValueAndSlope DiodeLaw::recombination(double volts) const {
    const ValueAndSlope ideal = exponentialCurrent(m_recombination, m_recombinationVolts, volts);
    const double width = 1.0 - volts / m_builtInVolts;
    const double square = width * width + 0.005;
    const double factor = std::pow(square, m_grading / 2.0);
    const double factorSlope = -m_grading * width / (square * m_builtInVolts) * factor;
    return {ideal.value * factor, ideal.slope * factor + ideal.value * factorSlope};
}

void DiodeLaw::at(const std::array<double, 1>& volts, Point& point) const {
    conduct(volts, point);
    const ValueAndSlope depletion = m_depletion.at(volts[0]);
    point.charges[0] = depletion.value + m_transitSeconds * point.currents[0];
    point.chargeSlopes[0] = depletion.slope + m_transitSeconds * point.currentSlopes[0];
}

void DiodeLaw::conduct(const std::array<double, 1>& volts, Point& point) const {
    const ValueAndSlope flow = current(volts[0]);
    point.currents[0] = flow.value;
    point.currentSlopes[0] = flow.slope;
}

void DiodeLaw::limit(std::array<double, 1>& proposed, const std::array<double, 1>& previous) const {
    const double bend = -m_breakdownStart + 10.0 * m_breakdownVolts;
    if (m_breakdownStart > 0.0 && proposed[0] < std::min(0.0, bend)) {
        const double held = limitedJunctionVolts(-(proposed[0] + m_breakdownStart), -(previous[0] + m_breakdownStart),
                                                 m_breakdownVolts, m_critical);
        proposed[0] = -(held + m_breakdownStart);
        return;
    }
    proposed[0] = limitedJunctionVolts(proposed[0], previous[0], m_emissionVolts, m_critical);
}

std::array<NoiseDensity, 1> DiodeLaw::noise(const std::array<double, 1>& volts) const {
    const double amperes = std::abs(current(volts[0]).value);
    return {{{2.0 * elementaryCharge * amperes, m_flicker * std::pow(amperes, m_flickerExponent)}}};
}

}  // namespace ohmwright
