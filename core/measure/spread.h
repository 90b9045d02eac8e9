/// Spread: how far two units of the same build differ, because no part has exactly its value.
///
/// Parts differ uniformly and independently inside their tolerance, both parts of a pot together (its whole track).
/// A part without a tolerance does not differ: pickup, cable, battery and load have none, and types (transistors,
/// diodes, op-amps) are held fixed. A part that was measured stands at its measured value, with the meter's 1 %.
/// A band is plus or minus so many dB around the nominal unit, and 95 of 100 units lie inside.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <stop_token>
#include <vector>

namespace ohmwright {

struct SolvedCircuit;  // solved_circuit.h

/// What a meter is trusted to, as a share of its reading. Common practice, no source.
inline constexpr double meterShare = 0.01;

/// The circuit as this unit is known: a measured part stands at its measured value with `meterShare` as tolerance.
/// Bands are those of the circuit that is given: take this one for the unit on the bench, stock for the drawing.
Circuit asMeasured(const Circuit& circuit);

/// By which share a part's value may lie off: `meterShare` when it is measured, its tolerance else; 0 for parts
/// without a value.
double spreadShare(const Part& part);

// ---- Quick: by derivative -----------------------------------------------------------------------------------------

/// 1.96 sqrt(sum (S t)^2 / 3) over the parts: S = dB per unit of relative change, t = share; a uniform part's
/// deviation is t/sqrt 3, and 1.96 deviations hold 95 % of a normal spread.
struct QuickBand {
    std::vector<double> hertz;
    std::vector<double> nominalDb;
    std::vector<double> bandDb;  ///< Half the band, above 0: nominal ± this.
};

/// Of the response from source to output at each frequency, the shift of the bias included (solve/influence.h).
/// Errors: as solveCircuit and solveInfluence; cancelled.
Result<QuickBand> quickBand(const Circuit& circuit, const Setting& setting, std::span<const double> hertz,
                            const std::stop_token& stop = {});

/// Of the gain between two nets of the loaded circuit, as a stage's border nets; an empty `under` is the source.
Result<QuickBand> quickGainBand(const Circuit& circuit, const Setting& setting, const NetName& under,
                                const NetName& over, std::span<const double> hertz, const std::stop_token& stop = {});

/// Of the difference of the responses at two frequencies, as a tilt: parts that move both alike do not count.
struct TiltBand {
    double nominalDb = 0.0;  ///< Response at `overHz` less that at `underHz`.
    double bandDb = 0.0;
};
Result<TiltBand> quickTiltBand(const Circuit& circuit, const Setting& setting, double overHz, double underHz,
                               const std::stop_token& stop = {});

// ---- Sampled: by builds -------------------------------------------------------------------------------------------

struct BuildOptions {
    int builds = 4000;       ///< At that many, two seeds' bands differ by about 2 % of themselves.
    std::uint64_t seed = 1;  ///< The same seed gives the same builds on every machine.
};

/// Half the distance from the 2.5 to the 97.5 percentile over the builds.
struct SampledBand {
    std::vector<double> hertz;
    std::vector<double> nominalDb;  ///< Of the nominal unit.
    std::vector<double> lowDb;      ///< 2.5 percentile.
    std::vector<double> highDb;     ///< 97.5 percentile.
    std::vector<double> bandDb;     ///< (high - low)/2
    int builds = 0;                 ///< That were solved.
    int unsolved = 0;               ///< Builds whose bias was not found; they are left out.
};

/// Of the response from source to output; the bias of every build is solved anew.
/// Errors: as solveCircuit; noConvergence when more than one build in a hundred cannot be solved; cancelled.
Result<SampledBand> sampledBand(const Circuit& circuit, const Setting& setting, std::span<const double> hertz,
                                const BuildOptions& options = {}, const std::stop_token& stop = {});

/// Any figures of a build, one entry each: gain of a stage in dB, volts of a bias. A NaN is left out of its
/// percentiles.
using BuildFigures = std::function<Result<std::vector<double>>(const SolvedCircuit&)>;

/// One figure over the builds.
struct FigureSpread {
    double nominal = 0.0;
    double low = 0.0, high = 0.0;  ///< 2.5 and 97.5 percentile.
    double lowest = 0.0, highest = 0.0;

    [[nodiscard]] double band() const { return (high - low) / 2.0; }
};
/// Errors: as sampledBand, and those of `figures` at the nominal unit.
Result<std::vector<FigureSpread>> sampledFigures(const Circuit& circuit, const Setting& setting,
                                                 const BuildFigures& figures, const BuildOptions& options = {},
                                                 const std::stop_token& stop = {});

// ---- Compared with a change ---------------------------------------------------------------------------------------

/// A change beside the spread of stock's figure at the same place, both in dB; said with both numbers.
struct SpreadMark {
    double changeDb = 0.0;
    double bandDb = 0.0;

    /// Smaller than what two units of the same build differ by.
    [[nodiscard]] bool isWithin() const { return changeDb < bandDb && changeDb > -bandDb; }

    friend bool operator==(const SpreadMark&, const SpreadMark&) = default;
};

// ---- On paper -----------------------------------------------------------------------------------------------------

/// How far a figure lies off that is 1 over a product of values, as a corner 1/(2 pi R C), by sums on paper.
struct ProductSpread {
    double lowest = 0.0;         ///< Worst case downwards: 1/((1 + t1)(1 + t2)...) - 1, below 0.
    double highest = 0.0;        ///< Worst case upwards: 1/((1 - t1)(1 - t2)...) - 1.
    double ruleOfSquares = 0.0;  ///< sqrt(t1^2 + t2^2 + ...): what is likely.
};
/// @param shares  tolerances of the values, 0 <= t < 1.
ProductSpread spreadOfInverseProduct(std::span<const double> shares);

}  // namespace ohmwright
