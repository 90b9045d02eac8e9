/// The junction diode, with breakdown.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// i = IS (exp(v/(N Vt)) - 1) behind RS; charge = depletion + TT i; in reverse IBV flows at -BV.
///
/// Parameters: IS [A] (1e-14), N (1), RS [Ω] (0), CJO [F] (0), VJ [V] (1), M (0.5), FC (0.5), TT [s] (0), BV [V]
/// (none), IBV [A] (1e-3), NBV (N), IKF [A] (none), ISR [A] (0), NR (2), EG [eV] (1.11), XTI (3), TNOM [°C] (27), KF
/// (0), AF (1). Of the device: AREA, M. BV does not follow the temperature. Source: Nagel, UCB/ERL M520 (1975);
/// breakdown as in Quarles, UCB/ERL M89/42 (1989).
class DiodeLaw {
public:
    static constexpr PartKind kind = PartKind::diode;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    static constexpr std::array<TerminalPair, 1> controls{{{0, 1}}};
    static constexpr std::array<TerminalPair, 1> currents{{{0, 1}}};
    static constexpr std::array<SlopeOf, 1> currentSlopes{{{0, 0}}};
    static constexpr std::array<TerminalPair, 1> charges{{{0, 1}}};
    static constexpr std::array<SlopeOf, 1> chargeSlopes{{{0, 0}}};
    static constexpr std::array<int, 1> junctions{0};
    using Point = LawPoint<1, 1, 1, 1>;

    DiodeLaw(const Model& model, const DeviceInstance& instance);

    [[nodiscard]] double polarity() const { return 1.0; }
    [[nodiscard]] std::array<double, 2> seriesOhms() const { return {m_seriesOhms, 0.0}; }
    /// Where the current begins to be felt.
    [[nodiscard]] std::array<double, 1> start() const { return {m_critical}; }
    void at(const std::array<double, 1>& volts, Point& point) const;
    void conduct(const std::array<double, 1>& volts, Point& point) const;
    void limit(std::array<double, 1>& proposed, const std::array<double, 1>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 1> noise(const std::array<double, 1>& volts) const;

private:
    [[nodiscard]] ValueAndSlope current(double volts) const;
    [[nodiscard]] ValueAndSlope recombination(double volts) const;

    double m_saturation, m_emissionVolts, m_critical;
    double m_seriesOhms, m_transitSeconds;
    double m_inverseKnee;                          ///< 1/IKF; 0 for none
    double m_recombination, m_recombinationVolts;  ///< ISR, NR Vt
    double m_builtInVolts, m_grading;
    double m_breakdownStart, m_breakdownVolts;  ///< where the law bends, 0 for never; NBV Vt
    double m_currentAtStart, m_breakdownScale;  ///< of the reverse branch; of the breakdown's exponential
    double m_flicker, m_flickerExponent;
    DepletionLaw m_depletion;
};

}  // namespace ohmwright
