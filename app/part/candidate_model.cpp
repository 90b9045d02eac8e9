// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/candidate_model.h"

#include "app/part/value_steps.h"
#include "core/base/number_text.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

int CandidateModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

const CandidateRow* CandidateModel::rowAt(const QModelIndex& index) const {
    return index.isValid() && index.row() < rowCount() ? &m_rows[static_cast<std::size_t>(index.row())] : nullptr;
}

const Candidate* CandidateModel::figuresOf(const CandidateRow& row) const {
    const auto* swap = std::get_if<SwapValue>(&row.change);
    const auto found = std::find_if(m_figures.begin(), m_figures.end(), [swap](const Candidate& candidate) {
        return swap && isSameValue(candidate.value, swap->value);
    });
    return found == m_figures.end() ? nullptr : &*found;
}

QString CandidateModel::tagOf(const CandidateRow& row) const {
    if (row.isNow) {
        return tr("now");
    }
    if (m_ghost && *m_ghost == row.change) {
        return tr("ghost");
    }
    return row.isStock ? tr("stock") : QString();
}

QVariant CandidateModel::data(const QModelIndex& index, int role) const {
    const CandidateRow* row = rowAt(index);
    if (!row) {
        return {};
    }
    const Candidate* figures = figuresOf(*row);
    switch (role) {
        case Qt::DisplayRole:
            return row->name;
        case Qt::ToolTipRole:
            return figures ? QString::fromStdString(figures->error) : QString();
        case Qt::AccessibleTextRole: {
            QStringList words{row->name, tagOf(*row)};
            const QString change = index.data(changeRole).toString();
            words << (change.isEmpty() ? change : change + " dB");
            const QString have = index.data(haveRole).toString();
            words << (have.isEmpty() ? have : tr("%1 in the drawer").arg(have));
            words.removeAll(QString());
            return words.join(", ");
        }
        case tagRole:
            return tagOf(*row);
        case cornerRole:
            return figures && figures->cornerTagHz ? QString::fromStdString(formatFigure(*figures->cornerTagHz))
                                                   : QString();
        case changeRole:
            return figures && figures->changeAtCursorDb
                       ? QString::fromStdString(formatFixed(*figures->changeAtCursorDb, 2, Sign::always))
                       : QString();
        case haveRole:
            return !row->left ? QString() : *row->left > 0 ? QString::number(*row->left) : tr("none");
        case usedUpRole:
            return row->left == 0;
        case nowRole:
            return row->isNow;
        case ghostRole:
            return m_ghost && *m_ghost == row->change;
        default:
            return {};
    }
}

void CandidateModel::setRows(std::vector<CandidateRow> rows) {
    const bool isSameList =
        rows.size() == m_rows.size() && std::equal(rows.begin(), rows.end(), m_rows.begin(),
                                                   [](const auto& a, const auto& b) { return a.change == b.change; });
    if (isSameList) {
        // The same values with another of them fitted: the keyboard's row stays.
        m_rows = std::move(rows);
        announceAll();
        return;
    }
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
}

void CandidateModel::setFigures(std::vector<Candidate> figures) {
    m_figures = std::move(figures);
    announceAll();
}

bool CandidateModel::isCounted() const {
    return std::any_of(m_rows.begin(), m_rows.end(), [](const CandidateRow& row) { return row.left.has_value(); });
}

bool CandidateModel::hasCorners() const {
    return std::any_of(m_figures.begin(), m_figures.end(),
                       [](const Candidate& candidate) { return candidate.cornerTagHz.has_value(); });
}

void CandidateModel::setGhost(const std::optional<Change>& ghost) {
    m_ghost = ghost;
    announceAll();
}

void CandidateModel::announceAll() {
    if (!m_rows.empty()) {
        emit dataChanged(index(0), index(rowCount() - 1));
    }
}

}  // namespace ohmwright
