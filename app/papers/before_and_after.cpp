// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/before_and_after.h"

#include "app/look/said_text.h"
#include "app/papers/sheet_text.h"
#include "core/base/number_text.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

constexpr double fromHz = 20.0;
constexpr double toHz = 20000.0;
/// Above this the range may let a curve run out of the plot (look rules, section 4).
constexpr double rangeToHz = 6000.0;
constexpr double stepDb = 6.0;
constexpr double guitarFromHz = 80.0;
constexpr double guitarToHz = 6000.0;

constexpr std::pair<double, const char*> hzLabels[] = {
    {20.0, "20"},   {50.0, "50"},   {100.0, "100"}, {200.0, "200"},   {500.0, "500"},
    {1000.0, "1k"}, {2000.0, "2k"}, {5000.0, "5k"}, {10000.0, "10k"}, {20000.0, "20k"}};
/// Open strings of a guitar in standard tuning and its 24th fret, equal temperament on A 440 Hz.
constexpr std::pair<double, const char*> strings[] = {
    {82.41, "E"}, {110.0, "A"}, {146.83, "D"}, {196.0, "G"}, {246.94, "B"}, {329.63, "E"}, {1318.5, toSay("24th")}};
constexpr std::pair<double, const char*> tableRows[] = {
    {82.41, toSay("82.4")}, {110.0, "110"}, {220.0, "220"}, {1000.0, "1k"}, {3000.0, "3k"}};

QPen stockPen() {
    QPen pen(print::stockInk(), print::stockPixels);
    pen.setCapStyle(Qt::FlatCap);
    // 6.75 and 3 pt, in pen widths.
    pen.setDashPattern({9.0 / print::stockPixels, 4.0 / print::stockPixels});
    return pen;
}

QPen nowPen() {
    return {print::ink(), print::nowPixels, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin};
}

/// Frequencies and decibels to places on paper.
struct Axes {
    QRectF frame;
    DecibelRange range;

    [[nodiscard]] double x(double hz) const {
        return frame.left() + frame.width() * std::log10(hz / fromHz) / std::log10(toHz / fromHz);
    }
    [[nodiscard]] double y(double db) const {
        return frame.bottom() - frame.height() * (db - range.lowest) / (range.highest - range.lowest);
    }
    [[nodiscard]] QPointF at(double hz, double db) const { return {x(hz), y(db)}; }
};

void paintGrid(QPainter& painter, const Axes& axes) {
    painter.fillRect(
        QRectF(axes.x(guitarFromHz), axes.frame.top(), axes.x(guitarToHz) - axes.x(guitarFromHz), axes.frame.height()),
        QColor::fromRgbF(0.955F, 0.955F, 0.955F));
    painter.setPen(QPen(print::hairInk(), 0.6));
    for (double decade = 10.0; decade < toHz; decade *= 10.0) {
        for (int digit = 1; digit < 10; ++digit) {
            const double hz = decade * digit;
            if (hz > fromHz && hz < toHz) {
                painter.drawLine(QPointF(axes.x(hz), axes.frame.top()), QPointF(axes.x(hz), axes.frame.bottom()));
            }
        }
    }
    for (double db = axes.range.lowest; db < axes.range.highest + 0.5; db += stepDb) {
        painter.setPen(QPen(print::hairInk(), 0.6));
        painter.drawLine(QPointF(axes.frame.left(), axes.y(db)), QPointF(axes.frame.right(), axes.y(db)));
        painter.setPen(QPen(print::ink(), 1.0));
        drawText(painter, {axes.frame.left() - 40.0, axes.y(db) - 8.0, 35.0, 16.0},
                 QString::fromStdString(formatFixed(db, 0)), Qt::AlignRight, false, print::smallPixels);
    }
    for (const auto& [hz, label] : hzLabels) {
        // The last label ends with the frame, so that it does not run into the table.
        const double shift = hz >= toHz ? -24.0 : -20.0;
        drawText(painter, {axes.x(hz) + shift, axes.frame.bottom() + 3.0, 40.0, 16.0}, label, Qt::AlignHCenter, false,
                 print::smallPixels);
    }
    for (const auto& [hz, label] : strings) {
        painter.drawLine(QPointF(axes.x(hz), axes.frame.top() - 5.0), QPointF(axes.x(hz), axes.frame.top()));
        drawText(painter, {axes.x(hz) - 20.0, axes.frame.top() - 21.0, 40.0, 16.0}, saidText(label), Qt::AlignHCenter,
                 false, print::smallPixels);
    }
    painter.drawRect(axes.frame);
}

void paintCurve(QPainter& painter, const Axes& axes, const ResponseCurve& curve, const QPen& pen) {
    QPainterPath path;
    for (std::size_t i = 0; i < curve.hz.size(); ++i) {
        if (curve.hz[i] < fromHz * 0.999 || curve.hz[i] > toHz * 1.001 || !std::isfinite(curve.gainDb[i])) {
            continue;
        }
        const QPointF place = axes.at(curve.hz[i], curve.gainDb[i]);
        path.elementCount() == 0 ? path.moveTo(place) : path.lineTo(place);
    }
    painter.save();
    painter.setClipRect(axes.frame);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(path);
    painter.restore();
}

/// How far 95 % of builds lie from a curve, as a grey field: light enough that both curves stay lines on a copy.
void paintBand(QPainter& painter, const Axes& axes, const ResponseCurve& curve, const std::vector<double>& bandDb) {
    QPolygonF upper, lower;
    for (std::size_t i = 0; i < std::min(curve.hz.size(), bandDb.size()); ++i) {
        const bool isInside = curve.hz[i] > fromHz * 0.999 && curve.hz[i] < toHz * 1.001;
        if (isInside && std::isfinite(curve.gainDb[i]) && std::isfinite(bandDb[i])) {
            upper << axes.at(curve.hz[i], curve.gainDb[i] + bandDb[i]);
            lower << axes.at(curve.hz[i], curve.gainDb[i] - bandDb[i]);
        }
    }
    if (upper.isEmpty()) {
        return;
    }
    std::reverse(lower.begin(), lower.end());
    painter.save();
    painter.setClipRect(axes.frame);
    painter.setPen(Qt::NoPen);
    painter.setBrush(print::bandInk());
    painter.drawPolygon(upper + lower);
    painter.restore();
}

/// A diamond on the curve at its corner tag, with the words at the end of a line downwards.
void paintCorner(QPainter& painter, const Axes& axes, const LinearState& state, bool isNow, double wordsY) {
    const Figure* tag = findFigure(state.figures, "gain_leg_corner");
    if (!tag || !tag->value || *tag->value < fromHz || *tag->value > toHz) {
        return;
    }
    const std::optional<double> db = gainDbAt(state.response, *tag->value);
    if (!db || *db < axes.range.lowest || *db > axes.range.highest) {
        return;
    }
    const QPointF at = axes.at(*tag->value, *db);
    painter.setPen(QPen(isNow ? print::ink() : print::stockInk(), 1.2));
    painter.drawLine(at, QPointF(at.x(), wordsY));
    painter.drawLine(QPointF(at.x(), wordsY), QPointF(at.x() + 8.0, wordsY));
    const QPolygonF diamond({at + QPointF(0, -6), at + QPointF(6, 0), at + QPointF(0, 6), at + QPointF(-6, 0)});
    painter.setBrush(isNow ? print::ink() : QColor(Qt::white));
    painter.drawPolygon(diamond);
    painter.setBrush(Qt::NoBrush);
    const QString words = QObject::tr("corner %1 Hz").arg(QString::fromStdString(formatFigure(*tag->value)));
    const QRectF place(at.x() + 12.0, wordsY - 9.0, widthOf({{words, isNow, print::smallPixels, false}}) + 4.0, 18.0);
    painter.fillRect(place, Qt::white);
    drawText(painter, place.adjusted(2.0, 0.0, 2.0, 0.0), words, Qt::AlignLeft, isNow, print::smallPixels);
    painter.setPen(QPen(print::ink(), 1.0));
}

/// What two stock units differ by at the low E string; nothing where no band is known there.
QString bandWords(const LinearAnswer& answer) {
    const std::vector<double>& hz = answer.stock.response.hz;
    const auto at = std::lower_bound(hz.begin(), hz.end(), tableRows[0].first);
    const auto index = static_cast<std::size_t>(at - hz.begin());
    if (index >= answer.stockBandDb.size() || !std::isfinite(answer.stockBandDb[index])) {
        return {};
    }
    return QObject::tr("95 % of builds; \u00B1%1 dB at 82 Hz")
        .arg(QString::fromStdString(formatFigure(answer.stockBandDb[index])));
}

void paintLegend(QPainter& painter, const QRectF& box, const LinearAnswer& answer) {
    const double y = box.top() + 9.0;
    const double second = box.left() + 0.4 * box.width();
    painter.setPen(stockPen());
    painter.drawLine(QPointF(box.left(), y), QPointF(box.left() + 34.0, y));
    painter.setPen(nowPen());
    painter.drawLine(QPointF(second, y), QPointF(second + 34.0, y));
    painter.setPen(QPen(print::ink(), 1.0));
    drawText(painter, {box.left() + 40.0, y - 9.0, 80.0, 18.0}, QObject::tr("stock"), Qt::AlignLeft, false,
             print::smallPixels);
    drawText(painter, {second + 40.0, y - 9.0, box.right() - second - 40.0, 18.0}, QObject::tr("after this work"),
             Qt::AlignLeft, false, print::smallPixels);
    if (const QString words = bandWords(answer); !words.isEmpty()) {
        painter.setPen(QPen(print::hairInk(), 0.6));
        painter.setBrush(print::bandInk());
        painter.drawRect(QRectF(box.left(), y + 14.0, 34.0, 9.0));
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(print::ink(), 1.0));
        drawText(painter, {box.left() + 40.0, y + 9.0, box.width() - 40.0, 18.0}, words, Qt::AlignLeft, false,
                 print::smallPixels);
    }
}

void paintTable(QPainter& painter, const QRectF& box, const LinearAnswer& answer) {
    const LinearState& stock = answer.stock;
    const LinearState& now = answer.now;
    constexpr double rowHeight = 21.0;
    const double column = (box.width() - 44.0) / 3.0;
    const auto cell = [&](int row, int index, const QString& text, bool bold) {
        drawText(painter, {box.left() + 44.0 + index * column, box.top() + row * rowHeight, column - 2.0, rowHeight},
                 text, Qt::AlignRight, bold, row == 0 ? print::smallPixels : print::bodyPixels);
    };
    drawText(painter, {box.left(), box.top(), 44.0, rowHeight}, "Hz", Qt::AlignLeft, false, print::smallPixels);
    cell(0, 0, QObject::tr("stock, dB"), false);
    cell(0, 1, QObject::tr("after, dB"), false);
    cell(0, 2, QObject::tr("change"), false);
    int row = 1;
    for (const auto& [hz, label] : tableRows) {
        const double y = box.top() + row * rowHeight;
        painter.setPen(QPen(print::hairInk(), 1.0));
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
        painter.setPen(QPen(print::ink(), 1.0));
        drawText(painter, {box.left(), y, 44.0, rowHeight}, saidText(label));
        const std::optional<double> before = gainDbAt(stock.response, hz);
        const std::optional<double> after = gainDbAt(now.response, hz);
        if (before && after) {
            cell(row, 0, QString::fromStdString(formatFigure(*before)), false);
            cell(row, 1, QString::fromStdString(formatFigure(*after)), true);
            cell(row, 2, QString::fromStdString(formatFixed(*after - *before, 2, Sign::always)), false);
        }
        ++row;
    }
    paintLegend(painter, {box.left(), box.top() + row * rowHeight + 5.0, box.width(), 36.0}, answer);
}

}  // namespace

std::optional<double> gainDbAt(const ResponseCurve& curve, double hz) {
    const auto above = std::lower_bound(curve.hz.begin(), curve.hz.end(), hz);
    if (above == curve.hz.end() || (above == curve.hz.begin() && *above > hz)) {
        return std::nullopt;
    }
    const auto right = static_cast<std::size_t>(above - curve.hz.begin());
    if (right == 0) {
        return curve.gainDb.front();
    }
    const double share = std::log(hz / curve.hz[right - 1]) / std::log(curve.hz[right] / curve.hz[right - 1]);
    const double db = curve.gainDb[right - 1] + share * (curve.gainDb[right] - curve.gainDb[right - 1]);
    return std::isfinite(db) ? std::optional(db) : std::nullopt;
}

DecibelRange rangeOf(const ResponseCurve& stock, const ResponseCurve& now) {
    double lowest = 0.0;
    double highest = 0.0;
    bool isFirst = true;
    for (const ResponseCurve* curve : {&stock, &now}) {
        for (std::size_t i = 0; i < curve->hz.size(); ++i) {
            if (curve->hz[i] > rangeToHz || !std::isfinite(curve->gainDb[i])) {
                continue;
            }
            lowest = isFirst ? curve->gainDb[i] : std::min(lowest, curve->gainDb[i]);
            highest = isFirst ? curve->gainDb[i] : std::max(highest, curve->gainDb[i]);
            isFirst = false;
        }
    }
    DecibelRange range{stepDb * std::floor((lowest - 1.0) / stepDb), stepDb * std::ceil((highest + 1.0) / stepDb)};
    // A flat curve still needs lines to read it by.
    range.lowest = std::min(range.lowest, range.highest - 4.0 * stepDb);
    return range;
}

void paintBeforeAndAfter(QPainter& painter, const QRectF& box, const LinearAnswer& answer) {
    const LinearState& stock = answer.stock;
    const LinearState& now = answer.now;
    const double plotWidth = 0.59 * box.width();
    const Axes axes{{box.left() + 40.0, box.top() + 26.0, plotWidth - 48.0, box.height() - 64.0},
                    rangeOf(stock.response, now.response)};
    painter.setRenderHint(QPainter::Antialiasing);
    drawText(painter, {box.left(), axes.frame.top() - 21.0, 35.0, 16.0}, "dB", Qt::AlignRight, false,
             print::smallPixels);
    paintGrid(painter, axes);
    paintBand(painter, axes, now.response, answer.nowBandDb);
    paintCurve(painter, axes, stock.response, stockPen());
    paintCurve(painter, axes, now.response, nowPen());
    paintCorner(painter, axes, stock, false, axes.frame.bottom() - 0.40 * axes.frame.height());
    paintCorner(painter, axes, now, true, axes.frame.bottom() - 0.16 * axes.frame.height());
    drawText(painter, {axes.frame.right() - 120.0, axes.frame.bottom() + 19.0, 120.0, 16.0}, QObject::tr("Hz, log"),
             Qt::AlignRight, false, print::smallPixels);
    paintTable(painter, {box.left() + plotWidth + 14.0, box.top() + 8.0, box.width() - plotWidth - 14.0, box.height()},
               answer);
}

}  // namespace ohmwright
