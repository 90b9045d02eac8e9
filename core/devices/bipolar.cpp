// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/bipolar.h"

#include "core/devices/model_parameters.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace ohmwright {

namespace {

DepletionLaw depletionOf(const Model& model, const std::string& junction, double grading, double forwardShare,
                         double kelvin, double devices) {
    const double m = parameterOr(model, "MJ" + junction, grading);
    const BuiltIn builtIn =
        builtInAtTemperature({parameterOr(model, "VJ" + junction, 0.75), parameterOr(model, "CJ" + junction, 0.0)}, m,
                             kelvin, nominalKelvinOf(model));
    return {builtIn.farads * devices, builtIn.volts, m, forwardShare};
}

/// 1/denominator; below 0.05, where an Early voltage has no meaning left, the tangent.
ValueAndSlope boundedInverse(double denominator) {
    constexpr double least = 0.05;
    if (denominator >= least) {
        const double inverse = 1.0 / denominator;
        return {inverse, -inverse * inverse};
    }
    const double slope = -1.0 / (least * least);
    return {1.0 / least + slope * (denominator - least), slope};
}

/// What crowding leaves of RB - RBM, 3 (tan z - z)/(z tan^2 z), by the base current over IRB.
/// Source: J. R. Hauser, IEEE Trans. Electron Devices ED-11 (1964) 238, with the approximation for z of Quarles.
ValueAndSlope crowdedShare(double currentRatio) {
    constexpr double pi = std::numbers::pi;
    if (currentRatio <= 0.0) {
        return {1.0, 0.0};
    }
    // z = (sqrt(1 + 144 x/pi^2) - 1)/(24 sqrt(x)/pi^2), written without the difference.
    const double root = std::sqrt(currentRatio);
    const double inner = std::sqrt(1.0 + 144.0 / (pi * pi) * currentRatio);
    const double z = std::min(6.0 * root / (1.0 + inner), pi / 2.0 - 1e-7);
    const double zSlope = 3.0 / (root * inner * (1.0 + inner));
    if (z < 0.2) {
        // The series of the same, where the differences would lose their digits.
        constexpr double c[] = {-4.0 / 15, -4.0 / 105, -8.0 / 1575, -4.0 / 6237, -5528.0 / 70945875, -8.0 / 868725};
        const double w = z * z;
        const double share = 1.0 + w * (c[0] + w * (c[1] + w * (c[2] + w * (c[3] + w * (c[4] + w * c[5])))));
        const double byW = c[0] + w * (2 * c[1] + w * (3 * c[2] + w * (4 * c[3] + w * (5 * c[4] + w * 6 * c[5]))));
        return {share, 2.0 * z * byW * zSlope};
    }
    const double t = std::tan(z);
    const double share = 3.0 * (t - z) / (z * t * t);
    const double byZ = 3.0 / z - share * (1.0 / z + 2.0 * (1.0 + t * t) / t);
    return {share, byZ * zSlope};
}

}  // namespace

BipolarLaw::BipolarLaw(const Model& model, const DeviceInstance& instance)
    : m_polarity(polarityOf(model)), m_kelvin(instance.kelvin), m_junctionSiemens(instance.junctionSiemens) {
    const double devices = parallelDevices(instance);
    readTemperatures(model, instance.kelvin, devices);
    readCharges(model, instance.kelvin, devices);

    m_inverseForwardEarly = inverseOrNone(model, "VAF");
    m_inverseReverseEarly = inverseOrNone(model, "VAR");
    m_inverseForwardKnee = inverseOrNone(model, "IKF") / devices;
    m_inverseReverseKnee = inverseOrNone(model, "IKR") / devices;
    m_kneeExponent = parameterOr(model, "NKF", 0.5);
    m_collectorOhms = parameterOr(model, "RC", 0.0) / devices;
    m_emitterOhms = parameterOr(model, "RE", 0.0) / devices;
    m_baseOhms = parameterOr(model, "RB", 0.0) / devices;
    m_leastBaseOhms = parameterOr(model, "RBM", m_baseOhms * devices) / devices;
    m_inverseBaseCrowding = inverseOrNone(model, "IRB") / devices;
    m_baseOhmsFollowBias = m_baseOhms > 0.0 && m_leastBaseOhms > 0.0 && m_leastBaseOhms != m_baseOhms;
    m_flicker = flickerOf(model, instance);
    m_flickerExponent = parameterOr(model, "AF", 1.0);
}

void BipolarLaw::readTemperatures(const Model& model, double kelvin, double devices) {
    const double nominal = nominalKelvinOf(model);
    const double vt = thermalVolts(kelvin);
    const double gap = parameterOr(model, "EG", 1.11);
    const double exponent = parameterOr(model, "XTI", 3.0);
    const double betaRatio = std::pow(kelvin / nominal, parameterOr(model, "XTB", 0.0));
    const double leakEmission = parameterOr(model, "NE", 1.5);
    const double leakEmissionCollector = parameterOr(model, "NC", 2.0);
    const auto saturation = [&](const char* name, double fallback, double emission) {
        return devices *
               saturationAtTemperature(parameterOr(model, name, fallback), kelvin, gap, exponent, emission, nominal);
    };

    m_saturation = saturation("IS", 1e-16, 1.0);
    m_inverseForwardBeta = 1.0 / (parameterOr(model, "BF", 100.0) * betaRatio);
    m_inverseReverseBeta = 1.0 / (parameterOr(model, "BR", 1.0) * betaRatio);
    m_forwardVolts = parameterOr(model, "NF", 1.0) * vt;
    m_reverseVolts = parameterOr(model, "NR", 1.0) * vt;
    m_leakEmitter = saturation("ISE", 0.0, leakEmission) / betaRatio;
    m_leakEmitterVolts = leakEmission * vt;
    m_leakCollector = saturation("ISC", 0.0, leakEmissionCollector) / betaRatio;
    m_leakCollectorVolts = leakEmissionCollector * vt;
    m_criticalEmitter = criticalVolts(m_saturation, m_forwardVolts);
    m_criticalCollector = criticalVolts(m_saturation, m_reverseVolts);
}

void BipolarLaw::readCharges(const Model& model, double kelvin, double devices) {
    m_forwardTransit = parameterOr(model, "TF", 0.0);
    m_reverseTransit = parameterOr(model, "TR", 0.0);
    m_transitRise = parameterOr(model, "XTF", 0.0);
    m_inverseTransitVolts = inverseOrNone(model, "VTF") / 1.44;
    m_transitAmperes = parameterOr(model, "ITF", 0.0) * devices;

    const double forwardShare = parameterOr(model, "FC", 0.5);
    const double innerShare = parameterOr(model, "XCJC", 1.0);
    m_depletionEmitter = depletionOf(model, "E", 0.33, forwardShare, kelvin, devices);
    m_depletionCollector = depletionOf(model, "C", 0.33, forwardShare, kelvin, devices * innerShare);
    m_depletionOuterBase = depletionOf(model, "C", 0.33, forwardShare, kelvin, devices * (1.0 - innerShare));
    m_depletionSubstrate = depletionOf(model, "S", 0.0, 0.0, kelvin, devices);
}

/// qb = q1/2 (1 + (1 + 4 q2)^NKF): Early effect in q1, high injection in q2.
BipolarLaw::OfJunctions BipolarLaw::baseCharge(const ValueAndSlope& forward, const ValueAndSlope& reverse,
                                               double baseEmitter, double baseCollector) const {
    const ValueAndSlope q1 =
        boundedInverse(1.0 - baseCollector * m_inverseForwardEarly - baseEmitter * m_inverseReverseEarly);
    if (m_inverseForwardKnee == 0.0 && m_inverseReverseKnee == 0.0) {
        return {q1.value, -q1.slope * m_inverseReverseEarly, -q1.slope * m_inverseForwardEarly};
    }
    const double q2 = forward.value * m_inverseForwardKnee + reverse.value * m_inverseReverseKnee;
    const double inside = std::max(1.0 + 4.0 * q2, 1e-12);
    const double power = m_kneeExponent == 0.5 ? std::sqrt(inside) : std::pow(inside, m_kneeExponent);
    const double half = (1.0 + power) / 2.0;
    const double byQ2 = q1.value * 2.0 * m_kneeExponent * power / inside;
    return {q1.value * half, -q1.slope * m_inverseReverseEarly * half + byQ2 * forward.slope * m_inverseForwardKnee,
            -q1.slope * m_inverseForwardEarly * half + byQ2 * reverse.slope * m_inverseReverseKnee};
}

/// TF (1 + XTF (If/(If + ITF))^2 exp(vbc/(1.44 VTF))) If/qb.
BipolarLaw::OfJunctions BipolarLaw::forwardCharge(const ValueAndSlope& forward, const OfJunctions& qb,
                                                  double baseCollector) const {
    if (m_forwardTransit == 0.0) {
        return {};
    }
    double flow = forward.value;
    double byForward = 1.0;
    double byCollector = 0.0;
    if (m_transitRise > 0.0 && forward.value > 0.0) {
        constexpr double largestExponent = 80.0;
        const double exponent = baseCollector * m_inverseTransitVolts;
        const double share = forward.value / (forward.value + m_transitAmperes);
        const double rise = m_transitRise * share * share * std::exp(std::min(exponent, largestExponent));
        flow = forward.value * (1.0 + rise);
        byForward = 1.0 + rise * (3.0 - 2.0 * share);
        byCollector = exponent < largestExponent ? forward.value * rise * m_inverseTransitVolts : 0.0;
    }
    const double inverse = 1.0 / qb.value;
    const double charge = m_forwardTransit * flow * inverse;
    return {charge, (m_forwardTransit * byForward * forward.slope - charge * qb.byBaseEmitter) * inverse,
            (m_forwardTransit * byCollector - charge * qb.byBaseCollector) * inverse};
}

/// What stands beside 1/RB: the bias takes the base's resistance from RB down to RBM.
BipolarLaw::OfJunctions BipolarLaw::baseSiemens(const OfJunctions& qb, const OfJunctions& baseCurrent) const {
    const double span = m_baseOhms - m_leastBaseOhms;
    OfJunctions ohms;
    if (m_inverseBaseCrowding > 0.0) {
        const ValueAndSlope share = crowdedShare(baseCurrent.value * m_inverseBaseCrowding);
        const double slope = span * share.slope * m_inverseBaseCrowding;
        ohms = {m_leastBaseOhms + span * share.value, slope * baseCurrent.byBaseEmitter,
                slope * baseCurrent.byBaseCollector};
    } else {
        const double slope = -span / (qb.value * qb.value);
        ohms = {m_leastBaseOhms + span / qb.value, slope * qb.byBaseEmitter, slope * qb.byBaseCollector};
    }
    const double siemens = 1.0 / ohms.value;
    return {siemens - 1.0 / m_baseOhms, -siemens * siemens * ohms.byBaseEmitter,
            -siemens * siemens * ohms.byBaseCollector};
}

BipolarLaw::Flow BipolarLaw::currentsAt(const std::array<double, 5>& volts, Point& point) const {
    const double baseEmitter = volts[0];
    const double baseCollector = volts[1];
    ValueAndSlope forward = exponentialCurrent(m_saturation, m_forwardVolts, baseEmitter);
    ValueAndSlope reverse = exponentialCurrent(m_saturation, m_reverseVolts, baseCollector);
    forward.value += m_junctionSiemens * baseEmitter;
    forward.slope += m_junctionSiemens;
    reverse.value += m_junctionSiemens * baseCollector;
    reverse.slope += m_junctionSiemens;
    const ValueAndSlope leakEmitter =
        m_leakEmitter > 0.0 ? exponentialCurrent(m_leakEmitter, m_leakEmitterVolts, baseEmitter) : ValueAndSlope{};
    const ValueAndSlope leakCollector = m_leakCollector > 0.0
                                            ? exponentialCurrent(m_leakCollector, m_leakCollectorVolts, baseCollector)
                                            : ValueAndSlope{};

    const OfJunctions qb = baseCharge(forward, reverse, baseEmitter, baseCollector);
    const double inverse = 1.0 / qb.value;
    const double transport = (forward.value - reverse.value) * inverse;
    const double transportByEmitter = (forward.slope - transport * qb.byBaseEmitter) * inverse;
    const double transportByCollector = (-reverse.slope - transport * qb.byBaseCollector) * inverse;
    const double baseOfCollector = reverse.value * m_inverseReverseBeta + leakCollector.value;
    const double baseOfCollectorSlope = reverse.slope * m_inverseReverseBeta + leakCollector.slope;
    const OfJunctions base{forward.value * m_inverseForwardBeta + leakEmitter.value + baseOfCollector,
                           forward.slope * m_inverseForwardBeta + leakEmitter.slope, baseOfCollectorSlope};

    OfJunctions spread;
    if (m_baseOhmsFollowBias) {
        spread = baseSiemens(qb, base);
    }
    point.currents = {transport - baseOfCollector, base.value, spread.value * volts[2]};
    point.currentSlopes = {transportByEmitter,
                           transportByCollector - baseOfCollectorSlope,
                           base.byBaseEmitter,
                           base.byBaseCollector,
                           spread.byBaseEmitter * volts[2],
                           spread.byBaseCollector * volts[2],
                           spread.value};
    return {forward, reverse, qb};
}

void BipolarLaw::at(const std::array<double, 5>& volts, Point& point) const {
    const auto [forward, reverse, qb] = currentsAt(volts, point);
    const double baseEmitter = volts[0];
    const double baseCollector = volts[1];
    const OfJunctions diffusion = forwardCharge(forward, qb, baseCollector);
    const ValueAndSlope emitter = m_depletionEmitter.at(baseEmitter);
    const ValueAndSlope collector = m_depletionCollector.at(baseCollector);
    const ValueAndSlope outerBase = m_depletionOuterBase.at(volts[3]);
    const ValueAndSlope substrate = m_depletionSubstrate.at(volts[4]);
    point.charges = {emitter.value + diffusion.value, collector.value + m_reverseTransit * reverse.value,
                     outerBase.value, substrate.value};
    point.chargeSlopes = {emitter.slope + diffusion.byBaseEmitter, diffusion.byBaseCollector,
                          collector.slope + m_reverseTransit * reverse.slope, outerBase.slope, substrate.slope};
}

void BipolarLaw::smallSignal(Point& point) {
    point.currentSlopes[4] = 0.0;
    point.currentSlopes[5] = 0.0;
}

void BipolarLaw::limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const {
    proposed[0] = limitedJunctionVolts(proposed[0], previous[0], m_forwardVolts, m_criticalEmitter);
    proposed[1] = limitedJunctionVolts(proposed[1], previous[1], m_reverseVolts, m_criticalCollector);
}

std::array<NoiseDensity, 3> BipolarLaw::noise(const std::array<double, 5>& volts) const {
    Point point;
    at(volts, point);
    const double collector = std::abs(point.currents[0]);
    const double base = std::abs(point.currents[1]);
    const double spreadSiemens = point.currentSlopes[6];
    return {{{2.0 * elementaryCharge * collector, 0.0},
             {2.0 * elementaryCharge * base, m_flicker * std::pow(base, m_flickerExponent)},
             {4.0 * boltzmann * m_kelvin * std::max(spreadSiemens, 0.0), 0.0}}};
}

}  // namespace ohmwright
