/// Figures: the measured numbers of one circuit at one setting, each with a stable id and unit.
///
/// One meaning everywhere (window, papers, command line, tests); levels in dBV are RMS, volts of clipping
/// are peaks against the node's no-signal DC voltage, "mVpk" is the pickup's open-circuit peak.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/base/said.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"

#include <cstddef>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ohmwright {

/// What every figure is: looked up by id, never by position.
struct FigureKind {
    std::string_view id;    ///< "gain_leg_corner"
    std::string_view name;  ///< "gain-leg corner (tag)"; said where it is shown, as the unit is.
    std::string_view unit;  ///< "Hz", "dB", "V", "mVpk", "dBV", "dB per dB", "%", "mA"
    bool comparedAsRatio = false;
};
/// All figures, in the order they are shown.
const std::vector<FigureKind>& figureKinds();

/// A figure that has no value says why: "none", "no gain leg", "no signal", "not settled", said where it
/// is shown. A value is finite.
struct Figure {
    std::string id;
    std::optional<double> value;
    std::string absence;

    friend bool operator==(const Figure&, const Figure&) = default;
};

/// Small-signal curve from the pickup's voltage to the output, about the bias.
struct ResponseCurve {
    std::vector<double> hz;        ///< Ascending.
    std::vector<double> gainDb;    ///< 20 log10 |v(out)/v(source)|.
    std::vector<double> phaseDeg;  ///< -180..180.
};

/// One half-wave's clip threshold: where the incremental gain has fallen to 1/sqrt 2 of the small-signal gain.
struct ClipThreshold {
    double volts = 0.0;          ///< Signed, at the clip node.
    double pickVoltsPeak = 0.0;  ///< Where it is reached.
};

/// Peaks of the settled wave at the clip node, less its no-signal DC, against pick level.
struct ClipCurve {
    std::vector<double> pickVoltsPeak;  ///< Ascending from 0.
    std::vector<double> positiveVolts;
    std::vector<double> negativeVolts;
    std::optional<ClipThreshold> positive;  ///< Absent: not reached at 3 Vpk, or not settled.
    std::optional<ClipThreshold> negative;
    bool positiveSettled = true;  ///< False: the search came upon a level that does not settle.
    bool negativeSettled = true;
    std::string trouble;  ///< Why levels are missing in the curve, or a threshold; empty when nothing is.
};

/// Everything that the linearised circuit tells.
struct LinearState {
    std::vector<std::pair<NetName, double>> biasVolts;  ///< By net, circuit order.
    std::vector<double> stageGainDbAtCursor;  ///< One a stage, at `cursorHz`; NaN where a stage has no two borders.
    double cursorHz = 110.0;
    double responseDbAtCursor = 0.0;  ///< Source to output, solved at `cursorHz` itself.
    ResponseCurve response;
    std::vector<Figure> figures;
    double residualAmperes = 0.0;
};

/// Everything that the settled state at the player's level tells.
struct LargeSignalState {
    ClipCurve clip;
    std::vector<double> levelDbvAtBorder;  ///< RMS at each stage's output net, in stage order; NaN: not settled.
    std::vector<Figure> figures;
    std::string trouble;  ///< Why figures are "not settled", or some of the clip curve is missing; empty: nothing is.
};

struct LinearOptions {
    double fromHz = 20.0;
    double toHz = 20000.0;
    int pointsPerDecade = 100;
    double cursorHz = 110.0;
};

struct LargeSignalOptions {
    double clipToVoltsPeak = 0.2;  ///< Right end of the clip curve.
    int clipPoints = 25;
    bool withThresholds = true;
    std::size_t curveSteps = 129;      ///< A period, odd: peaks within 50 uV on the demo Harbour Lamp.
    std::size_t thresholdSteps = 257;  ///< Differences of peaks within 0.02 % there.
};

/// Bias, response, stage gains, corners, tag.
/// Errors: as solve/bias.h and solve/response.h; cancelled when `stop` is asked.
Result<LinearState> measureLinear(const Circuit& circuit, const Setting& setting, const LinearOptions& options,
                                  const std::stop_token& stop = {});

/// Why a figure of the settled wave is absent where that wave was not found.
inline constexpr std::string_view notSettled = toSay("not settled");

/// Clip curve, thresholds, peaks, level, slope, harmonics, DC shift at the setting's tone and pick level.
/// A level that does not settle, or at which a formula has no value, leaves its own figures absent; the rest stand.
/// Errors: as measureLinear; noConvergence or unsolvable, as the player's level has it, when no level settles.
Result<LargeSignalState> measureLargeSignal(const Circuit& circuit, const Setting& setting,
                                            const LargeSignalOptions& options, const std::stop_token& stop = {});

/// Only the response at one frequency [dB]; what a list of candidate values shows.
Result<double> measureGainDb(const Circuit& circuit, const Setting& setting, double hertz,
                             const std::stop_token& stop = {});

/// Only the level at the output [dBV RMS] at the setting's tone and pick level; what the mods list shows.
Result<double> measureLevelDbv(const Circuit& circuit, const Setting& setting, const std::stop_token& stop = {});

/// The figures of both, in the order of figureKinds().
Result<std::vector<Figure>> measureFigures(const Circuit& circuit, const Setting& setting,
                                           const std::stop_token& stop = {});

/// Takes back every value that is no finite number, as of a level of silence or the gain of a dead stage, and says
/// "no signal" in its place.
void withholdUndefined(std::vector<Figure>& figures);

const Figure* findFigure(const std::vector<Figure>& figures, std::string_view id);
/// now - stock; absent when either is.
std::optional<double> changeOf(const Figure& stock, const Figure& now);
/// As a person reads it, without unit: three significant digits, volts two decimals, or the word for absence.
std::string formatFigureValue(const Figure& figure);

}  // namespace ohmwright
