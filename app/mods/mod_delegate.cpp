// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mod_delegate.h"

#include "app/look/painters.h"
#include "app/look/theme.h"
#include "app/mods/mods_model.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

namespace ohmwright {

namespace {

// px at 96 dpi and text scale 1, from the look's pictures.
constexpr int checkWidth = 36;
constexpr int boxSize = 18;
constexpr int boxLeft = 9;
constexpr int triangleLeft = 34;
constexpr int triangleWidth = 26;
constexpr int triangleHeight = 24;
constexpr int wordsLeft = 66;
constexpr int rightMargin = 12;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

/// The column of figures is as wide as the widest of them.
int effectWidth() {
    return QFontMetrics(Theme::current().font(TextRole::body, true)).horizontalAdvance("−00.00");
}

QRect nameBox(const QRect& row) {
    const int height = QFontMetrics(Theme::current().font(TextRole::body, true)).height();
    return {row.left() + scaled(wordsLeft), row.center().y() + 1 - height,
            row.width() - scaled(wordsLeft) - scaled(rightMargin) - effectWidth() - scaled(6), height};
}

}  // namespace

QRect ModDelegate::checkBox(const QRect& row) {
    return {row.left(), row.top(), scaled(checkWidth), row.height()};
}

QSize ModDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {scaled(160), scaled(space::modRow)};
}

void ModDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const ThemeColours& colours = Theme::current().colours();
    const bool isSelected = option.state.testFlag(QStyle::State_Selected);
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(option.rect, isSelected ? colours.nowSoft : colours.panel);
    const QRectF box(option.rect.left() + scaled(boxLeft), option.rect.center().y() + 0.5 - scaled(boxSize) / 2.0,
                     scaled(boxSize), scaled(boxSize));
    paintCheckBox(*painter, box, isOn, colours.now, colours.onNow);
    const QRectF triangle(option.rect.left() + scaled(triangleLeft),
                          option.rect.center().y() + 0.5 - scaled(triangleHeight) / 2.0, scaled(triangleWidth),
                          scaled(triangleHeight));
    paintRevisionTriangle(*painter, triangle, index.data(ModsModel::LetterRole).toString(),
                          isOn ? TriangleState::active : TriangleState::off);
    paintWords(*painter, option.rect, index, isSelected);
    if (option.state.testFlag(QStyle::State_HasFocus) && option.state.testFlag(QStyle::State_KeyboardFocusChange)) {
        painter->setPen(QPen(colours.focus, 2.0));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(QRectF(option.rect).adjusted(2, 2, -2, -2));
    }
    painter->restore();
}

void ModDelegate::paintWords(QPainter& painter, const QRect& row, const QModelIndex& index, bool isSelected) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    const auto fit = [](const QFont& font, const QString& words, int width) {
        return QFontMetrics(font).elidedText(words, Qt::ElideRight, width);
    };
    const QRect name = nameBox(row);
    const QFont nameFont = theme.font(TextRole::body, isSelected);
    painter.setFont(nameFont);
    painter.setPen(colours.ink);
    painter.drawText(name, Qt::AlignLeft | Qt::AlignVCenter,
                     fit(nameFont, index.data(Qt::DisplayRole).toString(), name.width()));

    const QString stock = index.data(ModsModel::StockRole).toString();
    const QString now = index.data(ModsModel::NewRole).toString();
    const QFont second = theme.font(TextRole::caption);
    const int ascent = QFontMetrics(second).ascent();
    const QPointF baseline(name.left(), name.bottom() + 1 + ascent);
    if (isOn && !stock.isEmpty()) {
        painter.setFont(second);
        paintStockToNow(painter, baseline, stock, now, isSelected ? Ground::nowSoft : Ground::plain);
    } else {
        painter.setFont(second);
        painter.setPen(colours.ink3);
        const QString change = stock.isEmpty() ? now : stock + " → " + now;
        painter.drawText(baseline, fit(second, change, name.width()));
    }

    painter.setFont(theme.font(TextRole::body, isOn));
    painter.setPen(isOn ? colours.now : colours.ink);
    painter.drawText(row.adjusted(0, 0, -scaled(rightMargin), 0), Qt::AlignRight | Qt::AlignVCenter,
                     index.data(ModsModel::EffectRole).toString());
}

bool ModDelegate::editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                              const QModelIndex& index) {
    const bool isSpace = event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Space;
    const bool isOnBox = event->type() == QEvent::MouseButtonRelease &&
                         static_cast<QMouseEvent*>(event)->button() == Qt::LeftButton &&
                         checkBox(option.rect).contains(static_cast<QMouseEvent*>(event)->position().toPoint());
    if (!isSpace && !isOnBox) {
        return false;
    }
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    return model->setData(index, isOn ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
}

QWidget* ModDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex&) const {
    auto* editor = new QLineEdit(parent);
    editor->setFont(Theme::current().font(TextRole::body));
    editor->setAccessibleName("Name of the mod");
    return editor;
}

void ModDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option, const QModelIndex&) const {
    constexpr int padding = 7;  // the field's border and padding, so that the name stays at its place
    editor->setGeometry(nameBox(option.rect).adjusted(-padding, -padding, padding, padding));
}

}  // namespace ohmwright
