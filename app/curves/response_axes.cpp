// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/response_axes.h"

#include "app/curves/curve_reading.h"
#include "app/look/theme.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

struct HzLabel {
    double hz;
    const char* text;
};
constexpr std::array<HzLabel, 10> hzLabels{{{20, "20"},
                                            {50, "50"},
                                            {100, "100"},
                                            {200, "200"},
                                            {500, "500"},
                                            {1000, "1k"},
                                            {2000, "2k"},
                                            {5000, "5k"},
                                            {10000, "10k"},
                                            {20000, "20k"}}};

}  // namespace

AxisMarks frequencyMarks(double pixels) {
    constexpr double roomPerDigit = 11.5;
    const bool isTight = pixels < roomPerDigit * Theme::current().pixels(TextRole::body) * 2.2;
    AxisMarks marks;
    for (const HzLabel& label : hzLabels) {
        const bool isDecade = label.text[0] == '1';
        if (!isTight || isDecade) {
            marks.at.push_back(label.hz);
            marks.labels.push_back(QLatin1String(label.text));
        }
    }
    for (const double decade : {10.0, 100.0, 1.0e3, 1.0e4}) {
        for (int digit = 1; digit <= 9; ++digit) {
            const double hz = decade * digit;
            const bool isLabelled = std::find(marks.at.begin(), marks.at.end(), hz) != marks.at.end();
            if (hz > lowestHz && hz < highestHz && !isLabelled) {
                marks.between.push_back(hz);
            }
        }
    }
    return marks;
}

AxisMarks decibelMarks(const PlotRange& range, double gridStep, double labelled, Sign sign) {
    AxisMarks marks;
    marks.at = multiplesIn(range, labelled);
    for (const double value : marks.at) {
        marks.labels.push_back(QString::fromStdString(formatFixed(value, 0, sign)));
    }
    marks.between = multiplesIn(range, gridStep);
    return marks;
}

}  // namespace ohmwright
