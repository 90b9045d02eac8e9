/// A table of core's curves for a view: stock, now and change beside each other, read aloud and copied as shown.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measure/curve_table.h"

#include <QAbstractTableModel>

namespace ohmwright {

class CurveTableModel : public QAbstractTableModel {
    Q_OBJECT
public:
    using QAbstractTableModel::QAbstractTableModel;

    void setTable(CurveTable table);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    [[nodiscard]] bool hasNames() const { return !m_table.rows.empty(); }

    CurveTable m_table;
};

}  // namespace ohmwright
