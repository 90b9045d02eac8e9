/// The bipolar transistor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/junction.h"

namespace ohmwright {

/// A function of the two junction voltages and its slopes.
struct ValueAndTwoSlopes {
    double value = 0.0;
    double byBaseEmitter = 0.0;
    double byBaseCollector = 0.0;
};

/// Gummel-Poon transistor, NPN; a PNP is the same law with all voltages and currents turned (POLARITY -1).
///
/// Parameters: IS [A] (1e-16), BF (100), BR (1), NF NR (1), VAF VAR IKF IKR (none), ISE ISC [A] (0), NE (1.5), NC (2),
/// RB RC RE [Ω] (0), CJE CJC [F] (0), VJE VJC [V] (0.75), MJE MJC (0.33), FC (0.5), TF TR [s] (0), EG (1.11), XTI (3),
/// XTB (0). Voltages are of the inner junctions. Currents flow into the terminal. Junction
/// capacitances do not follow the temperature.
/// Source: H. K. Gummel, H. C. Poon, Bell Syst. Tech. J. 49 (1970) 827; as in Nagel, UCB/ERL M520 (1975).
class BipolarLaw {
public:
    BipolarLaw(const Model& model, double kelvin);

    struct Point {
        ValueAndTwoSlopes collector;        ///< Current into the inner collector [A].
        ValueAndTwoSlopes base;             ///< Current into the inner base [A].
        ValueAndTwoSlopes chargeEmitter;    ///< Between base and emitter [C].
        ValueAndTwoSlopes chargeCollector;  ///< Between base and collector [C].
    };
    [[nodiscard]] Point at(double baseEmitter, double baseCollector) const;

    [[nodiscard]] double limitedBaseEmitter(double proposed, double previous) const;
    [[nodiscard]] double limitedBaseCollector(double proposed, double previous) const;

    /// +1 NPN, -1 PNP.
    [[nodiscard]] double polarity() const { return m_polarity; }
    [[nodiscard]] double baseOhms() const { return m_baseOhms; }
    [[nodiscard]] double collectorOhms() const { return m_collectorOhms; }
    [[nodiscard]] double emitterOhms() const { return m_emitterOhms; }

private:
    double m_polarity;
    double m_saturation, m_forwardBeta, m_reverseBeta;
    double m_forwardVolts, m_reverseVolts;                ///< NF Vt, NR Vt
    double m_leakEmitter, m_leakEmitterVolts;             ///< ISE, NE Vt
    double m_leakCollector, m_leakCollectorVolts;         ///< ISC, NC Vt
    double m_inverseForwardEarly, m_inverseReverseEarly;  ///< 1/VAF, 1/VAR; 0 for none
    double m_inverseForwardKnee, m_inverseReverseKnee;    ///< 1/IKF, 1/IKR; 0 for none
    double m_criticalEmitter, m_criticalCollector;
    double m_baseOhms, m_collectorOhms, m_emitterOhms;
    double m_forwardTransit, m_reverseTransit;
    DepletionLaw m_depletionEmitter, m_depletionCollector;
};

}  // namespace ohmwright
