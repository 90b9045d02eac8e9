// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/table_axes.h"

#include "app/curves/curve_reading.h"
#include "app/curves/response_axes.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/measure/curve_read.h"

#include <QCoreApplication>
#include <QFontMetricsF>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

/// Lower end of the harmonics [dB of the fundamental], as core leaves nothing below it.
constexpr double faintestDb = -90.0;
constexpr std::array decibelLabelSteps{6.0, 12.0, 24.0, 60.0, 120.0};
constexpr double everywhere = std::numeric_limits<double>::infinity();

std::vector<double> positiveOf(const std::vector<double>& values) {
    std::vector<double> kept;
    std::copy_if(values.begin(), values.end(), std::back_inserter(kept), [](double value) { return value > 0.0; });
    return kept;
}

/// Lowest and highest of the drawn column in both states.
PlotRange extentOf(const ComparedCurve& curve, const PlotRange& otherwise) {
    std::optional<PlotRange> extent;
    for (const CurveTable* table : {&curve.stock, &curve.now}) {
        const std::vector<double>& values = table->columns[1].values;
        const std::vector<double> at(values.size(), 0.0);
        if (const auto own = extentBetween(at, values, -everywhere, everywhere)) {
            extent = extent ? PlotRange{std::min(extent->low, own->low), std::max(extent->high, own->high)} : own;
        }
    }
    return extent.value_or(otherwise);
}

/// Whole decades about the values.
PlotRange decadesAbout(const ComparedCurve& curve) {
    double low = everywhere;
    double high = 0.0;
    for (const CurveTable* table : {&curve.stock, &curve.now}) {
        for (const double value : positiveOf(table->columns[1].values)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
    return high > 0.0
               ? PlotRange{std::pow(10.0, std::floor(std::log10(low))), std::pow(10.0, std::ceil(std::log10(high)))}
               : PlotRange{1.0, 1000.0};
}

/// The largest of 1, 2, 5 times a power of ten that divides the range into four steps or more.
double roundStep(double span) {
    constexpr double fewest = 4.0;
    const double raw = span / fewest;
    const double decade = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double digit : {5.0, 2.0}) {
        if (decade * digit <= raw) {
            return decade * digit;
        }
    }
    return decade;
}

/// "0.25", "10", "−0.1": as many decimals as the step needs.
AxisMarks linearMarks(const PlotRange& range) {
    const double step = roundStep(range.high - range.low);
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    AxisMarks marks;
    marks.at = multiplesIn(range, step);
    for (const double value : marks.at) {
        marks.labels.push_back(text(formatFixed(std::abs(value) < step / 2.0 ? 0.0 : value, decimals)));
    }
    return marks;
}

/// 1, 10, 100 ... with 2 and 5 between where `all` is asked for.
AxisMarks decadeMarks(const PlotRange& range, bool all) {
    AxisMarks marks;
    constexpr double slack = 1.0 + 1e-9;
    const int last = static_cast<int>(std::floor(std::log10(range.high * slack)));
    for (int exponent = static_cast<int>(std::floor(std::log10(range.low))); exponent <= last; ++exponent) {
        const double decade = std::pow(10.0, exponent);
        for (int digit = 1; digit <= 9; ++digit) {
            const double at = decade * digit;
            if (at * slack < range.low || at > range.high * slack) {
                continue;
            }
            if (digit == 1 || (all && (digit == 2 || digit == 5))) {
                marks.at.push_back(at);
                marks.labels.push_back(numberText(at, 'g', 4));
            } else {
                marks.between.push_back(at);
            }
        }
    }
    return marks;
}

/// Of labels that would touch on a logarithmic axis as long as that, those of the decades stay.
AxisMarks withRoom(AxisMarks marks, const PlotRange& range, double pixels) {
    constexpr double leastGap = 6.0;
    const QFontMetricsF metrics(Theme::current().font(TextRole::body));
    const auto labelSpan = [&](std::size_t k) {
        const double middle = pixels * std::log(marks.at[k] / range.low) / std::log(range.high / range.low);
        const double half = 0.5 * (metrics.horizontalAdvance(marks.labels[k]) + leastGap);
        return PlotRange{middle - half, middle + half};
    };
    for (std::size_t k = 0; k < marks.at.size(); ++k) {
        const bool isDecade = marks.labels[k].startsWith('1');
        const bool touchesNext = k + 1 < marks.at.size() && labelSpan(k).high > labelSpan(k + 1).low;
        const bool touchesLast = k > 0 && !marks.labels[k - 1].isEmpty() && labelSpan(k - 1).high > labelSpan(k).low;
        if (!isDecade && (touchesNext || touchesLast)) {
            marks.labels[k].clear();
        }
    }
    return marks;
}

/// Whole steps of 6 dB about the values.
PlotRange decibelsAbout(const PlotRange& values) {
    const double spare = gainStepDb / 12.0;
    return {gainStepDb * std::floor((values.low - spare) / gainStepDb),
            gainStepDb * std::ceil((values.high + spare) / gainStepDb)};
}

TableAxes ladderAxes(const ComparedCurve& curve, const QString& tone, LevelUnit unit) {
    const LevelUnit rms = rmsUnitBeside(unit);
    TableAxes axes{QObject::tr("output, %1").arg(unitName(rms)),
                   QObject::tr("pick level, %1, %2").arg(unitName(unit), tone)};
    axes.x = {levelOfPeak(lowestLadderVolts, unit), levelOfPeak(highestLadderVolts, unit)};
    axes.isLogX = !isDecibels(unit);
    axes.isLogY = !isDecibels(rms);
    constexpr PlotRange restingDb{-60.0, -6.0};
    axes.y = axes.isLogY ? decadesAbout(curve) : decibelsAbout(extentOf(curve, restingDb));
    axes.isInDecibels = !axes.isLogY;
    return axes;
}

}  // namespace

bool isInMillivolts(const ComparedCurve& curve) {
    constexpr double volt = 1.0;
    const auto isUnder = [](const CurveTable& table) {
        return std::all_of(table.columns.begin() + 1, table.columns.end(), [](const CurveColumn& column) {
            return std::none_of(column.values.begin(), column.values.end(),
                                [](double value) { return std::abs(value) >= volt; });
        });
    };
    return curve.stock.kind == CurveKind::wave && isUnder(curve.stock) && isUnder(curve.now);
}

CurveTable asDrawn(const CurveTable& table, LevelUnit unit, bool small) {
    return small ? inMillivolts(table) : inLevelUnit(table, unit);
}

ComparedCurve asDrawn(const ComparedCurve& curve, LevelUnit unit) {
    const bool small = isInMillivolts(curve);
    return {asDrawn(curve.stock, unit, small), asDrawn(curve.now, unit, small)};
}

TableAxes tableAxes(const ComparedCurve& curve, const Setting& setting, LevelUnit unit) {
    TableAxes axes;
    const QString tone = text(formatFrequency(setting.toneHz));
    switch (curve.stock.kind) {
        case CurveKind::ladder:
            return ladderAxes(curve, tone, unit);
        case CurveKind::harmonics:
            axes = {QObject::tr("dB of the first"), QObject::tr("harmonic of %1, player's level").arg(tone)};
            axes.x = {0.4, shownHarmonics + 0.6};
            axes.y = {faintestDb, 0.0};
            break;
        case CurveKind::wave: {
            axes = {QObject::tr("output, %1").arg(saidText(curve.stock.columns[1].unit)),
                    QObject::tr("ms, one period of %1, player's level").arg(tone)};
            axes.x = {0.0, 1000.0 / setting.toneHz};
            const PlotRange extent = extentOf(curve, {-1.0, 1.0});
            // Air above the crest, where the note stands.
            const double reach = 1.25 * std::max({std::abs(extent.low), std::abs(extent.high), 1e-6});
            axes.y = {-reach, reach};
            break;
        }
        default:
            axes = {QString("nV/√Hz"), QObject::tr("Hz, noise density at the output"), {}, {}, true, true};
            axes.x = {lowestHz, highestHz};
            axes.y = decadesAbout(curve);
            break;
    }
    return axes;
}

TableAxes responseAxes(const PlotRange& gains) {
    TableAxes axes{QObject::tr("gain, dB"), QObject::tr("frequency, Hz"), {}, {}, true, false};
    axes.x = {lowestHz, highestHz};
    axes.y = gains;
    axes.isInDecibels = true;
    return axes;
}

double lowestClipLevel(double highest, LevelUnit unit) {
    constexpr double shownDb = 40.0;
    return isDecibels(unit) ? levelOfPeak(highest, unit) - shownDb : 0.0;
}

TableAxes clipAxes(const PlotRange& volts, double highest, const Setting& setting, LevelUnit unit,
                   const QString& where) {
    TableAxes axes{QObject::tr("peak + and peak −, %1, V").arg(where),
                   QObject::tr("pick level, %1, %2").arg(unitName(unit), text(formatFrequency(setting.toneHz)))};
    axes.x = {lowestClipLevel(highest, unit), levelOfPeak(highest, unit)};
    axes.y = volts;
    return axes;
}

AxisMarks horizontalMarks(CurveKind kind, const TableAxes& axes, double pixels) {
    if (kind == CurveKind::noise || kind == CurveKind::response) {
        return frequencyMarks(pixels);
    }
    if (kind == CurveKind::harmonics) {
        AxisMarks marks;
        for (int n = 1; n <= shownHarmonics; ++n) {
            marks.at.push_back(n);
            marks.labels.push_back(QString::number(n));
        }
        return marks;
    }
    return axes.isLogX ? withRoom(decadeMarks(axes.x, true), axes.x, pixels) : linearMarks(axes.x);
}

AxisMarks verticalMarks(const TableAxes& axes, double pixels) {
    if (axes.isLogY) {
        return decadeMarks(axes.y, false);
    }
    if (!axes.isInDecibels) {
        return linearMarks(axes.y);
    }
    const double lineHeight = 1.25 * Theme::current().pixels(TextRole::body);
    return decibelMarks(axes.y, gainStepDb, labelStep(axes.y, pixels, lineHeight, decibelLabelSteps), Sign::minusOnly);
}

}  // namespace ohmwright
