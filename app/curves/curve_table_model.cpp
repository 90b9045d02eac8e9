// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_table_model.h"

#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/number_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// So many decimals that a value of this size has `digits` significant ones.
int decimalsOf(double size, int digits) {
    constexpr int most = 6;
    return size > 0.0 ? std::clamp(digits - 1 - static_cast<int>(std::floor(std::log10(size))), 0, most) : digits - 1;
}

/// What a column's values share: volts with no signal as the meter shows them, else three digits of the largest.
int decimalsOf(const CurveColumn& column) {
    constexpr int meterDecimals = 2;
    constexpr int digits = 3;
    double largest = 0.0;
    for (const double value : column.values) {
        largest = std::isfinite(value) ? std::max(largest, std::abs(value)) : largest;
    }
    return column.id.find("bias_v") != std::string::npos ? meterDecimals : decimalsOf(largest, digits);
}

/// What is not there is said.
QString valueWords(const CurveColumn& column, double value, bool isAxis) {
    if (!std::isfinite(value)) {
        return CurveTableModel::tr("none");
    }
    // Along the axis each value has digits of its own: 20.5 Hz and 4.41 us are as near to the next as 20 kHz is.
    constexpr int axisDigits = 4;
    const int decimals = isAxis ? decimalsOf(std::abs(value), axisDigits) : decimalsOf(column);
    const Sign sign = column.id.rfind("change", 0) == 0 ? Sign::always : Sign::minusOnly;
    return text(formatFixed(value, decimals, sign));
}

}  // namespace

void CurveTableModel::setTable(CurveTable table) {
    beginResetModel();
    m_table = std::move(table);
    endResetModel();
}

int CurveTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_table.rowCount());
}

int CurveTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_table.columns.size()) + (hasNames() ? 1 : 0);
}

QVariant CurveTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};  // A view asks for what is chosen, also where nothing is.
    }
    const auto row = static_cast<std::size_t>(index.row());
    const int column = index.column() - (hasNames() ? 1 : 0);
    if (role == Qt::TextAlignmentRole) {
        return QVariant(column < 0 ? Qt::AlignLeft | Qt::AlignVCenter : Qt::AlignRight | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    if (column < 0) {
        return text(m_table.rows[row]);
    }
    const CurveColumn& values = m_table.columns[static_cast<std::size_t>(column)];
    return valueWords(values, values.values[row], column == 0 && !hasNames());
}

QVariant CurveTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole || orientation != Qt::Horizontal) {
        return {};
    }
    const int column = section - (hasNames() ? 1 : 0);
    if (column < 0) {
        return tr("net");
    }
    const CurveColumn& values = m_table.columns[static_cast<std::size_t>(column)];
    // Name, state and unit below each other: three columns of a quantity stand side by side in a narrow pane.
    QStringList lines = saidText(values.name).split(", ");
    if (!values.unit.empty()) {
        lines << saidText(values.unit);
    }
    return lines.join('\n');
}

}  // namespace ohmwright
