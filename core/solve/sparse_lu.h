/// The one kernel of every analysis: LU of a small sparse matrix whose pattern is fixed.
///
/// The pattern and the pivot order are found once per circuit and kind of analysis; after that a
/// factorisation is a walk along flat index lists. Values live in an array by slot, so that stamps are
/// additions to known places. Not thread-safe; copy it for another thread.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <vector>

namespace ohmwright {

/// Which entries of a size x size matrix exist. Row or column `size` stands for ground: its entries
/// all share one slot that is never read, so that stamps need no branches.
class SparsePattern {
public:
    explicit SparsePattern(int size);

    /// The slot of an entry, added when new. Slots stay valid for good.
    int slot(int row, int column);

    [[nodiscard]] int size() const { return m_size; }
    /// Length of a value array: all slots and the ground's, which is slot 0.
    [[nodiscard]] std::size_t valueCount() const { return m_rows.size(); }
    [[nodiscard]] int rowOf(std::size_t slot) const { return m_rows[slot]; }
    [[nodiscard]] int columnOf(std::size_t slot) const { return m_columns[slot]; }
    [[nodiscard]] const std::vector<int>& slotsOfRow(int row) const { return m_slotsOfRow[std::size_t(row)]; }

private:
    int m_size;
    std::vector<int> m_rows, m_columns;
    std::vector<std::vector<int>> m_slotsOfRow;
};

template <class Scalar>
class SparseLu {
public:
    /// Chooses pivots by least fill (Markowitz count) among entries of at least a thousandth of their column's
    /// largest, and lays out the elimination.
    /// @param values  representative for this kind of analysis; with non-linear devices switched off.
    /// @return -1, or the column (unknown) at which no usable pivot was left: the matrix is singular there.
    /// Source: H. M. Markowitz, Management Science 3 (1957) 255.
    int analyse(const SparsePattern& pattern, const std::vector<Scalar>& values);

    /// @return false when there is no order yet, a pivot vanished or multipliers grew past 1e7: analyse with these
    /// values.
    bool factor(const std::vector<Scalar>& values);

    /// Replaces b by x of A x = b. Length `size + 1`; the last entry (ground) becomes 0.
    void solve(std::vector<Scalar>& rightHandSide);

    /// `count` right-hand sides at once, stored row by row (row r at r * count); size + 1 rows.
    void solveMany(std::vector<Scalar>& rightHandSides, std::size_t count);

    [[nodiscard]] bool isAnalysed() const { return !m_diagonal.empty(); }

private:
    struct Entry {
        int position;  ///< In m_lu.
        int index;     ///< Elimination step of its row (L) or column (U).
    };
    void layOut(const std::vector<std::vector<int>>& upperColumns, const std::vector<std::vector<int>>& lowerRows);

    std::size_t m_size = 0;
    std::vector<int> m_rowOfStep, m_columnOfStep;
    std::vector<int> m_positionOfSlot;  ///< Value slot -> position in m_lu; -1 for ground.
    std::vector<int> m_diagonal;
    std::vector<Entry> m_lower, m_upper;  ///< Column by column, row by row.
    std::vector<std::size_t> m_lowerStart, m_upperStart;
    std::vector<int> m_targets;  ///< Positions that each elimination updates, in order.
    std::vector<Scalar> m_lu, m_inversePivots, m_scratch;
};

extern template class SparseLu<double>;
extern template class SparseLu<std::complex<double>>;

}  // namespace ohmwright
