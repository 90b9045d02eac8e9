/// What every pn junction does: exponential current, depletion charge, and a bound on Newton's steps.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ohmwright {

/// A function of one voltage and its slope there.
struct ValueAndSlope {
    double value = 0.0;
    double slope = 0.0;
};

/// i = IS (exp(v/(N Vt)) - 1) [A]; beyond an exponent of 80 it goes on as its tangent, so that a wild
/// Newton step stays finite.
ValueAndSlope exponentialCurrent(double saturationAmperes, double emissionVolts, double volts);

/// Depletion charge [C] and capacitance [F] of a graded junction.
struct DepletionLaw {
    double zeroBiasFarads = 0.0;  ///< CJ
    double builtInVolts = 1.0;    ///< VJ
    double grading = 0.5;         ///< M, under 1
    double forwardShare = 0.5;    ///< FC: above FC VJ the capacitance goes on as a straight line

    /// Source: L. W. Nagel, SPICE2, memorandum UCB/ERL M520 (1975), section on junction diodes.
    [[nodiscard]] ValueAndSlope at(double volts) const;
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
                               double emission);

}  // namespace ohmwright
