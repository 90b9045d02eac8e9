/// A row of the shelf or of the signal path: small drawing, name, what it does, its knobs.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

namespace ohmwright {

/// For views of a PieceModel.
class PieceDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    /// @param isNumbered  the path's rows carry their place as the map's zones do; the source is 1.
    explicit PieceDelegate(bool isNumbered, QObject* parent = nullptr)
        : QStyledItemDelegate(parent), m_isNumbered(isNumbered) {}

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    bool m_isNumbered;
};

}  // namespace ohmwright
