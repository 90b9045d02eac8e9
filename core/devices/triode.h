/// The triode valve, in two published laws.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// Law 1: E1 = (Va/KP) ln(1 + exp(KP (1/MU + Vg/sqrt(KVB + Va^2)))), Ia = 2 E1^EX/KG1 where E1 > 0, else 0; grid
/// current of a diode (IS, N) in series with RGI. Parameters: MU (100), EX (1.4), KG1 (1060), KP (600), KVB [V^2]
/// (300), RGI [Ω] (2000), IS [A] (1e-9), N (1), CCG CGP CCP [F] (0). Source: N. Koren, Glass Audio 8 (5) 1996, with the
/// factor 2 of its listing.
///
/// Law 2 (LAW 2, or any model that states G): Ik = G (ln(1 + exp(C (Va/MU + Vg)))/C)^GAMMA, Ig = GG (ln(1 + exp(CG
/// Vg))/CG)^XI + IG0, Ia = Ik - Ig. Parameters: MU (100), G [A/V^GAMMA] (2.242e-3), GAMMA (1.26), C [1/V] (3.4), GG
/// (6.177e-4), XI (1.314), CG [1/V] (9.901), IG0 [A] (0), RGI [Ω] (0), CCG CGP CCP [F] (0).
/// Source: K. Dempwolf, U. Zoelzer, DAFx-11 (2011).
///
/// Both: RNEQ [Ω] (0), the resistance at the grid that makes as much noise as the anode current. Of the device: M.
/// A hot cathode does not feel the room: the law keeps its figures at any temperature.
class TriodeLaw {
public:
    static constexpr PartKind kind = PartKind::triode;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    /// Anode; grid in front of RGI; grid behind it; grid to anode.
    static constexpr std::array<TerminalPair, 4> controls{
        {{0, 2}, {outerTerminal(1), 2}, {1, 2}, {outerTerminal(1), 0}}};
    /// Anode current, grid current.
    static constexpr std::array<TerminalPair, 2> currents{{{0, 2}, {1, 2}}};
    static constexpr std::array<SlopeOf, 4> currentSlopes{{{0, 0}, {0, 1}, {0, 2}, {1, 2}}};
    static constexpr std::array<TerminalPair, 3> charges{{{outerTerminal(1), 2}, {outerTerminal(1), 0}, {0, 2}}};
    static constexpr std::array<SlopeOf, 3> chargeSlopes{{{0, 1}, {1, 3}, {2, 0}}};
    static constexpr std::array<int, 1> junctions{2};
    using Point = LawPoint<2, 4, 3, 3>;

    TriodeLaw(const Model& model, const DeviceInstance& instance);

    [[nodiscard]] double polarity() const { return 1.0; }
    [[nodiscard]] std::array<double, 3> seriesOhms() const { return {0.0, m_gridOhms, 0.0}; }
    void at(const std::array<double, 4>& volts, Point& point) const;
    void limit(std::array<double, 4>& proposed, const std::array<double, 4>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 2> noise(const std::array<double, 4>& volts) const;

private:
    void firstLaw(const std::array<double, 4>& volts, Point& point) const;
    void secondLaw(const std::array<double, 4>& volts, Point& point) const;

    bool m_second;
    double m_inverseMu, m_exponent, m_scale;  ///< 1/MU; EX or GAMMA; 2/KG1 or G
    double m_kp, m_kvb;
    double m_softness;                                                   ///< C
    double m_gridSaturation, m_gridVolts, m_gridCritical;                ///< IS, N Vt
    double m_gridScale, m_gridExponent, m_gridSoftness, m_gridConstant;  ///< GG, XI, CG, IG0
    double m_gridOhms, m_noiseOhms;
    double m_gridCathode, m_gridAnode, m_anodeCathode;  ///< [F]
};

}  // namespace ohmwright
