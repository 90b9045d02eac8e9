// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_work.h"

#include "app/papers/paper_frame.h"
#include "app/papers/photo_crop.h"
#include "app/papers/sheet_boxes.h"
#include "app/papers/sheet_text.h"

#include <QObject>
#include <QPainter>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr double lineHeight = 20.0;
constexpr double titleHeight = 32.0;
constexpr double titleLeft = 44.0;
constexpr double lineLeft = 124.0;
constexpr double probeHeight = 21.0;
constexpr double pictureGap = 12.0;
constexpr double blankRoom = 78.0;

/// Where the pictures begin, from the right; 0 without one.
double pictureRoom(const PrintedStep& step) {
    const double width = std::max(sizeOf(step.picture).width(), sizeOf(step.photo).width());
    return width > 0.0 ? width + pictureGap : 0.0;
}

double textRoom(const PrintedStep& step, const PrintedLine& line, double width) {
    return width - lineLeft - pictureRoom(step) - boxRoom(line.box) - (line.hasBlank ? blankRoom : 8.0);
}

/// Lines as they stand on paper: a text too long for its line goes on below, two more lines at most.
std::vector<PrintedLine> wrappedLines(const PrintedStep& step, double width) {
    std::vector<PrintedLine> lines;
    for (const PrintedLine& line : step.lines) {
        const QStringList parts = wrapText(line.text, paperFont(print::bodyPixels), textRoom(step, line, width), 3);
        for (qsizetype i = 0; i < parts.size(); ++i) {
            const bool isLast = i + 1 == parts.size();
            PrintedLine part = line;
            part.word = i == 0 ? line.word : QString();
            part.text = parts[i];
            part.hasBlank = line.hasBlank && isLast;
            part.hasBox = line.hasBox && i == 0;
            lines.push_back(part);
        }
    }
    return lines;
}

/// Number, title, triangle, and who signed it.
void paintTitle(QPainter& painter, const QRectF& box, const PrintedStep& step, int number) {
    const QRectF title(box.left() + titleLeft, box.top() + 8.0, box.width() - titleLeft - pictureRoom(step), 24.0);
    drawText(painter, {box.left(), title.top(), 34.0, title.height()}, QString::number(number), Qt::AlignRight, true,
             print::titlePixels);
    const double signedWidth =
        step.signedBy.isEmpty() ? 0.0 : widthOf({{step.signedBy, false, print::smallPixels}}) + 10.0;
    const double room = title.width() - 40.0 - signedWidth;
    const double width = std::min(room, widthOf({{step.title, true, print::headingPixels, false}}));
    drawText(painter, {title.left(), title.top(), room, title.height()}, step.title, Qt::AlignLeft, true,
             print::headingPixels);
    if (!step.letter.isEmpty()) {
        paintTriangle(painter, {title.left() + 10.0 + width, title.top() + 3.0, 22.0, 18.0}, step.letter);
    }
    drawText(painter, title, step.signedBy, Qt::AlignRight, false, print::smallPixels);
}

void paintLine(QPainter& painter, const QRectF& row, const PrintedStep& step, const PrintedLine& line) {
    const double left = row.left() - titleLeft + lineLeft;
    drawText(painter, {row.left(), row.top(), lineLeft - titleLeft - 4.0, row.height()}, line.word, Qt::AlignLeft,
             true);
    const double room = textRoom(step, line, row.right() - row.left() + titleLeft + pictureRoom(step));
    drawText(painter, {left, row.top(), room, row.height()}, line.text);
    if (line.hasBlank) {
        const double from = left + std::min(room, widthOf({{line.text}})) + 8.0;
        paintBlank(painter, {from, row.top(), blankRoom - 16.0, row.height()}, line.read);
    }
    if (line.hasBox) {
        paintBox(painter, row, line.box);
    }
}

/// Shares of the width at which the columns of the probe card begin.
constexpr double placeFrom = 0.06, allowedFrom = 0.38, barFrom = 0.61, readFrom = 0.80, boxFrom = 0.90;

QRectF column(const QRectF& box, double from, double to) {
    return {box.left() + from * box.width(), box.top(), (to - from) * box.width() - 6.0, box.height()};
}

void paintProbeHead(QPainter& painter, const QRectF& box) {
    const std::pair<std::pair<double, double>, QString> words[] = {
        {{placeFrom, allowedFrom}, QObject::tr("probe card: red on")},
        {{allowedFrom, barFrom}, QObject::tr("allowed")},
        {{barFrom, readFrom}, QObject::tr("black on ground")},
        {{readFrom, boxFrom}, QObject::tr("read")}};
    for (const auto& [where, text] : words) {
        drawText(painter, column(box, where.first, where.second), text, Qt::AlignLeft, false, print::smallPixels);
    }
    drawText(painter, box, QObject::tr("ok"), Qt::AlignRight, false, print::smallPixels);
}

/// One scale for the whole card: a narrow band looks narrow.
double widestSide(const std::vector<PrintedProbe>& probes) {
    double widest = 0.0;
    for (const PrintedProbe& probe : probes) {
        widest = std::max({widest, probe.nominal - probe.low, probe.high - probe.nominal});
    }
    return widest;
}

void paintProbe(QPainter& painter, const QRectF& box, const PrintedProbe& probe, double widest) {
    drawText(painter, column(box, placeFrom, allowedFrom), probe.place, Qt::AlignLeft, true);
    drawText(painter, column(box, allowedFrom, barFrom), probe.allowed);
    const QRectF bar = column(box, barFrom, readFrom).adjusted(0.0, 0.0, -14.0, 0.0);
    const auto x = [&](double volts) {
        const double share = widest > 0.0 ? (volts - probe.nominal) / widest : 0.0;
        return bar.center().x() + 0.42 * bar.width() * share;
    };
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(QPointF(bar.left(), bar.center().y()), QPointF(bar.right(), bar.center().y()));
    painter.setPen(QPen(print::ink(), 1.0));
    painter.setBrush(print::bandInk());
    const double width = std::max(3.0, x(probe.high) - x(probe.low));
    painter.drawRect(QRectF(x(probe.low), bar.center().y() - 5.0, width, 10.0));
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(print::ink(), 2.0));
    painter.drawLine(QPointF(x(probe.nominal), bar.center().y() - 6.0),
                     QPointF(x(probe.nominal), bar.center().y() + 6.0));
    painter.setPen(QPen(print::ink(), 1.0));
    paintBlank(painter, column(box, readFrom, boxFrom), probe.read);
    paintBox(painter, box, probe.box);
}

/// The photo stands under the picture of the part.
double photoTop(const PrintedStep& step) {
    const double picture = sizeOf(step.picture).height();
    return picture > 0.0 && !step.photo.picture.isNull() ? picture + 8.0 : picture;
}

double heightOf(const PrintedStep& step, const std::vector<PrintedLine>& lines) {
    const double words = titleHeight + lineHeight * static_cast<double>(lines.size());
    const double picture = photoTop(step) + sizeOf(step.photo).height();
    const double probes = step.probes.empty() ? 0.0 : 18.0 + probeHeight * static_cast<double>(step.probes.size());
    return std::max(words, picture > 0.0 ? picture + 10.0 : 0.0) + probes + 8.0;
}

void paintStep(QPainter& painter, const QRectF& box, const PrintedStep& step, int number,
               const std::vector<PrintedLine>& lines) {
    paintTitle(painter, box, step, number);
    double y = box.top() + titleHeight;
    const double right = box.right() - pictureRoom(step);
    for (const PrintedLine& line : lines) {
        paintLine(painter, {box.left() + titleLeft, y, right - box.left() - titleLeft, lineHeight}, step, line);
        y += lineHeight;
    }
    paintPicture(painter, {box.left(), box.top() + 10.0, box.width(), box.height()}, step.picture);
    paintPhoto(painter, box.adjusted(0.0, 10.0 + photoTop(step), 0.0, 0.0), step.photo);
    if (!step.probes.empty()) {
        paintProbeHead(painter, {box.left(), y, box.width(), 18.0});
        y += 18.0;
        const double widest = widestSide(step.probes);
        for (const PrintedProbe& probe : step.probes) {
            paintProbe(painter, {box.left(), y, box.width(), probeHeight}, probe, widest);
            y += probeHeight;
        }
    }
    painter.setPen(QPen(print::hairInk(), 1.0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.setPen(QPen(print::ink(), 1.0));
}

QString stopWords(const PrintedStep& step) {
    return step.signedBy.isEmpty() ? QObject::tr("all boxes above signed")
                                   : QObject::tr("signed %1").arg(step.signedBy);
}

}  // namespace

void addWork(PageFlow& flow, const std::vector<PrintedStep>& steps) {
    flow.beginSection(QObject::tr("Order of work"), QObject::tr("sign each box; a skipped box stays marked"));
    int number = 0;
    for (const PrintedStep& step : steps) {
        if (step.isStop) {
            flow.add(
                58.0,
                [title = step.title, words = stopWords(step)](QPainter& painter, const QRectF& box) {
                    paintStopBar(painter, box, title, words);
                },
                true);
            continue;
        }
        ++number;
        const std::vector<PrintedLine> lines = wrappedLines(step, flow.contentWidth());
        flow.add(heightOf(step, lines), [step, number, lines](QPainter& painter, const QRectF& box) {
            paintStep(painter, box, step, number, lines);
        });
    }
}

void addFailures(PageFlow& flow, const std::vector<PrintedFailure>& failures) {
    if (failures.empty()) {
        return;
    }
    constexpr double checkLeft = 34.0;
    constexpr double checkShare = 0.44;
    constexpr int mostLines = 4;
    flow.beginSection(QObject::tr("If a check fails"), QObject::tr("the likely mistakes in their order"));
    const double checkWidth = checkShare * flow.contentWidth() - checkLeft - 10.0;
    const double wordsWidth = (1.0 - checkShare) * flow.contentWidth();
    const QFont font = paperFont(print::smallPixels);
    for (const PrintedFailure& failure : failures) {
        const QStringList check = wrapText(failure.check, font, checkWidth, mostLines);
        const QStringList words = wrapText(failure.suspicions, font, wordsWidth, mostLines);
        const double height = 6.0 + 16.0 * static_cast<double>(std::max(check.size(), words.size()));
        flow.add(height, [failure, check, words, checkWidth, wordsWidth](QPainter& painter, const QRectF& box) {
            if (!failure.letter.isEmpty()) {
                paintTriangle(painter, {box.left() + 6.0, box.top() + 2.0, 20.0, 16.0}, failure.letter);
            }
            for (qsizetype i = 0; i < check.size(); ++i) {
                drawText(painter,
                         {box.left() + checkLeft, box.top() + 3.0 + 16.0 * static_cast<double>(i), checkWidth, 16.0},
                         check[i], Qt::AlignLeft, true, print::smallPixels);
            }
            for (qsizetype i = 0; i < words.size(); ++i) {
                drawText(painter,
                         {box.right() - wordsWidth, box.top() + 3.0 + 16.0 * static_cast<double>(i), wordsWidth, 16.0},
                         words[i], Qt::AlignLeft, false, print::smallPixels);
            }
            painter.setPen(QPen(print::hairInk(), 1.0));
            painter.drawLine(box.bottomLeft(), box.bottomRight());
            painter.setPen(QPen(print::ink(), 1.0));
        });
    }
}

}  // namespace ohmwright
