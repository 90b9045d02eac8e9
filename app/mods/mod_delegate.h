/// A row of the mods list: checkbox, revision triangle, name, struck stock and new value, effect in dB.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

namespace ohmwright {

class ModDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Of a column of figures [px], as wide as the widest of them in the model; alone and share, the last at the right
    /// margin of 12 px.
    static int columnWidth(const QAbstractItemModel* model);
    /// The area of a row that a press switches the mod in (36 px wide at text scale 1, the row's whole height).
    static QRect checkBox(const QRect& row);

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    bool editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                     const QModelIndex& index) override;
    [[nodiscard]] QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                                        const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;

private:
    void paintWords(QPainter& painter, const QRect& row, const QModelIndex& index, bool isSelected) const;
};

}  // namespace ohmwright
