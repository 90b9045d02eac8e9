// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/figure_table.h"

#include "app/look/row_keys.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <utility>

namespace ohmwright {
namespace {

constexpr double arrowGap = 6.0;
constexpr double unitGap = 5.0;
const QString arrowText = QStringLiteral("→");

/// Room left and right of the decimal place.
struct PointWidths {
    double whole = 0.0;
    double fraction = 0.0;
};

PointWidths pointWidths(const QString& text, const QFontMetricsF& metrics) {
    const auto point = text.indexOf(decimalSign());
    if (point < 0) {
        return {metrics.horizontalAdvance(text), 0.0};
    }
    return {metrics.horizontalAdvance(text.left(point)), metrics.horizontalAdvance(text.mid(point))};
}

PointWidths widest(PointWidths a, const PointWidths& b) {
    return {std::max(a.whole, b.whole), std::max(a.fraction, b.fraction)};
}

void paintOnPoint(QPainter& painter, double pointX, double baseline, const QString& text) {
    const QFontMetricsF metrics(painter.font(), painter.device());
    painter.drawText(QPointF(pointX - pointWidths(text, metrics).whole, baseline), text);
}

}  // namespace

FigureColumns figureColumns(const std::vector<FigureRow>& rows, double width) {
    const Theme& theme = Theme::current();
    const QFontMetricsF plain(theme.font(TextRole::body));
    const QFontMetricsF bold(theme.font(TextRole::body, true));
    const QFontMetricsF small(theme.font(TextRole::caption));
    PointWidths stock;
    PointWidths now;
    PointWidths change;
    double label = 0.0;
    double unit = 0.0;
    for (const FigureRow& row : rows) {
        label = std::max(label, plain.horizontalAdvance(row.label));
        stock = widest(stock, pointWidths(row.stock, plain));
        now = widest(now, pointWidths(row.now, bold));
        unit = std::max(unit, small.horizontalAdvance(row.unit));
        change = widest(change, pointWidths(row.change, bold));
    }
    const double arrow = plain.horizontalAdvance(arrowText);
    FigureColumns columns;
    // From the right edge inwards; the label takes what is left.
    columns.changePoint = width - change.fraction;
    const double changeLeft = columns.changePoint - change.whole;
    columns.unit = changeLeft - unit - (change.whole > 0 ? 10.0 : 0.0);
    columns.nowPoint = columns.unit - unitGap - now.fraction;
    columns.arrow = columns.nowPoint - now.whole - arrowGap - arrow;
    columns.stockPoint = columns.arrow - arrowGap - stock.fraction;
    const double tooFarLeft = label + 8.0 - (columns.stockPoint - stock.whole);
    if (tooFarLeft > 0.0) {
        // Too narrow: labels keep their room and the figures run out at the right rather than over them.
        columns.stockPoint += tooFarLeft;
        columns.arrow += tooFarLeft;
        columns.nowPoint += tooFarLeft;
        columns.unit += tooFarLeft;
        columns.changePoint += tooFarLeft;
    }
    return columns;
}

void paintFigureRow(QPainter& painter, const QRectF& box, const FigureRow& row, const FigureColumns& columns) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    painter.save();
    const QFont plain = theme.font(TextRole::body);
    const QFont bold = theme.font(TextRole::body, true);
    const QFontMetricsF metrics(plain, painter.device());
    const double baseline = box.center().y() + (metrics.ascent() - metrics.descent()) / 2;
    painter.setFont(plain);
    painter.setPen(c.ink2);
    painter.drawText(QPointF(box.left(), baseline), row.label);
    painter.setPen(c.stock);
    paintOnPoint(painter, box.left() + columns.stockPoint, baseline, row.stock);
    if (!row.now.isEmpty()) {
        painter.setPen(c.ink3);
        painter.drawText(QPointF(box.left() + columns.arrow, baseline), arrowText);
        painter.setFont(bold);
        painter.setPen(c.now);
        paintOnPoint(painter, box.left() + columns.nowPoint, baseline, row.now);
    }
    painter.setFont(theme.font(TextRole::caption));
    painter.setPen(c.ink3);
    painter.drawText(QPointF(box.left() + columns.unit, baseline), row.unit);
    painter.setFont(bold);
    painter.setPen(c.ink);
    paintOnPoint(painter, box.left() + columns.changePoint, baseline, row.change);
    painter.restore();
}

FigureTable::FigureTable(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void FigureTable::setRows(std::vector<FigureRow> rows) {
    m_rows = std::move(rows);
    m_row = std::clamp(m_row, 0, std::max(0, static_cast<int>(m_rows.size()) - 1));
    QStringList spoken;
    for (const FigureRow& row : m_rows) {
        const QString now = row.now.isEmpty() ? QString() : tr(", now %1").arg(row.now);
        const QString change = row.change.isEmpty() ? QString() : tr(", change %1").arg(row.change);
        spoken << tr("%1 stock %2%3 %4%5").arg(row.label, row.stock, now, row.unit, change);
    }
    setAccessibleDescription(spoken.join("; "));
    updateGeometry();
    update();
}

void FigureTable::setPressable(bool pressable) {
    m_pressable = pressable;
    setFocusPolicy(pressable ? Qt::StrongFocus : Qt::NoFocus);
    setCursor(pressable ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

int FigureTable::rowHeight() const {
    return QFontMetrics(Theme::current().font(TextRole::body)).height() + 6;
}

QSize FigureTable::sizeHint() const {
    return {200, rowHeight() * static_cast<int>(m_rows.size())};
}

void FigureTable::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const FigureColumns columns = figureColumns(m_rows, width());
    for (int row = 0; row < static_cast<int>(m_rows.size()); ++row) {
        const QRectF box(0, row * rowHeight(), width(), rowHeight());
        paintFigureRow(painter, box, m_rows[static_cast<std::size_t>(row)], columns);
        if (m_pressable && hasFocus() && row == m_row) {
            painter.setPen(QPen(Theme::current().colours().focus, line::focus));
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), radius::field, radius::field);
        }
    }
}

void FigureTable::mousePressEvent(QMouseEvent* event) {
    const int row = static_cast<int>(event->position().y()) / rowHeight();
    if (!m_pressable || event->button() != Qt::LeftButton || row < 0 || row >= static_cast<int>(m_rows.size())) {
        QWidget::mousePressEvent(event);
        return;
    }
    m_row = row;
    update();
    pressRow();
}

void FigureTable::pressRow() {
    emit rowPressed(m_row, {mapToGlobal(QPoint(0, m_row * rowHeight())), QSize(width(), rowHeight())});
}

void FigureTable::keyPressEvent(QKeyEvent* event) {
    const auto step = m_pressable ? rowStep(event->key(), m_row, static_cast<int>(m_rows.size())) : std::nullopt;
    if (!step) {
        QWidget::keyPressEvent(event);
        return;
    }
    m_row = step->row;
    if (step->isPressed) {
        pressRow();
    }
    update();
}

}  // namespace ohmwright
