// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/customer_papers.h"

#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/papers/sheet_text.h"
#include "core/base/number_text.h"
#include "core/bench/way_back.h"
#include "core/plan/compare.h"
#include "core/plan/knob_translation.h"

#include <QPainter>

#include <algorithm>
#include <memory>

namespace ohmwright {

namespace {

constexpr double rowHeight = 22.0;
constexpr double lineHeight = 18.0;

/// Played and proven, or out of the house: what is printed before is a plan.
bool isDone(const Job& job) {
    return job.visit.state == VisitState::proven || job.visit.state == VisitState::gone;
}

/// "Gain cap: C4 56n → 120n"
QString modWords(const Job& job, const Mod& mod) {
    return paperText(mod.name.empty() ? describeChange(job.stock, mod.change)
                                      : mod.name + ": " + describeChange(job.stock, mod.change));
}

void addAskedAndAgreed(PageFlow& flow, const Job& job) {
    addWords(flow, QObject::tr("You asked for:"),
             job.visit.complaint.empty() ? QObject::tr("not written down")
                                         : QObject::tr("“%1”").arg(paperText(job.visit.complaint)),
             4);
    addWords(flow, QObject::tr("We agreed:"),
             job.visit.agreed.empty() ? QObject::tr("not written down") : paperText(job.visit.agreed), 4);
}

void addMods(PageFlow& flow, const Job& job) {
    flow.beginSection(isDone(job) ? QObject::tr("What was done") : QObject::tr("What is planned"),
                      isDone(job) ? QObject::tr("in the order of fitting") : QObject::tr("not done and proven yet"));
    constexpr double textLeft = 44.0;
    bool isEmpty = true;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        isEmpty = false;
        const QStringList lines =
            wrapText(modWords(job, mod), paperFont(print::bodyPixels), flow.contentWidth() - textLeft, 4);
        flow.add(8.0 + lineHeight * static_cast<double>(lines.size()),
                 [lines, letter = paperText(mod.letter)](QPainter& painter, const QRectF& box) {
                     paintTriangle(painter, {box.left() + 8.0, box.top() + 4.0, 22.0, 18.0}, letter);
                     double y = box.top() + 4.0;
                     for (const QString& line : lines) {
                         drawText(painter, {box.left() + textLeft, y, box.width() - textLeft, lineHeight}, line);
                         y += lineHeight;
                     }
                 });
    }
    if (isEmpty) {
        addWords(flow, QObject::tr("Nothing:"), QObject::tr("no mod is on"), 1);
    }
}

// --- before and after --------------------------------------------------------------------------------------------

struct PlainRow {
    QString words;
    QString before;
    QString after;
    QString change;
    QString unit;
};

void paintPlainRow(QPainter& painter, const QRectF& box, const PlainRow& row, bool isHead) {
    const int pixels = isHead ? print::smallPixels : print::bodyPixels;
    const auto column = [&](double from, double to) {
        return QRectF(box.left() + from * box.width(), box.top(), (to - from) * box.width(), box.height());
    };
    drawText(painter, column(0.006, 0.52), row.words, Qt::AlignLeft, false, pixels);
    drawText(painter, column(0.52, 0.63), row.before, Qt::AlignRight, false, pixels);
    drawText(painter, column(0.64, 0.75), row.after, Qt::AlignRight, !isHead, pixels);
    drawText(painter, column(0.76, 0.87), row.change, Qt::AlignRight, false, pixels);
    drawText(painter, column(0.89, 1.0), row.unit, Qt::AlignLeft, false, pixels);
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

/// Nothing where neither state has the figure.
std::optional<PlainRow> plainRow(const QString& words, std::string_view id, const QString& unit,
                                 const std::vector<Figure>& stock, const std::vector<Figure>& now) {
    const Figure* before = findFigure(stock, id);
    const Figure* after = findFigure(now, id);
    if (!before || !after || (!before->value && !after->value)) {
        return std::nullopt;
    }
    const std::optional<double> change = changeOf(*before, *after);
    return PlainRow{words, QString::fromStdString(formatFigureValue(*before)),
                    QString::fromStdString(formatFigureValue(*after)),
                    change ? QString::fromStdString(formatFixed(*change, 2, Sign::always)) : QObject::tr("none"), unit};
}

void addBeforeAndAfter(PageFlow& flow, const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& large) {
    flow.beginSection(QObject::tr("Before and after"),
                      QObject::tr("worked out for the knobs as they stand on the job"));
    const QString pick = pickLevelText(job.setting.pickVoltsPeak);
    const QString tone = figureWords(job.setting.toneHz);
    std::vector<PlainRow> rows;
    const auto add = [&](std::optional<PlainRow> row) {
        if (row) {
            rows.push_back(std::move(*row));
        }
    };
    const auto& wasSmall = linear.stock.figures;
    const auto& isSmall = linear.now.figures;
    const auto& wasLarge = large.stock.figures;
    const auto& isLarge = large.now.figures;
    add(plainRow(QObject::tr("low strings, 82 Hz, string to output"), "response_82", "dB", wasSmall, isSmall));
    add(plainRow(QObject::tr("middle, 1 kHz, string to output"), "response_1k", "dB", wasSmall, isSmall));
    add(plainRow(QObject::tr("bite, 3 kHz, string to output"), "response_3k", "dB", wasSmall, isSmall));
    add(plainRow(QObject::tr("loudness at the output, %1 Hz, %2 pick").arg(tone, pick), "level", "dBV", wasLarge,
                 isLarge));
    add(plainRow(QObject::tr("answer to a harder pick (1.00: all of it)"), "level_slope", QObject::tr("dB per dB"),
                 wasLarge, isLarge));
    add(plainRow(QObject::tr("harmonic distortion"), "thd", "%", wasLarge, isLarge));
    flow.add(
        rowHeight,
        [](QPainter& painter, const QRectF& box) {
            paintPlainRow(painter, box, {"", QObject::tr("before"), QObject::tr("now"), QObject::tr("change"), ""},
                          true);
        },
        true);
    for (const PlainRow& row : rows) {
        flow.add(rowHeight, [row](QPainter& painter, const QRectF& box) { paintPlainRow(painter, box, row, false); });
    }
}

// --- knobs, words, way back --------------------------------------------------------------------------------------

QString translationWords(const KnobTranslation& knob) {
    const QString old = QString::fromStdString(formatFixed(knob.oldPosition, 1));
    const QString kept = paperText(knob.keptEqualName);
    if (!knob.newPosition) {
        return (knob.outAt == TravelEnd::belowZero
                    ? QObject::tr("your old %1 cannot be had: with equal %2 it lies beyond the lower end of the knob")
                    : QObject::tr("your old %1 cannot be had: with equal %2 it lies beyond the upper end of the knob"))
            .arg(old, kept);
    }
    QString words = QObject::tr("your old %1 is now %2, with equal %3")
                        .arg(old, QString::fromStdString(formatFixed(*knob.newPosition, 1)), kept);
    if (knob.remainingLowDb) {
        words = QObject::tr("%1; low strings at 82 Hz stay different by %2 dB")
                    .arg(words, QString::fromStdString(formatFixed(*knob.remainingLowDb, 1, Sign::always)));
    }
    return words;
}

void addKnobs(PageFlow& flow, const std::vector<KnobTranslation>& knobs) {
    flow.beginSection(QObject::tr("Your knobs"),
                      QObject::tr("one knob is turned, the others stand still; a knob cannot make everything equal"));
    if (knobs.empty()) {
        addWords(flow, QObject::tr("Unchanged:"), QObject::tr("every knob stands where it stood"), 1);
    }
    // A formula's figure is for the bench; the owner hears the solved ones, and the formula where there is nothing
    // else.
    const auto isFormula = [](const KnobTranslation& knob) { return knob.keptEqual == "plateau_gain"; };
    const bool hasOnlyFormulas = std::all_of(knobs.begin(), knobs.end(), isFormula);
    for (const KnobTranslation& knob : knobs) {
        if (isFormula(knob) && !hasOnlyFormulas) {
            continue;
        }
        addWords(
            flow, paperText(knob.knobName) + ":",
            isFormula(knob)
                ? QObject::tr("%1 by its formula; nothing else that it sets changes much").arg(translationWords(knob))
                : translationWords(knob),
            3);
    }
}

void addClaims(PageFlow& flow, const std::vector<ClaimAnswer>& claims) {
    flow.beginSection(QObject::tr("Your words, held against the figures"),
                      QObject::tr("limits: common practice, no source"));
    for (const ClaimAnswer& claim : claims) {
        addWords(flow, "-", paperText(claim.sentence), 4);
    }
}

void addNoWayBack(PageFlow& flow, const WayBack& back) {
    flow.beginSection(QObject::tr("What cannot be undone to the letter"),
                      QObject::tr("everything else goes back to the unit as it came in"));
    if (back.notExact.empty()) {
        addWords(flow, QObject::tr("None:"), QObject::tr("every step goes back to the letter"), 1);
    }
    for (const std::string& sentence : back.notExact) {
        addWords(flow, "-", paperText(sentence), 4);
    }
    if (!back.fromBag.empty()) {
        addWords(flow, QObject::tr("Keep your bag of old parts:"),
                 QObject::tr("%1. With them the unit goes back.").arg(partList(back.fromBag)), 4);
    }
}

void addHighVoltage(PageFlow& flow, const PaperAnswers& answers) {
    const QString volts = highVoltageOf(answers);
    if (volts.isEmpty()) {
        return;
    }
    const QString words = QObject::tr("High voltage inside, %1. Do not open.").arg(volts);
    flow.add(52.0, [words](QPainter& painter, const QRectF& box) { paintStopBar(painter, box, words, {}); });
    addWords(
        flow, QObject::tr("It can kill,"),
        QObject::tr("also when switched off. Only licensed or suitably trained people open it; follow local codes."),
        2);
}

// --- quote -------------------------------------------------------------------------------------------------------

struct PricedRow {
    QString letter;
    QString what;
    QString minutes;
    QString price;
    bool isBold = false;
};

void paintPricedRow(QPainter& painter, const QRectF& box, const PricedRow& row) {
    const auto column = [&](double from, double to) {
        return QRectF(box.left() + from * box.width(), box.top(), (to - from) * box.width(), box.height());
    };
    if (!row.letter.isEmpty()) {
        paintTriangle(painter, {box.left() + 8.0, box.center().y() - 9.0, 22.0, 18.0}, row.letter);
    }
    drawText(painter, column(0.06, 0.70), row.what, Qt::AlignLeft, row.isBold);
    drawText(painter, column(0.70, 0.83), row.minutes, Qt::AlignRight, row.isBold);
    drawText(painter, column(0.84, 1.0), row.price, Qt::AlignRight, row.isBold);
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

void addPricedRow(PageFlow& flow, const PricedRow& row, bool keepWithNext = false) {
    flow.add(
        rowHeight + 4.0, [row](QPainter& painter, const QRectF& box) { paintPricedRow(painter, box, row); },
        keepWithNext);
}

QString money(double value) {
    return QString::fromStdString(formatFixed(value, 2));
}

void addPrices(PageFlow& flow, const Quote& quote) {
    const QString currency = paperText(quote.currency);
    flow.beginSection(QObject::tr("Work and parts"), QObject::tr("of the mods that are on"));
    addPricedRow(flow, {{}, {}, QObject::tr("minutes"), currency, false}, true);
    for (const QuoteLine& line : quote.lines) {
        const bool hasMinutes = line.minutes > 0.0;
        addPricedRow(flow, {paperText(line.modLetter), paperText(line.what),
                            hasMinutes ? QString::fromStdString(formatFixed(line.minutes, 0)) : QString(),
                            money(line.price), false});
    }
    addPricedRow(flow, {{},
                        QObject::tr("Total"),
                        QString::fromStdString(formatFixed(quote.minutes, 0)),
                        money(quote.total) + " " + currency,
                        true});
}

/// Sentences with a box to sign at their right.
void addConsents(PageFlow& flow, const std::vector<std::string>& consents) {
    flow.beginSection(QObject::tr("Needs your consent"),
                      QObject::tr("sign each box; without it that work is not begun"));
    if (consents.empty()) {
        addWords(flow, QObject::tr("None:"), QObject::tr("everything goes back to the unit as it came in"), 1);
    }
    for (const std::string& sentence : consents) {
        const QStringList lines =
            wrapText(paperText(sentence), paperFont(print::bodyPixels), flow.contentWidth() - 40.0, 4);
        flow.add(8.0 + lineHeight * static_cast<double>(lines.size()), [lines](QPainter& painter, const QRectF& box) {
            double y = box.top() + 4.0;
            for (const QString& line : lines) {
                drawText(painter, {box.left(), y, box.width() - 40.0, lineHeight}, line);
                y += lineHeight;
            }
            paintTickBox(painter, {box.left(), box.top() + 4.0, box.width(), lineHeight});
        });
    }
}

}  // namespace

Paper customerSheet(const PaperAnswers& answers, PaperSize size) {
    const Job& job = *answers.job;
    Paper sheet = paperOf(job, saidText(paperName(PaperKind::customer)), size);
    PageFlow& flow = sheet.flow;
    addHighVoltage(flow, answers);
    addAskedAndAgreed(flow, job);
    addMods(flow, job);
    addBeforeAndAfter(flow, job, *answers.linear, *answers.largeSignal);
    addKnobs(flow, answers.knobs);
    if (!answers.claims.empty()) {
        addClaims(flow, answers.claims);
    }
    addNoWayBack(flow, answers.back);
    addSignatures(flow, {QObject::tr("handed back, date"), QObject::tr("received, date")});
    return sheet;
}

Paper lidLabel(const PaperAnswers& answers, PaperSize size) {
    const Job& job = *answers.job;
    Paper sheet = paperOf(job, saidText(paperName(PaperKind::label)), size);
    constexpr double labelWidth = 378.0;  // 100 mm
    constexpr double inset = 10.0;
    constexpr double labelLine = 16.0;
    struct Line {
        QString text;
        bool bold = false;
    };
    std::vector<Line> lines;
    const auto add = [&](const QString& text, bool bold) {
        for (const QString& part : wrapText(text, paperFont(print::smallPixels, bold), labelWidth - 2.0 * inset, 3)) {
            lines.push_back({part, bold});
        }
    };
    if (const QString volts = highVoltageOf(answers); !volts.isEmpty()) {
        add(QObject::tr("HIGH VOLTAGE: %1, also when switched off").arg(volts), true);
    }
    if (!job.shop.empty()) {
        add(paperText(job.shop), false);
    }
    add(QObject::tr("%1   serial %2")
            .arg(paperText(job.unit.name),
                 job.unit.serial.empty() ? QObject::tr("not written down") : paperText(job.unit.serial)),
        true);
    add(QObject::tr("visit %1   %2   %3")
            .arg(QString::number(job.visit.number),
                 job.visit.date.empty() ? QObject::tr("no date") : visitDate(job.visit),
                 QString::fromStdString(stateHash(job))),
        true);
    if (!isDone(job)) {
        add(QObject::tr("planned; not done and proven yet"), false);
    }
    const auto on = std::count_if(job.plan.begin(), job.plan.end(), [](const Mod& mod) { return mod.on; });
    if (on == 0) {
        add(QObject::tr("as it came in: no mod is on"), false);
    }
    for (const Mod& mod : job.plan) {
        if (mod.on) {
            add(paperText(mod.letter) + "  " + modWords(job, mod), false);
        }
    }
    addWords(sheet.flow, QObject::tr("Cut along the line:"),
             QObject::tr("it goes inside the lid, clear of the board and of anything bare"), 1);
    const double height = 2.0 * inset + labelLine * static_cast<double>(lines.size());
    sheet.flow.add(height + 16.0, [lines](QPainter& painter, const QRectF& box) {
        const QRectF label(box.left() + 2.0, box.top() + 8.0, labelWidth, box.height() - 16.0);
        painter.setPen(QPen(print::ink(), 1.0, Qt::DashLine));
        painter.drawRect(label);
        painter.setPen(QPen(print::ink(), 1.0));
        double y = label.top() + inset;
        for (const Line& line : lines) {
            drawText(painter, {label.left() + inset, y, label.width() - 2.0 * inset, labelLine}, line.text,
                     Qt::AlignLeft, line.bold, print::smallPixels);
            y += labelLine;
        }
    });
    return sheet;
}

Paper quoteSheet(const PaperAnswers& answers, PaperSize size) {
    const Job& job = *answers.job;
    const Quote& quote = answers.quote;
    Paper sheet = paperOf(job, saidText(paperName(PaperKind::quote)), size);
    PageFlow& flow = sheet.flow;
    addAskedAndAgreed(flow, job);
    addPrices(flow, quote);
    if (answers.isStockAssumed) {
        addWords(flow, QObject::tr("Parts:"), QObject::tr("prices and stock are assumed; no drawer was looked into"),
                 2);
    } else if (!quote.toOrder.empty()) {
        QStringList parts;
        for (const std::string& part : quote.toOrder) {
            parts << paperText(part);
        }
        addWords(flow, QObject::tr("To be ordered:"), parts.join("; "), 6);
    }
    addConsents(flow, quote.consents);
    addSignatures(flow, {QObject::tr("quoted, date"), QObject::tr("accepted, date")});
    return sheet;
}

}  // namespace ohmwright
