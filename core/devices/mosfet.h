/// The MOS field-effect transistor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// Shichman-Hodges law ("level 1"), N channel; a P channel is the same law with all voltages and currents turned
/// (POLARITY -1, VTO with its own sign). With u = vgs - VTO - GAMMA (sqrt(PHI - vbs) - sqrt(PHI)) and b = KP W/(L - 2
/// LD) (1 + LAMBDA vds): I = b u^2/2 where u < vds, b vds (u - vds/2) above, 0 for u < 0; drain and source change
/// places for vds < 0.
///
/// With TOX there is the gate's charge: that of the channel, 2/3 C (s^2 + s d + d^2)/(s + d) of the overdrives s and d
/// at both ends, shared by them as their squares, and that of the bulk. Its slopes are Meyer's capacitances in cut-off
/// and saturation; in the linear region, where Meyer's are the slopes of no charge, they are of the same size. Both set
/// in smoothly over PHI around the threshold, which for the charge is that without bulk bias.
///
/// Parameters: VTO [V] (0), KP [A/V^2] (2e-5), LAMBDA [1/V] (0), GAMMA [√V] (0), PHI [V] (0.6), IS [A] (1e-14) or JS
/// [A/m^2] (0), N (1), RD RS RG [Ω] (0) or RSH [Ω] (0), CBD CBS [F] (0) or CJ [F/m^2] (0), MJ (0.5), CJSW [F/m] (0),
/// MJSW (0.5), PB [V] (0.8), FC (0.5), CGSO CGDO CGBO [F/m] (0), TOX [m] (none), UO [cm^2/Vs] (600), NSUB [1/cm^3]
/// (none), NSS [1/cm^2] (0), TPG (1), LD [m] (0), TNOM [°C] (27), KF (0), AF (1). Of the device: W L [m] (1e-4), AD AS
/// [m^2] (0), PD PS [m] (0), NRD NRS (1), M. Where TOX and NSUB are stated, KP, PHI, GAMMA and VTO follow from them
/// unless stated. Source: Shichman, Hodges, IEEE J. Solid-State Circuits SC-3 (1968) 285; A. Vladimirescu, S. Liu,
/// UCB/ERL M80/7 (1980); J. E. Meyer, RCA Review 32 (1971) 42. The smooth onset and the sharing of the charge are our
/// own.
class MosfetLaw {
public:
    static constexpr PartKind kind = PartKind::mosfet;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    /// Gate-source, gate-drain, bulk-source, bulk-drain, gate-bulk.
    static constexpr std::array<TerminalPair, 5> controls{{{1, 2}, {1, 0}, {3, 2}, {3, 0}, {1, 3}}};
    /// Channel; both bulk junctions.
    static constexpr std::array<TerminalPair, 3> currents{{{0, 2}, {3, 2}, {3, 0}}};
    static constexpr std::array<SlopeOf, 6> currentSlopes{{{0, 0}, {0, 1}, {0, 2}, {0, 3}, {1, 2}, {2, 3}}};
    /// Gate-source, gate-drain, gate-bulk, bulk-source, bulk-drain.
    static constexpr std::array<TerminalPair, 5> charges{{{1, 2}, {1, 0}, {1, 3}, {3, 2}, {3, 0}}};
    static constexpr std::array<SlopeOf, 7> chargeSlopes{{{0, 0}, {0, 1}, {1, 0}, {1, 1}, {2, 4}, {3, 2}, {4, 3}}};
    static constexpr std::array<int, 2> junctions{2, 3};
    using Point = LawPoint<3, 6, 5, 7>;

    MosfetLaw(const Model& model, const DeviceInstance& instance);

    /// +1 N channel, -1 P channel.
    [[nodiscard]] double polarity() const { return m_polarity; }
    [[nodiscard]] std::array<double, 4> seriesOhms() const { return {m_drainOhms, m_gateOhms, m_sourceOhms, 0.0}; }
    void at(const std::array<double, 5>& volts, Point& point) const;
    /// For small signals: Meyer's capacitances themselves, which in the linear region are the slopes of no charge.
    static void smallSignal(Point& point);
    void limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 3> noise(const std::array<double, 5>& volts) const;

private:
    /// Threshold seen from the end of lower potential and its slope by the bulk's voltage there.
    [[nodiscard]] ValueAndSlope threshold(double bulkToLowerEnd) const;
    void readChannel(const Model& model, const DeviceInstance& instance, double nominal);
    void readBulk(const Model& model, const DeviceInstance& instance, double nominal);
    void gateCharges(const std::array<double, 5>& volts, Point& point) const;
    [[nodiscard]] ValueAndSlope softOverdrive(double overdrive) const;
    [[nodiscard]] ValueAndSlope bulkCharge(double overdrive) const;

    double m_polarity, m_kelvin;
    double m_devices = 1.0, m_width = 1e-4, m_length = 1e-4;  ///< M, W, L - 2 LD
    double m_zeroBiasThreshold = 0.0, m_gamma = 0.0, m_phi = 0.6, m_rootPhi = 0.7745966692414834;
    double m_beta = 0.0, m_lambda = 0.0;  ///< KP W/L, LAMBDA
    double m_gateFarads = 0.0;            ///< of the whole oxide; 0 without TOX
    double m_oxideFaradsPerArea = 0.0;
    double m_overlapSource = 0.0, m_overlapDrain = 0.0, m_overlapBulk = 0.0;
    double m_sourceSaturation = 0.0, m_drainSaturation = 0.0, m_bulkVolts = 1.0;
    double m_criticalSource = 0.0, m_criticalDrain = 0.0;
    double m_drainOhms = 0.0, m_sourceOhms = 0.0, m_gateOhms = 0.0;
    double m_flicker = 0.0, m_flickerExponent = 1.0;
    DepletionLaw m_sourceBottom, m_sourceSide, m_drainBottom, m_drainSide;
};

}  // namespace ohmwright
