// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/opamp.h"

#include "core/devices/constants.h"
#include "core/devices/model_parameters.h"

#include <cmath>
#include <numbers>

namespace ohmwright {

OpampLaw::OpampLaw(const Model& model, double kelvin) {
    m_innerFarads = parameterOr(model, "CP", 100e-9);
    m_transconductance = 2.0 * std::numbers::pi * parameterOr(model, "GBW", 3e6) * m_innerFarads;
    m_limitAmperes = parameterOr(model, "ILIM", 1.3);
    const double inputOhms = parameterOr(model, "RIN", 0.0);
    m_inputSiemens = inputOhms > 0.0 ? 1.0 / inputOhms : 0.0;
    m_innerSiemens = m_transconductance / parameterOr(model, "GAIN", 2e5);
    m_outputSiemens = 1.0 / parameterOr(model, "ROUT", 100.0);
    m_upperHeadroom = parameterOr(model, "HEADROOM_P", 1.9);
    m_lowerHeadroom = parameterOr(model, "HEADROOM_N", 1.9);
    m_supplyAmperes = parameterOr(model, "IQ", 1.4e-3);
    m_clampSaturation = parameterOr(model, "CLAMP_IS", 1e-12);
    m_clampVolts = parameterOr(model, "CLAMP_N", 1.0) * thermalVolts(kelvin);
    m_clampCritical = criticalVolts(m_clampSaturation, m_clampVolts);
}

ValueAndSlope OpampLaw::transfer(double differentialVolts) const {
    const double bend = std::tanh(m_transconductance * differentialVolts / m_limitAmperes);
    return {m_limitAmperes * bend, m_transconductance * (1.0 - bend * bend)};
}

ValueAndSlope OpampLaw::clamp(double volts) const {
    return exponentialCurrent(m_clampSaturation, m_clampVolts, volts);
}

double OpampLaw::limitedClamp(double proposed, double previous) const {
    return limitedJunctionVolts(proposed, previous, m_clampVolts, m_clampCritical);
}

}  // namespace ohmwright
