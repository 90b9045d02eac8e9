/// The pentode and beam valve.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// E1 = (Vs/KP) ln(1 + exp(KP (1/MU + Vg/Vs))), Ia = 2 E1^EX/KG1 atan(Va/KVB) where E1 > 0, else 0; screen current
/// (Vs/MU + Vg)^EX/KG2 where that is above 0, else 0; grid current of a diode (IS, N) in series with RGI. Where the
/// screen is below the cathode, E1 is max(Vs/MU + Vg, 0), which the formula tends to.
///
/// Parameters: MU (11), EX (1.35), KG1 (600), KG2 (4200), KP (60), KVB [V] (24), RGI [Ω] (1000), IS [A] (1e-9), N (1),
/// CCG CPG1 CCP [F] (0), RNEQ [Ω] (0), the resistance at the grid that makes as much noise as the anode current. Of the
/// device: M. The law keeps its figures at any temperature.
/// Source: N. Koren, "Improved vacuum tube models for SPICE simulations", Glass Audio 8 (5) 1996; the screen's law and
/// the factor 2 are those of its listing, from memory.
class PentodeLaw {
public:
    static constexpr PartKind kind = PartKind::pentode;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    /// Anode; screen; grid in front of RGI; grid behind it; grid to anode.
    static constexpr std::array<TerminalPair, 5> controls{
        {{0, 3}, {1, 3}, {outerTerminal(2), 3}, {2, 3}, {outerTerminal(2), 0}}};
    /// Anode current, screen current, grid current.
    static constexpr std::array<TerminalPair, 3> currents{{{0, 3}, {1, 3}, {2, 3}}};
    static constexpr std::array<SlopeOf, 6> currentSlopes{{{0, 0}, {0, 1}, {0, 2}, {1, 1}, {1, 2}, {2, 3}}};
    static constexpr std::array<TerminalPair, 3> charges{{{outerTerminal(2), 3}, {outerTerminal(2), 0}, {0, 3}}};
    static constexpr std::array<SlopeOf, 3> chargeSlopes{{{0, 2}, {1, 4}, {2, 0}}};
    static constexpr std::array<int, 1> junctions{3};
    using Point = LawPoint<3, 6, 3, 3>;

    PentodeLaw(const Model& model, const DeviceInstance& instance);

    [[nodiscard]] double polarity() const { return 1.0; }
    [[nodiscard]] std::array<double, 4> seriesOhms() const { return {0.0, 0.0, m_gridOhms, 0.0}; }
    void at(const std::array<double, 5>& volts, Point& point) const;
    void limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 3> noise(const std::array<double, 5>& volts) const;

private:
    /// A function of screen and grid and its slopes.
    struct Drive {
        double volts = 0.0;
        double byScreen = 0.0;
        double byGrid = 0.0;
    };
    [[nodiscard]] Drive drive(double screen, double grid) const;

    double m_inverseMu, m_exponent, m_anodeScale, m_screenScale;  ///< 1/MU, EX, 2/KG1, 1/KG2
    double m_kp, m_inverseKnee;                                   ///< KP, 1/KVB
    double m_gridSaturation, m_gridVolts, m_gridCritical;         ///< IS, N Vt
    double m_gridOhms, m_noiseOhms;
    double m_gridCathode, m_gridAnode, m_anodeCathode;  ///< [F]
};

}  // namespace ohmwright
