/// The junction diode.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/junction.h"

namespace ohmwright {

/// i = IS (exp(v/(N Vt)) - 1) behind RS; charge = depletion + TT i.
///
/// Parameters: IS [A] (1e-14), N (1), RS [Ω] (0), CJO [F] (0), VJ [V] (1), M (0.5), FC (0.5), TT [s] (0),
/// EG [eV] (1.11), XTI (3). No breakdown; CJO and VJ do not follow
/// the temperature. Voltages and currents from anode to cathode, inside RS.
/// Source: Nagel, UCB/ERL M520 (1975).
class DiodeLaw {
public:
    DiodeLaw(const Model& model, double kelvin);

    [[nodiscard]] ValueAndSlope current(double volts) const;
    [[nodiscard]] ValueAndSlope charge(double volts) const;
    [[nodiscard]] double limited(double proposed, double previous) const;
    [[nodiscard]] double seriesOhms() const { return m_seriesOhms; }

private:
    double m_saturation;
    double m_emissionVolts;
    double m_critical;
    double m_seriesOhms;
    double m_transitSeconds;
    DepletionLaw m_depletion;
};

}  // namespace ohmwright
