/// Stage pieces as rows: the shelf, and the signal path that is being put together.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/stage_shelf.h"

#include <QAbstractListModel>

#include <vector>

namespace ohmwright {

class PieceModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role { doesRole = Qt::UserRole, knobsRole, faultRole };

    using QAbstractListModel::QAbstractListModel;

    void setPieces(std::vector<ShelfStage> pieces);
    [[nodiscard]] const std::vector<ShelfStage>& pieces() const { return m_pieces; }
    /// @return the new row.
    int insert(int row, const ShelfStage& piece);
    void remove(int row);
    /// Moves a row up (-1) or down (+1). @return where it stands now.
    int move(int row, int step);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    std::vector<ShelfStage> m_pieces;
};

}  // namespace ohmwright
