/// The op-amp: one pole, saturating input pair, rails, output resistance.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/junction.h"

namespace ohmwright {

/// An inner node x carries the gain: a saturating transconductance ILIM tanh(gm vd/ILIM), gm = 2 pi GBW CP, into
/// CP and GAIN/gm in parallel; clamp diodes hold x between the supplies less HEADROOM; the output is a copy
/// of x behind ROUT. ILIM/CP is the slew rate. Knows no bias current, offset, common-mode limit or crossover.
///
/// Parameters: RIN [Ω] between the inputs (none), GAIN (2e5), GBW [Hz] (3e6), ILIM [A] (1.3), CP [F] (100e-9), ROUT [Ω]
/// (100), HEADROOM_P, HEADROOM_N [V] (1.9), CLAMP_IS [A] (1e-12), CLAMP_N (1), IQ [A] (1.4e-3). Source: saturating
/// input pair and one dominant pole after Boyle, Cohn, Pederson, Solomon, IEEE J. Solid-State Circuits SC-9 (1974) 353,
/// reduced; clamps own.
class OpampLaw {
public:
    OpampLaw(const Model& model, double kelvin);

    /// Current into the inner node against the differential input voltage.
    [[nodiscard]] ValueAndSlope transfer(double differentialVolts) const;
    /// Current through a clamp diode against its own voltage (upper: x - (V+ - HEADROOM_P)).
    [[nodiscard]] ValueAndSlope clamp(double volts) const;
    [[nodiscard]] double limitedClamp(double proposed, double previous) const;

    /// Between the two inputs; 0 when the model states no RIN.
    [[nodiscard]] double inputSiemens() const { return m_inputSiemens; }
    [[nodiscard]] double innerSiemens() const { return m_innerSiemens; }
    [[nodiscard]] double innerFarads() const { return m_innerFarads; }
    [[nodiscard]] double outputSiemens() const { return m_outputSiemens; }
    [[nodiscard]] double upperHeadroom() const { return m_upperHeadroom; }
    [[nodiscard]] double lowerHeadroom() const { return m_lowerHeadroom; }
    [[nodiscard]] double supplyAmperes() const { return m_supplyAmperes; }

private:
    double m_transconductance, m_limitAmperes;
    double m_inputSiemens, m_innerSiemens, m_innerFarads, m_outputSiemens;
    double m_upperHeadroom, m_lowerHeadroom, m_supplyAmperes;
    double m_clampSaturation, m_clampVolts, m_clampCritical;
};

}  // namespace ohmwright
