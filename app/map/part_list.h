/// The parts of a circuit that has no drawing, where the drawing would be: chosen, stepped and typed on as there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/map_state.h"

#include <QElapsedTimer>
#include <QStyledItemDelegate>
#include <QTreeView>
#include <QWidget>

class QLabel;

namespace ohmwright {

class PartListModel;
class SignText;

/// One cell: the part with its mod's triangle and indented by its calls; the value with stock struck through.
class PartListDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

/// The table itself. The wheel scrolls, except over the value of the selected part, where it steps that.
class PartTable : public QTreeView {
    Q_OBJECT
public:
    explicit PartTable(PartListModel& model, QWidget* parent = nullptr);

    void setSelected(const PartId& part);
    [[nodiscard]] const PartId& selected() const { return m_selected; }

signals:
    void partChosen(const ohmwright::PartId& part);
    void valueStepped(const ohmwright::PartId& part, int steps, Qt::KeyboardModifiers modifiers);
    void typedOnPart(const QString& text);
    void contextMenuAsked(const ohmwright::PartId& part, const QPoint& globalPosition);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void drawRow(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    [[nodiscard]] bool stepsAt(const QPoint& position) const;
    void fitColumns();

    PartListModel& m_model;
    PartId m_selected;
    bool m_isFollowing = false;  ///< The selection comes from outside and is not said again.
    int m_wheelRest = 0;         ///< Part of a step from a finely divided wheel, eighths of a degree.
    QElapsedTimer m_scrolled;
};

class PartList : public QWidget {
    Q_OBJECT
public:
    explicit PartList(QWidget* parent = nullptr);

    void setState(const MapState& state);
    [[nodiscard]] PartTable& table() { return *m_table; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    PartListModel* m_model;
    QLabel* m_note;
    SignText* m_fault;
    PartTable* m_table;
};

}  // namespace ohmwright
