// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/curve_read.h"

#include "core/base/decibels.h"
#include "core/base/said.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

/// Rounding of an axis must not cut its own ends off.
constexpr double endSlack = 1e-9;

bool isOverLogarithm(CurveKind kind) {
    return kind == CurveKind::response || kind == CurveKind::noise || kind == CurveKind::ladder;
}

bool hasAxis(const CurveTable& table) {
    return table.rows.empty() && table.rowCount() > 0;
}

/// "mv_peak" of a column's id.
std::string idWord(LevelUnit unit) {
    switch (unit) {
        case LevelUnit::millivoltsPeak:
            return "mv_peak";
        case LevelUnit::millivoltsRms:
            return "mv_rms";
        case LevelUnit::dbv:
            return "dbv";
        case LevelUnit::dbu:
            return "dbu";
    }
    return {};
}

void convert(CurveColumn& column, const std::string& name, LevelUnit unit, double (*level)(double, LevelUnit)) {
    column.id = name + idWord(unit);
    column.unit = nameOf(unit);
    std::transform(column.values.begin(), column.values.end(), column.values.begin(),
                   [=](double volts) { return level(volts, unit); });
}

double levelOfDbv(double dbvRms, LevelUnit unit) {
    return levelOfRms(amplitudeRatio(dbvRms), unit);
}

}  // namespace

std::optional<double> curveValueAt(const CurveTable& table, std::size_t column, double at) {
    if (!hasAxis(table) || column >= table.columns.size()) {
        return std::nullopt;
    }
    const std::vector<double>& axis = table.columns.front().values;
    const std::vector<double>& values = table.columns[column].values;
    const double slack = endSlack * std::abs(axis.back());
    if (!(at >= axis.front() - slack && at <= axis.back() + slack)) {
        return std::nullopt;
    }
    const auto above = static_cast<std::size_t>(std::lower_bound(axis.begin(), axis.end(), at) - axis.begin());
    const std::size_t right = std::min(above, axis.size() - 1);
    const std::size_t left = right == 0 || axis[right] <= at ? right : right - 1;
    if (left != right && table.kind == CurveKind::harmonics) {
        return std::nullopt;
    }
    const bool isLog = isOverLogarithm(table.kind) && axis[left] > 0.0;
    const double span = isLog ? std::log(axis[right] / axis[left]) : axis[right] - axis[left];
    const double way = isLog ? std::log(at / axis[left]) : at - axis[left];
    const double value = left == right ? values[left] : values[left] + way / span * (values[right] - values[left]);
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<std::size_t> nearestRow(const CurveTable& table, double at) {
    if (!hasAxis(table)) {
        return std::nullopt;
    }
    const std::vector<double>& axis = table.columns.front().values;
    const bool isLog = isOverLogarithm(table.kind) && at > 0.0;
    const auto distance = [&](double value) { return std::abs(isLog ? std::log(value / at) : value - at); };
    const auto nearest = std::min_element(axis.begin(), axis.end(),
                                          [&](double one, double other) { return distance(one) < distance(other); });
    return static_cast<std::size_t>(nearest - axis.begin());
}

CurveTable inLevelUnit(CurveTable table, LevelUnit unit) {
    for (CurveColumn& column : table.columns) {
        if (column.id == "pick_v_peak") {
            convert(column, "pick_", unit, levelOfPeak);
        } else if (column.id == "output_dbv" && rmsUnitBeside(unit) != LevelUnit::dbv) {
            convert(column, "output_", rmsUnitBeside(unit), levelOfDbv);
        }
    }
    return table;
}

CurveTable tableOfResponse(ResponseCurve curve, const NetName& output) {
    CurveTable table;
    table.kind = CurveKind::response;
    table.where = output;
    table.columns = {{"frequency_hz", said("frequency"), "Hz", std::move(curve.hz)},
                     {"gain_db", said("gain"), "dB", std::move(curve.gainDb)},
                     {"phase_deg", said("phase"), "°", std::move(curve.phaseDeg)}};
    return table;
}

CurveTable inMillivolts(CurveTable table) {
    constexpr double millivoltsPerVolt = 1000.0;
    for (CurveColumn& column : table.columns) {
        if (column.unit != "V") {
            continue;
        }
        column.unit = "mV";
        column.id.insert(column.id.size() - 1, "m");
        for (double& value : column.values) {
            value *= millivoltsPerVolt;
        }
    }
    return table;
}

}  // namespace ohmwright
