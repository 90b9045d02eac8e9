// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/opamp.h"

#include "core/devices/model_parameters.h"

#include <cmath>
#include <numbers>

namespace ohmwright {

OpampLaw::OpampLaw(const Model& model, const DeviceInstance& instance) {
    m_innerFarads = parameterOr(model, "CP", 100e-9);
    m_transconductance = 2.0 * std::numbers::pi * parameterOr(model, "GBW", 3e6) * m_innerFarads;
    m_limitAmperes =
        states(model, "SR") ? parameterOr(model, "SR", 13e6) * m_innerFarads : parameterOr(model, "ILIM", 1.3);
    m_inputSiemens = inverseOrNone(model, "RIN");
    m_innerSiemens = m_transconductance / parameterOr(model, "GAIN", 2e5);
    m_outputSiemens = 1.0 / parameterOr(model, "ROUT", 100.0);
    m_outputLimitAmperes = parameterOr(model, "IOUT", 0.0);
    m_upperHeadroom = parameterOr(model, "HEADROOM_P", 1.9);
    m_lowerHeadroom = parameterOr(model, "HEADROOM_N", 1.9);
    m_supplyAmperes = parameterOr(model, "IQ", 1.4e-3);
    m_secondPoleHertz = parameterOr(model, "POLE2", 0.0);
    m_inputBiasAmperes = parameterOr(model, "IB", 0.0);
    m_offsetVolts = parameterOr(model, "VOS", 0.0);
    m_clampSaturation = parameterOr(model, "CLAMP_IS", 1e-12);
    m_clampVolts = parameterOr(model, "CLAMP_N", 1.0) * thermalVolts(instance.kelvin);
    m_clampCritical = criticalVolts(m_clampSaturation, m_clampVolts);
    m_voltageNoise = {parameterOr(model, "EN", 0.0), parameterOr(model, "FCE", 0.0)};
    m_currentNoise = {parameterOr(model, "IN", 0.0), parameterOr(model, "FCI", 0.0)};
}

void OpampLaw::at(const std::array<double, 4>& volts, Point& point) const {
    const std::array<ValueAndSlope, 4> branches{
        transfer(volts[0]), exponentialCurrent(m_clampSaturation, m_clampVolts, volts[1] + m_upperHeadroom),
        exponentialCurrent(m_clampSaturation, m_clampVolts, volts[2] + m_lowerHeadroom), output(volts[3])};
    for (std::size_t k = 0; k < branches.size(); ++k) {
        point.currents[k] = branches[k].value;
        point.currentSlopes[k] = branches[k].slope;
    }
}

ValueAndSlope OpampLaw::transfer(double differentialVolts) const {
    const double bend = std::tanh(m_transconductance * (differentialVolts + m_offsetVolts) / m_limitAmperes);
    return {m_limitAmperes * bend, m_transconductance * (1.0 - bend * bend)};
}

ValueAndSlope OpampLaw::output(double volts) const {
    const double linear = m_outputSiemens * volts;
    if (m_outputLimitAmperes <= 0.0) {
        return {linear, m_outputSiemens};
    }
    const double bend = std::tanh(linear / m_outputLimitAmperes);
    return {m_outputLimitAmperes * bend, m_outputSiemens * (1.0 - bend * bend)};
}

void OpampLaw::limit(std::array<double, 4>& proposed, const std::array<double, 4>& previous) const {
    const auto held = [&](std::size_t clamp, double headroom) {
        const double asked = proposed[clamp] + headroom;
        const double limited = limitedJunctionVolts(asked, previous[clamp] + headroom, m_clampVolts, m_clampCritical);
        if (limited != asked) {  // what is not held stays as it was, to the last digit
            proposed[clamp] = limited - headroom;
        }
    };
    held(1, m_upperHeadroom);
    held(2, m_lowerHeadroom);
}

std::array<NoiseDensity, 4> OpampLaw::noise(const std::array<double, 4>& volts) const {
    const double density = transfer(volts[0]).slope * m_voltageNoise.density;
    const double white = density * density;
    return {{{white, white * m_voltageNoise.cornerHertz}, {}, {}, {}}};
}

}  // namespace ohmwright
