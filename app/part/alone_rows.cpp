// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/alone_rows.h"

#include "app/look/sum_notes.h"
#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/measure/spread.h"
#include "core/plan/shares.h"

#include <cmath>
#include <iterator>
#include <string_view>

namespace ohmwright {

namespace {

using Figures = std::vector<Figure>;

/// One figure; nothing when neither state knows it.
std::vector<FigureRow> figureRow(const QString& label, std::string_view id, const QString& unit, const Figures& stock,
                                 const Figures& alone, bool withChange) {
    const Figure* before = findFigure(stock, id);
    const Figure* after = findFigure(alone, id);
    if (!before || !after || (!before->value && !after->value)) {
        return {};
    }
    const auto change = withChange ? changeOf(*before, *after) : std::nullopt;
    return {{label, text(formatFigureValue(*before)), text(formatFigureValue(*after)), unit,
             change ? text(formatFigure(*change, Sign::always)) : QString()}};
}

/// "±0.24" needs both half-waves and no difference between them at two decimals.
bool isEven(const Figure* positive, const Figure* negative) {
    return positive && negative && positive->value && negative->value &&
           formatFixed(std::abs(*positive->value), 2) == formatFixed(std::abs(*negative->value), 2);
}

/// The two half-waves in one row when both states have them alike, else a row each.
std::vector<FigureRow> halfWaveRows(const QString& label, const std::string& id, const Figures& stock,
                                    const Figures& alone) {
    const std::string positive = id + "_positive";
    const std::string negative = id + "_negative";
    const Figure* before[] = {findFigure(stock, positive), findFigure(stock, negative)};
    const Figure* after[] = {findFigure(alone, positive), findFigure(alone, negative)};
    if (isEven(before[0], before[1]) && isEven(after[0], after[1])) {
        return {{label,
                 text(formatVoltPair(*before[0]->value, *before[1]->value)),
                 text(formatVoltPair(*after[0]->value, *after[1]->value)),
                 "V",
                 {}}};
    }
    std::vector<FigureRow> rows = figureRow(label + " +", positive, "V", stock, alone, false);
    const std::vector<FigureRow> second = figureRow(label + " −", negative, "V", stock, alone, false);
    rows.insert(rows.end(), second.begin(), second.end());
    return rows;
}

std::vector<FigureRow> withSums(std::vector<FigureRow> rows, const QStringList& sums) {
    for (FigureRow& row : rows) {
        row.sums = sums;
    }
    return rows;
}

}  // namespace

std::vector<FigureRow> aloneRows(const LinearAnswer* linear, const LargeSignalAnswer* largeSignal) {
    std::vector<FigureRow> rows;
    const auto add = [&rows](std::vector<FigureRow> more) {
        rows.insert(rows.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
    };
    if (linear && linear->selectedAlone) {
        const Figures& stock = linear->stock.figures;
        const Figures& alone = linear->selectedAlone->figures;
        add(withSums(figureRow(QObject::tr("corner"), "gain_leg_corner", "Hz", stock, alone, false), cornerSums()));
        add(withSums(figureRow(QObject::tr("at 82 Hz"), "response_82", "dB", stock, alone, true), gainSums()));
        add(withSums(figureRow(QObject::tr("at 1 kHz"), "response_1k", "dB", stock, alone, true), gainSums()));
    }
    if (largeSignal && largeSignal->selectedAlone) {
        const Figures& stock = largeSignal->stock.figures;
        const Figures& alone = largeSignal->selectedAlone->figures;
        add(withSums(halfWaveRows(QObject::tr("threshold"), "clip_threshold", stock, alone), ceilingSums()));
        add(withSums(halfWaveRows(QObject::tr("peak"), "peak", stock, alone), ceilingSums()));
    }
    return rows;
}

QString aloneAgainstSpread(const LinearAnswer& linear) {
    if (!linear.selectedAlone || !linear.stockBandAtCursorDb) {
        return {};
    }
    const double change = linear.selectedAlone->responseDbAtCursor - linear.stock.responseDbAtCursor;
    if (!std::isfinite(change)) {
        return {};
    }
    const SpreadMark mark{change, *linear.stockBandAtCursorDb};
    return text(spreadSentence(mark, linear.stock.cursorHz)) + " dB";
}

}  // namespace ohmwright
