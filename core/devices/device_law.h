/// What every non-linear device is to the solver: currents and charges between its terminals as functions of a few
/// voltages between its terminals, with exact slopes.
///
/// A law is a class with these members; solve/equations.h is written once for all of them:
///
///     static constexpr PartKind kind;
///     static constexpr std::array<std::string_view, I> innerNodes;   // names of inner nodes without a pin
///     static constexpr std::array<TerminalPair, NC> controls;        // v[k] = V(first) - V(second)
///     static constexpr std::array<TerminalPair, NI> currents;        // flows from first to second, through the device
///     static constexpr std::array<SlopeOf, N> currentSlopes;         // which slopes are not zero everywhere
///     static constexpr std::array<TerminalPair, NQ> charges;         // dq/dt flows from first to second
///     static constexpr std::array<SlopeOf, N> chargeSlopes;
///     static constexpr std::array<int, J> junctions;                 // controls that have gmin across them
///     using Point = LawPoint<...>;
///     Law(const Model& model, const DeviceInstance& instance);
///     double polarity() const;                                       // +1, or -1: all voltages and currents turned
///     std::array<double, pins> seriesOhms() const;                   // in each pin; 0 for none
///     std::array<double, NC> rest() const;                           // optional: where the device is off; else 0 V
///     std::array<double, NC> start() const;                          // optional: where Newton begins; else rest
///     void at(const std::array<double, NC>& volts, Point& point) const;
///     void conduct(const std::array<double, NC>& volts, Point& point) const;  // optional: at() without the charges
///     void limit(std::array<double, NC>& proposed, const std::array<double, NC>& previous) const;  // Newton's step
///     static void smallSignal(Point& point);                         // optional: other slopes for small signals
///     std::array<NoiseDensity, NI> noise(const std::array<double, NC>& volts) const;
///
/// All voltages and currents that a law sees are already turned by its polarity; so are those that it returns.
/// Every function must be finite and continuous for any finite voltage.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/devices/constants.h"

#include <array>
#include <cstddef>
#include <map>
#include <string>

namespace ohmwright {

/// Terminals: 0 .. pins-1 are the inner sides of the pins (behind the series resistances), in the kind's pin order;
/// then the inner nodes without a pin.
struct TerminalPair {
    int first;
    int second;
};
inline constexpr int groundTerminal = -1;
/// The outer side of a pin, in front of its series resistance.
constexpr int outerTerminal(int pin) {
    return 100 + pin;
}

/// d(output)/d(control): places in the law's lists.
struct SlopeOf {
    int output;
    int control;
};

/// A law evaluated at one set of voltages; slopes stand in the order of the law's lists.
template <std::size_t Currents, std::size_t CurrentSlopes, std::size_t Charges, std::size_t ChargeSlopes>
struct LawPoint {
    std::array<double, Currents> currents{};            ///< [A]
    std::array<double, CurrentSlopes> currentSlopes{};  ///< [S]
    std::array<double, Charges> charges{};              ///< [C]
    std::array<double, ChargeSlopes> chargeSlopes{};    ///< [F]
};

/// Power density of the noise current beside one of the law's currents: white + flicker / f [A^2/Hz].
struct NoiseDensity {
    double white = 0.0;
    double flicker = 0.0;  ///< [A^2], at 1 Hz.
};

/// What a single device adds to its type.
struct DeviceInstance {
    std::map<std::string, double> parameters;  ///< AREA (1), M (1), W, L ...
    double kelvin = nominalKelvin;
    double junctionSiemens = 0.0;  ///< gmin, for laws that have it inside (bipolar.h).
};

}  // namespace ohmwright
