/// What every pn junction does: exponential current, depletion charge, temperature, and a bound on Newton's steps.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright {

/// A function of one voltage and its slope there.
struct ValueAndSlope {
    double value = 0.0;
    double slope = 0.0;
};

/// i = IS (exp(v/(N Vt)) - 1) [A]. Beyond an exponent of 80 it goes on as its tangent, so that a wild Newton step
/// stays finite; below v = -3 N Vt it is -IS (1 + (3 N Vt/(e v))^3), which has the same value and slope there and
/// never quite loses its slope.
/// Source: the reverse branch is that of the Berkeley programs (Quarles, UCB/ERL M89/42, 1989).
inline ValueAndSlope exponentialCurrent(double saturationAmperes, double emissionVolts, double volts) {
    // exp(80) = 5.5e34: no junction gets there.
    constexpr double largestExponent = 80.0;
    const double inverse = 1.0 / emissionVolts;
    const double exponent = volts * inverse;
    if (exponent < -3.0) {
        const double ratio = 3.0 / (exponent * std::numbers::e);
        const double cube = ratio * ratio * ratio;
        return {-saturationAmperes * (1.0 + cube), saturationAmperes * 3.0 * cube / volts};
    }
    const double exponential = std::exp(std::min(exponent, largestExponent));
    const double slope = saturationAmperes * exponential * inverse;
    const double beyond = std::max(exponent - largestExponent, 0.0) * emissionVolts;
    return {saturationAmperes * (exponential - 1.0) + slope * beyond, slope};
}

/// Depletion charge [C] and capacitance [F] of a graded junction: C = CJ (1 - v/VJ)^-M, and above FC VJ the tangent of
/// that curve.
/// Source: L. W. Nagel, SPICE2, memorandum UCB/ERL M520 (1975), section on junction diodes.
class DepletionLaw {
public:
    DepletionLaw() = default;
    /// REQUIRES: builtInVolts > 0; grading and forwardShare from 0 to under 1.
    DepletionLaw(double zeroBiasFarads, double builtInVolts, double grading, double forwardShare);

    [[nodiscard]] ValueAndSlope at(double volts) const {
        if (m_zeroBiasFarads == 0.0) {
            return {};
        }
        if (volts < m_bend) {
            const double base = 1.0 - volts * m_inverseVolts;
            const double power = inversePower(base, m_grading);
            return {m_chargeScale * (1.0 - base * power), m_zeroBiasFarads * power};
        }
        const double over = volts - m_bend;
        return {m_chargeAtBend + over * (m_faradsAtBend + 0.5 * over * m_faradsPerVolt),
                m_faradsAtBend + over * m_faradsPerVolt};
    }

private:
    /// base^-grading; that of an abrupt junction needs no general power.
    static double inversePower(double base, double grading) {
        return grading == 0.5 ? 1.0 / std::sqrt(base) : std::exp(-grading * std::log(base));
    }

    double m_zeroBiasFarads = 0.0;  ///< CJ
    double m_inverseVolts = 1.0;    ///< 1/VJ
    double m_grading = 0.5;         ///< M
    double m_chargeScale = 0.0;     ///< CJ VJ/(1 - M)
    double m_bend = 0.5;            ///< FC VJ
    double m_chargeAtBend = 0.0, m_faradsAtBend = 0.0, m_faradsPerVolt = 0.0;
};

/// Voltage above which a junction's current turns so steeply that steps must be limited [V].
double criticalVolts(double saturationAmperes, double emissionVolts);

/// The junction voltage that Newton may go to, coming from `previous` and asking for `proposed` [V]:
/// above the critical voltage it moves logarithmically.
/// Source: Nagel, as above, appendix on junction limiting.
double limitedJunctionVolts(double proposed, double previous, double emissionVolts, double critical);

/// IS at a temperature, from IS at the nominal one: (T/Tn)^(XTI/N) exp((T/Tn - 1) EG/(N Vt)).
/// @param bandGapElectronVolts EG; @param exponent XTI; @param emission N.
double saturationAtTemperature(double nominalAmperes, double kelvin, double bandGapElectronVolts, double exponent,
                               double emission, double atKelvin);

/// Silicon's band gap [eV]: 1.16 - 7.02e-4 T^2/(T + 1108). Source: S. M. Sze, Physics of Semiconductor Devices.
double siliconGap(double kelvin);

/// A junction's built-in voltage and zero-bias capacitance.
struct BuiltIn {
    double volts = 1.0;
    double farads = 0.0;
};

/// Both at a temperature, from both at the nominal one; silicon's band gap, as the Berkeley programs have it.
/// A built-in voltage that heat would take below 10 mV stays there.
/// Source: Vladimirescu, Liu, UCB/ERL M80/7 (1980).
BuiltIn builtInAtTemperature(BuiltIn nominal, double grading, double kelvin, double atKelvin);

}  // namespace ohmwright
