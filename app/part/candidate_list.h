/// The view of the candidates: a row under the pointer or the keyboard is tried as the ghost, a press takes it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListView>
#include <QStyledItemDelegate>

namespace ohmwright {

/// Value, tag, corner and change of one row; "now" on iris-soft, the ghost in a dashed outline.
class CandidateDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Right edges of the figure columns, measured from the row's right edge; headings stand over them. The others move
    /// left where there is a column of what is left.
    static int haveRight();
    static int changeRight(bool withHave);
    static int cornerRight(bool withHave);

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

class CandidateList : public QListView {
    Q_OBJECT
public:
    explicit CandidateList(QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {0, sizeHint().height()}; }

signals:
    /// An invalid index: nothing is tried any more.
    void tried(const QModelIndex& index);
    void taken(const QModelIndex& index);

protected:
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    bool m_isKeyboard = false;
};

}  // namespace ohmwright
