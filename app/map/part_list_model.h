/// The rows of the part list: one a part of the circuit as built, in its order, with what the plan makes of it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/part_view.h"

#include <QAbstractTableModel>

#include <memory>
#include <optional>
#include <vector>

namespace ohmwright {

class PartListModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column { partColumn, kindColumn, valueColumn, netsColumn, columnTotal };
    enum Role {
        depthRole = Qt::UserRole,  ///< How many subcircuit calls the part is inside of.
        stockRole,                 ///< Struck value; empty where the part is as built.
        nowRole,                   ///< Value or type now.
        fittingRole,               ///< "R9 across, leg 1 lifted": what mods do beside the value; may be empty.
        markRole,                  ///< Letter of the part's mod; empty without one.
        markOnRole,                ///< Whether that mod is on.
        faultRole,                 ///< Whether the fault is said of this part.
    };

    using QAbstractTableModel::QAbstractTableModel;

    /// `faultPlace` is a part's id or reference, or a net; may be empty.
    void setState(std::shared_ptr<const Job> job, bool holdsStock, const QString& faultPlace);
    /// REQUIRES: 0 <= row < rowCount().
    [[nodiscard]] const Part& part(int row) const;
    /// Whether the part is a pnp or of p channel. REQUIRES: as part.
    [[nodiscard]] bool isTurned(int row) const;
    /// -1 where there is no such part.
    [[nodiscard]] int rowOf(const PartId& part) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    [[nodiscard]] const PartView& view(int row) const;
    [[nodiscard]] QVariant shownText(int row, int column) const;
    [[nodiscard]] bool isAtFault(const Part& part) const;

    std::shared_ptr<const Job> m_job;
    bool m_holdsStock = false;
    QString m_faultPlace;
    /// Made when a row is first shown, so that thousands of parts cost what is in view.
    mutable std::vector<std::optional<PartView>> m_views;
};

}  // namespace ohmwright
