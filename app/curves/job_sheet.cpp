// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/job_sheet.h"

#include "app/curves/clip_node.h"
#include "app/curves/curve_reading.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "core/measure/curve_read.h"
#include "core/measure/model_notes.h"
#include "core/plan/apply.h"
#include "core/plan/pinned.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

/// Of one column, over the axis of frequencies or over all levels.
std::optional<PlotRange> extentOf(const CurveTable& table, std::size_t column) {
    const std::vector<double>& at = table.columns.front().values;
    const bool isOverHz = table.kind == CurveKind::response;
    return at.empty() ? std::nullopt
                      : extentBetween(at, table.columns[column].values, isOverHz ? wholeHz.low : at.front(),
                                      isOverHz ? wholeHz.high : at.back());
}

TableAxes axesOfResponse(const ComparedCurve& curve) {
    const auto stock = extentOf(curve.stock, 1);
    const auto now = extentOf(curve.now, 1);
    if (!stock) {
        return responseAxes(restingGainRange);
    }
    return responseAxes(gainRange(restingGainRange, *stock, std::array{now.value_or(*stock)}));
}

TableAxes axesOfClip(const ComparedCurve& curve, const Job& job, LevelUnit unit) {
    PlotRange shown = restingClipRange;
    for (const CurveTable* table : {&curve.stock, &curve.now}) {
        for (const std::size_t halfWave : {1, 2}) {
            if (const auto peaks = extentOf(*table, halfWave)) {
                shown = clipRange(shown, *peaks);
            }
        }
    }
    const std::vector<double>& levels = curve.stock.columns.front().values;
    return clipAxes(shown, levels.empty() ? job.setting.pickVoltsPeak : levels.back(), job.setting, unit,
                    clipNodeWords(job.stock));
}

}  // namespace

CurveSheet headOfSheet(CurveKind kind, const Job& job) {
    CurveSheet sheet;
    const QString name = saidText(curveKindNames[static_cast<std::size_t>(kind)].name);
    const QString unit = QString::fromStdString(job.unit.name);
    const QString serial = QString::fromStdString(job.unit.serial);
    sheet.title = QStringLiteral("%1: %2").arg(serial.isEmpty() ? unit : unit + QStringLiteral(", ") + serial, name);
    const Result<Circuit> now = nowCircuit(job);
    sheet.conditions = QCoreApplication::translate("CurveSheet", "%1, plan %2. %3")
                           .arg(conditionsText(kind, job), QString::fromStdString(stateHash(job)),
                                now ? QString::fromStdString(modelNotes(kind, job.stock, *now)) : QString())
                           .trimmed();
    return sheet;
}

CurveSheet sheetOfJob(CurveKind kind, const Job& job, const ComparedCurve& curve,
                      const std::vector<PinnedCurve>& pins) {
    CurveSheet sheet = headOfSheet(kind, job);
    const LevelUnit unit = LevelUnits::current().unit();
    sheet.curve = asDrawn(curve, unit);
    if (kind == CurveKind::response) {
        sheet.axes = axesOfResponse(curve);
    } else if (kind == CurveKind::clip) {
        sheet.axes = axesOfClip(curve, job, unit);
    } else {
        sheet.axes = tableAxes(sheet.curve, job.setting, unit);
    }
    for (const PinnedCurve& pin : pins) {
        sheet.pins.push_back({pin.letter, pin.pattern, asDrawn(pin.table, unit, isInMillivolts(curve))});
        const PinnedState* state = findPinned(job, pin.letter.toStdString());
        sheet.pinNames.push_back(state != nullptr ? QString::fromStdString(state->name) : QString());
    }
    return sheet;
}

}  // namespace ohmwright
