// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mods_model.h"

#include "app/document/job_document.h"
#include "core/base/number_text.h"
#include "core/plan/edits.h"

#include <algorithm>

namespace ohmwright {

namespace {

/// The two sides of "56n → 120n"; a change without sides is named with its part: "1N4148 in series, D2".
std::pair<QString, QString> sidesOf(const Circuit& stock, const Change& change) {
    static const QString arrow = " → ";
    const QString description = QString::fromStdString(describeChange(stock, change));
    if (std::holds_alternative<Combined>(change)) {
        return {QString(), description};  // It names its parts itself, and has more sides than two.
    }
    const auto at = description.indexOf(arrow);
    if (at >= 0) {
        return {description.left(at), description.mid(at + arrow.size())};
    }
    const Part* part = findPart(stock, targetOf(change));
    return {QString(), part ? description + ", " + QString::fromStdString(part->reference) : description};
}

QString figureOf(const std::map<std::string, double>& figures, const std::string& modId) {
    const auto known = figures.find(modId);
    return known == figures.end() ? QString() : QString::fromStdString(formatFixed(known->second, 2, Sign::always));
}

bool isSameOrder(const Plan& one, const Plan& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [](const Mod& a, const Mod& b) { return a.id == b.id; });
}

}  // namespace

ModsModel::ModsModel(JobDocument& document, QObject* parent)
    : QAbstractListModel(parent), m_document(document), m_job(document.job()) {
    connect(&document, &JobDocument::jobChanged, this, &ModsModel::followJob);
}

void ModsModel::followJob() {
    if (!isSameOrder(m_job->plan, m_document.job()->plan)) {
        beginResetModel();
        m_job = m_document.job();
        endResetModel();
        return;
    }
    m_job = m_document.job();
    if (!m_job->plan.empty()) {
        emit dataChanged(index(0), index(rowCount() - 1));
    }
}

int ModsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_job->plan.size());
}

const Mod* ModsModel::modAt(const QModelIndex& index) const {
    return index.isValid() && index.row() < rowCount() ? &m_job->plan[static_cast<std::size_t>(index.row())] : nullptr;
}

QVariant ModsModel::data(const QModelIndex& index, int role) const {
    const Mod* mod = modAt(index);
    if (!mod) {
        return {};
    }
    const auto sides = [&] { return sidesOf(m_job->stock, mod->change); };
    switch (role) {
        case Qt::ToolTipRole:
        case Qt::DisplayRole:
        case Qt::EditRole:
            return QString::fromStdString(mod->name);
        case Qt::CheckStateRole:
            return mod->on ? Qt::Checked : Qt::Unchecked;
        case idRole:
            return QString::fromStdString(mod->id);
        case letterRole:
            return QString::fromStdString(mod->letter);
        case stockRole:
            return sides().first;
        case newRole:
            return sides().second;
        case effectRole:
            return figureOf(m_aloneDb, mod->id);
        case shareRole:
            return figureOf(m_shareDb, mod->id);
        case spreadRole: {
            const auto known = m_spreads.find(mod->id);
            return known != m_spreads.end() && known->second.isWithin ? tr("response within spread") : QString();
        }
        case partRole:
            return QString::fromStdString(targetOf(mod->change));
        case Qt::AccessibleTextRole: {
            const auto [stock, now] = sides();
            QStringList words{tr("Mod %1").arg(QString::fromStdString(mod->letter)), QString::fromStdString(mod->name),
                              stock.isEmpty() ? now : tr("stock %1, now %2").arg(stock, now),
                              mod->on ? tr("on") : tr("off")};
            if (const QString alone = figureOf(m_aloneDb, mod->id); !alone.isEmpty()) {
                words << tr("alone %1 dB").arg(alone);
            }
            if (const QString share = figureOf(m_shareDb, mod->id); !share.isEmpty()) {
                words << tr("share %1 dB").arg(share);
            }
            if (const auto known = m_spreads.find(mod->id); known != m_spreads.end()) {
                words << tr("response %1").arg(QString::fromStdString(known->second.sentence));
            }
            return words.join(", ");
        }
        default:
            return {};
    }
}

bool ModsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const Mod* mod = modAt(index);
    if (!mod) {
        return false;
    }
    const QString letter = QString::fromStdString(mod->letter);
    if (role == Qt::CheckStateRole) {
        const bool on = value.toInt() == Qt::Checked;
        return m_document.edit(setModOn(*m_job, mod->id, on),
                               (on ? tr("Switch mod %1 on") : tr("Switch mod %1 off")).arg(letter));
    }
    if (role == Qt::EditRole) {
        const QString name = value.toString().trimmed();
        return !name.isEmpty() && m_document.edit(renameMod(*m_job, mod->id, name.toStdString()),
                                                  tr("Rename mod %1 to %2").arg(letter, name), JobAspect::words);
    }
    return false;
}

Qt::ItemFlags ModsModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags flags = QAbstractListModel::flags(index);
    return index.isValid() ? flags | Qt::ItemIsUserCheckable | Qt::ItemIsEditable : flags;
}

QModelIndex ModsModel::indexOfMod(const std::string& modId) const {
    const auto mod = std::find_if(m_job->plan.begin(), m_job->plan.end(),
                                  [&](const Mod& candidate) { return candidate.id == modId; });
    return mod == m_job->plan.end() ? QModelIndex() : index(static_cast<int>(mod - m_job->plan.begin()));
}

void ModsModel::showEffects(const Plan& plan, const std::vector<std::optional<double>>& aloneDb) {
    m_aloneDb.clear();
    for (std::size_t mod = 0; mod < std::min(plan.size(), aloneDb.size()); ++mod) {
        if (aloneDb[mod]) {
            m_aloneDb[plan[mod].id] = *aloneDb[mod];
        }
    }
    showColumns();
}

void ModsModel::showTogether(const TogetherAnswer& answer) {
    m_shareDb.clear();
    m_spreads.clear();
    for (const ModShare& mod : answer.shared().mods) {
        if (mod.share) {
            m_shareDb[mod.modId] = *mod.share;
        }
    }
    for (const ModSpread& spread : answer.spreads) {
        m_spreads[spread.modId] = spread;
    }
    showColumns();
}

void ModsModel::clearEffects() {
    showEffects({}, {});
}

void ModsModel::clearTogether() {
    showTogether({});
}

void ModsModel::showColumns() {
    if (rowCount() > 0) {
        emit dataChanged(index(0), index(rowCount() - 1));
    }
}

}  // namespace ohmwright
