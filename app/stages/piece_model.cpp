// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/piece_model.h"

#include <QStringList>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

QString knobWords(const StagePiece& piece) {
    QStringList names;
    for (const Knob& knob : piece.circuit.knobs) {
        names << QString::fromStdString(knob.name);
    }
    return names.join(", ");
}

QString nameOf(const ShelfStage& stage) {
    return QString::fromStdString(stage.piece ? stage.piece->name : stage.id);
}

/// "Soft clip, op-amp with diodes ..., knobs: Drive": what is read out.
QString wholeWords(const ShelfStage& stage) {
    const QString words = nameOf(stage) + ", " + QString::fromStdString(stage.piece ? stage.piece->does : stage.fault);
    const bool hasKnobs = stage.piece && !stage.piece->circuit.knobs.empty();
    return hasKnobs ? QObject::tr("%1, knobs: %2").arg(words, knobWords(*stage.piece)) : words;
}

}  // namespace

void PieceModel::setPieces(std::vector<ShelfStage> pieces) {
    beginResetModel();
    m_pieces = std::move(pieces);
    endResetModel();
}

int PieceModel::insert(int row, const ShelfStage& piece) {
    const int at = std::clamp(row, 0, rowCount());
    beginInsertRows({}, at, at);
    m_pieces.insert(m_pieces.begin() + at, piece);
    endInsertRows();
    return at;
}

void PieceModel::remove(int row) {
    if (row < 0 || row >= rowCount()) {
        return;
    }
    beginRemoveRows({}, row, row);
    m_pieces.erase(m_pieces.begin() + row);
    endRemoveRows();
}

int PieceModel::move(int row, int step) {
    const int to = row + step;
    if (row < 0 || row >= rowCount() || to < 0 || to >= rowCount()) {
        return row;
    }
    // The view counts the place before the move is made.
    beginMoveRows({}, row, row, {}, step > 0 ? to + 1 : to);
    std::swap(m_pieces[static_cast<std::size_t>(row)], m_pieces[static_cast<std::size_t>(to)]);
    endMoveRows();
    return to;
}

int PieceModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_pieces.size());
}

QVariant PieceModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const ShelfStage& stage = m_pieces[static_cast<std::size_t>(index.row())];
    switch (role) {
        case Qt::DisplayRole:
            return nameOf(stage);
        case Qt::AccessibleTextRole:
            return wholeWords(stage);
        case doesRole:
            return QString::fromStdString(stage.piece ? stage.piece->does : stage.fault);
        case knobsRole:
            return stage.piece ? knobWords(*stage.piece) : QString();
        case faultRole:
            return QString::fromStdString(stage.fault);
        default:
            return {};
    }
}

}  // namespace ohmwright
