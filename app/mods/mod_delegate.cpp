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

constexpr int wrapFlags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;
constexpr int rowPadding = 8;

QFont smallFont() {
    return Theme::current().font(TextRole::caption);
}

int heightOf(const QFont& font, const QString& words, int width) {
    return words.isEmpty() ? 0 : QFontMetrics(font).boundingRect(QRect(0, 0, width, 10000), wrapFlags, words).height();
}

/// Where a row's words stand: the name with its figures beside it, the change below over the row's whole width, then
/// what is said of the spread. Nothing is cut: what is too long takes another line.
struct RowPlan {
    QRect name;
    QRect alone, share;  ///< On the name's first line.
    QRect change;
    QRect spread;
    int height = 0;
};

/// "56n → 120n" as words; the row of an active mod strikes the first.
QString changeWords(const QModelIndex& index) {
    const QString stock = index.data(ModsModel::stockRole).toString();
    const QString now = index.data(ModsModel::newRole).toString();
    return stock.isEmpty() ? now : stock + QStringLiteral(" → ") + now;
}

RowPlan planRow(const QRect& row, const QModelIndex& index, int columnWidth) {
    // Bold is the wider of the two weights, so that a row keeps its height when it is selected.
    const QFont nameFont = Theme::current().font(TextRole::body, true);
    const int line = QFontMetrics(nameFont).height();
    const int right = row.right() + 1 - scaled(rightMargin);
    const int left = row.left() + scaled(wordsLeft);
    RowPlan plan;
    plan.share = QRect(right - columnWidth, 0, columnWidth, line);
    plan.alone = plan.share.translated(-columnWidth - scaled(betweenColumns), 0);
    const int nameWidth = plan.alone.left() - scaled(8) - left;
    const int nameHeight = std::max(line, heightOf(nameFont, index.data(Qt::DisplayRole).toString(), nameWidth));
    const int changeHeight = heightOf(smallFont(), changeWords(index), right - left);
    const int spreadHeight = heightOf(smallFont(), index.data(ModsModel::spreadRole).toString(), right - left);
    const int words = nameHeight + changeHeight + spreadHeight;
    plan.height = std::max(scaled(space::modRow), words + 2 * scaled(rowPadding));
    const int top = row.top() + (plan.height - words) / 2;
    plan.name = QRect(left, top, nameWidth, nameHeight);
    plan.alone.moveTop(top);
    plan.share.moveTop(top);
    plan.change = QRect(left, top + nameHeight, right - left, changeHeight);
    plan.spread = QRect(left, plan.change.top() + changeHeight, right - left, spreadHeight);
    return plan;
}

}  // namespace

int ModDelegate::columnWidth(const QAbstractItemModel* model) {
    const QFontMetrics metrics(Theme::current().font(TextRole::body, true));
    int widest = metrics.horizontalAdvance("+0.00");
    for (int row = 0; model && row < model->rowCount(); ++row) {
        for (const int role : {int(ModsModel::effectRole), int(ModsModel::shareRole)}) {
            widest = std::max(widest, metrics.horizontalAdvance(model->index(row, 0).data(role).toString()));
        }
    }
    return widest;
}

QRect ModDelegate::checkBox(const QRect& row) {
    return {row.left(), row.top(), scaled(checkWidth), row.height()};
}

QSize ModDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const int width = option.rect.width() > 0 ? option.rect.width()
                      : option.widget         ? option.widget->width()
                                              : scaled(space::leftRail);
    return {scaled(160), planRow(QRect(0, 0, width, 0), index, columnWidth(index.model())).height};
}

void ModDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const ThemeColours& colours = Theme::current().colours();
    const bool isSelected = option.state.testFlag(QStyle::State_Selected);
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(option.rect, isSelected ? colours.nowSoft : colours.panel);
    const QRect row = option.rect;
    const QRectF box(row.left() + scaled(boxLeft), row.center().y() + 0.5 - scaled(boxSize) / 2.0, scaled(boxSize),
                     scaled(boxSize));
    paintCheckBox(*painter, box, isOn, colours.now, colours.onNow);
    const QRectF triangle(row.left() + scaled(triangleLeft), row.center().y() + 0.5 - scaled(triangleHeight) / 2.0,
                          scaled(triangleWidth), scaled(triangleHeight));
    paintRevisionTriangle(*painter, triangle, index.data(ModsModel::letterRole).toString(),
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
    const RowPlan plan = planRow(row, index, columnWidth(index.model()));
    const auto write = [&painter](const QRect& box, int flags, const QFont& font, const QColor& colour,
                                  const QString& words) {
        painter.setFont(font);
        painter.setPen(colour);
        painter.drawText(box, flags, words);
    };
    write(plan.name, wrapFlags, theme.font(TextRole::body, isSelected), colours.ink,
          index.data(Qt::DisplayRole).toString());

    const QString stock = index.data(ModsModel::stockRole).toString();
    const QFontMetrics metrics(smallFont());
    const bool isOneLine = plan.change.height() <= metrics.height();
    if (isOn && !stock.isEmpty() && isOneLine) {
        painter.setFont(smallFont());
        paintStockToNow(painter, QPointF(plan.change.left(), plan.change.top() + metrics.ascent()), stock,
                        index.data(ModsModel::newRole).toString(), isSelected ? Ground::nowSoft : Ground::plain);
    } else {
        write(plan.change, wrapFlags, smallFont(), isOn ? colours.ink2 : colours.ink3, changeWords(index));
    }
    constexpr int figureFlags = Qt::AlignRight | Qt::AlignVCenter;
    write(plan.alone, figureFlags, theme.font(TextRole::body, isOn), isOn ? colours.now : colours.ink,
          index.data(ModsModel::effectRole).toString());
    write(plan.share, figureFlags, theme.font(TextRole::body), colours.ink2,
          index.data(ModsModel::shareRole).toString());
    write(plan.spread, wrapFlags, smallFont(), colours.ink2, index.data(ModsModel::spreadRole).toString());
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
    editor->setAccessibleName(tr("Name of the mod"));
    return editor;
}

void ModDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                       const QModelIndex& index) const {
    constexpr int padding = 7;  // the field's border and padding, so that the name stays at its place
    editor->setGeometry(
        planRow(option.rect, index, columnWidth(index.model())).name.adjusted(-padding, -padding, padding, padding));
}

}  // namespace ohmwright
