// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/sheet_text.h"

#include "app/look/theme.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

#include <algorithm>

namespace ohmwright {

QFont paperFont(int pixels, bool bold) {
    // The family is the look's; sizes on paper do not follow the window's text setting.
    QFont font = Theme::current().font(TextRole::body);
    font.setPixelSize(pixels);
    font.setBold(bold);
    return font;
}

QString paperText(const QString& text) {
    QString clean = text;
    for (QChar& letter : clean) {
        if (!letter.isPrint() && !letter.isSurrogate()) {
            letter = ' ';
        }
    }
    return clean.simplified();
}

QString paperText(const std::string& text) {
    return paperText(QString::fromStdString(text));
}

double widthOf(const Runs& runs) {
    double width = 0.0;
    for (const Run& run : runs) {
        width += QFontMetricsF(paperFont(run.pixels, run.bold)).horizontalAdvance(run.text);
    }
    return width;
}

void drawRuns(QPainter& painter, const QRectF& box, const Runs& runs, Qt::Alignment alignment) {
    double x = box.left();
    if (alignment.testFlag(Qt::AlignRight)) {
        x = std::max(box.left(), box.right() - widthOf(runs));
    } else if (alignment.testFlag(Qt::AlignHCenter)) {
        x = std::max(box.left(), box.center().x() - widthOf(runs) / 2.0);
    }
    // One baseline for all sizes of the line, set by body text.
    const QFontMetricsF body(paperFont(print::bodyPixels));
    const double baseline = box.center().y() + (body.ascent() - body.descent()) / 2.0;
    for (const Run& run : runs) {
        const double room = box.right() - x;
        if (room <= 0.0) {
            return;
        }
        QFont font = paperFont(run.pixels, run.bold);
        font.setStrikeOut(run.struck);
        const QFontMetricsF metrics(font);
        // A hair of slack: the sum of rounded advances may be a fraction wider than its box.
        const QString shown = metrics.elidedText(run.text, Qt::ElideRight, room + 0.5);
        painter.setFont(font);
        painter.drawText(QPointF(x, baseline), shown);
        x += metrics.horizontalAdvance(shown);
        if (shown != run.text) {
            return;
        }
    }
}

void drawText(QPainter& painter, const QRectF& box, const QString& text, Qt::Alignment alignment, bool bold,
              int pixels) {
    drawRuns(painter, box, {{text, bold, pixels, false}}, alignment);
}

QStringList wrapText(const QString& text, const QFont& font, double width, int maxLines) {
    QTextLayout layout(text, font);
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    QStringList lines;
    layout.beginLayout();
    while (true) {
        QTextLine line = layout.createLine();
        if (!line.isValid()) {
            break;
        }
        line.setLineWidth(width);
        if (lines.size() + 1 == maxLines) {
            lines.append(QFontMetricsF(font).elidedText(text.mid(line.textStart()), Qt::ElideRight, width));
            break;
        }
        lines.append(text.mid(line.textStart(), line.textLength()).trimmed());
    }
    layout.endLayout();
    return lines;
}

}  // namespace ohmwright
