// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/triode.h"

#include "core/devices/model_parameters.h"
#include "core/devices/valve.h"

#include <cmath>

namespace ohmwright {

TriodeLaw::TriodeLaw(const Model& model, const DeviceInstance& instance)
    : m_second(parameterOr(model, "LAW", states(model, "G") ? 2.0 : 1.0) == 2.0) {
    const double devices = parallelDevices(instance);
    m_inverseMu = 1.0 / parameterOr(model, "MU", 100.0);
    m_exponent = m_second ? parameterOr(model, "GAMMA", 1.26) : parameterOr(model, "EX", 1.4);
    m_scale = devices * (m_second ? parameterOr(model, "G", 2.242e-3) : 2.0 / parameterOr(model, "KG1", 1060.0));
    m_kp = parameterOr(model, "KP", 600.0);
    m_kvb = parameterOr(model, "KVB", 300.0);
    m_softness = parameterOr(model, "C", 3.4);

    m_gridSaturation = devices * parameterOr(model, "IS", 1e-9);
    m_gridVolts = parameterOr(model, "N", 1.0) * thermalVolts(nominalKelvin);
    m_gridCritical = criticalVolts(m_gridSaturation, m_gridVolts);
    m_gridScale = devices * parameterOr(model, "GG", 6.177e-4);
    m_gridExponent = parameterOr(model, "XI", 1.314);
    m_gridSoftness = parameterOr(model, "CG", 9.901);
    m_gridConstant = devices * parameterOr(model, "IG0", 0.0);
    m_gridOhms = parameterOr(model, "RGI", m_second ? 0.0 : 2000.0) / devices;
    m_noiseOhms = parameterOr(model, "RNEQ", 0.0) / devices;

    m_gridCathode = devices * parameterOr(model, "CCG", 0.0);
    m_gridAnode = devices * parameterOr(model, "CGP", 0.0);
    m_anodeCathode = devices * parameterOr(model, "CCP", 0.0);
}

void TriodeLaw::at(const std::array<double, 4>& volts, Point& point) const {
    if (m_second) {
        secondLaw(volts, point);
    } else {
        firstLaw(volts, point);
    }
    point.charges = {m_gridCathode * volts[1], m_gridAnode * volts[3], m_anodeCathode * volts[0]};
    point.chargeSlopes = {m_gridCathode, m_gridAnode, m_anodeCathode};
}

void TriodeLaw::firstLaw(const std::array<double, 4>& volts, Point& point) const {
    const double anode = volts[0];
    const double inverseRoot = 1.0 / std::sqrt(m_kvb + anode * anode);
    const double drive = volts[1] * inverseRoot;
    const ValueAndSlope soft = softplus(m_kp * (m_inverseMu + drive));
    const ValueAndSlope power = positivePower(anode * soft.value / m_kp, m_exponent);
    const double effectiveByAnode =
        soft.value / m_kp - soft.slope * drive * (anode * inverseRoot) * (anode * inverseRoot);
    const double effectiveByGrid = anode * soft.slope * inverseRoot;
    const ValueAndSlope grid = exponentialCurrent(m_gridSaturation, m_gridVolts, volts[2]);
    point.currents = {m_scale * power.value, grid.value};
    point.currentSlopes = {m_scale * power.slope * effectiveByAnode, m_scale * power.slope * effectiveByGrid, 0.0,
                           grid.slope};
}

void TriodeLaw::secondLaw(const std::array<double, 4>& volts, Point& point) const {
    const ValueAndSlope cathodeSoft = softplus(m_softness * (volts[0] * m_inverseMu + volts[1]));
    const ValueAndSlope cathode = positivePower(cathodeSoft.value / m_softness, m_exponent);
    const double cathodeByGrid = m_scale * cathode.slope * cathodeSoft.slope;
    const ValueAndSlope gridSoft = softplus(m_gridSoftness * volts[2]);
    const ValueAndSlope grid = positivePower(gridSoft.value / m_gridSoftness, m_gridExponent);
    const double gridAmperes = m_gridScale * grid.value + m_gridConstant;
    const double gridSlope = m_gridScale * grid.slope * gridSoft.slope;
    point.currents = {m_scale * cathode.value - gridAmperes, gridAmperes};
    point.currentSlopes = {cathodeByGrid * m_inverseMu, cathodeByGrid, -gridSlope, gridSlope};
}

void TriodeLaw::limit(std::array<double, 4>& proposed, const std::array<double, 4>& previous) const {
    if (!m_second) {
        proposed[2] = limitedJunctionVolts(proposed[2], previous[2], m_gridVolts, m_gridCritical);
    }
}

std::array<NoiseDensity, 2> TriodeLaw::noise(const std::array<double, 4>& volts) const {
    Point point;
    at(volts, point);
    const double transconductance = point.currentSlopes[1];
    const double anode = 4.0 * boltzmann * nominalKelvin * m_noiseOhms * transconductance * transconductance;
    return {{{anode, 0.0}, {2.0 * elementaryCharge * std::abs(point.currents[1]), 0.0}}};
}

}  // namespace ohmwright
