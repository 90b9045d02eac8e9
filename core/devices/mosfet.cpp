// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/devices/mosfet.h"

#include "core/devices/fet_gate.h"
#include "core/devices/model_parameters.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double vacuumPermittivity = 8.8541878128e-12;            // F/m, CODATA 2018
constexpr double oxidePermittivity = 3.9 * vacuumPermittivity;     // silicon dioxide (Sze)
constexpr double siliconPermittivity = 11.7 * vacuumPermittivity;  // (Sze)
constexpr double intrinsicPerCubicMetre = 1.45e16;                 // silicon at 300 K, as the Berkeley programs have it
constexpr double perCubicCentimetre = 1e6;                         // in 1/m^3
constexpr double perSquareCentimetre = 1e4;                        // in 1/m^2
constexpr double squareCentimetre = 1e-4;                          // in m^2

/// What a card's process figures say where it does not state the electrical ones.
struct Process {
    double threshold, kp, gamma, phi;
};

/// Source: Vladimirescu, Liu, as in the header.
Process processOf(const Model& model, double polarity, double oxideFarads, double nominal) {
    Process process{polarity * parameterOr(model, "VTO", 0.0), parameterOr(model, "KP", 2e-5),
                    parameterOr(model, "GAMMA", 0.0), parameterOr(model, "PHI", 0.6)};
    if (oxideFarads <= 0.0) {
        return process;
    }
    if (!states(model, "KP")) {
        process.kp = parameterOr(model, "UO", 600.0) * squareCentimetre * oxideFarads;
    }
    const double doping = parameterOr(model, "NSUB", 0.0) * perCubicCentimetre;
    if (doping <= intrinsicPerCubicMetre) {
        return process;
    }
    if (!states(model, "PHI")) {
        process.phi = std::max(0.1, 2.0 * thermalVolts(nominal) * std::log(doping / intrinsicPerCubicMetre));
    }
    if (!states(model, "GAMMA")) {
        process.gamma = std::sqrt(2.0 * siliconPermittivity * elementaryCharge * doping) / oxideFarads;
    }
    if (!states(model, "VTO")) {
        const double halfGap = siliconGap(nominal) / 2.0;
        const double gateType = parameterOr(model, "TPG", 1.0);
        const double bulkWork = 3.25 + halfGap + polarity * process.phi / 2.0;
        const double gateWork = gateType == 0.0 ? 3.2 : 3.25 + halfGap - polarity * gateType * halfGap;
        const double surface = parameterOr(model, "NSS", 0.0) * perSquareCentimetre * elementaryCharge / oxideFarads;
        process.threshold =
            polarity * (gateWork - bulkWork - surface) + process.gamma * std::sqrt(process.phi) + process.phi;
    }
    return process;
}

DepletionLaw depletionOf(double farads, double builtInVolts, double grading, double share, double kelvin,
                         double nominal) {
    const BuiltIn builtIn = builtInAtTemperature({builtInVolts, farads}, grading, kelvin, nominal);
    return {builtIn.farads, builtIn.volts, grading, share};
}

}  // namespace

MosfetLaw::MosfetLaw(const Model& model, const DeviceInstance& instance)
    : m_polarity(polarityOf(model)), m_kelvin(instance.kelvin) {
    const double nominal = nominalKelvinOf(model);
    m_devices = parallelDevices(instance);
    readChannel(model, instance, nominal);
    readBulk(model, instance, nominal);

    const double squareOhms = parameterOr(model, "RSH", 0.0);
    const auto ohms = [&](const char* name, const char* squares) {
        return (states(model, name) ? parameterOr(model, name, 0.0)
                                    : squareOhms * parameterOr(instance, squares, 1.0)) /
               m_devices;
    };
    m_drainOhms = ohms("RD", "NRD");
    m_sourceOhms = ohms("RS", "NRS");
    m_gateOhms = parameterOr(model, "RG", 0.0) / m_devices;
    m_flicker = flickerOf(model, instance);
    m_flickerExponent = parameterOr(model, "AF", 1.0);
}

void MosfetLaw::readChannel(const Model& model, const DeviceInstance& instance, double nominal) {
    constexpr double defaultMetres = 1e-4;  // of a device that states no W or L, as the Berkeley programs have it
    constexpr double leastMetres = 1e-9;    // an LD of half of L would divide by zero
    m_width = parameterOr(instance, "W", parameterOr(model, "W", defaultMetres));
    m_length = std::max(
        parameterOr(instance, "L", parameterOr(model, "L", defaultMetres)) - 2.0 * parameterOr(model, "LD", 0.0),
        leastMetres);
    const double oxideMetres = parameterOr(model, "TOX", 0.0);
    m_oxideFaradsPerArea = oxideMetres > 0.0 ? oxidePermittivity / oxideMetres : 0.0;
    m_gateFarads = m_devices * m_oxideFaradsPerArea * m_width * m_length;
    m_overlapSource = m_devices * parameterOr(model, "CGSO", 0.0) * m_width;
    m_overlapDrain = m_devices * parameterOr(model, "CGDO", 0.0) * m_width;
    m_overlapBulk = m_devices * parameterOr(model, "CGBO", 0.0) * m_length;

    const Process process = processOf(model, m_polarity, m_oxideFaradsPerArea, nominal);
    const double ratio = m_kelvin / nominal;
    m_beta = m_devices * process.kp / (ratio * std::sqrt(ratio)) * m_width / m_length;
    m_lambda = parameterOr(model, "LAMBDA", 0.0);
    m_gamma = process.gamma;
    m_phi = builtInAtTemperature({process.phi, 0.0}, 0.0, m_kelvin, nominal).volts;
    m_rootPhi = std::sqrt(m_phi);
    m_zeroBiasThreshold = process.threshold + m_gamma * (m_rootPhi - std::sqrt(process.phi)) +
                          0.5 * m_polarity * (siliconGap(nominal) - siliconGap(m_kelvin)) + 0.5 * (m_phi - process.phi);
}

void MosfetLaw::readBulk(const Model& model, const DeviceInstance& instance, double nominal) {
    const double vt = thermalVolts(m_kelvin);
    const double heat = std::exp(siliconGap(nominal) / thermalVolts(nominal) - siliconGap(m_kelvin) / vt);
    const double perArea = parameterOr(model, "JS", 0.0);
    const double sourceArea = parameterOr(instance, "AS", 0.0);
    const double drainArea = parameterOr(instance, "AD", 0.0);
    const bool byArea = perArea > 0.0 && sourceArea > 0.0 && drainArea > 0.0;
    const double whole = parameterOr(model, "IS", 1e-14);
    m_bulkVolts = parameterOr(model, "N", 1.0) * vt;
    m_sourceSaturation = m_devices * heat * (byArea ? perArea * sourceArea : whole);
    m_drainSaturation = m_devices * heat * (byArea ? perArea * drainArea : whole);
    m_criticalSource = criticalVolts(m_sourceSaturation, m_bulkVolts);
    m_criticalDrain = criticalVolts(m_drainSaturation, m_bulkVolts);

    const double builtIn = parameterOr(model, "PB", 0.8);
    const double share = parameterOr(model, "FC", 0.5);
    const double bottomGrading = parameterOr(model, "MJ", 0.5);
    const double sideGrading = parameterOr(model, "MJSW", 0.5);
    const auto bottom = [&](const char* name, double area) {
        const double farads =
            states(model, name) ? parameterOr(model, name, 0.0) : parameterOr(model, "CJ", 0.0) * area;
        return depletionOf(m_devices * farads, builtIn, bottomGrading, share, m_kelvin, nominal);
    };
    const auto side = [&](const char* perimeter) {
        const double farads = parameterOr(model, "CJSW", 0.0) * parameterOr(instance, perimeter, 0.0);
        return depletionOf(m_devices * farads, builtIn, sideGrading, share, m_kelvin, nominal);
    };
    m_sourceBottom = bottom("CBS", sourceArea);
    m_drainBottom = bottom("CBD", drainArea);
    m_sourceSide = side("PS");
    m_drainSide = side("PD");
}

ValueAndSlope MosfetLaw::threshold(double bulk) const {
    if (m_gamma == 0.0) {
        return {m_zeroBiasThreshold, 0.0};
    }
    if (bulk <= 0.0) {
        const double root = std::sqrt(m_phi - bulk);
        return {m_zeroBiasThreshold + m_gamma * (root - m_rootPhi), -0.5 * m_gamma / root};
    }
    // Forward bias: the tangent, down to where the depletion layer would be gone.
    const double slope = -0.5 / m_rootPhi;
    if (m_rootPhi + slope * bulk <= 0.0) {
        return {m_zeroBiasThreshold - m_gamma * m_rootPhi, 0.0};
    }
    return {m_zeroBiasThreshold + m_gamma * slope * bulk, m_gamma * slope};
}

void MosfetLaw::at(const std::array<double, 5>& volts, Point& point) const {
    const bool forward = volts[0] >= volts[1];
    const double sign = forward ? 1.0 : -1.0;
    const std::size_t lower = forward ? 0 : 1;  // the end of lower potential
    const std::size_t higher = 1 - lower;
    const double across = sign * (volts[0] - volts[1]);
    const ValueAndSlope threshold = this->threshold(volts[2 + lower]);
    const double overdrive = volts[lower] - threshold.value;

    double amperes = 0.0;
    double byGate = 0.0;    // at constant voltage across the channel
    double byAcross = 0.0;  // at constant gate voltage
    if (overdrive > 0.0) {
        const double widening = m_beta * (1.0 + m_lambda * across);
        const bool saturated = overdrive <= across;
        const double shape =
            saturated ? 0.5 * overdrive * overdrive : across * (overdrive - 0.5 * across);  // I/widening
        amperes = widening * shape;
        byGate = widening * (saturated ? overdrive : across);
        byAcross = (saturated ? 0.0 : widening * (overdrive - across)) + m_beta * m_lambda * shape;
    }
    point.currents[0] = sign * amperes;
    point.currentSlopes[lower] = sign * (byGate + byAcross);
    point.currentSlopes[higher] = -sign * byAcross;
    point.currentSlopes[2 + lower] = -sign * byGate * threshold.slope;
    point.currentSlopes[2 + higher] = 0.0;

    const ValueAndSlope source = exponentialCurrent(m_sourceSaturation, m_bulkVolts, volts[2]);
    const ValueAndSlope drain = exponentialCurrent(m_drainSaturation, m_bulkVolts, volts[3]);
    point.currents[1] = source.value;
    point.currents[2] = drain.value;
    point.currentSlopes[4] = source.slope;
    point.currentSlopes[5] = drain.slope;

    gateCharges(volts, point);
    const ValueAndSlope sourceBottom = m_sourceBottom.at(volts[2]);
    const ValueAndSlope sourceSide = m_sourceSide.at(volts[2]);
    const ValueAndSlope drainBottom = m_drainBottom.at(volts[3]);
    const ValueAndSlope drainSide = m_drainSide.at(volts[3]);
    point.charges[3] = sourceBottom.value + sourceSide.value;
    point.charges[4] = drainBottom.value + drainSide.value;
    point.chargeSlopes[5] = sourceBottom.slope + sourceSide.slope;
    point.chargeSlopes[6] = drainBottom.slope + drainSide.slope;
}

/// The overdrive that carries charge: none below -PHI/2, the overdrive and PHI/4 above 0, a parabola between.
ValueAndSlope MosfetLaw::softOverdrive(double overdrive) const {
    const double start = overdrive + m_phi / 2.0;
    if (start <= 0.0) {
        return {};
    }
    if (overdrive < 0.0) {
        return {start * start / m_phi, 2.0 * start / m_phi};
    }
    return {overdrive + m_phi / 4.0, 1.0};
}

/// The gate's charge against the bulk under the threshold: the oxide's capacitance below -PHI, none above 0.
ValueAndSlope MosfetLaw::bulkCharge(double overdrive) const {
    if (overdrive >= 0.0) {
        return {};
    }
    if (overdrive > -m_phi) {
        return {-0.5 * m_gateFarads * overdrive * overdrive / m_phi, -m_gateFarads * overdrive / m_phi};
    }
    return {m_gateFarads * (overdrive + m_phi / 2.0), m_gateFarads};
}

void MosfetLaw::gateCharges(const std::array<double, 5>& volts, Point& point) const {
    point.charges[0] = m_overlapSource * volts[0];
    point.charges[1] = m_overlapDrain * volts[1];
    point.charges[2] = m_overlapBulk * volts[4];
    point.chargeSlopes = {m_overlapSource, 0.0, 0.0, m_overlapDrain, m_overlapBulk, 0.0, 0.0};
    if (m_gateFarads == 0.0) {
        return;
    }
    const ValueAndSlope underneath = bulkCharge(volts[4] - m_zeroBiasThreshold);
    point.charges[2] += underneath.value;
    point.chargeSlopes[4] += underneath.slope;

    const ValueAndSlope s = softOverdrive(volts[0] - m_zeroBiasThreshold);
    const ValueAndSlope d = softOverdrive(volts[1] - m_zeroBiasThreshold);
    const double sum = s.value + d.value;
    constexpr double nothing = 1e-100;  // its square would be no number
    if (sum <= nothing) {
        return;
    }
    const double ss = s.value * s.value;
    const double dd = d.value * d.value;
    const double squares = ss + dd;
    const double whole = 2.0 / 3.0 * m_gateFarads;
    const double channel = whole * (squares + s.value * d.value) / sum;
    const double bySource = whole * (1.0 - dd / (sum * sum)) * s.slope;
    const double byDrain = whole * (1.0 - ss / (sum * sum)) * d.slope;
    const double share = ss / squares;  // of the source
    const double sourceBySource = bySource * share + channel * 2.0 * s.value * dd / (squares * squares) * s.slope;
    const double sourceByDrain = byDrain * share - channel * 2.0 * d.value * ss / (squares * squares) * d.slope;
    point.charges[0] += channel * share;
    point.charges[1] += channel * (dd / squares);
    point.chargeSlopes[0] += sourceBySource;
    point.chargeSlopes[1] += sourceByDrain;
    point.chargeSlopes[2] += bySource - sourceBySource;
    point.chargeSlopes[3] += byDrain - sourceByDrain;
}

void MosfetLaw::smallSignal(Point& point) {
    // What the channel's charge as a whole gains by one end is Meyer's capacitance of that end.
    point.chargeSlopes[0] += point.chargeSlopes[2];
    point.chargeSlopes[3] += point.chargeSlopes[1];
    point.chargeSlopes[1] = 0.0;
    point.chargeSlopes[2] = 0.0;
}

void MosfetLaw::limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const {
    proposed[0] = limitedGateVolts(proposed[0], previous[0], m_zeroBiasThreshold);
    proposed[1] = limitedGateVolts(proposed[1], previous[1], m_zeroBiasThreshold);
    proposed[2] = limitedJunctionVolts(proposed[2], previous[2], m_bulkVolts, m_criticalSource);
    proposed[3] = limitedJunctionVolts(proposed[3], previous[3], m_bulkVolts, m_criticalDrain);
}

std::array<NoiseDensity, 3> MosfetLaw::noise(const std::array<double, 5>& volts) const {
    Point point;
    at(volts, point);
    const double transconductance = std::abs(point.currentSlopes[0] + point.currentSlopes[1]);
    // Flicker noise goes with the oxide; a card without TOX counts as one of 100 nm.
    constexpr double oxideOfNoCard = oxidePermittivity / 1e-7;
    const double oxide = m_oxideFaradsPerArea > 0.0 ? m_oxideFaradsPerArea : oxideOfNoCard;
    const double flicker = m_flicker * std::pow(std::abs(point.currents[0]), m_flickerExponent) /
                           (m_devices * m_width * m_length * oxide * oxide);
    // The bulk's leakage is left without shot noise, as the Berkeley description has it.
    return {{{8.0 / 3.0 * boltzmann * m_kelvin * transconductance, flicker}, {}, {}}};
}

}  // namespace ohmwright
