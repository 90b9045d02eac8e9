// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/jfet.h"

#include "core/devices/fet_gate.h"
#include "core/devices/model_parameters.h"

#include <cmath>

namespace ohmwright {

JfetLaw::JfetLaw(const Model& model, const DeviceInstance& instance)
    : m_polarity(polarityOf(model)), m_kelvin(instance.kelvin) {
    const double nominal = nominalKelvinOf(model);
    const double devices = parallelDevices(instance);
    const double rise = m_kelvin - nominal;
    constexpr double growthPerPercent = 1.01;  // BETATCE is given in percent per kelvin, compounded

    m_threshold =
        parameterOr(model, "VTO", -2.0) + (parameterOr(model, "VTOTC", 0.0) - parameterOr(model, "TCV", 0.0)) * rise;
    m_beta = devices * parameterOr(model, "BETA", 1e-4) *
             std::pow(growthPerPercent, parameterOr(model, "BETATCE", 0.0) * rise) *
             std::pow(m_kelvin / nominal, parameterOr(model, "BEX", 0.0));
    m_lambda = parameterOr(model, "LAMBDA", 0.0);

    const double emission = parameterOr(model, "N", 1.0);
    m_saturation =
        devices * saturationAtTemperature(parameterOr(model, "IS", 1e-14), m_kelvin, parameterOr(model, "EG", 1.11),
                                          parameterOr(model, "XTI", 0.0), emission, nominal);
    m_gateVolts = emission * thermalVolts(m_kelvin);
    m_critical = criticalVolts(m_saturation, m_gateVolts);
    m_drainOhms = parameterOr(model, "RD", 0.0) / devices;
    m_sourceOhms = parameterOr(model, "RS", 0.0) / devices;

    const double grading = parameterOr(model, "M", 0.5);
    const double share = parameterOr(model, "FC", 0.5);
    const double gatePotential = parameterOr(model, "PB", 1.0);
    const auto depletion = [&](const char* name) {
        const BuiltIn builtIn =
            builtInAtTemperature({gatePotential, parameterOr(model, name, 0.0)}, grading, m_kelvin, nominal);
        return DepletionLaw(builtIn.farads * devices, builtIn.volts, grading, share);
    };
    m_gateSource = depletion("CGS");
    m_gateDrain = depletion("CGD");

    m_tail = parameterOr(model, "B", 1.0);
    const double span = gatePotential - parameterOr(model, "VTO", -2.0);
    m_tailPerVolt = span > 0.0 ? (1.0 - m_tail) / span : 0.0;
    m_flicker = flickerOf(model, instance);
    m_flickerExponent = parameterOr(model, "AF", 1.0);
}

JfetLaw::Channel JfetLaw::channel(double gateToLowerEnd, double across) const {
    const double u = gateToLowerEnd - m_threshold;
    if (u <= 0.0) {
        return {};
    }
    const double widening = m_beta * (1.0 + m_lambda * across);
    double shape = 0.0;     // I/widening
    double byGate = 0.0;    // at constant voltage across the channel
    double byAcross = 0.0;  // at constant gate voltage
    if (u < across) {
        shape = u * u * (m_tail + m_tailPerVolt * u);
        byGate = u * (2.0 * m_tail + 3.0 * m_tailPerVolt * u);
    } else {
        const double rest = 2.0 * m_tail + 3.0 * m_tailPerVolt * (u - across);
        shape = across * (across * (m_tailPerVolt * across - m_tail) + u * rest);
        byGate = across * (rest + 3.0 * m_tailPerVolt * u);
        byAcross = (u - across) * rest;
    }
    const double conductance = widening * byAcross + m_beta * m_lambda * shape;
    return {widening * shape, widening * byGate + conductance, -conductance};
}

void JfetLaw::at(const std::array<double, 2>& volts, Point& point) const {
    const bool forward = volts[0] >= volts[1];
    const Channel flow = forward ? channel(volts[0], volts[0] - volts[1]) : channel(volts[1], volts[1] - volts[0]);
    const ValueAndSlope source = exponentialCurrent(m_saturation, m_gateVolts, volts[0]);
    const ValueAndSlope drain = exponentialCurrent(m_saturation, m_gateVolts, volts[1]);
    point.currents = {forward ? flow.amperes : -flow.amperes, source.value, drain.value};
    point.currentSlopes = {forward ? flow.byLowerEnd : -flow.byHigherEnd, forward ? flow.byHigherEnd : -flow.byLowerEnd,
                           source.slope, drain.slope};
    const ValueAndSlope sourceCharge = m_gateSource.at(volts[0]);
    const ValueAndSlope drainCharge = m_gateDrain.at(volts[1]);
    point.charges = {sourceCharge.value, drainCharge.value};
    point.chargeSlopes = {sourceCharge.slope, drainCharge.slope};
}

void JfetLaw::limit(std::array<double, 2>& proposed, const std::array<double, 2>& previous) const {
    for (std::size_t k = 0; k < proposed.size(); ++k) {
        proposed[k] = limitedJunctionVolts(limitedGateVolts(proposed[k], previous[k], m_threshold), previous[k],
                                           m_gateVolts, m_critical);
    }
}

std::array<NoiseDensity, 3> JfetLaw::noise(const std::array<double, 2>& volts) const {
    Point point;
    at(volts, point);
    const double transconductance = std::abs(point.currentSlopes[0] + point.currentSlopes[1]);
    const double white = 8.0 / 3.0 * boltzmann * m_kelvin * transconductance;
    const double flicker = m_flicker * std::pow(std::abs(point.currents[0]), m_flickerExponent);
    // The gate's leakage is left without shot noise, as the Berkeley description has it.
    return {{{white, flicker}, {}, {}}};
}

}  // namespace ohmwright
