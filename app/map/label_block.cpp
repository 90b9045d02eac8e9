// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/label_block.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QFontMetricsF>
#include <QHash>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr double lineGap = 5.5;    ///< From one line's baseline to the next line's capitals.
constexpr double runGap = 4.0;     ///< Between runs of a line.
constexpr double dotRoom = 12.0;   ///< Knowledge dot and its gap.
constexpr double belowLine = 2.5;  ///< What hangs below the baseline: µ, comma, j.
constexpr double haloWidth = 4.0;  ///< tokens map.labelHalo
constexpr double strikeWidth = 1.4;

int pixelsOf(LabelInk ink) {
    switch (ink) {
        case LabelInk::value:
        case LabelInk::struck:
        case LabelInk::title:
            return 13;
        case LabelInk::now:
            return 17;
        default:
            return 12;
    }
}

bool isBold(LabelInk ink) {
    return ink == LabelInk::function || ink == LabelInk::value || ink == LabelInk::now || ink == LabelInk::fitted ||
           ink == LabelInk::title;
}

QColor colourOf(LabelInk ink) {
    const ThemeColours& colours = Theme::current().colours();
    switch (ink) {
        case LabelInk::reference:
        case LabelInk::note:
            return colours.ink3;
        case LabelInk::function:
        case LabelInk::sign:
            return colours.ink2;
        case LabelInk::value:
        case LabelInk::title:
            return colours.ink;
        case LabelInk::struck:
            return colours.stock;
        case LabelInk::now:
        case LabelInk::fitted:
            return colours.now;
    }
    return colours.ink;
}

LabelLine headLine(const PartView& view, LabelShape shape) {
    LabelLine line;
    line.runs.push_back({view.reference, LabelInk::reference});
    const bool isShort =
        shape == LabelShape::stackedShort || shape == LabelShape::shortest || shape == LabelShape::referenceOnly;
    if (!view.function.isEmpty() && !isShort) {
        line.runs.push_back({view.function, LabelInk::function});
    }
    const bool isBare = shape != LabelShape::stacked && shape != LabelShape::inLine;
    if (view.isOnBoard && !(isBare && view.knowledge == Knowledge::drawn)) {
        line.dot = view.knowledge;
    }
    return line;
}

/// A formula is cut off on the map; the part's panel says all of it.
QString onMap(const QString& value) {
    constexpr qsizetype longest = 22;
    constexpr qsizetype kept = 16;
    return value.size() > longest ? value.left(kept) + QStringLiteral("…") : value;
}

LabelBlock valueLines(const PartView& view) {
    if (view.swapped) {
        return {{{{view.stockValue, LabelInk::struck}}, {}}, {{{view.nowValue, LabelInk::now}}, {}}};
    }
    if (view.stockValue.isEmpty()) {
        return {};
    }
    return {{{{onMap(view.stockValue), LabelInk::value}}, {}}};
}

}  // namespace

LabelBlock blockOf(const PartView& view, PartKind kind, LabelShape shape) {
    LabelBlock values = valueLines(view);
    // An op-amp's reference stands inside its body.
    if (kind == PartKind::opamp) {
        return values;
    }
    LabelBlock block{headLine(view, shape)};
    if (shape == LabelShape::referenceOnly) {
        return block;
    }
    for (const LabelLine& line : values) {
        const bool isStacked =
            shape == LabelShape::stacked || shape == LabelShape::stackedBare || shape == LabelShape::stackedShort;
        if (!isStacked) {
            block.front().runs.insert(block.front().runs.end(), line.runs.begin(), line.runs.end());
        } else {
            block.push_back(line);
        }
    }
    return block;
}

int LabelWriter::pixelSizeOf(LabelInk ink) const {
    return qRound(pixelsOf(ink) * m_scale);
}

QFont LabelWriter::fontOf(LabelInk ink) const {
    QFont font = Theme::current().font(TextRole::caption, isBold(ink));
    font.setPixelSize(pixelSizeOf(ink));
    return font;
}

namespace {

/// A layout asks for the size of the same words hundreds of times, and shaping them costs more than all its
/// comparisons. Of the main thread, as all measuring of text.
struct Measured {
    double width = 0.0;
    double capHeight = 0.0;
};
/// @param font  asked for what is not known yet: to make one costs more than to remember.
template <class Font>
const Measured& measured(int pixelSize, bool isBold, const QString& text, const Font& font) {
    static QHash<std::pair<int, QString>, Measured> known;
    constexpr qsizetype mostWords = 5000;  // Some maps' worth.
    if (known.size() > mostWords) {
        known.clear();
    }
    const std::pair<int, QString> key(isBold ? -pixelSize : pixelSize, text);
    auto found = known.constFind(key);
    if (found == known.constEnd()) {
        const QFontMetricsF metrics(font());
        found = known.insert(key, {metrics.horizontalAdvance(text), metrics.capHeight()});
    }
    return *found;
}

}  // namespace

double LabelWriter::capHeightOf(const LabelLine& line) const {
    double height = 0.0;
    for (const LabelRun& run : line.runs) {
        height = std::max(height, measured(pixelSizeOf(run.ink), isBold(run.ink), run.text, [&] {
                                      return fontOf(run.ink);
                                  }).capHeight);
    }
    return height;
}

double LabelWriter::widthOf(const LabelLine& line) const {
    double width = line.dot ? dotRoom * m_scale : 0.0;
    for (const LabelRun& run : line.runs) {
        width += measured(pixelSizeOf(run.ink), isBold(run.ink), run.text, [&] { return fontOf(run.ink); }).width;
    }
    return width + runGap * m_scale * static_cast<double>(std::max<std::size_t>(line.runs.size(), 1) - 1);
}

QSizeF LabelWriter::sizeOf(const LabelBlock& block) const {
    QSizeF size(0.0, 0.0);
    for (const LabelLine& line : block) {
        const double gap = size.height() > 0.0 ? lineGap * m_scale : 0.0;
        size = {std::max(size.width(), widthOf(line)), size.height() + gap + capHeightOf(line)};
    }
    return size;
}

std::vector<QRectF> LabelWriter::lineBoxes(const LabelBlock& block, const LabelPlace& place) const {
    std::vector<QRectF> boxes;
    double top = place.at.y();
    for (const LabelLine& line : block) {
        const double width = widthOf(line);
        const double height = capHeightOf(line);
        double left = place.at.x();
        if (place.align == LabelAlign::centre) {
            left -= width / 2;
        } else if (place.align == LabelAlign::right) {
            left -= width;
        }
        boxes.emplace_back(left, top - 1.0, width, height + 1.0 + belowLine * m_scale);
        top += height + lineGap * m_scale;
    }
    return boxes;
}

void LabelWriter::paint(QPainter& painter, const LabelBlock& block, const LabelPlace& place) const {
    const std::vector<QRectF> boxes = lineBoxes(block, place);
    for (std::size_t i = 0; i < block.size(); ++i) {
        paintLine(painter, block[i], {boxes[i].left(), boxes[i].bottom() - belowLine * m_scale});
    }
}

void LabelWriter::paintLine(QPainter& painter, const LabelLine& line, QPointF baseline) const {
    const QColor canvas = Theme::current().colours().canvas;
    painter.setRenderHint(QPainter::Antialiasing);
    double x = baseline.x();
    if (line.dot) {
        const double middle = baseline.y() - capHeightOf(line) / 2;
        paintKnowledgeDot(painter, {x + dotRoom * m_scale / 2 - 2.0, middle}, *line.dot);
        x += dotRoom * m_scale;
    }
    for (const LabelRun& run : line.runs) {
        const QFont font = fontOf(run.ink);
        const QFontMetricsF metrics(font);
        QPainterPath outline;
        outline.addText({x, baseline.y()}, font, run.text);
        painter.strokePath(outline, QPen(canvas, haloWidth, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setFont(font);
        painter.setPen(colourOf(run.ink));
        painter.drawText(QPointF(x, baseline.y()), run.text);
        const double width = metrics.horizontalAdvance(run.text);
        if (run.ink == LabelInk::struck) {
            const double y = baseline.y() - metrics.capHeight() * 0.42;
            painter.setPen(QPen(colourOf(run.ink), strikeWidth * m_scale));
            painter.drawLine(QPointF(x - 2, y), QPointF(x + width + 2, y));
        }
        x += width + runGap * m_scale;
    }
}

}  // namespace ohmwright
