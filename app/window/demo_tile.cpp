// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/demo_tile.h"

#include "app/look/painters.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/bench/high_voltage.h"

#include <QFontMetrics>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

constexpr int margin = 12;
constexpr int leastPicture = 72;
constexpr int complaintLines = 2;

/// Where a value lies between two others, 0 to 1.
double share(double value, double low, double high) {
    return high > low ? (value - low) / (high - low) : 0.5;
}

/// One column of a table as a line in a box; rows without a value part it.
struct Lines {
    QRectF box;
    double left = 0.0, right = 1.0;  ///< Of what the columns are read against.
    double low = 0.0, high = 1.0;
    bool isLogarithmic = false;

    [[nodiscard]] double x(double at) const {
        const double along =
            isLogarithmic ? share(std::log(at), std::log(left), std::log(right)) : share(at, left, right);
        return box.left() + along * box.width();
    }
    [[nodiscard]] double y(double value) const { return box.bottom() - share(value, low, high) * box.height(); }

    void reach(const CurveTable& table, std::size_t column) {
        for (std::size_t i = 0; i < table.rowCount(); ++i) {
            const double at = table.columns.front().values[i];
            const double value = table.columns[column].values[i];
            if (at >= left && at <= right && std::isfinite(value)) {
                low = std::min(low, value);
                high = std::max(high, value);
            }
        }
    }

    [[nodiscard]] QPainterPath path(const CurveTable& table, std::size_t column) const {
        QPainterPath line;
        bool isOpen = false;
        for (std::size_t i = 0; i < table.rowCount(); ++i) {
            const double at = table.columns.front().values[i];
            const double value = table.columns[column].values[i];
            if (at < left || at > right || !std::isfinite(value)) {
                isOpen = false;
                continue;
            }
            const QPointF point(x(at), y(value));
            isOpen ? line.lineTo(point) : line.moveTo(point);
            isOpen = true;
        }
        return line;
    }
};

/// The columns from the second on, stock and now, over lines at `marks`.
void paintLines(QPainter& painter, const Lines& lines, const ComparedCurve& curve, std::size_t columns,
                std::initializer_list<double> marks) {
    const Theme& theme = Theme::current();
    painter.setPen(QPen(theme.colours().gridMajor, line::hair));
    for (const double mark : marks) {
        painter.drawLine(QPointF(lines.x(mark), lines.box.top()), QPointF(lines.x(mark), lines.box.bottom()));
    }
    painter.setBrush(Qt::NoBrush);
    painter.setClipRect(lines.box);
    for (std::size_t column = 1; column <= columns; ++column) {
        painter.setPen(theme.stockPen());
        painter.drawPath(lines.path(curve.stock, column));
        painter.setPen(theme.nowPen());
        painter.drawPath(lines.path(curve.now, column));
    }
    painter.setClipping(false);
}

void paintResponse(QPainter& painter, const QRectF& box, const ComparedCurve& curve) {
    constexpr double lowestHz = 40.0;
    constexpr double highestHz = 10e3;
    constexpr double shownDb = 40.0;  // below the highest: steeper ends would flatten all else
    Lines lines{box, lowestHz, highestHz, 1e9, -1e9, true};
    lines.reach(curve.stock, 1);
    lines.reach(curve.now, 1);
    lines.low = std::max(lines.low, lines.high - shownDb) - 1.0;
    lines.high += 1.0;
    paintLines(painter, lines, curve, 1, {100.0, 1e3});
}

void paintClip(QPainter& painter, const QRectF& box, const ComparedCurve& curve) {
    const std::vector<double>& levels = curve.stock.columns.front().values;
    Lines lines{box, levels.front(), levels.back(), 0.0, 0.0, false};
    for (const std::size_t column : {1U, 2U}) {
        lines.reach(curve.stock, column);
        lines.reach(curve.now, column);
    }
    paintLines(painter, lines, curve, 2, {0.1, 0.2});
}

/// A line a device from the lowest to the highest of all voltages, stock hollow and now filled, each with its volts.
void paintResting(QPainter& painter, const QRectF& box, const std::vector<RestingOutput>& outputs) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    painter.setFont(theme.font(TextRole::caption));
    const QFontMetricsF metrics(painter.font());
    double low = 1e9;
    double high = -1e9;
    for (const RestingOutput& output : outputs) {
        low = std::min({low, output.stockVolts, output.nowVolts});
        high = std::max({high, output.stockVolts, output.nowVolts});
    }
    const double words = metrics.height();
    const double top = box.top() + words;
    const double bottom = box.bottom() - 2.0 * words;
    constexpr double dot = 4.5;
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        const RestingOutput& output = outputs[i];
        const double wide = box.width() / static_cast<double>(outputs.size());
        const double x = box.left() + wide * (static_cast<double>(i) + 0.4);
        const auto y = [&](double volts) { return bottom - share(volts, low, high) * (bottom - top); };
        painter.setPen(QPen(c.gridMajor, 2.0));
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom() - words));
        double stockY = y(output.stockVolts);
        double nowY = y(output.nowVolts);
        painter.setPen(QPen(c.stock, line::body));
        painter.setBrush(c.canvas);
        painter.drawEllipse(QPointF(x, stockY), dot, dot);
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.now);
        painter.drawEllipse(QPointF(x, nowY), dot, dot);
        // The two figures stand clear of each other, in the order of their voltages.
        if (std::abs(stockY - nowY) < words) {
            const double middle = (stockY + nowY) / 2;
            const double side = stockY <= nowY ? -0.5 : 0.5;
            stockY = middle + side * words;
            nowY = middle - side * words;
        }
        const auto write = [&](double at, double volts, const QColor& ink, bool isBold) {
            painter.setFont(theme.font(TextRole::caption, isBold));
            painter.setPen(ink);
            painter.drawText(QPointF(x + 9, at + metrics.capHeight() / 2), text(formatFixed(volts, 2)));
        };
        write(stockY, output.stockVolts, c.stock, false);
        write(nowY, output.nowVolts, c.now, true);
        painter.setFont(theme.font(TextRole::caption));
        painter.setPen(c.ink3);
        painter.drawText(QPointF(box.left() + wide * static_cast<double>(i) + 2, box.bottom() - metrics.descent()),
                         metrics.elidedText(output.name, Qt::ElideRight, wide - 4));
    }
}

/// At the right of the first line.
void paintDanger(QPainter& painter, const QRect& box, double volts) {
    constexpr int sign = 14;
    const QString words = text(formatFigure(volts)) + " V";
    painter.setFont(Theme::current().font(TextRole::caption, true));
    const QFontMetrics metrics(painter.font());
    const int left = box.right() - metrics.horizontalAdvance(words);
    painter.setPen(Theme::current().colours().stop);
    painter.drawText(left, box.top() + metrics.ascent() + 3, words);
    paintStopSign(painter, QRectF(left - sign - 4, box.top() + 4, sign, sign));
}

void paintPicture(QPainter& painter, const QRectF& box, const DemoLesson& lesson) {
    const QRectF inner = box.adjusted(1, 4, -1, -4);
    if (lesson.shown == CurveKind::response) {
        paintResponse(painter, inner, lesson.curve);
    } else if (lesson.shown == CurveKind::clip) {
        paintClip(painter, inner, lesson.curve);
    } else {
        paintResting(painter, inner, lesson.resting);
    }
}

}  // namespace

DemoTile::DemoTile(const DemoJob& job, QWidget* parent) : QAbstractButton(parent), m_job(job) {
    setText(job.name);
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
    describe();
}

void DemoTile::setLesson(const DemoLesson& lesson) {
    m_lesson = lesson;
    describe();
    update();
}

void DemoTile::describe() {
    setAccessibleName(m_job.name);
    setAccessibleDescription(m_lesson ? QString("%1. %2. %3").arg(m_lesson->kind, m_lesson->change, m_job.complaint)
                                      : m_job.complaint);
}

QSize DemoTile::sizeHint() const {
    const Theme& theme = Theme::current();
    const int caption = QFontMetrics(theme.font(TextRole::caption)).height();
    const int words = QFontMetrics(theme.font(TextRole::lead, true)).height() + caption +
                      QFontMetrics(theme.font(TextRole::body, true)).height() + complaintLines * caption;
    return {210, words + leastPicture + 2 * margin + 28};
}

void DemoTile::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(underMouse() ? c.ink : c.hair, line::hair));
    painter.setBrush(isDown() ? c.app : c.raised);
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), radius::card, radius::card);

    QRect box = rect().adjusted(margin, margin - 2, -margin, -margin);
    const auto line = [&](TextRole role, bool isBold, const QColor& ink, const QString& words) {
        painter.setFont(theme.font(role, isBold));
        painter.setPen(ink);
        const QFontMetrics metrics(painter.font());
        painter.drawText(QRect(box.left(), box.top(), box.width(), metrics.height()), Qt::AlignLeft | Qt::AlignVCenter,
                         metrics.elidedText(words, Qt::ElideRight, box.width()));
        box.setTop(box.top() + metrics.height());
    };
    if (m_job.supplyVolts > highVolts) {
        paintDanger(painter, box, m_job.supplyVolts);
    }
    line(TextRole::lead, true, c.ink, m_job.name);
    line(TextRole::caption, false, c.ink2, m_job.kind);
    const QFont caption = theme.font(TextRole::caption);
    const int complaintHeight = complaintLines * QFontMetrics(caption).height();
    const QRect complaint(box.left(), box.bottom() - complaintHeight, box.width(), complaintHeight + 1);
    const int changeHeight = QFontMetrics(theme.font(TextRole::body, true)).height();
    const QRect picture(box.left(), box.top() + 6, box.width(), complaint.top() - box.top() - changeHeight - 18);
    painter.fillRect(picture, c.canvas);
    painter.setPen(QPen(c.gridMajor, line::hair));
    painter.drawLine(picture.bottomLeft(), picture.bottomRight());
    if (m_lesson) {
        paintPicture(painter, picture, *m_lesson);
        box.setTop(picture.bottom() + 5);
        line(TextRole::body, true, c.now, m_lesson->change);
    }
    painter.setFont(caption);
    painter.setPen(c.ink);
    painter.drawText(complaint, Qt::AlignLeft | Qt::AlignBottom | Qt::TextWordWrap, tr("“%1”").arg(m_job.complaint));
}

}  // namespace ohmwright
