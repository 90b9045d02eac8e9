// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/bipolar.h"

#include "core/devices/constants.h"
#include "core/devices/model_parameters.h"

#include <cmath>

namespace ohmwright {

namespace {

double inverseOrNone(const Model& model, const std::string& name) {
    const double value = parameterOr(model, name, 0.0);
    return value > 0.0 ? 1.0 / value : 0.0;
}

DepletionLaw depletionOf(const Model& model, const std::string& junction) {
    return {.zeroBiasFarads = parameterOr(model, "CJ" + junction, 0.0),
            .builtInVolts = parameterOr(model, "VJ" + junction, 0.75),
            .grading = parameterOr(model, "MJ" + junction, 0.33),
            .forwardShare = parameterOr(model, "FC", 0.5)};
}

}  // namespace

BipolarLaw::BipolarLaw(const Model& model, double kelvin) {
    const double vt = thermalVolts(kelvin);
    const double gap = parameterOr(model, "EG", 1.11);
    const double exponent = parameterOr(model, "XTI", 3.0);
    const double betaRatio = std::pow(kelvin / nominalKelvin, parameterOr(model, "XTB", 0.0));
    const double leakEmission = parameterOr(model, "NE", 1.5);
    const double leakEmissionCollector = parameterOr(model, "NC", 2.0);

    m_polarity = parameterOr(model, "POLARITY", 1.0) < 0.0 ? -1.0 : 1.0;
    m_saturation = saturationAtTemperature(parameterOr(model, "IS", 1e-16), kelvin, gap, exponent, 1.0);
    m_forwardBeta = parameterOr(model, "BF", 100.0) * betaRatio;
    m_reverseBeta = parameterOr(model, "BR", 1.0) * betaRatio;
    m_forwardVolts = parameterOr(model, "NF", 1.0) * vt;
    m_reverseVolts = parameterOr(model, "NR", 1.0) * vt;
    m_leakEmitter =
        saturationAtTemperature(parameterOr(model, "ISE", 0.0), kelvin, gap, exponent, leakEmission) / betaRatio;
    m_leakEmitterVolts = leakEmission * vt;
    m_leakCollector =
        saturationAtTemperature(parameterOr(model, "ISC", 0.0), kelvin, gap, exponent, leakEmissionCollector) /
        betaRatio;
    m_leakCollectorVolts = leakEmissionCollector * vt;
    m_inverseForwardEarly = inverseOrNone(model, "VAF");
    m_inverseReverseEarly = inverseOrNone(model, "VAR");
    m_inverseForwardKnee = inverseOrNone(model, "IKF");
    m_inverseReverseKnee = inverseOrNone(model, "IKR");
    m_criticalEmitter = criticalVolts(m_saturation, m_forwardVolts);
    m_criticalCollector = criticalVolts(m_saturation, m_reverseVolts);
    m_baseOhms = parameterOr(model, "RB", 0.0);
    m_collectorOhms = parameterOr(model, "RC", 0.0);
    m_emitterOhms = parameterOr(model, "RE", 0.0);
    m_forwardTransit = parameterOr(model, "TF", 0.0);
    m_reverseTransit = parameterOr(model, "TR", 0.0);
    m_depletionEmitter = depletionOf(model, "E");
    m_depletionCollector = depletionOf(model, "C");
}

BipolarLaw::Point BipolarLaw::at(double baseEmitter, double baseCollector) const {
    const ValueAndSlope forward = exponentialCurrent(m_saturation, m_forwardVolts, baseEmitter);
    const ValueAndSlope reverse = exponentialCurrent(m_saturation, m_reverseVolts, baseCollector);
    const ValueAndSlope leakEmitter =
        m_leakEmitter > 0.0 ? exponentialCurrent(m_leakEmitter, m_leakEmitterVolts, baseEmitter) : ValueAndSlope{};
    const ValueAndSlope leakCollector = m_leakCollector > 0.0
                                            ? exponentialCurrent(m_leakCollector, m_leakCollectorVolts, baseCollector)
                                            : ValueAndSlope{};

    // Base charge qb = q1/2 (1 + sqrt(1 + 4 q2)): Early effect in q1, high injection in q2.
    const double q1 = 1.0 / (1.0 - baseCollector * m_inverseForwardEarly - baseEmitter * m_inverseReverseEarly);
    const double q2 = forward.value * m_inverseForwardKnee + reverse.value * m_inverseReverseKnee;
    const double root = std::sqrt(std::max(1.0 + 4.0 * q2, 1e-12));
    const double qb = q1 * (1.0 + root) / 2.0;
    const double qbByEmitter = q1 * (qb * m_inverseReverseEarly + forward.slope * m_inverseForwardKnee / root);
    const double qbByCollector = q1 * (qb * m_inverseForwardEarly + reverse.slope * m_inverseReverseKnee / root);

    const double transport = (forward.value - reverse.value) / qb;
    const double transportByEmitter = (forward.slope - transport * qbByEmitter) / qb;
    const double transportByCollector = (-reverse.slope - transport * qbByCollector) / qb;

    Point point;
    point.collector = {transport - reverse.value / m_reverseBeta - leakCollector.value, transportByEmitter,
                       transportByCollector - reverse.slope / m_reverseBeta - leakCollector.slope};
    point.base = {
        forward.value / m_forwardBeta + leakEmitter.value + reverse.value / m_reverseBeta + leakCollector.value,
        forward.slope / m_forwardBeta + leakEmitter.slope, reverse.slope / m_reverseBeta + leakCollector.slope};

    const ValueAndSlope depletionEmitter = m_depletionEmitter.at(baseEmitter);
    const double diffusion = m_forwardTransit * forward.value / qb;
    point.chargeEmitter = {depletionEmitter.value + diffusion,
                           depletionEmitter.slope + (m_forwardTransit * forward.slope - diffusion * qbByEmitter) / qb,
                           -diffusion * qbByCollector / qb};
    const ValueAndSlope depletionCollector = m_depletionCollector.at(baseCollector);
    point.chargeCollector = {depletionCollector.value + m_reverseTransit * reverse.value, 0.0,
                             depletionCollector.slope + m_reverseTransit * reverse.slope};
    return point;
}

double BipolarLaw::limitedBaseEmitter(double proposed, double previous) const {
    return limitedJunctionVolts(proposed, previous, m_forwardVolts, m_criticalEmitter);
}

double BipolarLaw::limitedBaseCollector(double proposed, double previous) const {
    return limitedJunctionVolts(proposed, previous, m_reverseVolts, m_criticalCollector);
}

}  // namespace ohmwright
