// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_pattern.h"

namespace ohmwright {

namespace {

/// Up to this size all places fit in the first cache, and a look-up is one load.
constexpr int largestTable = 96;
/// 2^64 over the golden ratio spreads neighbouring keys. Source: D. E. Knuth, The Art of Computer Programming 3, 6.4.
constexpr std::uint64_t spread = 0x9E3779B97F4A7C15U;
constexpr int firstBits = 10;

}  // namespace

EntryIndex::EntryIndex(int size) : m_size(size) {
    if (size <= largestTable) {
        m_table.assign(std::size_t(size) * std::size_t(size), -1);
    } else {
        m_cells.assign(std::size_t(1) << firstBits, Cell{0, -1});
        m_shift = 64 - firstBits;
    }
}

std::size_t EntryIndex::home(std::uint64_t key) const {
    return std::size_t((key * spread) >> m_shift);
}

int EntryIndex::find(int row, int column) const {
    const std::uint64_t key = keyOf(row, column);
    if (m_size <= largestTable) {
        return m_table[std::size_t(key)];
    }
    const std::size_t mask = m_cells.size() - 1;
    for (std::size_t at = home(key);; at = (at + 1) & mask) {
        if (m_cells[at].number < 0 || m_cells[at].key == key) {
            return m_cells[at].number;
        }
    }
}

void EntryIndex::insert(int row, int column, int number) {
    const std::uint64_t key = keyOf(row, column);
    if (m_size <= largestTable) {
        m_table[std::size_t(key)] = number;
        return;
    }
    if (2 * ++m_count > m_cells.size()) {
        grow();
    }
    place(key, number);
}

void EntryIndex::place(std::uint64_t key, int number) {
    const std::size_t mask = m_cells.size() - 1;
    std::size_t at = home(key);
    while (m_cells[at].number >= 0) {
        at = (at + 1) & mask;
    }
    m_cells[at] = {key, number};
}

void EntryIndex::grow() {
    std::vector<Cell> old(2 * m_cells.size(), Cell{0, -1});
    old.swap(m_cells);
    --m_shift;
    for (const Cell& cell : old) {
        if (cell.number >= 0) {
            place(cell.key, cell.number);
        }
    }
}

SparsePattern::SparsePattern(int size) : m_size(size), m_rows{size}, m_columns{size}, m_index(size) {
    m_slotsOfRow.resize(std::size_t(size));
}

int SparsePattern::slot(int row, int column) {
    if (row == m_size || column == m_size) {
        return 0;
    }
    if (const int existing = m_index.find(row, column); existing >= 0) {
        return existing;
    }
    const int added = int(m_rows.size());
    m_rows.push_back(row);
    m_columns.push_back(column);
    m_slotsOfRow[std::size_t(row)].push_back(added);
    m_index.insert(row, column, added);
    return added;
}

}  // namespace ohmwright
