/// What the selected part could be instead: values or types, each with what is known of its effect.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/compare.h"

#include <QAbstractListModel>
#include <QString>

#include <optional>
#include <vector>

namespace ohmwright {

/// One row of the list.
struct CandidateRow {
    Change change;  ///< What taking the row does.
    QString name;   ///< "120n" or "1N4148"
    bool isNow = false;
    bool isStock = false;
    std::optional<int> left;  ///< How many of it the job can take; absent where stock is assumed.
};

/// Holds no job: the part panel fills it.
class CandidateModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role {
        tagRole = Qt::UserRole,  ///< "now", "ghost", "stock" or empty.
        cornerRole,              ///< "340"; empty when there is no corner.
        changeRole,              ///< "+5.89"; empty while unknown.
        haveRole,                ///< "6", "none"; empty where stock is assumed.
        nowRole,
        ghostRole,
        usedUpRole,  ///< True where the drawer has none left: the row is grey.
    };

    using QAbstractListModel::QAbstractListModel;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

    void setRows(std::vector<CandidateRow> rows);
    [[nodiscard]] const std::vector<CandidateRow>& rows() const { return m_rows; }
    [[nodiscard]] const CandidateRow* rowAt(const QModelIndex& index) const;
    /// Figures of the values, matched by value; rows without one are left blank.
    void setFigures(std::vector<Candidate> figures);
    /// Whether what is left is known.
    [[nodiscard]] bool isCounted() const;
    /// Whether any row has a corner tag.
    [[nodiscard]] bool hasCorners() const;
    void setGhost(const std::optional<Change>& ghost);

private:
    [[nodiscard]] const Candidate* figuresOf(const CandidateRow& row) const;
    [[nodiscard]] QString tagOf(const CandidateRow& row) const;
    void announceAll();

    std::vector<CandidateRow> m_rows;
    std::vector<Candidate> m_figures;
    std::optional<Change> m_ghost;
};

}  // namespace ohmwright
