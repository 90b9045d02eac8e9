// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/bench_sheet.h"

#include "app/papers/before_and_after.h"
#include "app/papers/page_flow.h"
#include "app/papers/paper_frame.h"
#include "app/papers/sheet_text.h"
#include "app/papers/work_steps.h"
#include "core/base/number_text.h"
#include "core/bench/net_words.h"
#include "core/bench/way_back.h"
#include "core/circuit/supply_volts.h"
#include "core/files/atomic_file.h"
#include "core/plan/apply.h"

#include <QPainter>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <string_view>

namespace ohmwright {

namespace {

constexpr double rowHeight = 22.0;

QString settingWords(const Job& job) {
    QStringList words;
    for (const Knob& knob : job.stock.knobs) {
        words.append(QString("%1 %2").arg(paperText(knob.name).toLower(),
                                          QString::fromStdString(formatFixed(knobPosition(job.setting, knob.id), 1))));
    }
    return words.isEmpty() ? QString() : ", " + words.join(", ");
}

// --- figures -----------------------------------------------------------------------------------------------------

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
    return only ? QString::fromStdString(formatFixed(only->volts, 2, Sign::always)) + " / none" : QString("none");
}

QString thresholdPick(const ClipCurve& clip) {
    const auto words = [](const std::optional<ClipThreshold>& threshold) {
        return threshold ? QString::fromStdString(formatFixed(1000.0 * threshold->pickVoltsPeak, 0)) : QString("none");
    };
    return words(clip.positive) + " / " + words(clip.negative);
}

QString peakPair(const LargeSignalState& state) {
    const Figure* positive = findFigure(state.figures, "peak_positive");
    const Figure* negative = findFigure(state.figures, "peak_negative");
    if (!positive || !negative || !positive->value || !negative->value) {
        return "none";
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
    return SheetRow{QString::fromUtf8(kind->name.data(), static_cast<qsizetype>(kind->name.size())),
                    QString::fromStdString(formatFigureValue(*before)), QString::fromStdString(formatFigureValue(*now)),
                    changeWords(*kind, *before, *now),
                    QString::fromUtf8(kind->unit.data(), static_cast<qsizetype>(kind->unit.size()))};
}

std::vector<SheetRow> sheetRows(const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& large) {
    const std::vector<std::string> marks = landmarks(job.stock, job.stock.ports.clipNode, {}, 1);
    const QString place = marks.empty() ? QString("clip node") : paperText(marks.front());
    const QString pick = figureWords(1000.0 * job.setting.pickVoltsPeak);
    std::vector<SheetRow> rows;
    rows.push_back(
        {"clip threshold, " + place, thresholdVolts(large.stock.clip), thresholdVolts(large.now.clip), {}, "V"});
    rows.push_back({"reached at pick level, + / \u2212",
                    thresholdPick(large.stock.clip),
                    thresholdPick(large.now.clip),
                    {},
                    "mVpk"});
    rows.push_back(
        {QString("peak at %1 mVpk, %2").arg(pick, place), peakPair(large.stock), peakPair(large.now), {}, "V"});
    for (const std::string_view id : {"level", "level_slope", "thd", "h2"}) {
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

void addBeforeAndAfter(PageFlow& flow, const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& large) {
    flow.beginSection("Before and after", "string to output, small signal" + settingWords(job));
    flow.add(
        206.0,
        [&linear](QPainter& painter, const QRectF& box) {
            paintBeforeAndAfter(painter, box, linear.stock, linear.now);
        },
        true);
    if (const std::string note = cornerNote(linear.stock, linear.now); !note.empty()) {
        addWords(flow, "Note:", paperText(note), 2);
    }
    const SheetRow head{QString("settled at %1 Hz, %2 mVpk picked")
                            .arg(figureWords(job.setting.toneHz), figureWords(1000.0 * job.setting.pickVoltsPeak)),
                        "stock", "after", "change", ""};
    flow.add(
        rowHeight, [head](QPainter& painter, const QRectF& box) { paintSheetRow(painter, box, head, true); }, true);
    for (const SheetRow& row : sheetRows(job, linear, large)) {
        flow.add(rowHeight, [row](QPainter& painter, const QRectF& box) { paintSheetRow(painter, box, row, false); });
    }
}

// --- parts -------------------------------------------------------------------------------------------------------

struct PartRow {
    QString letter;
    QString place;
    QString out;  ///< Printed marking of what leaves the unit, struck.
    QString outValue;
    QString fit;  ///< Printed marking of what is fitted, in large type.
    QString fitValue;
    QString type;
};

PartRow partRow(const Mod& mod, const Circuit& before, const Circuit& after) {
    PartRow row;
    row.letter = paperText(mod.letter);
    const Part* target = findPart(before, targetOf(mod.change));
    const bool isSwap = std::holds_alternative<SwapValue>(mod.change) || std::holds_alternative<SwapType>(mod.change) ||
                        std::holds_alternative<ChangePot>(mod.change);
    if (isSwap && target) {
        row.place = paperText(displayName(*target));
        row.out = paperText(printedMarking(*target));
        row.outValue = paperText(valueWords(*target));
    } else {
        row.outValue = "none; " + paperText(describeChange(before, mod.change));
    }
    const std::vector<const NewPart*> brought = newPartsOf(mod.change);
    const Part* fitted = isSwap             ? findPart(after, targetOf(mod.change))
                         : !brought.empty() ? findPart(after, idOf(mod, *brought.front()))
                                            : nullptr;
    if (!fitted) {
        row.place = target ? paperText(displayName(*target)) : QString();
        row.fit = "no part";
        return row;
    }
    if (!isSwap) {
        row.place = paperText(displayName(*fitted)) + " new";
    }
    row.fit = paperText(printedMarking(*fitted));
    row.fitValue = paperText(valueWords(*fitted));
    if (row.fit.isEmpty()) {
        std::swap(row.fit, row.fitValue);
    }
    row.type = fitted->kind == PartKind::diode ? "band = cathode"
               : !fitted->build.empty()        ? paperText(fitted->build)
                                               : QString::fromUtf8(kindName(fitted->kind).data(),
                                                                   static_cast<qsizetype>(kindName(fitted->kind).size()));
    return row;
}

void paintPartRow(QPainter& painter, const QRectF& box, const PartRow& row) {
    const double width = box.width();
    paintTriangle(painter, {box.left() + 8.0, box.center().y() - 9.0, 22.0, 18.0}, row.letter);
    const auto column = [&](double from, double to) {
        return QRectF(box.left() + from * width, box.top(), (to - from) * width - 6.0, box.height());
    };
    drawText(painter, column(0.07, 0.20), row.place, Qt::AlignLeft, true);
    if (row.out.isEmpty() || row.out == row.outValue) {
        const bool leaves = !row.out.isEmpty();
        drawRuns(painter, column(0.20, 0.46), {{row.outValue, false, print::bodyPixels, leaves}});
    } else {
        drawRuns(painter, column(0.20, 0.46),
                 {{row.out, false, print::bodyPixels, true}, {"  " + row.outValue, false, print::bodyPixels, false}});
    }
    // Colour bands are long: they take body size.
    const int fitPixels = row.fit.size() > 8 ? print::bodyPixels : print::figurePixels;
    drawRuns(painter, column(0.46, 0.74),
             {{row.fit, true, fitPixels, false}, {row.fit == row.fitValue ? "" : "  " + row.fitValue, false}});
    drawText(painter, column(0.74, 0.93), row.type, Qt::AlignLeft, false, print::smallPixels);
    paintTickBox(painter, box);
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

void paintPartHead(QPainter& painter, const QRectF& box) {
    const std::pair<double, const char*> words[] = {
        {0.07, "place"}, {0.20, "take out, printed"}, {0.46, "fit, printed"}, {0.74, "type"}};
    for (const auto& [from, word] : words) {
        drawText(painter, box.adjusted(from * box.width(), 0.0, 0.0, 0.0), word, Qt::AlignLeft, false,
                 print::smallPixels);
    }
    drawText(painter, box, "in bag", Qt::AlignRight, false, print::smallPixels);
}

Result<void> addParts(PageFlow& flow, const Job& job) {
    flow.beginSection("Parts to fit", "markings as printed on the part; struck = leaves the unit");
    Circuit before = job.stock;
    bool isFirst = true;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        for (const Mod& single : asSingleMods(mod, throwOf(job.setting.throws, mod.id))) {
            Result<Circuit> after = applyMod(before, single);
            if (!after) {
                return after.error();
            }
            if (isFirst) {
                flow.add(20.0, paintPartHead, true);
                isFirst = false;
            }
            flow.add(30.0, [row = partRow(single, before, *after)](QPainter& painter, const QRectF& box) {
                paintPartRow(painter, box, row);
            });
            before = std::move(*after);
        }
    }
    if (isFirst) {
        addWords(flow, "Nothing:", "no mod of the plan is on", 1);
    }
    return {};
}

// --- cautions ----------------------------------------------------------------------------------------------------

void paintWarningTriangle(QPainter& painter, const QRectF& box) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(print::ink(), 2.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolygon(QPolygonF({QPointF(box.center().x(), box.top()), box.bottomRight(), box.bottomLeft()}));
    painter.drawLine(QPointF(box.center().x(), box.top() + 0.38 * box.height()),
                     QPointF(box.center().x(), box.top() + 0.66 * box.height()));
    painter.drawPoint(QPointF(box.center().x(), box.top() + 0.84 * box.height()));
    painter.restore();
}

constexpr double cautionHeight = 17.0;
constexpr double cautionLeft = 58.0;

Runs cautionRuns(const Caution& caution) {
    return {{paperText(caution.head), true, print::smallPixels, false},
            {" " + paperText(caution.text), false, print::smallPixels, false}};
}

/// Short ones stand two in a row.
std::vector<std::vector<Runs>> cautionRows(const std::vector<Caution>& cautions, double width) {
    std::vector<std::vector<Runs>> rows;
    bool isHalfFull = false;
    for (const Caution& caution : cautions) {
        const QString text = paperText(caution.text);
        const double headWidth = widthOf({{paperText(caution.head) + " ", true, print::smallPixels, false}});
        const Runs runs = cautionRuns(caution);
        if (widthOf(runs) < width / 2.0 - 8.0) {
            if (isHalfFull) {
                rows.back().push_back(runs);
            } else {
                rows.push_back({runs});
            }
            isHalfFull = !isHalfFull;
            continue;
        }
        isHalfFull = false;
        const QStringList lines = wrapText(text, paperFont(print::smallPixels), width - headWidth, 3);
        for (qsizetype i = 0; i < lines.size(); ++i) {
            rows.push_back({{{i == 0 ? paperText(caution.head) + " " : QString(), true, print::smallPixels, false},
                             {lines[i], false, print::smallPixels, false}}});
        }
    }
    return rows;
}

void paintCautions(QPainter& painter, const QRectF& box, const std::vector<std::vector<Runs>>& rows) {
    paintWarningTriangle(painter, {box.left() + 4.0, box.top() + 8.0, 38.0, 34.0});
    const double left = box.left() + cautionLeft;
    const double half = (box.right() - left) / 2.0;
    double y = box.top() + 4.0;
    for (const std::vector<Runs>& row : rows) {
        for (std::size_t column = 0; column < row.size(); ++column) {
            const double x = left + half * static_cast<double>(column);
            drawRuns(painter, {x, y, box.right() - x, cautionHeight}, row[column]);
        }
        y += cautionHeight;
    }
}

void addCautions(PageFlow& flow, const Job& job) {
    flow.beginSection("Cautions", "read before step 1");
    if (const double supply = highestSupplyVolts(job.stock, job.setting); supply > highVolts) {
        const QString words = QString("High voltage: %1 V").arg(figureWords(supply));
        flow.add(
            52.0, [words](QPainter& painter, const QRectF& box) { paintStopBar(painter, box, words, {}); }, true);
    }
    const auto rows = cautionRows(cautionsOf(job.stock, job.setting), flow.contentWidth() - cautionLeft);
    const double height = std::max(48.0, 8.0 + cautionHeight * static_cast<double>(rows.size()));
    flow.add(height, [rows](QPainter& painter, const QRectF& box) { paintCautions(painter, box, rows); });
}

// --- order of work -----------------------------------------------------------------------------------------------

constexpr double lineHeight = 20.0;
constexpr double lineLeft = 124.0;
constexpr double pictureWidth = 150.0;

void paintCode(QPainter& painter, const QRectF& box, const QString& marking) {
    const double width = std::max(36.0, widthOf({{marking, true}}) + 14.0);
    const QRectF body(box.right() - std::min(width, box.width()), box.top(), std::min(width, box.width()), 22.0);
    painter.setPen(QPen(print::ink(), 1.4));
    painter.drawRoundedRect(body, 3.0, 3.0);
    for (const double share : {0.3, 0.7}) {
        const double x = body.left() + share * body.width();
        painter.drawLine(QPointF(x, body.bottom()), QPointF(x, body.bottom() + 12.0));
    }
    drawText(painter, body.adjusted(2.0, 0.0, -2.0, 0.0), marking, Qt::AlignHCenter, true);
}

void paintDiode(QPainter& painter, const QRectF& box, const PrintedPicture& picture) {
    const QRectF body(box.center().x() - 21.0, box.top() + 16.0, 42.0, 15.0);
    painter.setPen(QPen(print::ink(), 1.4));
    painter.drawRoundedRect(body, 3.0, 3.0);
    painter.fillRect(QRectF(body.right() - 12.0, body.top(), 5.0, body.height()), print::ink());
    painter.drawLine(QPointF(box.left() + 8.0, body.center().y()), QPointF(body.left(), body.center().y()));
    painter.drawLine(QPointF(body.right(), body.center().y()), QPointF(box.right() - 8.0, body.center().y()));
    drawText(painter, {box.left(), box.top() - 2.0, box.width(), 16.0}, picture.marking, Qt::AlignHCenter, false,
             print::smallPixels);
    drawText(painter, {box.left(), body.bottom() + 3.0, box.width(), 16.0}, picture.plainEnd, Qt::AlignLeft, false,
             print::smallPixels);
    drawText(painter, {box.left(), body.bottom() + 18.0, box.width(), 16.0}, "band: " + picture.bandEnd, Qt::AlignRight,
             true, print::smallPixels);
}

void paintStep(QPainter& painter, const QRectF& box, const PrintedStep& step, int number,
               const std::vector<PrintedLine>& lines) {
    const QRectF title(box.left(), box.top() + 8.0, box.width(), 24.0);
    drawText(painter, {title.left(), title.top(), 34.0, 24.0}, QString::number(number), Qt::AlignRight, true,
             print::titlePixels);
    const bool hasPicture = step.picture.kind != PrintedPicture::Kind::none;
    const double titleRoom = box.width() - 44.0 - (hasPicture ? pictureWidth + 40.0 : 40.0);
    const double titleWidth = std::min(titleRoom, widthOf({{step.title, true, print::headingPixels, false}}));
    drawText(painter, {box.left() + 44.0, title.top(), titleRoom, 24.0}, step.title, Qt::AlignLeft, true,
             print::headingPixels);
    if (!step.letter.isEmpty()) {
        paintTriangle(painter, {box.left() + 54.0 + titleWidth, title.top() + 3.0, 22.0, 18.0}, step.letter);
    }
    double y = title.bottom();
    for (const PrintedLine& line : lines) {
        const double right = box.right() - (hasPicture ? pictureWidth + 12.0 : 0.0);
        const QRectF row(box.left() + 44.0, y, right - box.left() - 44.0, lineHeight);
        drawText(painter, {row.left(), row.top(), lineLeft - 48.0, row.height()}, line.word, Qt::AlignLeft, true);
        const double room = row.right() - box.left() - lineLeft - tickBox - (line.hasBlank ? 90.0 : 12.0);
        drawText(painter, {box.left() + lineLeft, row.top(), room, row.height()}, line.text);
        if (line.hasBlank) {
            const double from = box.left() + lineLeft + std::min(room, widthOf({{line.text}})) + 8.0;
            painter.drawLine(QPointF(from, row.bottom() - 4.0), QPointF(from + 62.0, row.bottom() - 4.0));
        }
        if (line.hasBox) {
            paintTickBox(painter, row);
        }
        y += lineHeight;
    }
    const QRectF picture(box.right() - pictureWidth, box.top() + 10.0, pictureWidth, 70.0);
    if (step.picture.kind == PrintedPicture::Kind::code) {
        paintCode(painter, picture, step.picture.marking);
    } else if (step.picture.kind == PrintedPicture::Kind::diode) {
        paintDiode(painter, picture, step.picture);
    }
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

/// Lines as they stand on paper: a text too long for its line goes on below, two more lines at most.
std::vector<PrintedLine> wrappedLines(const PrintedStep& step, double width) {
    const double picture = step.picture.kind == PrintedPicture::Kind::none ? 0.0 : pictureWidth + 12.0;
    std::vector<PrintedLine> lines;
    for (const PrintedLine& line : step.lines) {
        const double room = width - lineLeft - tickBox - picture - (line.hasBlank ? 90.0 : 12.0);
        const QStringList parts = wrapText(line.text, paperFont(print::bodyPixels), room, 3);
        for (qsizetype i = 0; i < parts.size(); ++i) {
            const bool isLast = i + 1 == parts.size();
            lines.push_back({i == 0 ? line.word : QString(), parts[i], line.hasBlank && isLast, line.hasBox && i == 0});
        }
    }
    return lines;
}

void addWork(PageFlow& flow, const std::vector<PrintedStep>& steps) {
    flow.beginSection("Order of work", "sign each box; a skipped box stays open");
    int number = 0;
    for (const PrintedStep& step : steps) {
        if (step.isStop) {
            flow.add(
                58.0,
                [title = step.title](QPainter& painter, const QRectF& box) {
                    paintStopBar(painter, box, title, "all boxes above signed");
                },
                true);
            continue;
        }
        ++number;
        const std::vector<PrintedLine> lines = wrappedLines(step, flow.contentWidth());
        const double pictureHeight = step.picture.kind == PrintedPicture::Kind::diode  ? 84.0
                                     : step.picture.kind == PrintedPicture::Kind::code ? 54.0
                                                                                       : 0.0;
        const double height = std::max(40.0 + lineHeight * static_cast<double>(lines.size()), pictureHeight);
        flow.add(height, [step, number, lines](QPainter& painter, const QRectF& box) {
            paintStep(painter, box, step, number, lines);
        });
    }
}

void addSignatures(PageFlow& flow) {
    flow.add(58.0, [](QPainter& painter, const QRectF& box) {
        const double width = box.width() / 4.0;
        int column = 0;
        for (const char* words :
             {"work, date", "second pair of eyes, date", "played and proven, date", "handed back, date"}) {
            const double left = box.left() + width * column++;
            painter.drawLine(QPointF(left, box.bottom() - 20.0), QPointF(left + width - 14.0, box.bottom() - 20.0));
            drawText(painter, {left, box.bottom() - 18.0, width - 14.0, 16.0}, words, Qt::AlignLeft, false,
                     print::smallPixels);
        }
    });
}

}  // namespace

Result<QByteArray> benchSheetPdf(const Job& job, const LinearAnswer& linear, const LargeSignalAnswer& largeSignal,
                                 PaperSize paper) {
    const std::string hash = stateHash(job);
    if (!linear.job || !largeSignal.job || stateHash(*linear.job) != hash || stateHash(*largeSignal.job) != hash) {
        return Error{ErrorCode::invalidInput,
                     "No sheet is printed: the figures are not current. Wait until the solve has ended.",
                     {}};
    }
    const Result<std::vector<WorkGroup>> groups = workGroups(job);
    if (!groups) {
        return refusal(groups.error());
    }
    const Result<WorkPlan> work = stepsOfGroups(*groups, job.setting);
    if (!work) {
        return refusal(work.error());
    }
    const std::vector<PrintedStep> steps = printedSteps(*work);
    Paper sheet = paperOf(job, "Bench sheet", paper);
    PageFlow& flow = sheet.flow;
    addWords(flow, "Asked for:",
             job.visit.complaint.empty() ? QString("not written down")
                                         : QString("\u201c%1\u201d").arg(paperText(job.visit.complaint)),
             3);
    addWords(flow, "Agreed:", job.visit.agreed.empty() ? QString("not written down") : paperText(job.visit.agreed), 3);
    addBeforeAndAfter(flow, job, linear, largeSignal);
    if (const Result<void> added = addParts(flow, job); !added) {
        return refusal(added.error());
    }
    addCautions(flow, job);
    if (!steps.empty()) {
        addWork(flow, steps);
        constexpr double gap = 8.0;
        flow.add(
            gap, [](QPainter&, const QRectF&) {}, true);
        addWords(flow, "Way back, in this order:", paperText(wayBackWords(*groups)), 3);
    }
    addSignatures(flow);
    return pdfOf(sheet);
}

Result<QByteArray> wayBackSheetPdf(const Job& job, PaperSize paper) {
    const Result<WayBack> back = wayBack(job);
    if (!back) {
        return refusal(back.error());
    }
    Paper sheet = paperOf(job, "Way-back sheet", paper);
    PageFlow& flow = sheet.flow;
    QStringList letters;
    for (const std::string& letter : back->letters) {
        letters << paperText(letter);
    }
    constexpr int mostLines = 6;
    addWords(flow, "Undo, in this order:", letters.isEmpty() ? QString("no mod is on") : letters.join(", "), 2);
    addWords(flow, "To stock:", back->words.empty() ? QString("nothing to undo") : paperText(back->words), mostLines);
    flow.beginSection("No exact way back", "stock as this unit was found; readings below are its own");
    if (back->notExact.empty()) {
        addWords(flow, "None:", "every step goes back to the letter", 1);
    }
    for (const std::string& sentence : back->notExact) {
        addWords(flow, "-", paperText(sentence), 3);
    }
    addCautions(flow, job);
    if (const std::vector<PrintedStep> steps = printedSteps(back->work); !steps.empty()) {
        addWork(flow, steps);
    }
    addSignatures(flow);
    return pdfOf(sheet);
}

Result<void> writeBenchSheet(const Job& job, const QString& pdfPath, PaperSize paper) {
    CompareRequest request;
    request.job = std::make_shared<const Job>(job);
    const Result<LinearAnswer> linear = compareLinear(request);
    if (!linear) {
        return refusal(linear.error());
    }
    const Result<LargeSignalAnswer> largeSignal = compareLargeSignal(request);
    if (!largeSignal) {
        return refusal(largeSignal.error());
    }
    const Result<QByteArray> pdf = benchSheetPdf(*request.job, *linear, *largeSignal, paper);
    if (!pdf) {
        return pdf.error();
    }
    return replaceFile(std::filesystem::path(pdfPath.toStdU16String()),
                       std::string_view(pdf->constData(), static_cast<std::size_t>(pdf->size())));
}

}  // namespace ohmwright
