// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/cursor_column.h"

#include "app/curves/plot_frame.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double side = 13.0;
/// Above the heading of a quantity.
constexpr double headingAir = 3.0;
/// Between the name of a row and its figure.
constexpr double leastGap = 6.0;
/// Of the text size that was asked for: the least at which rows still stand, and how finely it is looked for.
constexpr double leastShare = 0.7;
constexpr int leastLetters = 12;  // [px]; smaller ones are not read at arm's length.
constexpr double shareStep = 0.05;
/// Below this height the rows close up and the rule between now and ghost goes.
constexpr double roomyHeight = 236.0;

bool isBold(ReadingRow::Kind kind) {
    return kind == ReadingRow::Kind::now || kind == ReadingRow::Kind::change;
}

QColor nameColour(ReadingRow::Kind kind) {
    const ThemeColours& colours = Theme::current().colours();
    return kind == ReadingRow::Kind::now ? colours.now : colours.ink2;
}

QColor figureColour(ReadingRow::Kind kind) {
    const ThemeColours& colours = Theme::current().colours();
    switch (kind) {
        case ReadingRow::Kind::now:
            return colours.now;
        case ReadingRow::Kind::ghost:
        case ReadingRow::Kind::ghostChange:
        case ReadingRow::Kind::pinned:
        case ReadingRow::Kind::heading:
            return colours.ink2;
        case ReadingRow::Kind::stock:
        case ReadingRow::Kind::change:
            break;
    }
    return colours.ink;
}

/// Width left free on the right, so that the decimal points of a column stand under each other.
double paddingRight(const QString& figure, const QFontMetricsF& metrics) {
    const qsizetype point = figure.indexOf(decimalSign());
    const bool isNumber = !figure.isEmpty() && figure.back().isDigit();
    if (!isNumber) {
        return 0.0;
    }
    const QString full = decimalSign() + QStringLiteral("00");
    const QString has = point < 0 ? QString() : figure.mid(point);
    return std::max(0.0, metrics.horizontalAdvance(full) - metrics.horizontalAdvance(has));
}

}  // namespace

CursorColumn::CursorColumn(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("cursorColumn"));
    setAccessibleName(tr("Cursor"));
    connect(&Theme::current(), &Theme::changed, this, &CursorColumn::followTheme);
    followTheme();
}

void CursorColumn::setReadout(const CursorReadout& readout) {
    if (readout == m_readout) {
        return;
    }
    m_readout = readout;
    setAccessibleDescription(readout.sentence);
    // The small print may have no room below the figures.
    setToolTip(readout.conditions);
    update();
}

void CursorColumn::setCurrent(bool isCurrent) {
    m_isCurrent = isCurrent;
    update();
}

QSize CursorColumn::sizeHint() const {
    return {static_cast<int>(std::lround(space::cursorColumn * Theme::current().textScale())), 200};
}

void CursorColumn::followTheme() {
    setFixedWidth(CursorColumn::sizeHint().width());
    update();
}

void CursorColumn::paintEvent(QPaintEvent* event) {
    Q_UNUSED(event)
    const Theme& theme = Theme::current();
    QPainter painter(this);
    painter.fillRect(rect(), theme.colours().panel);

    const double inner = width() - 2.0 * side;
    const bool isRoomy = height() >= roomyHeight * theme.textScale();
    painter.setFont(theme.font(TextRole::body, !m_isCurrent));
    painter.setPen(m_isCurrent ? theme.colours().ink3 : theme.colours().stop);
    double top = isRoomy ? 10.0 : 8.0;
    const double captionHeight = painter.fontMetrics().height();
    painter.drawText(QRectF(side, top, inner, captionHeight), Qt::AlignLeft,
                     m_isCurrent ? captionFor(inner, painter.fontMetrics()) : tr("not current"));

    top += captionHeight;
    painter.setFont(theme.font(TextRole::lead, true));
    painter.setPen(theme.colours().ink);
    const double leadHeight = painter.fontMetrics().height();
    painter.drawText(QRectF(side, top, inner, leadHeight), Qt::AlignLeft, m_readout.lead);
    painter.setOpacity(static_cast<double>(m_isCurrent ? 1.0F : oldOpacity));
    top = paintRows(painter, top + leadHeight + (isRoomy ? 6.0 : 2.0));
    painter.setOpacity(1.0);

    painter.setFont(theme.font(TextRole::body));
    painter.setPen(theme.colours().ink3);
    const QRectF smallPrint(side, top + 6.0, width() - 1.5 * side, height() - top - 8.0);
    // Where both have no room, the spread goes before the conditions, which stand beside the knobs as well.
    const QString& spread = m_readout.spread;
    const QString both = spread.isEmpty() ? m_readout.conditions : m_readout.conditions + QStringLiteral("\n") + spread;
    for (const QString& words : {both, spread.isEmpty() ? m_readout.conditions : spread}) {
        const QRectF needed = painter.boundingRect(smallPrint, Qt::AlignLeft | Qt::TextWordWrap, words);
        if (needed.height() <= smallPrint.height()) {
            painter.drawText(smallPrint, Qt::AlignLeft | Qt::TextWordWrap, words);
            break;
        }
    }
}

/// "Cursor, harmonic 2"; without its first word where both have no room.
QString CursorColumn::captionFor(double room, const QFontMetrics& metrics) const {
    return metrics.horizontalAdvance(m_readout.caption) <= room ? m_readout.caption
                                                                : m_readout.caption.section(", ", 1);
}

QFont CursorColumn::RowSize::font(TextRole of, bool bold) const {
    QFont font = Theme::current().font(of, bold);
    font.setPixelSize(std::max(leastLetters, static_cast<int>(std::floor(share * font.pixelSize()))));
    return font;
}

double CursorColumn::RowSize::rowHeight() const {
    return share * (Theme::current().pixels(role) + air);
}

/// As many lines as the words of a quantity take, or one, on which they are cut.
double CursorColumn::headingHeight(const ReadingRow& row, const RowSize& size) const {
    const QFontMetricsF metrics(size.font(TextRole::body));
    const QRectF room(0.0, 0.0, width() - 2.0 * side - metrics.horizontalAdvance(row.figure), height());
    const double words = size.hasWholeHeadings ? metrics.boundingRect(room, Qt::TextWordWrap, row.name).height() : 0.0;
    return std::max(metrics.height(), words) + size.share * headingAir;
}

double CursorColumn::paintHeading(QPainter& painter, const ReadingRow& row, double top, const RowSize& size) const {
    const double inner = width() - 2.0 * side;
    painter.setFont(size.font(TextRole::body));
    painter.setPen(Theme::current().colours().ink3);
    const double height = headingHeight(row, size);
    const double air = size.share * headingAir;
    const double room = inner - painter.fontMetrics().horizontalAdvance(row.figure);
    painter.drawText(QRectF(side, top, inner, height), Qt::AlignRight | Qt::AlignBottom, row.figure);
    painter.drawText(QRectF(side, top + air, room, height - air), Qt::AlignLeft | Qt::TextWordWrap,
                     size.hasWholeHeadings
                         ? row.name
                         : painter.fontMetrics().elidedText(row.name, Qt::ElideRight, static_cast<int>(room)));
    return top + height;
}

double CursorColumn::heightOfRows(const RowSize& size) const {
    double height = 0.0;
    for (const ReadingRow& row : m_readout.rows) {
        height += row.kind == ReadingRow::Kind::heading ? headingHeight(row, size) : size.rowHeight();
    }
    return height;
}

/// Where two quantities have no room at their full size, they close up, and at last stand smaller than text is asked
/// to be: no figure is cut off.
CursorColumn::RowSize CursorColumn::sizeFor(double room) const {
    const bool isRoomy = height() >= roomyHeight * Theme::current().textScale();
    RowSize size{TextRole::figure, isRoomy ? 4.0 : 3.0, true};
    for (const RowSize& smaller : {RowSize{TextRole::figure, 3.0, false}, RowSize{TextRole::body, 3.0, false},
                                   RowSize{TextRole::body, 1.0, false}}) {
        if (heightOfRows(size) > room) {
            size = smaller;
        }
    }
    while (heightOfRows(size) > room && size.share > leastShare) {
        size.share -= shareStep;
    }
    return size;
}

double CursorColumn::paintRows(QPainter& painter, double top) const {
    const Theme& theme = Theme::current();
    const bool isRoomy = height() >= roomyHeight * theme.textScale();
    const RowSize size = sizeFor(height() - top);
    const double rowHeight = size.rowHeight();
    const double inner = width() - 2.0 * side;
    for (const ReadingRow& row : m_readout.rows) {
        if (row.kind == ReadingRow::Kind::ghost && isRoomy) {
            painter.setPen(theme.colours().hair);
            painter.drawLine(QPointF(side, std::floor(top + 6.0) + 0.5),
                             QPointF(width() - side, std::floor(top + 6.0) + 0.5));
            top += 12.0;
        }
        if (row.kind == ReadingRow::Kind::heading) {
            top = paintHeading(painter, row, top, size);
            continue;
        }
        const QRectF line(side, top, inner, rowHeight);
        painter.setFont(size.font(TextRole::body, row.kind == ReadingRow::Kind::now));
        painter.setPen(nameColour(row.kind));
        painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, row.name);
        const double taken = QFontMetricsF(painter.font()).horizontalAdvance(row.name) + leastGap;
        painter.setFont(size.font(size.role, isBold(row.kind)));
        painter.setPen(figureColour(row.kind));
        const QFontMetricsF metrics(painter.font());
        const double padding =
            std::clamp(inner - taken - metrics.horizontalAdvance(row.figure), 0.0, paddingRight(row.figure, metrics));
        painter.drawText(line.adjusted(0.0, 0.0, -padding, 0.0), Qt::AlignRight | Qt::AlignVCenter, row.figure);
        top += rowHeight;
    }
    return top;
}

}  // namespace ohmwright
