/// The junction field-effect transistor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// Shichman-Hodges law, N channel; a P channel is the same law with all voltages and currents turned (POLARITY -1, VTO
/// as for the N channel). With u = vgs - VTO: I = BETA (1 + LAMBDA vds) u^2 where u < vds, BETA (1 + LAMBDA vds) vds (2
/// u - vds) above, 0 for u < 0; drain and source change places for vds < 0. Both gate junctions are diodes.
///
/// Parameters: VTO [V] (-2), BETA [A/V^2] (1e-4), LAMBDA [1/V] (0), B (1) for a doping tail, RD RS [Ω] (0), IS [A]
/// (1e-14), N (1), CGS CGD [F] (0), PB [V] (1), M (0.5), FC (0.5), VTOTC [V/K] (0) or TCV, its negative, BETATCE [%/K]
/// (0) or BEX, the exponent of T (0), XTI (0), EG [eV] (1.11), TNOM [°C] (27), KF (0), AF (1). Of the device: AREA, M.
/// Source: H. Shichman, D. Hodges, IEEE J. Solid-State Circuits SC-3 (1968) 285; as in Quarles, UCB/ERL M89/42 (1989);
/// doping tail: A. E. Parker, D. J. Skellern (1992).
class JfetLaw {
public:
    static constexpr PartKind kind = PartKind::jfet;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    /// Gate-source, gate-drain.
    static constexpr std::array<TerminalPair, 2> controls{{{1, 2}, {1, 0}}};
    /// Channel; both gate junctions.
    static constexpr std::array<TerminalPair, 3> currents{{{0, 2}, {1, 2}, {1, 0}}};
    static constexpr std::array<SlopeOf, 4> currentSlopes{{{0, 0}, {0, 1}, {1, 0}, {2, 1}}};
    static constexpr std::array<TerminalPair, 2> charges{{{1, 2}, {1, 0}}};
    static constexpr std::array<SlopeOf, 2> chargeSlopes{{{0, 0}, {1, 1}}};
    static constexpr std::array<int, 2> junctions{0, 1};
    using Point = LawPoint<3, 4, 2, 2>;

    JfetLaw(const Model& model, const DeviceInstance& instance);

    /// +1 N channel, -1 P channel.
    [[nodiscard]] double polarity() const { return m_polarity; }
    [[nodiscard]] std::array<double, 3> seriesOhms() const { return {m_drainOhms, 0.0, m_sourceOhms}; }
    void at(const std::array<double, 2>& volts, Point& point) const;
    void limit(std::array<double, 2>& proposed, const std::array<double, 2>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 3> noise(const std::array<double, 2>& volts) const;

private:
    /// Current from the end of higher to the end of lower potential and its slopes by the gate's two voltages.
    struct Channel {
        double amperes = 0.0;
        double byLowerEnd = 0.0;
        double byHigherEnd = 0.0;
    };
    [[nodiscard]] Channel channel(double gateToLowerEnd, double across) const;

    double m_polarity, m_kelvin;
    double m_threshold, m_beta, m_lambda, m_tail, m_tailPerVolt;
    double m_saturation, m_gateVolts, m_critical;
    double m_drainOhms, m_sourceOhms;
    double m_flicker, m_flickerExponent;
    DepletionLaw m_gateSource, m_gateDrain;
};

}  // namespace ohmwright
