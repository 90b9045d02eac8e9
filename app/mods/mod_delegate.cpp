// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mod_delegate.h"

#include "app/look/painters.h"
#include "app/look/theme.h"
#include "app/mods/mods_model.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace ohmwright {

namespace {

// px at 96 dpi and text scale 1, from the look's pictures.
constexpr int checkWidth = 36;
constexpr int boxSize = 18;
constexpr int boxLeft = 9;
constexpr int triangleLeft = 32;
constexpr int triangleWidth = 24;
constexpr int triangleHeight = 24;
constexpr int wordsLeft = 60;
constexpr int rightMargin = 12;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

constexpr int betweenColumns = 4;
constexpr int spreadHeight = 16;

/// Without the line that a spread mark takes below.
QRect mainBox(const QRect& row) {
    return {row.left(), row.top(), row.width(), scaled(space::modRow)};
}

/// Alone and share, right-aligned in columns.
QRect aloneBox(const QRect& row, int width) {
    const QRect box = mainBox(row);
    return {box.right() + 1 - scaled(rightMargin) - 2 * width - scaled(betweenColumns), box.top(), width, box.height()};
}
QRect shareBox(const QRect& row, int width) {
    return aloneBox(row, width).translated(width + scaled(betweenColumns), 0);
}

QRect nameBox(const QRect& whole, int columnWidth) {
    const QRect row = mainBox(whole);
    const int height = QFontMetrics(Theme::current().font(TextRole::body, true)).height();
    const int left = row.left() + scaled(wordsLeft);
    return {left, row.center().y() + 1 - height, aloneBox(whole, columnWidth).left() - scaled(2) - left, height};
}

}  // namespace

int ModDelegate::columnWidth(const QAbstractItemModel* model) {
    const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
    int widest = metrics.horizontalAdvance("+0.00");
    for (int row = 0; model && row < model->rowCount(); ++row) {
        for (const int role : {int(ModsModel::EffectRole), int(ModsModel::ShareRole)}) {
            widest = std::max(widest, metrics.horizontalAdvance(model->index(row, 0).data(role).toString()));
        }
    }
    return widest;
}

QRect ModDelegate::checkBox(const QRect& row) {
    return {row.left(), row.top(), scaled(checkWidth), row.height()};
}

QSize ModDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const {
    const bool isMarked = !index.data(ModsModel::SpreadRole).toString().isEmpty();
    return {scaled(160), scaled(space::modRow + (isMarked ? spreadHeight : 0))};
}

void ModDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const ThemeColours& colours = Theme::current().colours();
    const bool isSelected = option.state.testFlag(QStyle::State_Selected);
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(option.rect, isSelected ? colours.nowSoft : colours.panel);
    const QRect row = mainBox(option.rect);
    const QRectF box(row.left() + scaled(boxLeft), row.center().y() + 0.5 - scaled(boxSize) / 2.0, scaled(boxSize),
                     scaled(boxSize));
    paintCheckBox(*painter, box, isOn, colours.now, colours.onNow);
    const QRectF triangle(row.left() + scaled(triangleLeft), row.center().y() + 0.5 - scaled(triangleHeight) / 2.0,
                          scaled(triangleWidth), scaled(triangleHeight));
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
    const int column = columnWidth(index.model());
    const QRect name = nameBox(row, column);
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
    painter.drawText(aloneBox(row, column), Qt::AlignRight | Qt::AlignVCenter,
                     index.data(ModsModel::EffectRole).toString());
    painter.setFont(theme.font(TextRole::body));
    painter.setPen(colours.ink2);
    painter.drawText(shareBox(row, column), Qt::AlignRight | Qt::AlignVCenter,
                     index.data(ModsModel::ShareRole).toString());
    if (const QString spread = index.data(ModsModel::SpreadRole).toString(); !spread.isEmpty()) {
        painter.setFont(second);
        const QRect line(name.left(), mainBox(row).bottom() - scaled(3),
                         row.right() - name.left() - scaled(rightMargin), QFontMetrics(second).height());
        painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, fit(second, spread, line.width()));
    }
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

void ModDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                       const QModelIndex& index) const {
    constexpr int padding = 7;  // the field's border and padding, so that the name stays at its place
    editor->setGeometry(
        nameBox(option.rect, columnWidth(index.model())).adjusted(-padding, -padding, padding, padding));
}

}  // namespace ohmwright
