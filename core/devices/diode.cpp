// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/diode.h"

#include "core/devices/constants.h"
#include "core/devices/model_parameters.h"

namespace ohmwright {

DiodeLaw::DiodeLaw(const Model& model, double kelvin) {
    const double emission = parameterOr(model, "N", 1.0);
    m_saturation = saturationAtTemperature(parameterOr(model, "IS", 1e-14), kelvin, parameterOr(model, "EG", 1.11),
                                           parameterOr(model, "XTI", 3.0), emission);
    m_emissionVolts = emission * thermalVolts(kelvin);
    m_critical = criticalVolts(m_saturation, m_emissionVolts);
    m_seriesOhms = parameterOr(model, "RS", 0.0);
    m_transitSeconds = parameterOr(model, "TT", 0.0);
    m_depletion = {.zeroBiasFarads = parameterOr(model, "CJO", 0.0),
                   .builtInVolts = parameterOr(model, "VJ", 1.0),
                   .grading = parameterOr(model, "M", 0.5),
                   .forwardShare = parameterOr(model, "FC", 0.5)};
}

ValueAndSlope DiodeLaw::current(double volts) const {
    return exponentialCurrent(m_saturation, m_emissionVolts, volts);
}

ValueAndSlope DiodeLaw::charge(double volts) const {
    const ValueAndSlope depletion = m_depletion.at(volts);
    if (m_transitSeconds == 0.0) {
        return depletion;
    }
    const ValueAndSlope flow = current(volts);
    return {depletion.value + m_transitSeconds * flow.value, depletion.slope + m_transitSeconds * flow.slope};
}

double DiodeLaw::limited(double proposed, double previous) const {
    return limitedJunctionVolts(proposed, previous, m_emissionVolts, m_critical);
}

}  // namespace ohmwright
