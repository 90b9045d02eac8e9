/// The ranked answers of a target search as rows of three lines.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/target_service.h"

#include <QAbstractListModel>
#include <QListView>
#include <QStyledItemDelegate>

#include <memory>
#include <vector>

namespace ohmwright {

class TargetModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role {
        figuresRole = Qt::UserRole,  ///< "591 Hz, 29.0 dB"
        stockRole,                   ///< "2 swaps, in the drawer 3 times"; "1 swap, assumed stock"
    };

    using QAbstractListModel::QAbstractListModel;

    void setOutcome(std::shared_ptr<const TargetOutcome> outcome);
    [[nodiscard]] const TargetAnswer* answerAt(const QModelIndex& index) const;
    /// The answer with the values that are printed on the parts in place of what a meter says of them: what a plan and
    /// its papers name. The figures of the list are those of the measured parts.
    [[nodiscard]] TargetAnswer asPrinted(const TargetAnswer& answer) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    /// Qt::DisplayRole: "R5 2k7 + 820R in series; C4 120n".
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    [[nodiscard]] QString partsText(const TargetAnswer& answer) const;

    std::shared_ptr<const TargetOutcome> m_outcome;
    /// As found, less those that only put a part's own value in its place again.
    std::vector<TargetAnswer> m_answers;
};

class TargetDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

/// The list of answers: as many rows as wide, told when the keyboard or the mouse chooses one.
class TargetAnswers : public QListView {
    Q_OBJECT
public:
    explicit TargetAnswers(QWidget* parent = nullptr);

signals:
    void tried(const QModelIndex& index);
    void accepted();

protected:
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    void keyPressEvent(QKeyEvent* event) override;
};

}  // namespace ohmwright
