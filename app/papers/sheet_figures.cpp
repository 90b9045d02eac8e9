// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_figures.h"

#include "app/look/language.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/papers/before_and_after.h"
#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"
#include "core/base/decibels.h"
#include "core/base/number_text.h"
#include "core/bench/net_words.h"

#include <QPainter>

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

namespace ohmwright {

namespace {

constexpr double rowHeight = 22.0;

QString settingWords(const Job& job) {
    QStringList words;
    for (const Knob& knob : job.stock.knobs) {
        words.append(QString("%1 %2").arg(paperText(nameInSentence(knob.name)),
                                          QString::fromStdString(formatFixed(knobPosition(job.setting, knob.id), 1))));
    }
    return words.isEmpty() ? QString() : ", " + words.join(", ");
}

struct SheetRow {
    QString name;
    QString stock;
    QString after;
    QString change;
    QString unit;
};

QString thresholdVolts(const ClipCurve& clip) {
    if (clip.positive && clip.negative) {
        return QString::fromStdString(formatVoltPair(clip.positive->volts, clip.negative->volts));
    }
    const auto& only = clip.positive ? clip.positive : clip.negative;
    return only ? QObject::tr("%1 / none").arg(QString::fromStdString(formatFixed(only->volts, 2, Sign::always)))
                : QObject::tr("none");
}

/// In the unit that levels are read in.
QString thresholdPick(const ClipCurve& clip) {
    const auto words = [](const std::optional<ClipThreshold>& threshold) {
        const LevelUnit unit = LevelUnits::current().unit();
        return threshold ? QString::fromStdString(formatLevel(levelOfPeak(threshold->pickVoltsPeak, unit), unit))
                         : QObject::tr("none");
    };
    return words(clip.positive) + " / " + words(clip.negative);
}

QString peakPair(const LargeSignalState& state) {
    const Figure* positive = findFigure(state.figures, "peak_positive");
    const Figure* negative = findFigure(state.figures, "peak_negative");
    if (!positive || !negative || !positive->value || !negative->value) {
        return QObject::tr("none");
    }
    return QString::fromStdString(formatVoltPair(*positive->value, *negative->value));
}

QString changeWords(const FigureKind& kind, const Figure& stock, const Figure& after) {
    const std::optional<double> change = changeOf(stock, after);
    if (!change) {
        return {};
    }
    if (kind.comparedAsRatio) {
        return *stock.value > 0.0 ? "\u00d7" + QString::fromStdString(formatFixed(*after.value / *stock.value, 2))
                                  : QString();
    }
    // Slopes and volts live in the second decimal, decibels too where they are compared.
    return QString::fromStdString(formatFixed(*change, 2, Sign::always));
}

/// A row of one figure; nothing where neither state has it.
std::optional<SheetRow> rowOf(std::string_view id, const std::vector<Figure>& stock, const std::vector<Figure>& after) {
    const auto& kinds = figureKinds();
    const auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const FigureKind& each) { return each.id == id; });
    const Figure* before = findFigure(stock, id);
    const Figure* now = findFigure(after, id);
    if (kind == kinds.end() || !before || !now || (!before->value && !now->value)) {
        return std::nullopt;
    }
    return SheetRow{saidText(kind->name), QString::fromStdString(formatFigureValue(*before)),
                    QString::fromStdString(formatFigureValue(*now)), changeWords(*kind, *before, *now),
                    saidText(kind->unit)};
}

/// The level at the output is an RMS figure of a wave that is no sine: in dBV beside peaks, else in the unit chosen.
std::optional<SheetRow> levelRow(const LargeSignalState& stock, const LargeSignalState& after) {
    std::optional<SheetRow> row = rowOf("level", stock.figures, after.figures);
    const LevelUnit unit = rmsUnitBeside(LevelUnits::current().unit());
    if (!row || unit == LevelUnit::dbv) {
        return row;
    }
    const auto said = [unit](const LargeSignalState& state) {
        const Figure* figure = findFigure(state.figures, "level");
        return figure->value
                   ? QString::fromStdString(formatLevel(levelOfRms(amplitudeRatio(*figure->value), unit), unit))
                   : QObject::tr("none");
    };
    row->stock = said(stock);
    row->after = said(after);
    row->unit = unitName(unit);
    // The change stays a ratio.
    row->change = row->change.isEmpty() || isDecibels(unit) ? row->change : row->change + " dB";
    return row;
}

std::vector<SheetRow> sheetRows(const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& large) {
    const std::vector<std::string> marks = landmarks(job.stock, job.stock.ports.clipNode, {}, 1);
    const QString place = marks.empty() ? QObject::tr("clip node") : paperText(marks.front());
    const QString pick = pickLevelText(job.setting.pickVoltsPeak);
    std::vector<SheetRow> rows;
    rows.push_back({QObject::tr("clip threshold, %1").arg(place),
                    thresholdVolts(large.stock.clip),
                    thresholdVolts(large.now.clip),
                    {},
                    "V"});
    rows.push_back({QObject::tr("reached at pick level, + / \u2212"),
                    thresholdPick(large.stock.clip),
                    thresholdPick(large.now.clip),
                    {},
                    unitName(LevelUnits::current().unit())});
    rows.push_back(
        {QObject::tr("peak at %1, %2").arg(pick, place), peakPair(large.stock), peakPair(large.now), {}, "V"});
    if (auto level = levelRow(large.stock, large.now)) {
        rows.push_back(std::move(*level));
    }
    for (const std::string_view id : {"level_slope", "thd", "h2"}) {
        if (auto row = rowOf(id, large.stock.figures, large.now.figures)) {
            rows.push_back(std::move(*row));
        }
    }
    for (const std::string_view id : {"gain_leg_corner", "highest_gain", "supply_current"}) {
        if (auto row = rowOf(id, linear.stock.figures, linear.now.figures)) {
            rows.push_back(std::move(*row));
        }
    }
    return rows;
}

void paintSheetRow(QPainter& painter, const QRectF& box, const SheetRow& row, bool isHead) {
    const int pixels = isHead ? print::smallPixels : print::bodyPixels;
    const auto column = [&](double from, double to) {
        return QRectF(box.left() + from * box.width(), box.top(), (to - from) * box.width(), box.height());
    };
    drawText(painter, column(0.006, 0.37), row.name, Qt::AlignLeft, false, pixels);
    drawText(painter, column(0.37, 0.54), row.stock, Qt::AlignRight, false, pixels);
    drawText(painter, column(0.55, 0.72), row.after, Qt::AlignRight, !isHead, pixels);
    drawText(painter, column(0.73, 0.85), row.change, Qt::AlignRight, false, pixels);
    drawText(painter, column(0.87, 1.0), row.unit, Qt::AlignLeft, false, pixels);
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

}  // namespace

void addBeforeAndAfter(PageFlow& flow, const PaperAnswers& answers) {
    const Job& job = *answers.job;
    const LinearAnswer& linear = *answers.linear;
    flow.beginSection(QObject::tr("Before and after"),
                      QObject::tr("string to output, small signal") + settingWords(job));
    flow.add(
        206.0,
        // Drawn long after this call: it keeps what it draws.
        [linear = answers.linear](QPainter& painter, const QRectF& box) { paintBeforeAndAfter(painter, box, *linear); },
        true);
    if (const std::string note = cornerNote(linear.stock, linear.now); !note.empty()) {
        addWords(flow, QObject::tr("Note:"), paperText(note), 2);
    }
    const SheetRow head{QObject::tr("settled at %1 Hz, %2 picked")
                            .arg(figureWords(job.setting.toneHz), pickLevelText(job.setting.pickVoltsPeak)),
                        QObject::tr("stock"), QObject::tr("after"), QObject::tr("change"), ""};
    flow.add(
        rowHeight, [head](QPainter& painter, const QRectF& box) { paintSheetRow(painter, box, head, true); }, true);
    for (const SheetRow& row : sheetRows(job, linear, *answers.largeSignal)) {
        flow.add(rowHeight, [row](QPainter& painter, const QRectF& box) { paintSheetRow(painter, box, row, false); });
    }
}

}  // namespace ohmwright
