// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/pentode.h"

#include "core/devices/model_parameters.h"
#include "core/devices/valve.h"

#include <cmath>

namespace ohmwright {

PentodeLaw::PentodeLaw(const Model& model, const DeviceInstance& instance) {
    const double devices = parallelDevices(instance);
    m_inverseMu = 1.0 / parameterOr(model, "MU", 11.0);
    m_exponent = parameterOr(model, "EX", 1.35);
    m_anodeScale = devices * 2.0 / parameterOr(model, "KG1", 600.0);
    m_screenScale = devices / parameterOr(model, "KG2", 4200.0);
    m_kp = parameterOr(model, "KP", 60.0);
    m_inverseKnee = 1.0 / parameterOr(model, "KVB", 24.0);
    m_gridSaturation = devices * parameterOr(model, "IS", 1e-9);
    m_gridVolts = parameterOr(model, "N", 1.0) * thermalVolts(nominalKelvin);
    m_gridCritical = criticalVolts(m_gridSaturation, m_gridVolts);
    m_gridOhms = parameterOr(model, "RGI", 1000.0) / devices;
    m_noiseOhms = parameterOr(model, "RNEQ", 0.0) / devices;
    m_gridCathode = devices * parameterOr(model, "CCG", 0.0);
    m_gridAnode = devices * parameterOr(model, "CPG1", 0.0);
    m_anodeCathode = devices * parameterOr(model, "CCP", 0.0);
}

PentodeLaw::Drive PentodeLaw::drive(double screen, double grid) const {
    // Beyond these exponents the soft cutoff is its straight line or nothing, to the last bit.
    constexpr double straight = 40.0;
    constexpr double nothing = -740.0;
    const double linear = screen * m_inverseMu + grid;
    const double scaled = m_kp * linear;
    if (screen <= 0.0 ? linear > 0.0 : scaled >= straight * screen) {
        return {linear, m_inverseMu, 1.0};
    }
    if (screen <= 0.0 || scaled <= nothing * screen) {
        return {};
    }
    const double x = scaled / screen;
    const ValueAndSlope soft = softplus(x);
    return {screen * soft.value / m_kp, (soft.value - soft.slope * x) / m_kp + soft.slope * m_inverseMu, soft.slope};
}

void PentodeLaw::at(const std::array<double, 5>& volts, Point& point) const {
    const Drive e1 = drive(volts[1], volts[2]);
    const ValueAndSlope power = positivePower(e1.volts, m_exponent);
    const double turn = volts[0] * m_inverseKnee;
    const double knee = m_anodeScale * std::atan(turn);
    const ValueAndSlope screen = positivePower(volts[1] * m_inverseMu + volts[2], m_exponent);
    const ValueAndSlope grid = exponentialCurrent(m_gridSaturation, m_gridVolts, volts[3]);

    point.currents = {power.value * knee, m_screenScale * screen.value, grid.value};
    point.currentSlopes = {m_anodeScale * power.value * m_inverseKnee / (1.0 + turn * turn),
                           power.slope * e1.byScreen * knee,
                           power.slope * e1.byGrid * knee,
                           m_screenScale * screen.slope * m_inverseMu,
                           m_screenScale * screen.slope,
                           grid.slope};
    point.charges = {m_gridCathode * volts[2], m_gridAnode * volts[4], m_anodeCathode * volts[0]};
    point.chargeSlopes = {m_gridCathode, m_gridAnode, m_anodeCathode};
}

void PentodeLaw::limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const {
    proposed[3] = limitedJunctionVolts(proposed[3], previous[3], m_gridVolts, m_gridCritical);
}

std::array<NoiseDensity, 3> PentodeLaw::noise(const std::array<double, 5>& volts) const {
    Point point;
    at(volts, point);
    const double transconductance = point.currentSlopes[2];
    const double anode = 4.0 * boltzmann * nominalKelvin * m_noiseOhms * transconductance * transconductance;
    return {{{anode, 0.0}, {0.0, 0.0}, {2.0 * elementaryCharge * std::abs(point.currents[2]), 0.0}}};
}

}  // namespace ohmwright
