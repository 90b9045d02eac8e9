/// The drawer as a table, a lot a row; cells are edited in place, each an undo step of the shop.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/parts/drawer.h"

#include <QAbstractTableModel>
#include <QString>

#include <vector>

namespace ohmwright {

class ShopDocument;

class DrawerModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column {
        part,
        delivery,
        have,
        freeCount,
        printed,
        measured,
        tolerance,
        pitch,
        volts,
        build,
        price,
        columnTotal
    };

    explicit DrawerModel(ShopDocument& shop, QObject* parent = nullptr);

    /// Rows whose name, lot, marking or build holds every word of `words`; empty shows all.
    void setFilter(const QString& words);
    /// Without a drawer preferred values stand here that cannot be edited.
    [[nodiscard]] bool isAssumed() const;
    [[nodiscard]] const DrawerLot* lotAt(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

signals:
    /// What was typed into a cell cannot be.
    void refused(const QString& sentence);

private:
    void refresh();
    [[nodiscard]] QString textOf(const DrawerLot& lot, int column) const;

    ShopDocument& m_shop;
    std::vector<DrawerLot> m_all;  ///< With what open jobs reserved.
    std::vector<std::size_t> m_shown;
    QString m_filter;
};

}  // namespace ohmwright
