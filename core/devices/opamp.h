/// The op-amp: one or two poles, saturating input pair, rails, output resistance and its limit, noise.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"
#include "core/circuit/circuit.h"
#include "core/devices/device_law.h"
#include "core/devices/junction.h"

#include <string_view>

namespace ohmwright {

/// Noise beside an input: density^2 (1 + cornerHertz/f).
struct InputNoise {
    double density = 0.0;  ///< [V/√Hz] or [A/√Hz], far above the corner.
    double cornerHertz = 0.0;
};

/// An inner node x carries the gain: a saturating transconductance ILIM tanh(gm (vd + VOS)/ILIM), gm = 2 pi GBW CP,
/// into CP and GAIN/gm in parallel; clamp diodes hold x between the supplies less HEADROOM; the output stage y is a
/// copy of x, lagging by POLE2 if there is one; the output is y behind ROUT, whose current bends to IOUT if there is
/// a limit. ILIM/CP is the slew rate. Knows no common-mode limit and no crossover; what the output gives does not come
/// out of the supplies.
///
/// The law is the non-linear part; what is linear (RIN, GAIN/gm, CP, POLE2, IQ, IB) has members for the solver.
///
/// Parameters: RIN [Ω] between the inputs (none), GAIN (2e5), GBW [Hz] (3e6), ILIM [A] (1.3) or in its place SR [V/s],
/// CP [F] (100e-9), POLE2 [Hz] (none), ROUT [Ω] (100), IOUT [A] (none), HEADROOM_P, HEADROOM_N [V] (1.9), CLAMP_IS [A]
/// (1e-12), CLAMP_N (1), IQ [A] (1.4e-3), IB [A] into each input (0), VOS [V] in series with the non-inverting input
/// (0), EN [V/√Hz] (0) with FCE [Hz] (0), IN [A/√Hz] (0) with FCI [Hz] (0). Of the device: nothing.
/// Source: saturating input pair and one dominant pole after Boyle, Cohn, Pederson, Solomon, IEEE J. Solid-State
/// Circuits SC-9 (1974) 353, reduced; clamps, second pole and output limit own.
class OpampLaw {
public:
    static constexpr PartKind kind = PartKind::opamp;
    static constexpr int gainNode = 5;     ///< x
    static constexpr int outputStage = 6;  ///< y; the same node as x where secondPoleHertz() is 0
    static constexpr std::array<std::string_view, 2> innerNodes{toSay("gain node"), toSay("output stage")};
    /// Input difference; upper clamp; lower clamp; across ROUT.
    static constexpr std::array<TerminalPair, 4> controls{{{0, 1}, {gainNode, 3}, {4, gainNode}, {2, outputStage}}};
    /// Into x; out of x at the upper clamp; into x at the lower one; out of the output's net.
    static constexpr std::array<TerminalPair, 4> currents{
        {{groundTerminal, gainNode}, {gainNode, groundTerminal}, {groundTerminal, gainNode}, {2, groundTerminal}}};
    static constexpr std::array<SlopeOf, 4> currentSlopes{{{0, 0}, {1, 1}, {2, 2}, {3, 3}}};
    static constexpr std::array<TerminalPair, 0> charges{};
    static constexpr std::array<SlopeOf, 0> chargeSlopes{};
    static constexpr std::array<int, 2> junctions{1, 2};
    using Point = LawPoint<4, 4, 0, 0>;

    OpampLaw(const Model& model, const DeviceInstance& instance);

    [[nodiscard]] double polarity() const { return 1.0; }
    [[nodiscard]] std::array<double, 5> seriesOhms() const { return {}; }
    /// Both clamps without a voltage of their own.
    [[nodiscard]] std::array<double, 4> rest() const { return {0.0, -m_upperHeadroom, -m_lowerHeadroom, 0.0}; }
    void at(const std::array<double, 4>& volts, Point& point) const;
    void limit(std::array<double, 4>& proposed, const std::array<double, 4>& previous) const;
    /// EN, seen as the noise of the current into x; the noise of the input currents is the solver's.
    [[nodiscard]] std::array<NoiseDensity, 4> noise(const std::array<double, 4>& volts) const;

    /// Between the two inputs; 0 when the model states no RIN.
    [[nodiscard]] double inputSiemens() const { return m_inputSiemens; }
    /// From x to ground.
    [[nodiscard]] double innerSiemens() const { return m_innerSiemens; }
    [[nodiscard]] double innerFarads() const { return m_innerFarads; }
    /// Of the output branch at small currents; the law itself carries the current.
    [[nodiscard]] double outputSiemens() const { return m_outputSiemens; }
    /// Pole between x and y; 0 for none.
    [[nodiscard]] double secondPoleHertz() const { return m_secondPoleHertz; }
    /// From the positive to the negative supply.
    [[nodiscard]] double supplyAmperes() const { return m_supplyAmperes; }
    /// Into each input, as data sheets count it (negative where it flows out).
    [[nodiscard]] double inputBiasAmperes() const { return m_inputBiasAmperes; }
    [[nodiscard]] double offsetVolts() const { return m_offsetVolts; }
    [[nodiscard]] double slewVoltsPerSecond() const { return m_limitAmperes / m_innerFarads; }
    [[nodiscard]] InputNoise voltageNoise() const { return m_voltageNoise; }
    /// Of each input on its own, to ground.
    [[nodiscard]] InputNoise currentNoise() const { return m_currentNoise; }

private:
    [[nodiscard]] ValueAndSlope transfer(double differentialVolts) const;
    [[nodiscard]] ValueAndSlope output(double volts) const;

    double m_transconductance, m_limitAmperes;
    double m_inputSiemens, m_innerSiemens, m_innerFarads, m_outputSiemens, m_outputLimitAmperes;
    double m_upperHeadroom, m_lowerHeadroom, m_supplyAmperes;
    double m_secondPoleHertz, m_inputBiasAmperes, m_offsetVolts;
    double m_clampSaturation, m_clampVolts, m_clampCritical;
    InputNoise m_voltageNoise, m_currentNoise;
};

}  // namespace ohmwright
