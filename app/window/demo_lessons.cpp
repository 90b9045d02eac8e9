// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/demo_lessons.h"

#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/window/demo_jobs.h"
#include "core/base/number_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

/// Open strings of a guitar, and two tones above them [Hz]; A4 = 440 Hz, equal temperament (ISO 16).
constexpr std::array tones{82.41, 110.0, 146.8, 196.0, 246.9, 329.6, 1000.0, 3000.0};

/// On the straight line between the rows beside it; REQUIRES: rows rise.
double valueAt(const CurveTable& table, std::size_t column, double at) {
    const std::vector<double>& axis = table.columns.front().values;
    const std::vector<double>& values = table.columns[column].values;
    const auto above = std::lower_bound(axis.begin(), axis.end(), at);
    if (above == axis.begin() || above == axis.end()) {
        return above == axis.end() ? values.back() : values.front();
    }
    const auto i = static_cast<std::size_t>(above - axis.begin());
    return values[i - 1] + (values[i] - values[i - 1]) * (at - axis[i - 1]) / (axis[i] - axis[i - 1]);
}

/// At the lowest tone that changes nearly as much as any.
QString changeOfResponse(const ComparedCurve& curve) {
    constexpr double nearly = 0.95;
    const auto changeAt = [&curve](double hertz) {
        return valueAt(curve.now, 1, hertz) - valueAt(curve.stock, 1, hertz);
    };
    double most = 0.0;
    for (const double tone : tones) {
        most = std::max(most, std::abs(changeAt(tone)));
    }
    const double tone = *std::find_if(tones.begin(), tones.end(),
                                      [&](double each) { return std::abs(changeAt(each)) >= nearly * most; });
    return DemoLessons::tr("%1 dB at %2")
        .arg(text(formatFigure(changeAt(tone), Sign::always)), text(formatFrequency(tone)));
}

QString changeOfClip(const ComparedCurve& curve, double pickVolts) {
    const auto pair = [pickVolts](const CurveTable& table) {
        return text(formatVoltPair(valueAt(table, 1, pickVolts), valueAt(table, 2, pickVolts)));
    };
    return DemoLessons::tr("%1 → %2 V at %3").arg(pair(curve.stock), pair(curve.now), pickLevelText(pickVolts));
}

/// Rows of a bias table are nets; nothing where now has none of the name.
std::optional<double> voltsOf(const CurveTable& table, const NetName& net) {
    const auto row = std::find(table.rows.begin(), table.rows.end(), net);
    return row == table.rows.end() ? std::nullopt
                                   : std::optional(table.columns[0].values[std::size_t(row - table.rows.begin())]);
}

std::optional<int> outputPinOf(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
            return 0;
        default:
            return std::nullopt;
    }
}

std::vector<RestingOutput> restingOutputs(const Circuit& circuit, const ComparedCurve& curve) {
    std::vector<RestingOutput> outputs;
    for (const Part& part : circuit.parts) {
        const std::optional<int> pin = outputPinOf(part.kind);
        if (!pin) {
            continue;
        }
        const NetName& net = part.nets[static_cast<std::size_t>(*pin)];
        const auto stock = voltsOf(curve.stock, net);
        const auto now = voltsOf(curve.now, net);
        if (stock && now) {
            const QString electrode = saidText(pinName(part.kind, *pin));
            outputs.push_back({QString("%1 %2").arg(text(part.reference), electrode), *stock, *now});
        }
    }
    return outputs;
}

QString changeOfBias(const std::vector<RestingOutput>& outputs) {
    const auto most =
        std::max_element(outputs.begin(), outputs.end(), [](const RestingOutput& a, const RestingOutput& b) {
            return std::abs(a.nowVolts - a.stockVolts) < std::abs(b.nowVolts - b.stockVolts);
        });
    if (most == outputs.end()) {
        return {};
    }
    return DemoLessons::tr("%1 %2 → %3 V")
        .arg(most->name, text(formatFixed(most->stockVolts, 2)), text(formatFixed(most->nowVolts, 2)));
}

/// What each demo's first mod is about.
CurveKind shownOf(const QString& id) {
    if (id == "quarry-bell") {
        return CurveKind::clip;
    }
    return id == "moss-engine" || id == "paper-boat" ? CurveKind::bias : CurveKind::response;
}

}  // namespace

Result<DemoLesson> lessonOf(const QString& id, const Job& job, CurveKind shown, const std::stop_token& stop) {
    Result<ComparedCurve> curve = compareCurve(job, shown, stop);
    if (!curve) {
        return curve.error();
    }
    DemoLesson lesson{id, text(job.unit.kind), shown, *std::move(curve), {}, {}};
    switch (shown) {
        case CurveKind::response:
            lesson.change = changeOfResponse(lesson.curve);
            break;
        case CurveKind::clip:
            lesson.change = changeOfClip(lesson.curve, job.setting.pickVoltsPeak);
            break;
        case CurveKind::bias:
            lesson.resting = restingOutputs(job.stock, lesson.curve);
            lesson.change = changeOfBias(lesson.resting);
            break;
        default:
            break;
    }
    return lesson;
}

DemoLessons::DemoLessons(QObject* parent)
    : QObject(parent), m_lane(*this, [this](const std::vector<DemoLesson>& lessons) { emit ready(lessons); }) {}

void DemoLessons::start() {
    m_lane.start([](const std::stop_token& stop) {
        std::vector<DemoLesson> lessons;
        for (const DemoJob& demo : demoJobs()) {
            const Result<Job> job = readDemoJob(demo.id);
            Result<DemoLesson> lesson =
                job ? lessonOf(demo.id, *job, shownOf(demo.id), stop) : Result<DemoLesson>(job.error());
            if (lesson) {
                lessons.push_back(*std::move(lesson));
            }
        }
        return lessons;
    });
}

}  // namespace ohmwright
