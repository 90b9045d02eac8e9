// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace ohmwright {

namespace {

/// A pivot may be this much smaller than its column's largest entry if it saves fill.
constexpr double pivotThreshold = 1e-3;
/// Entries that have shrunk to this share of what their column and their row held are rounding, not circuit: a column
/// of nothing else is dependent.
constexpr double vanishedShare = 1e-14;
/// Multipliers beyond this have lost too many digits for the chosen order.
constexpr double largestMultiplier = 1e7;

}  // namespace

SparsePattern::SparsePattern(int size) : m_size(size), m_rows{size}, m_columns{size} {
    m_slotsOfRow.resize(std::size_t(size));
}

int SparsePattern::slot(int row, int column) {
    if (row == m_size || column == m_size) {
        return 0;
    }
    auto& slots = m_slotsOfRow[std::size_t(row)];
    for (const int existing : slots) {
        if (m_columns[std::size_t(existing)] == column) {
            return existing;
        }
    }
    m_rows.push_back(row);
    m_columns.push_back(column);
    slots.push_back(int(m_rows.size()) - 1);
    return slots.back();
}

template <class Scalar>
int SparseLu<Scalar>::analyse(const SparsePattern& pattern, const std::vector<Scalar>& values) {
    m_size = std::size_t(pattern.size());
    std::vector<std::map<int, Scalar>> rows(m_size);
    std::vector<std::set<int>> rowsOfColumn(m_size);
    std::vector<double> columnScale(m_size, 0.0);
    std::vector<double> rowScale(m_size, 0.0);
    for (std::size_t slot = 1; slot < pattern.valueCount(); ++slot) {
        const auto row = std::size_t(pattern.rowOf(slot));
        const auto column = std::size_t(pattern.columnOf(slot));
        rows[row][int(column)] = values[slot];
        rowsOfColumn[column].insert(int(row));
        columnScale[column] = std::max(columnScale[column], std::abs(values[slot]));
        rowScale[row] = std::max(rowScale[row], std::abs(values[slot]));
    }

    std::vector<std::vector<int>> upperColumns(m_size), lowerRows(m_size);
    m_rowOfStep.assign(m_size, -1);
    m_columnOfStep.assign(m_size, -1);
    std::vector<bool> columnDone(m_size, false);

    for (std::size_t step = 0; step < m_size; ++step) {
        // The usable entry that fills least; ties go to the larger entry.
        std::size_t bestCount = std::numeric_limits<std::size_t>::max();
        double bestShare = 0.0;
        int pivotRow = -1;
        int pivotColumn = -1;
        int emptiest = -1;
        for (std::size_t column = 0; column < m_size; ++column) {
            if (columnDone[column]) {
                continue;
            }
            const auto& candidates = rowsOfColumn[column];
            if (candidates.empty()) {
                m_diagonal.clear();
                return int(column);
            }
            if (pivotRow >= 0 && candidates.size() - 1 > bestCount) {
                continue;
            }
            double largest = 0.0;
            bool vanished = true;
            for (const int row : candidates) {
                const double entry = std::abs(rows[std::size_t(row)].at(int(column)));
                largest = std::max(largest, entry);
                // A row of small entries throughout, as of a lifted leg, is small without being rounding.
                vanished =
                    vanished && !(entry > vanishedShare * std::min(columnScale[column], rowScale[std::size_t(row)]));
            }
            if (vanished) {
                emptiest = int(column);
                continue;
            }
            for (const int row : candidates) {
                const double share = std::abs(rows[std::size_t(row)].at(int(column))) / largest;
                if (share < pivotThreshold) {
                    continue;
                }
                const std::size_t count = (rows[std::size_t(row)].size() - 1) * (candidates.size() - 1);
                if (count < bestCount || (count == bestCount && share > bestShare)) {
                    bestCount = count;
                    bestShare = share;
                    pivotRow = row;
                    pivotColumn = int(column);
                }
            }
        }
        if (pivotRow < 0) {
            m_diagonal.clear();
            return emptiest;
        }

        m_rowOfStep[step] = pivotRow;
        m_columnOfStep[step] = pivotColumn;
        columnDone[std::size_t(pivotColumn)] = true;
        const auto pivotEntries = rows[std::size_t(pivotRow)];
        const Scalar pivot = pivotEntries.at(pivotColumn);
        for (const auto& [column, value] : pivotEntries) {
            rowsOfColumn[std::size_t(column)].erase(pivotRow);
            if (column != pivotColumn) {
                upperColumns[step].push_back(column);
            }
        }
        for (const int row : rowsOfColumn[std::size_t(pivotColumn)]) {
            lowerRows[step].push_back(row);
            auto& target = rows[std::size_t(row)];
            const Scalar multiplier = target.at(pivotColumn) / pivot;
            target.erase(pivotColumn);
            for (const int column : upperColumns[step]) {
                target[column] -= multiplier * pivotEntries.at(column);
                rowsOfColumn[std::size_t(column)].insert(row);
            }
        }
    }

    layOut(upperColumns, lowerRows);
    m_positionOfSlot.assign(pattern.valueCount(), -1);
    std::vector<int> stepOfRow(m_size), stepOfColumn(m_size);
    for (std::size_t step = 0; step < m_size; ++step) {
        stepOfRow[std::size_t(m_rowOfStep[step])] = int(step);
        stepOfColumn[std::size_t(m_columnOfStep[step])] = int(step);
    }
    for (std::size_t slot = 1; slot < pattern.valueCount(); ++slot) {
        const int row = stepOfRow[std::size_t(pattern.rowOf(slot))];
        const int column = stepOfColumn[std::size_t(pattern.columnOf(slot))];
        if (row == column) {
            m_positionOfSlot[slot] = m_diagonal[std::size_t(row)];
            continue;
        }
        const bool isUpper = row < column;
        const auto& entries = isUpper ? m_upper : m_lower;
        const auto& start = isUpper ? m_upperStart : m_lowerStart;
        const auto line = std::size_t(isUpper ? row : column);
        for (std::size_t at = start[line]; at < start[line + 1]; ++at) {
            if (entries[at].index == (isUpper ? column : row)) {
                m_positionOfSlot[slot] = entries[at].position;
            }
        }
    }
    return -1;
}

/// Numbers every entry of L, U and the diagonal, and lists what each elimination step updates.
template <class Scalar>
void SparseLu<Scalar>::layOut(const std::vector<std::vector<int>>& upperColumns,
                              const std::vector<std::vector<int>>& lowerRows) {
    std::vector<int> stepOfRow(m_size), stepOfColumn(m_size);
    for (std::size_t step = 0; step < m_size; ++step) {
        stepOfRow[std::size_t(m_rowOfStep[step])] = int(step);
        stepOfColumn[std::size_t(m_columnOfStep[step])] = int(step);
    }
    int positions = 0;
    m_diagonal.resize(m_size);
    m_upper.clear();
    m_lower.clear();
    m_upperStart.assign(1, 0);
    m_lowerStart.assign(1, 0);
    std::vector<std::map<int, int>> positionOf(m_size);  // by row step, then column step
    for (std::size_t step = 0; step < m_size; ++step) {
        m_diagonal[step] = positions;
        positionOf[step][int(step)] = positions++;
        for (const int column : upperColumns[step]) {
            const int at = stepOfColumn[std::size_t(column)];
            positionOf[step][at] = positions;
            m_upper.push_back({positions++, at});
        }
        m_upperStart.push_back(m_upper.size());
        for (const int row : lowerRows[step]) {
            const int at = stepOfRow[std::size_t(row)];
            positionOf[std::size_t(at)][int(step)] = positions;
            m_lower.push_back({positions++, at});
        }
        m_lowerStart.push_back(m_lower.size());
    }
    m_targets.clear();
    for (std::size_t step = 0; step < m_size; ++step) {
        for (std::size_t l = m_lowerStart[step]; l < m_lowerStart[step + 1]; ++l) {
            for (std::size_t u = m_upperStart[step]; u < m_upperStart[step + 1]; ++u) {
                m_targets.push_back(positionOf[std::size_t(m_lower[l].index)].at(m_upper[u].index));
            }
        }
    }
    m_lu.assign(std::size_t(positions), Scalar{});
    m_inversePivots.assign(m_size, Scalar{});
}

template <class Scalar>
bool SparseLu<Scalar>::factor(const std::vector<Scalar>& values) {
    if (!isAnalysed()) {
        return false;
    }
    std::fill(m_lu.begin(), m_lu.end(), Scalar{});
    for (std::size_t slot = 1; slot < m_positionOfSlot.size(); ++slot) {
        m_lu[std::size_t(m_positionOfSlot[slot])] = values[slot];
    }
    double growth = 0.0;
    const int* target = m_targets.data();
    for (std::size_t step = 0; step < m_size; ++step) {
        const Scalar pivot = m_lu[std::size_t(m_diagonal[step])];
        if (pivot == Scalar{}) {
            return false;
        }
        const Scalar inverse = Scalar(1.0) / pivot;
        m_inversePivots[step] = inverse;
        const std::size_t upperEnd = m_upperStart[step + 1];
        for (std::size_t l = m_lowerStart[step]; l < m_lowerStart[step + 1]; ++l) {
            Scalar& multiplier = m_lu[std::size_t(m_lower[l].position)];
            multiplier *= inverse;
            growth = std::max(growth, std::abs(std::real(multiplier)));
            for (std::size_t u = m_upperStart[step]; u < upperEnd; ++u) {
                m_lu[std::size_t(*target++)] -= multiplier * m_lu[std::size_t(m_upper[u].position)];
            }
        }
    }
    return growth < largestMultiplier;
}

template <class Scalar>
void SparseLu<Scalar>::solve(std::vector<Scalar>& rightHandSide) {
    solveMany(rightHandSide, 1);
}

template <class Scalar>
void SparseLu<Scalar>::solveMany(std::vector<Scalar>& rightHandSides, std::size_t count) {
    m_scratch.resize(m_size * count);
    for (std::size_t step = 0; step < m_size; ++step) {
        const auto from = std::size_t(m_rowOfStep[step]) * count;
        std::copy_n(rightHandSides.begin() + std::ptrdiff_t(from), count,
                    m_scratch.begin() + std::ptrdiff_t(step * count));
    }
    for (std::size_t step = 0; step < m_size; ++step) {
        const Scalar* source = &m_scratch[step * count];
        for (std::size_t l = m_lowerStart[step]; l < m_lowerStart[step + 1]; ++l) {
            const Scalar multiplier = m_lu[std::size_t(m_lower[l].position)];
            Scalar* goal = &m_scratch[std::size_t(m_lower[l].index) * count];
            for (std::size_t k = 0; k < count; ++k) {
                goal[k] -= multiplier * source[k];
            }
        }
    }
    for (std::size_t step = m_size; step-- > 0;) {
        Scalar* goal = &m_scratch[step * count];
        for (std::size_t u = m_upperStart[step]; u < m_upperStart[step + 1]; ++u) {
            const Scalar multiplier = m_lu[std::size_t(m_upper[u].position)];
            const Scalar* source = &m_scratch[std::size_t(m_upper[u].index) * count];
            for (std::size_t k = 0; k < count; ++k) {
                goal[k] -= multiplier * source[k];
            }
        }
        for (std::size_t k = 0; k < count; ++k) {
            goal[k] *= m_inversePivots[step];
        }
    }
    for (std::size_t step = 0; step < m_size; ++step) {
        const auto to = std::size_t(m_columnOfStep[step]) * count;
        std::copy_n(m_scratch.begin() + std::ptrdiff_t(step * count), count,
                    rightHandSides.begin() + std::ptrdiff_t(to));
    }
    std::fill_n(rightHandSides.begin() + std::ptrdiff_t(m_size * count), count, Scalar{});
}

template class SparseLu<double>;
template class SparseLu<std::complex<double>>;

}  // namespace ohmwright
