// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/figures.h"

#include "core/base/number_text.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

const std::vector<FigureKind>& figureKinds() {
    static const std::vector<FigureKind> kinds{
        {"gain_leg_corner", "gain-leg corner (tag)", "Hz", true},
        {"low_corner", "low corner, solved", "Hz", true},
        {"high_corner", "high corner, solved", "Hz", true},
        {"plateau_gain", "plateau gain, by formula", "dB"},
        {"highest_gain", "highest stage gain", "dB"},
        {"highest_gain_at", "highest stage gain at", "Hz", true},
        {"response_82", "response at 82.41 Hz", "dB"},
        {"response_110", "response at 110 Hz", "dB"},
        {"response_147", "response at 146.8 Hz", "dB"},
        {"response_196", "response at 196 Hz", "dB"},
        {"response_220", "response at 220 Hz", "dB"},
        {"response_247", "response at 246.9 Hz", "dB"},
        {"response_330", "response at 329.6 Hz", "dB"},
        {"response_1k", "response at 1 kHz", "dB"},
        {"response_3k", "response at 3 kHz", "dB"},
        {"stage_gain_82", "stage gain at 82.41 Hz", "dB"},
        {"stage_gain_110", "stage gain at 110 Hz", "dB"},
        {"stage_gain_147", "stage gain at 146.8 Hz", "dB"},
        {"stage_gain_196", "stage gain at 196 Hz", "dB"},
        {"stage_gain_220", "stage gain at 220 Hz", "dB"},
        {"stage_gain_247", "stage gain at 246.9 Hz", "dB"},
        {"stage_gain_330", "stage gain at 329.6 Hz", "dB"},
        {"stage_gain_1k", "stage gain at 1 kHz", "dB"},
        {"stage_gain_3k", "stage gain at 3 kHz", "dB"},
        {"clip_threshold_positive", "clip threshold, + half-wave", "V"},
        {"clip_threshold_negative", "clip threshold, − half-wave", "V"},
        {"clip_threshold_positive_input", "+ threshold reached at", "mVpk", true},
        {"clip_threshold_negative_input", "− threshold reached at", "mVpk", true},
        {"peak_positive", "peak + at the clip node", "V"},
        {"peak_negative", "peak − at the clip node", "V"},
        {"peak_positive_out", "peak + at the output", "V"},
        {"peak_negative_out", "peak − at the output", "V"},
        {"level", "level at the output", "dBV"},
        {"level_slope", "level slope", "dB per dB"},
        {"dc_shift", "DC shift at the clip node", "V"},
        {"thd", "harmonic distortion", "%"},
        {"h2", "2nd harmonic", "dBc"},
        {"h3", "3rd harmonic", "dBc"},
        {"h4", "4th harmonic", "dBc"},
        {"h5", "5th harmonic", "dBc"},
        {"h6", "6th harmonic", "dBc"},
        {"h7", "7th harmonic", "dBc"},
        {"supply_current", "supply current", "mA"},
    };
    return kinds;
}

void withholdUndefined(std::vector<Figure>& figures) {
    for (Figure& figure : figures) {
        if (figure.value && !std::isfinite(*figure.value)) {
            figure.value.reset();
            figure.absence = "no signal";
        }
    }
}

const Figure* findFigure(const std::vector<Figure>& figures, std::string_view id) {
    const auto found = std::find_if(figures.begin(), figures.end(), [&](const Figure& f) { return f.id == id; });
    return found == figures.end() ? nullptr : &*found;
}

std::optional<double> changeOf(const Figure& stock, const Figure& now) {
    if (!stock.value || !now.value) {
        return std::nullopt;
    }
    return *now.value - *stock.value;
}

std::string formatFigureValue(const Figure& figure) {
    if (!figure.value) {
        return figure.absence;
    }
    const auto& kinds = figureKinds();
    const auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const FigureKind& k) { return k.id == figure.id; });
    if (kind != kinds.end() && (kind->unit == "V" || kind->unit == "dB per dB")) {
        return formatFixed(*figure.value, 2);
    }
    return formatFigure(*figure.value);
}

Result<std::vector<Figure>> measureFigures(const Circuit& circuit, const Setting& setting,
                                           const std::stop_token& stop) {
    const auto linear = measureLinear(circuit, setting, {}, stop);
    if (!linear) {
        return linear.error();
    }
    const auto large = measureLargeSignal(circuit, setting, {}, stop);
    if (!large) {
        return large.error();
    }
    std::vector<Figure> ordered;
    for (const FigureKind& kind : figureKinds()) {
        const Figure* figure = findFigure(linear->figures, kind.id);
        if (figure == nullptr) {
            figure = findFigure(large->figures, kind.id);
        }
        ordered.push_back(figure == nullptr ? Figure{std::string(kind.id), {}, "none"} : *figure);
    }
    return ordered;
}

}  // namespace ohmwright
