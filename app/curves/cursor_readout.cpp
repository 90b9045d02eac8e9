// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/cursor_readout.h"

#include "app/curves/string_ticks.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/measure/curve_read.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

using Kind = ReadingRow::Kind;

bool isVolts(const CurveColumn& column) {
    return column.unit == "V";
}

/// Volts have two decimals, as the meter shows them.
QString figureText(const CurveColumn& column, const std::optional<double>& value, Sign sign) {
    constexpr int meterDecimals = 2;
    if (!value) {
        return QObject::tr("none");
    }
    return text(isVolts(column) ? formatFixed(*value, meterDecimals, sign) : formatFigure(*value, sign));
}

QString gainText(const std::optional<double>& value, Sign sign) {
    return value ? text(formatFigure(*value, sign)) : QObject::tr("none");
}

std::optional<double> less(const std::optional<double>& value, const std::optional<double>& stock) {
    return value && stock ? std::optional(*value - *stock) : std::nullopt;
}

/// "output, dBV"
QString headingOf(const CurveColumn& column) {
    return column.unit.empty() ? saidText(column.name)
                               : QStringLiteral("%1, %2").arg(saidText(column.name), saidText(column.unit));
}

/// What the pickup gives is the same for every state.
bool isOfSource(const CurveColumn& column) {
    return column.id.rfind("pickup_", 0) == 0;
}

/// One quantity under its heading: stock, now, change, what is pinned.
void addQuantity(std::vector<ReadingRow>& rows, const TableReading& reading, std::size_t index) {
    const CurveColumn& column = reading.curve->stock.columns[index];
    const std::optional<double> stock = curveValueAt(reading.curve->stock, index, reading.at);
    const std::optional<double> now = curveValueAt(reading.curve->now, index, reading.at);
    const auto add = [&](Kind kind, const QString& name, const std::optional<double>& value) {
        const bool isChange = kind == Kind::change || kind == Kind::ghostChange;
        rows.push_back({kind, name, figureText(column, value, isChange ? Sign::always : Sign::minusOnly)});
    };
    rows.push_back({Kind::heading, headingOf(column), {}});
    if (isOfSource(column)) {
        rows.back().figure = figureText(column, stock, Sign::minusOnly);
        return;
    }
    add(Kind::stock, QObject::tr("stock"), stock);
    if (reading.holdsStock) {
        return;
    }
    add(Kind::now, QObject::tr("now"), now);
    add(Kind::change, QObject::tr("change"), less(now, stock));
    if (reading.ghost != nullptr) {
        const std::optional<double> ghost = curveValueAt(*reading.ghost, index, reading.at);
        add(Kind::ghost, QObject::tr("ghost"), ghost);
        add(Kind::ghostChange, QObject::tr("change"), less(ghost, stock));
    }
    if (reading.pins != nullptr) {
        for (const PinnedCurve& pin : *reading.pins) {
            add(Kind::pinned, pin.letter, curveValueAt(pin.table, index, reading.at));
        }
    }
}

QString levelWords(double level, LevelUnit unit) {
    const std::string_view name = nameOf(unit);
    return text(formatLevel(level, unit)) + QLatin1Char(' ') +
           QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

struct Place {
    QString caption;
    QString lead;
};

Place placeOf(CurveKind kind, const TableReading& reading) {
    switch (kind) {
        case CurveKind::clip:
        case CurveKind::ladder:
            return {QObject::tr("Cursor, pick level"), levelWords(reading.at, reading.unit)};
        case CurveKind::harmonics: {
            constexpr int whole = 0;
            const std::string number = formatFixed(reading.at, whole);
            return {QObject::tr("Cursor, harmonic %1").arg(text(number)),
                    text(formatFrequency(reading.at * reading.toneHz))};
        }
        case CurveKind::wave:
            return {QObject::tr("Cursor, time"), text(formatFigure(reading.at)) + " ms"};
        case CurveKind::response:
        case CurveKind::noise:
        case CurveKind::bias:
            break;
    }
    return {cursorCaption(reading.at), text(formatFrequency(reading.at))};
}

/// "stock -8.27, now -2.37": a quantity's heading before its figures.
QString sentenceOf(const CursorReadout& readout) {
    QStringList parts;
    for (const ReadingRow& row : readout.rows) {
        const bool isHeading = row.kind == Kind::heading;
        parts << (isHeading && row.figure.isEmpty() ? row.name + QLatin1Char(':')
                                                    : row.name + QLatin1Char(' ') + row.figure);
    }
    const QString all = parts.join(QStringLiteral(", ")).replace(QStringLiteral(":,"), QStringLiteral(":"));
    return readout.caption + QStringLiteral(", ") + readout.lead + QStringLiteral(": ") + all;
}

}  // namespace

std::vector<ReadingRow> readingRows(const CursorReading& reading) {
    std::vector<ReadingRow> rows{{Kind::stock, QObject::tr("stock"), gainText(reading.stockDb, Sign::minusOnly)}};
    if (reading.holdsStock) {
        return rows;
    }
    rows.push_back({Kind::now, QObject::tr("now"), gainText(reading.nowDb, Sign::minusOnly)});
    rows.push_back({Kind::change, QObject::tr("change"), gainText(less(reading.nowDb, reading.stockDb), Sign::always)});
    if (reading.hasGhost) {
        rows.push_back({Kind::ghost, QObject::tr("ghost"), gainText(reading.ghostDb, Sign::minusOnly)});
        rows.push_back(
            {Kind::ghostChange, QObject::tr("change"), gainText(less(reading.ghostDb, reading.stockDb), Sign::always)});
    }
    return rows;
}

CursorReadout responseReadout(const CursorReading& reading, const std::vector<PinnedCurve>& pins) {
    CursorReadout readout{cursorCaption(reading.hz),
                          text(formatFrequency(reading.hz)),
                          readingRows(reading),
                          readingSentence(reading),
                          {},
                          {}};
    if (!reading.holdsStock) {
        for (const PinnedCurve& pin : pins) {
            const QString gain = gainText(curveValueAt(pin.table, 1, reading.hz), Sign::minusOnly);
            readout.rows.push_back({Kind::pinned, pin.letter, gain});
            readout.sentence += QStringLiteral(", %1 %2 dB").arg(pin.letter, gain);
        }
    }
    return readout;
}

CursorReadout tableReadout(CurveKind kind, const TableReading& reading) {
    const Place place = placeOf(kind, reading);
    CursorReadout readout{place.caption, place.lead, {}, {}, {}, {}};
    if (reading.curve == nullptr) {
        return readout;
    }
    for (std::size_t index = 1; index < reading.curve->stock.columns.size(); ++index) {
        addQuantity(readout.rows, reading, index);
    }
    readout.sentence = sentenceOf(readout);
    return readout;
}

}  // namespace ohmwright
