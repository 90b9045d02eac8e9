// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_sheet.h"

#include "app/look/print_ink.h"
#include "app/look/theme.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPainter>
#include <QSvgGenerator>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

// In px at 96 dpi.
constexpr double side = 18.0;
constexpr int titlePixels = 17;
constexpr int textPixels = 13;
constexpr double lineHeight = 18.0;
constexpr double leftOfFrame = 64.0;
constexpr double sampleWidth = 34.0;
constexpr double gap = 7.0;
/// Of the distance between two harmonics.
constexpr double barShare = 0.32;
constexpr double pictureScale = 2.0;

/// Sizes do not follow the window's text setting.
QFont sheetFont(int pixels, bool bold = false) {
    QFont font = Theme::current().font(TextRole::body, bold);
    font.setPixelSize(pixels);
    return font;
}

/// From the axes to places in the frame.
class Scale {
public:
    Scale(const TableAxes& axes, const QRectF& box) : m_axes(axes), m_box(box) {}

    [[nodiscard]] double x(double at) const {
        return m_box.left() + share(at, m_axes.x, m_axes.isLogX) * m_box.width();
    }
    [[nodiscard]] double y(double value) const {
        return m_box.bottom() - share(value, m_axes.y, m_axes.isLogY) * m_box.height();
    }

private:
    static double share(double value, const PlotRange& range, bool isLog) {
        return isLog ? std::log(value / range.low) / std::log(range.high / range.low)
                     : (value - range.low) / (range.high - range.low);
    }

    const TableAxes& m_axes;
    QRectF m_box;
};

/// The columns that are drawn as lines.
std::vector<std::size_t> drawnColumns(CurveKind kind) {
    return kind == CurveKind::clip ? std::vector<std::size_t>{1, 2} : std::vector<std::size_t>{1};
}

void paintGrid(QPainter& painter, const CurveSheet& sheet, const QRectF& box, const Scale& scale) {
    const CurveKind kind = sheet.curve.stock.kind;
    const AxisMarks below = horizontalMarks(kind, sheet.axes, box.width());
    const AxisMarks left = verticalMarks(sheet.axes, box.height());
    const auto lies = [](double at, double from, double to) { return at >= from - 0.5 && at <= to + 0.5; };
    painter.setFont(sheetFont(textPixels));
    for (const bool isLabelled : {false, true}) {
        painter.setPen(QPen(print::bandInk(), 0.6));
        for (const double at : isLabelled ? below.at : below.between) {
            const double x = scale.x(at);
            if (lies(x, box.left(), box.right())) {
                painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
            }
        }
        for (const double value : isLabelled ? left.at : left.between) {
            const double y = scale.y(value);
            if (lies(y, box.top(), box.bottom())) {
                painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
            }
        }
    }
    painter.setPen(print::ink());
    constexpr double labelWidth = 60.0;
    for (std::size_t k = 0; k < below.at.size(); ++k) {
        const double x = scale.x(below.at[k]);
        if (lies(x, box.left(), box.right())) {
            painter.drawText(QRectF(x - labelWidth / 2.0, box.bottom() + 2.0, labelWidth, lineHeight),
                             Qt::AlignHCenter | Qt::AlignTop, below.labels[k]);
        }
    }
    for (std::size_t k = 0; k < left.at.size(); ++k) {
        const double y = scale.y(left.at[k]);
        if (lies(y, box.top(), box.bottom())) {
            painter.drawText(QRectF(box.left() - labelWidth - gap, y - lineHeight / 2.0, labelWidth, lineHeight),
                             Qt::AlignRight | Qt::AlignVCenter, left.labels[k]);
        }
    }
    painter.drawText(QRectF(box.left(), box.top() - lineHeight - 2.0, box.width(), lineHeight),
                     Qt::AlignLeft | Qt::AlignVCenter, sheet.axes.vertical);
    painter.drawText(QRectF(box.left(), box.bottom() + lineHeight, box.width(), lineHeight),
                     Qt::AlignRight | Qt::AlignVCenter, sheet.axes.horizontal);
}

void paintLine(QPainter& painter, const CurveTable& table, std::size_t column, const Scale& scale, const QPen& pen) {
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    QPolygonF line;
    const auto draw = [&painter, &line] {
        if (line.size() > 1) {
            painter.drawPolyline(line);
        }
        line.clear();
    };
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const QPointF at(scale.x(table.columns[0].values[row]), scale.y(table.columns[column].values[row]));
        if (std::isfinite(at.x()) && std::isfinite(at.y())) {
            line << at;
        } else {
            draw();
        }
    }
    draw();
}

/// Stock hollow, now filled, pinned states as a line across.
void paintBars(QPainter& painter, const CurveTable& table, const Scale& scale, const QRectF& box, double shift,
               const QBrush& brush, const QPen& pen) {
    painter.setPen(pen);
    painter.setBrush(brush);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const double level = table.columns[1].values[row];
        const double at = table.columns[0].values[row] + shift;
        if (std::isfinite(level)) {
            painter.drawRect(QRectF(QPointF(scale.x(at - barShare / 2.2), scale.y(level)),
                                    QPointF(scale.x(at + barShare / 2.2), box.bottom())));
        }
    }
}

void paintCurves(QPainter& painter, const CurveSheet& sheet, const QRectF& box, const Scale& scale) {
    painter.save();
    painter.setClipRect(box);
    if (sheet.curve.stock.kind == CurveKind::harmonics) {
        paintBars(painter, sheet.curve.stock, scale, box, -barShare / 2.0, Qt::NoBrush, QPen(print::stockInk(), 1.4));
        paintBars(painter, sheet.curve.now, scale, box, barShare / 2.0, print::ink(), QPen(print::ink(), 1.4));
        for (const PinnedCurve& pin : sheet.pins) {
            painter.setPen(print::pinnedPen(pin.pattern));
            for (std::size_t row = 0; row < pin.table.rowCount(); ++row) {
                const double n = pin.table.columns[0].values[row];
                const double y = scale.y(pin.table.columns[1].values[row]);
                if (std::isfinite(y)) {
                    painter.drawLine(QPointF(scale.x(n - barShare * 1.1), y), QPointF(scale.x(n + barShare * 1.1), y));
                }
            }
        }
    } else {
        for (const std::size_t column : drawnColumns(sheet.curve.stock.kind)) {
            paintLine(painter, sheet.curve.stock, column, scale, print::stockPen());
            for (const PinnedCurve& pin : sheet.pins) {
                paintLine(painter, pin.table, column, scale, print::pinnedPen(pin.pattern));
            }
            paintLine(painter, sheet.curve.now, column, scale, print::nowPen());
        }
    }
    painter.restore();
}

void paintLegend(QPainter& painter, const CurveSheet& sheet, double top) {
    painter.setFont(sheetFont(textPixels));
    const QFontMetricsF metrics(painter.font());
    double x = side + leftOfFrame;
    const auto entry = [&](const QPen& pen, const QString& words) {
        painter.setPen(pen);
        painter.drawLine(QPointF(x, top + lineHeight / 2.0), QPointF(x + sampleWidth, top + lineHeight / 2.0));
        x += sampleWidth + gap;
        painter.setPen(print::ink());
        const double width = std::min(metrics.horizontalAdvance(words) + 1.0, sheetWidth - side - x);
        painter.drawText(QRectF(x, top, width, lineHeight), Qt::AlignLeft | Qt::AlignVCenter,
                         metrics.elidedText(words, Qt::ElideRight, width));
        x += width + 2.0 * gap;
    };
    entry(print::stockPen(), QCoreApplication::translate("CurveSheet", "stock"));
    entry(print::nowPen(), QCoreApplication::translate("CurveSheet", "now"));
    for (std::size_t k = 0; k < sheet.pins.size(); ++k) {
        entry(print::pinnedPen(sheet.pins[k].pattern), sheet.pins[k].letter + QLatin1Char(' ') + sheet.pinNames[k]);
    }
}

}  // namespace

void paintCurveSheet(QPainter& painter, const CurveSheet& sheet) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF(0.0, 0.0, sheetWidth, sheetHeight), print::paper());
    painter.setPen(print::ink());
    painter.setFont(sheetFont(titlePixels, true));
    painter.drawText(QRectF(side, side, sheetWidth - 2.0 * side, 1.4 * lineHeight), Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(painter.font()).elidedText(sheet.title, Qt::ElideRight, sheetWidth - 2.0 * side));
    painter.setFont(sheetFont(textPixels));
    const QRectF words(side, side + 1.4 * lineHeight, sheetWidth - 2.0 * side, 2.0 * lineHeight);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, sheet.conditions);
    const double below = sheetHeight - side - lineHeight;
    const QRectF box(QPointF(side + leftOfFrame, words.bottom() + lineHeight + 4.0),
                     QPointF(sheetWidth - side - gap, below - 2.0 * lineHeight - gap));
    const Scale scale(sheet.axes, box);
    paintGrid(painter, sheet, box, scale);
    paintCurves(painter, sheet, box, scale);
    painter.setPen(QPen(print::ink(), 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
    paintLegend(painter, sheet, below);
}

QByteArray curveSheetSvg(const CurveSheet& sheet) {
    constexpr int dotsPerInch = 96;
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(dotsPerInch);
    generator.setSize(QSize(sheetWidth, sheetHeight));
    generator.setViewBox(QRect(0, 0, sheetWidth, sheetHeight));
    generator.setTitle(sheet.title);
    generator.setDescription(sheet.conditions);
    QPainter painter(&generator);
    paintCurveSheet(painter, sheet);
    painter.end();
    return bytes;
}

QImage curveSheetImage(const CurveSheet& sheet) {
    QImage image(QSize(sheetWidth, sheetHeight) * pictureScale, QImage::Format_RGB32);
    QPainter painter(&image);
    painter.scale(pictureScale, pictureScale);
    paintCurveSheet(painter, sheet);
    return image;
}

QByteArray curveSheetPng(const CurveSheet& sheet) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    curveSheetImage(sheet).save(&buffer, "PNG");
    return bytes;
}

}  // namespace ohmwright
