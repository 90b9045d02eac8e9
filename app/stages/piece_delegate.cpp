// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/piece_delegate.h"

#include "app/look/painters.h"
#include "app/look/theme.h"
#include "app/stages/piece_model.h"
#include "app/stages/small_drawing.h"

#include <QPainter>

#include <algorithm>

namespace ohmwright {

namespace {

// px at 96 dpi and text scale 1.
constexpr int leastHeight = 84;
constexpr int drawingWidth = 176;
constexpr int padding = 8;
constexpr int wrapFlags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

/// What stands beside the drawing, from top to bottom.
struct Words {
    QString name, does, knobs;
};

Words wordsOf(const QModelIndex& index, bool isNumbered) {
    // The guitar is the map's first zone.
    constexpr int firstNumber = 2;
    Words words;
    words.name = index.data(Qt::DisplayRole).toString();
    if (isNumbered) {
        words.name = QString("%1  %2").arg(QString::number(index.row() + firstNumber), words.name);
    }
    words.does = index.data(PieceModel::doesRole).toString();
    const QString knobs = index.data(PieceModel::knobsRole).toString();
    words.knobs = knobs.isEmpty() ? QString() : QObject::tr("knobs: %1").arg(knobs);
    return words;
}

int wrappedHeight(const QFont& font, const QString& words, int width) {
    return words.isEmpty() ? 0 : QFontMetrics(font).boundingRect(QRect(0, 0, width, 10000), wrapFlags, words).height();
}

int wordsWidth(int rowWidth) {
    return std::max(80, rowWidth - scaled(drawingWidth) - 3 * padding);
}

int wordsHeight(const Words& words, int width) {
    const QFont small = Theme::current().font(TextRole::caption);
    return QFontMetrics(Theme::current().font(TextRole::figure, true)).height() +
           wrappedHeight(small, words.does, width) + wrappedHeight(small, words.knobs, width);
}

}  // namespace

QSize PieceDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const int width = option.rect.width() > 0 ? option.rect.width() : option.widget ? option.widget->width() : 400;
    const int height = wordsHeight(wordsOf(index, m_isNumbered), wordsWidth(width)) + 2 * padding;
    return {scaled(drawingWidth) + 120, std::max(scaled(leastHeight), height)};
}

void PieceDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const auto* model = qobject_cast<const PieceModel*>(index.model());
    const ShelfStage& stage = model->pieces()[static_cast<std::size_t>(index.row())];
    const QRect row = option.rect;
    painter->save();
    painter->fillRect(row, colours.panel);
    const QRect picture(row.left() + padding, row.top() + padding, scaled(drawingWidth), row.height() - 2 * padding);
    painter->fillRect(picture, colours.canvas);
    if (stage.piece) {
        paintSmallDrawing(*painter, stage.piece->circuit, QRectF(picture).adjusted(4, 4, -4, -4));
    } else {
        paintCareSign(*painter, QRectF(picture.center().x() - 10, picture.center().y() - 10, 20, 20));
    }
    const Words words = wordsOf(index, m_isNumbered);
    const int width = wordsWidth(row.width());
    QRect text(picture.right() + padding, row.top() + padding, width, row.height());
    const QFont nameFont = theme.font(TextRole::figure, true);
    painter->setFont(nameFont);
    painter->setPen(colours.ink);
    painter->drawText(text, Qt::AlignLeft | Qt::AlignTop, words.name);
    text.translate(0, QFontMetrics(nameFont).height());
    painter->setFont(theme.font(TextRole::caption));
    painter->setPen(stage.piece ? colours.ink2 : colours.warn);
    painter->drawText(text, wrapFlags, words.does);
    text.translate(0, wrappedHeight(painter->font(), words.does, width));
    painter->setPen(colours.ink3);
    painter->drawText(text, wrapFlags, words.knobs);
    painter->setPen(QPen(colours.hair, line::hair));
    painter->drawLine(row.bottomLeft(), row.bottomRight());
    if (option.state.testFlag(QStyle::State_Selected)) {
        paintSelectionBrackets(*painter, QRectF(row).adjusted(3, 3, -3, -3));
    }
    painter->restore();
}

}  // namespace ohmwright
