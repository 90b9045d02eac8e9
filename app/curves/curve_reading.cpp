// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_reading.h"

#include "app/curves/string_ticks.h"
#include "app/look/language.h"
#include "app/look/level_units.h"
#include "core/base/number_text.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

constexpr double openPosition = 10.0;

/// Rounding of a grid of frequencies must not cut its own ends off.
constexpr double endSlack = 1.0 + 1.0e-9;

QString phrase(const QString& name, const std::optional<double>& value, Sign sign) {
    return value ? QObject::tr("%1 %2 dB").arg(name, QString::fromStdString(formatFigure(*value, sign)))
                 : QObject::tr("%1 none").arg(name);
}

std::optional<double> lessStock(const std::optional<double>& value, const CursorReading& reading) {
    return value && reading.stockDb ? std::optional(*value - *reading.stockDb) : std::nullopt;
}

/// What stands before the knobs.
QString kindConditions(CurveKind kind, const Setting& setting) {
    const QString tone = QString::fromStdString(formatFrequency(setting.toneHz));
    const QString atPlayer = QObject::tr("%1, %2, settled").arg(tone, pickLevelText(setting.pickVoltsPeak));
    switch (kind) {
        case CurveKind::response:
            return QObject::tr("dB, string to output, small signal");
        case CurveKind::clip:
            return QObject::tr("at the clip node, %1, settled").arg(tone);
        case CurveKind::ladder:
            return QObject::tr("at the output, %1, settled").arg(tone);
        case CurveKind::harmonics:
        case CurveKind::wave:
            return QObject::tr("at the output, %1").arg(atPlayer);
        case CurveKind::noise:
            return QObject::tr("no signal, source connected");
        case CurveKind::bias:
            break;
    }
    return QObject::tr("no signal");
}

bool belongsToSource(const Circuit& circuit, const Knob& knob) {
    return !circuit.stages.empty() && stageOfPart(circuit, knob.part) == &circuit.stages.front();
}

}  // namespace

std::optional<double> gainAt(const ResponseCurve& curve, double hz) {
    const std::size_t count = std::min(curve.hz.size(), curve.gainDb.size());
    if (count == 0 || hz < curve.hz[0] / endSlack || hz > curve.hz[count - 1] * endSlack) {
        return std::nullopt;
    }
    const auto begin = curve.hz.begin();
    const auto end = begin + static_cast<std::ptrdiff_t>(count);
    const auto above = static_cast<std::size_t>(std::lower_bound(begin, end, hz) - begin);
    const std::size_t right = std::min(above, count - 1);
    const std::size_t left = right == 0 || curve.hz[right] <= hz ? right : right - 1;
    const double span = std::log(curve.hz[right] / curve.hz[left]);
    const double share = span > 0.0 ? std::log(hz / curve.hz[left]) / span : 0.0;
    const double gain = curve.gainDb[left] + share * (curve.gainDb[right] - curve.gainDb[left]);
    return std::isfinite(gain) ? std::optional(gain) : std::nullopt;
}

std::vector<double> differenceDb(const ResponseCurve& curve, const ResponseCurve& stock) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    const bool sameGrid = curve.hz == stock.hz;
    std::vector<double> difference(std::min(curve.hz.size(), curve.gainDb.size()), none);
    for (std::size_t i = 0; i < difference.size(); ++i) {
        const double under = sameGrid ? stock.gainDb[i] : gainAt(stock, curve.hz[i]).value_or(none);
        const double less = curve.gainDb[i] - under;
        difference[i] = std::isfinite(less) ? less : none;
    }
    return difference;
}

CursorReading readAt(const LinearAnswer* answer, double hz) {
    CursorReading reading;
    reading.hz = hz;
    if (answer) {
        reading.stockDb = gainAt(answer->stock.response, hz);
        reading.nowDb = gainAt(answer->now.response, hz);
        reading.hasGhost = answer->ghost.has_value();
        reading.ghostDb = answer->ghost ? gainAt(answer->ghost->response, hz) : std::nullopt;
    }
    return reading;
}

QString readingSentence(const CursorReading& reading) {
    const QString place = cursorCaption(reading.hz).section(QStringLiteral(", "), 1);
    const QString hertz = QString::fromStdString(formatFrequency(reading.hz));
    QStringList parts{phrase(QObject::tr("stock"), reading.stockDb, Sign::minusOnly)};
    if (!reading.holdsStock) {
        parts << phrase(QObject::tr("now"), reading.nowDb, Sign::minusOnly)
              << phrase(QObject::tr("change"), lessStock(reading.nowDb, reading), Sign::always);
    }
    if (!reading.holdsStock && reading.hasGhost) {
        parts << phrase(QObject::tr("ghost"), reading.ghostDb, Sign::minusOnly)
              << phrase(QObject::tr("change"), lessStock(reading.ghostDb, reading), Sign::always);
    }
    return (place.isEmpty() ? hertz : place + QStringLiteral(", ") + hertz) + QStringLiteral(": ") +
           parts.join(QStringLiteral(", "));
}

QString conditionsText(CurveKind kind, const Job& job) {
    QString conditions = kindConditions(kind, job.setting);
    for (const Knob& knob : job.stock.knobs) {
        const double position = knobPosition(job.setting, knob.id);
        if (belongsToSource(job.stock, knob) && position == openPosition) {
            continue;
        }
        conditions +=
            QStringLiteral(", %1 %2").arg(nameInSentence(knob.name), QString::fromStdString(formatFixed(position, 1)));
    }
    return conditions;
}

}  // namespace ohmwright
