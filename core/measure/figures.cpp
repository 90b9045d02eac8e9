// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/figures.h"

#include "core/base/number_text.h"
#include "core/base/said.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

const std::vector<FigureKind>& figureKinds() {
    static const std::vector<FigureKind> kinds{
        {"gain_leg_corner", toSay("gain-leg corner (tag)"), "Hz", true},
        {"low_corner", toSay("low corner, solved"), "Hz", true},
        {"high_corner", toSay("high corner, solved"), "Hz", true},
        {"plateau_gain", toSay("plateau gain, by formula"), "dB"},
        {"highest_gain", toSay("highest stage gain"), "dB"},
        {"highest_gain_at", toSay("highest stage gain at"), "Hz", true},
        {"response_82", toSay("response at 82.41 Hz"), "dB"},
        {"response_110", toSay("response at 110 Hz"), "dB"},
        {"response_147", toSay("response at 146.8 Hz"), "dB"},
        {"response_196", toSay("response at 196 Hz"), "dB"},
        {"response_220", toSay("response at 220 Hz"), "dB"},
        {"response_247", toSay("response at 246.9 Hz"), "dB"},
        {"response_330", toSay("response at 329.6 Hz"), "dB"},
        {"response_1k", toSay("response at 1 kHz"), "dB"},
        {"response_3k", toSay("response at 3 kHz"), "dB"},
        {"stage_gain_82", toSay("stage gain at 82.41 Hz"), "dB"},
        {"stage_gain_110", toSay("stage gain at 110 Hz"), "dB"},
        {"stage_gain_147", toSay("stage gain at 146.8 Hz"), "dB"},
        {"stage_gain_196", toSay("stage gain at 196 Hz"), "dB"},
        {"stage_gain_220", toSay("stage gain at 220 Hz"), "dB"},
        {"stage_gain_247", toSay("stage gain at 246.9 Hz"), "dB"},
        {"stage_gain_330", toSay("stage gain at 329.6 Hz"), "dB"},
        {"stage_gain_1k", toSay("stage gain at 1 kHz"), "dB"},
        {"stage_gain_3k", toSay("stage gain at 3 kHz"), "dB"},
        {"clip_threshold_positive", toSay("clip threshold, + half-wave"), "V"},
        {"clip_threshold_negative", toSay("clip threshold, − half-wave"), "V"},
        {"clip_threshold_positive_input", toSay("+ threshold reached at"), "mVpk", true},
        {"clip_threshold_negative_input", toSay("− threshold reached at"), "mVpk", true},
        {"peak_positive", toSay("peak + at the clip node"), "V"},
        {"peak_negative", toSay("peak − at the clip node"), "V"},
        {"peak_positive_out", toSay("peak + at the output"), "V"},
        {"peak_negative_out", toSay("peak − at the output"), "V"},
        {"level", toSay("level at the output"), "dBV"},
        {"level_slope", toSay("level slope"), toSay("dB per dB")},
        {"dc_shift", toSay("DC shift at the clip node"), "V"},
        {"thd", toSay("harmonic distortion"), "%"},
        {"h2", toSay("2nd harmonic"), "dBc"},
        {"h3", toSay("3rd harmonic"), "dBc"},
        {"h4", toSay("4th harmonic"), "dBc"},
        {"h5", toSay("5th harmonic"), "dBc"},
        {"h6", toSay("6th harmonic"), "dBc"},
        {"h7", toSay("7th harmonic"), "dBc"},
        {"supply_current", toSay("supply current"), "mA"},
    };
    return kinds;
}

void withholdUndefined(std::vector<Figure>& figures) {
    for (Figure& figure : figures) {
        if (figure.value && !std::isfinite(*figure.value)) {
            figure.value.reset();
            figure.absence = toSay("no signal");
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
        return said(figure.absence);
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
        ordered.push_back(figure == nullptr ? Figure{std::string(kind.id), {}, toSay("none")} : *figure);
    }
    return ordered;
}

}  // namespace ohmwright
