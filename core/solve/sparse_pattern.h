/// Which entries of a sparse matrix exist, each with a slot: its place in an array of values.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace ohmwright {

/// Finds the number of an entry by row and column in constant time: a table of all places when the matrix is small,
/// open addressing otherwise.
class EntryIndex {
public:
    explicit EntryIndex(int size);

    /// The number put in at this place; -1 when there is none.
    [[nodiscard]] int find(int row, int column) const;
    /// REQUIRES: nothing has been put in at this place; number >= 0.
    void insert(int row, int column, int number);

private:
    struct Cell {
        std::uint64_t key;
        int number;
    };
    [[nodiscard]] std::uint64_t keyOf(int row, int column) const {
        return std::uint64_t(row) * std::uint64_t(m_size) + std::uint64_t(column);
    }
    [[nodiscard]] std::size_t home(std::uint64_t key) const;
    void place(std::uint64_t key, int number);
    void grow();

    int m_size;
    std::vector<int> m_table;   ///< By key; small matrices only.
    std::vector<Cell> m_cells;  ///< A power of two of them, at most half full; number -1 where free.
    int m_shift = 64;
    std::size_t m_count = 0;
};

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
    EntryIndex m_index;
};

}  // namespace ohmwright
