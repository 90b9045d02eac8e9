/// The bipolar transistor.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// Gummel-Poon transistor, NPN; a PNP is the same law with all voltages and currents turned (POLARITY -1).
///
/// Parameters: IS [A] (1e-16), BF (100), BR (1), NF NR (1), VAF VAR IKF IKR (none), NKF (0.5), ISE ISC [A] (0), NE
/// (1.5), NC (2), RB RC RE [Ω] (0), RBM [Ω] (RB) with IRB [A] (none), CJE CJC CJS [F] (0), VJE VJC VJS [V] (0.75), MJE
/// MJC (0.33), MJS (0), XCJC (1), FC (0.5), TF TR [s] (0), XTF (0), VTF [V] (none), ITF [A] (0), EG [eV] (1.11), XTI
/// (3), XTB (0), TNOM [°C] (27), KF (0), AF (1). Of the device: AREA, M. The substrate of CJS is ground and lies
/// against the collector. gmin counts as junction current: across the transistor, and at the base by the betas. Source:
/// H. K. Gummel, H. C. Poon, Bell Syst. Tech. J. 49 (1970) 827; as in Nagel, UCB/ERL M520 (1975) and Quarles, UCB/ERL
/// M89/42 (1989).
class BipolarLaw {
public:
    static constexpr PartKind kind = PartKind::bipolar;
    static constexpr std::array<std::string_view, 0> innerNodes{};
    /// Base-emitter, base-collector; along the base's resistance; outer base to collector; substrate to collector.
    static constexpr std::array<TerminalPair, 5> controls{
        {{1, 2}, {1, 0}, {outerTerminal(1), 1}, {outerTerminal(1), 0}, {groundTerminal, 0}}};
    /// Collector current; base current; what the base's bias adds to the conductance of RB.
    static constexpr std::array<TerminalPair, 3> currents{{{0, 2}, {1, 2}, {outerTerminal(1), 1}}};
    static constexpr std::array<SlopeOf, 7> currentSlopes{{{0, 0}, {0, 1}, {1, 0}, {1, 1}, {2, 0}, {2, 1}, {2, 2}}};
    static constexpr std::array<TerminalPair, 4> charges{{{1, 2}, {1, 0}, {outerTerminal(1), 0}, {groundTerminal, 0}}};
    static constexpr std::array<SlopeOf, 5> chargeSlopes{{{0, 0}, {0, 1}, {1, 1}, {2, 3}, {3, 4}}};
    static constexpr std::array<int, 0> junctions{};
    using Point = LawPoint<3, 7, 4, 5>;

    BipolarLaw(const Model& model, const DeviceInstance& instance);

    /// +1 NPN, -1 PNP.
    [[nodiscard]] double polarity() const { return m_polarity; }
    [[nodiscard]] std::array<double, 3> seriesOhms() const { return {m_collectorOhms, m_baseOhms, m_emitterOhms}; }
    /// The base-emitter junction where its current begins to be felt.
    [[nodiscard]] std::array<double, 5> start() const { return {m_criticalEmitter, 0.0, 0.0, 0.0, 0.0}; }
    void at(const std::array<double, 5>& volts, Point& point) const;
    void conduct(const std::array<double, 5>& volts, Point& point) const { currentsAt(volts, point); }
    /// For small signals the base's resistance stands still at its bias, as the Berkeley description has it.
    static void smallSignal(Point& point);
    void limit(std::array<double, 5>& proposed, const std::array<double, 5>& previous) const;
    [[nodiscard]] std::array<NoiseDensity, 3> noise(const std::array<double, 5>& volts) const;

private:
    /// A function of the two junction voltages and its slopes.
    struct OfJunctions {
        double value = 0.0;
        double byBaseEmitter = 0.0;
        double byBaseCollector = 0.0;
    };
    /// What currents and charges have in common: the currents of both junctions, and the base's charge.
    struct Flow {
        ValueAndSlope forward, reverse;
        OfJunctions baseCharge;
    };
    /// Writes currents and their slopes.
    Flow currentsAt(const std::array<double, 5>& volts, Point& point) const;
    void readTemperatures(const Model& model, double kelvin, double devices);
    void readCharges(const Model& model, double kelvin, double devices);
    [[nodiscard]] OfJunctions baseCharge(const ValueAndSlope& forward, const ValueAndSlope& reverse, double baseEmitter,
                                         double baseCollector) const;
    [[nodiscard]] OfJunctions forwardCharge(const ValueAndSlope& forward, const OfJunctions& baseCharge,
                                            double baseCollector) const;
    [[nodiscard]] OfJunctions baseSiemens(const OfJunctions& baseCharge, const OfJunctions& baseCurrent) const;

    double m_polarity;
    double m_kelvin;
    double m_junctionSiemens;
    double m_saturation = 0.0, m_inverseForwardBeta = 1.0, m_inverseReverseBeta = 1.0;
    double m_forwardVolts = 1.0, m_reverseVolts = 1.0;                ///< NF Vt, NR Vt
    double m_leakEmitter = 0.0, m_leakEmitterVolts = 1.0;             ///< ISE, NE Vt
    double m_leakCollector = 0.0, m_leakCollectorVolts = 1.0;         ///< ISC, NC Vt
    double m_inverseForwardEarly = 0.0, m_inverseReverseEarly = 0.0;  ///< 1/VAF, 1/VAR; 0 for none
    double m_inverseForwardKnee = 0.0, m_inverseReverseKnee = 0.0;    ///< 1/IKF, 1/IKR; 0 for none
    double m_kneeExponent = 0.5;                                      ///< NKF
    double m_criticalEmitter = 0.0, m_criticalCollector = 0.0;
    double m_baseOhms = 0.0, m_leastBaseOhms = 0.0, m_collectorOhms = 0.0, m_emitterOhms = 0.0;
    double m_inverseBaseCrowding = 0.0;  ///< 1/IRB; 0 for none
    bool m_baseOhmsFollowBias = false;
    double m_forwardTransit = 0.0, m_reverseTransit = 0.0;
    double m_transitRise = 0.0, m_inverseTransitVolts = 0.0, m_transitAmperes = 0.0;  ///< XTF, 1/(1.44 VTF), ITF
    double m_flicker = 0.0, m_flickerExponent = 1.0;
    DepletionLaw m_depletionEmitter, m_depletionCollector, m_depletionOuterBase, m_depletionSubstrate;
};

}  // namespace ohmwright
