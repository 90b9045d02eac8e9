// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_parts.h"

#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
#include "core/plan/apply.h"

#include <QObject>
#include <QPainter>

#include <algorithm>
#include <utility>
#include <vector>

namespace ohmwright {

namespace {

struct PartRow {
    QString letter;
    QString place;
    QString out;  ///< Printed marking of what leaves the unit, struck.
    QString outValue;
    QString fit;  ///< Printed marking of what is fitted, in large type.
    QString fitValue;
    QString type;
    QString lot;
};

/// Where the columns begin, as shares of the width.
constexpr double placeFrom = 0.07, outFrom = 0.17, fitFrom = 0.42, typeFrom = 0.67, lotFrom = 0.82, bagFrom = 0.95;

bool isSwap(const Change& change) {
    return std::holds_alternative<SwapValue>(change) || std::holds_alternative<SwapType>(change) ||
           std::holds_alternative<ChangePot>(change);
}

const PickLine* pickOf(const std::vector<PickLine>& picks, const Mod& mod, const Part& fitted) {
    const auto found = std::find_if(picks.begin(), picks.end(), [&](const PickLine& line) {
        return line.modLetter == mod.letter && line.reference == fitted.reference && line.kind == fitted.kind &&
               (hasValue(fitted.kind) ? line.value == fitted.value : line.type == fitted.model);
    });
    return found != picks.end() ? &*found : nullptr;
}

/// "CF-12, 118 nF", "order", "stock assumed".
QString lotWords(const PaperAnswers& answers, const Part& fitted, const PickLine* pick) {
    const DrawerLot* lot = pick != nullptr ? findLot(answers.drawer, pick->lot) : nullptr;
    if (answers.isStockAssumed || pick == nullptr) {
        return QObject::tr("stock assumed");
    }
    if (lot == nullptr) {
        return QObject::tr("none: order");
    }
    QString words = paperText(lot->lot.empty() ? lot->id : lot->lot);
    if (lot->measured) {
        words += ", " + paperText(formatQuantity({*lot->measured, unitOf(fitted.kind)}));
    }
    return words;
}

QString typeWords(const Part& fitted, const DrawerLot* lot) {
    if (fitted.kind == PartKind::diode) {
        return QObject::tr("band = cathode");
    }
    const std::string& build = lot != nullptr && !lot->build.empty() ? lot->build : fitted.build;
    return build.empty() ? QObject::tr("not chosen yet") : paperText(build);
}

/// What leaves, and the part that comes; null where none comes.
const Part* describeWork(PartRow& row, const Mod& mod, const Circuit& before, const Circuit& after) {
    const Part* target = findPart(before, targetOf(mod.change));
    const bool swaps = isSwap(mod.change) && target != nullptr;
    if (swaps) {
        row.place = paperText(displayName(*target));
        row.out = paperText(printedMarking(*target));
        row.outValue = paperText(valueWords(*target));
        return findPart(after, targetOf(mod.change));
    }
    row.outValue = QObject::tr("none; %1").arg(paperText(describeChange(before, mod.change)));
    const std::vector<const NewPart*> brought = newPartsOf(mod.change);
    const Part* fitted = brought.empty() ? nullptr : findPart(after, idOf(mod, *brought.front()));
    row.place = fitted != nullptr   ? QObject::tr("%1 new").arg(paperText(displayName(*fitted)))
                : target != nullptr ? paperText(displayName(*target))
                                    : QString();
    return fitted;
}

PartRow partRow(const PaperAnswers& answers, const Mod& mod, const Circuit& before, const Circuit& after) {
    PartRow row;
    row.letter = paperText(mod.letter);
    const Part* fitted = describeWork(row, mod, before, after);
    if (fitted == nullptr) {
        row.fit = QObject::tr("no part");
        return row;
    }
    const PickLine* pick = pickOf(answers.picks, mod, *fitted);
    const DrawerLot* lot = pick != nullptr ? findLot(answers.drawer, pick->lot) : nullptr;
    row.fit = lot != nullptr && !lot->printed.empty() ? paperText(lot->printed) : paperText(printedMarking(*fitted));
    row.fitValue = paperText(valueWords(*fitted));
    if (row.fit.isEmpty()) {
        std::swap(row.fit, row.fitValue);
    }
    row.type = typeWords(*fitted, lot);
    row.lot = lotWords(answers, *fitted, pick);
    return row;
}

void paintPartRow(QPainter& painter, const QRectF& box, const PartRow& row) {
    const double width = box.width();
    paintTriangle(painter, {box.left() + 8.0, box.center().y() - 9.0, 22.0, 18.0}, row.letter);
    const auto column = [&](double from, double to) {
        return QRectF(box.left() + from * width, box.top(), (to - from) * width - 6.0, box.height());
    };
    drawText(painter, column(placeFrom, outFrom), row.place, Qt::AlignLeft, true);
    if (row.out.isEmpty() || row.out == row.outValue) {
        const bool leaves = !row.out.isEmpty();
        drawRuns(painter, column(outFrom, fitFrom), {{row.outValue, false, print::bodyPixels, leaves}});
    } else {
        // Colour bands are long: they take the small size.
        const int pixels = row.out.size() > 8 ? print::smallPixels : print::bodyPixels;
        drawRuns(painter, column(outFrom, fitFrom),
                 {{row.out, false, pixels, true}, {"  " + row.outValue, false, print::bodyPixels, false}});
    }
    const int fitPixels = row.fit.size() > 8 ? print::smallPixels : print::figurePixels;
    drawRuns(painter, column(fitFrom, typeFrom),
             {{row.fit, true, fitPixels, false}, {row.fit == row.fitValue ? "" : "  " + row.fitValue, false}});
    drawText(painter, column(typeFrom, lotFrom), row.type, Qt::AlignLeft, false, print::smallPixels);
    drawText(painter, column(lotFrom, bagFrom), row.lot, Qt::AlignLeft, false, print::smallPixels);
    paintTickBox(painter, box);
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

void paintPartHead(QPainter& painter, const QRectF& box) {
    const std::pair<double, QString> words[] = {{placeFrom, QObject::tr("place")},
                                                {outFrom, QObject::tr("take out, printed")},
                                                {fitFrom, QObject::tr("fit, printed")},
                                                {typeFrom, QObject::tr("type")},
                                                {lotFrom, QObject::tr("lot")}};
    for (const auto& [from, word] : words) {
        drawText(painter, box.adjusted(from * box.width(), 0.0, 0.0, 0.0), word, Qt::AlignLeft, false,
                 print::smallPixels);
    }
    drawText(painter, box, QObject::tr("in bag"), Qt::AlignRight, false, print::smallPixels);
}

}  // namespace

void addParts(PageFlow& flow, const PaperAnswers& answers) {
    const Job& job = *answers.job;
    flow.beginSection(QObject::tr("Parts to fit"),
                      QObject::tr("markings as printed on the part; struck = leaves the unit"));
    Circuit before = job.stock;
    bool isFirst = true;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        for (const Mod& single : asSingleMods(mod, throwOf(job.setting.throws, mod.id))) {
            Result<Circuit> after = applyMod(before, single);
            if (!after) {
                return;  // Cannot be: the plan was solved.
            }
            if (isFirst) {
                flow.add(20.0, paintPartHead, true);
                isFirst = false;
            }
            flow.add(30.0, [row = partRow(answers, single, before, *after)](QPainter& painter, const QRectF& box) {
                paintPartRow(painter, box, row);
            });
            before = std::move(*after);
        }
    }
    if (isFirst) {
        addWords(flow, QObject::tr("Nothing:"), QObject::tr("no mod of the plan is on"), 1);
    }
}

}  // namespace ohmwright
