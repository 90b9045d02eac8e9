/// The mods list as a model: one row a mod of the plan, in the order of fitting.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/consequences.h"

#include <QAbstractListModel>
#include <QString>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

class JobDocument;

/// Reads the document and edits it: Qt::CheckStateRole switches a mod, Qt::EditRole renames it.
class ModsModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role {
        idRole = Qt::UserRole,
        letterRole,  ///< "A"
        stockRole,   ///< "56n": what leaves the unit; empty when nothing does.
        newRole,     ///< "120n": what takes its place; with an empty stockRole the whole change in words.
        effectRole,  ///< "+2.08": change of output level alone, in dB; empty while unknown.
        shareRole,   ///< "+2.67": its fair share of what the mods do together, in dB; empty where it has none.
        spreadRole,  ///< "response within spread" where no copy of the unit is told from another by it; else empty.
        partRole,    ///< Id of the part the change is made on.
    };

    explicit ModsModel(JobDocument& document, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

    [[nodiscard]] QModelIndex indexOfMod(const std::string& modId) const;

    /// The change of output level of each mod of `plan` alone [dB], in its order.
    void showEffects(const Plan& plan, const std::vector<std::optional<double>>& aloneDb);
    /// Shares and spread marks of the plan, by the mods' ids.
    void showTogether(const TogetherAnswer& answer);
    /// Nothing is known (any more).
    void clearEffects();
    void clearTogether();

private:
    void followJob();
    [[nodiscard]] const Mod* modAt(const QModelIndex& index) const;
    void showColumns();

    JobDocument& m_document;
    std::shared_ptr<const Job> m_job;
    std::map<std::string, double> m_aloneDb;
    std::map<std::string, double> m_shareDb;
    std::map<std::string, ModSpread> m_spreads;
};

}  // namespace ohmwright
