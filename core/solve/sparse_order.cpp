// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_order.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright {

namespace {

/// A pivot may be this much smaller than its column's largest entry if it saves fill.
constexpr double pivotThreshold = 1e-3;
/// Where entries are weighed against their rows: one this much smaller than its column's largest is no pivot, however
/// little its row holds; multipliers stay under what the kernels take (sparse_kernels.h).
constexpr double leastPivotSize = 1e-6;
/// Entries that have shrunk to this share of what their column and their row held are rounding, not circuit: a column
/// of nothing else is dependent.
constexpr double vanishedShare = 1e-14;
/// Once there is a candidate, this many lines are looked at for a better one.
constexpr int mostLines = 16;

/// Size of a number without the root of a complex absolute value: at most 1.42 times that.
double magnitude(double value) {
    return std::abs(value);
}
double magnitude(std::complex<double> value) {
    return std::abs(value.real()) + std::abs(value.imag());
}

/// Rows or columns by their count of entries: doubly linked lists, so that a line moves in constant time.
class Buckets {
public:
    explicit Buckets(std::size_t size)
        : m_first(size + 1, -1), m_next(size, -1), m_previous(size, -1), m_at(size, -1) {}

    [[nodiscard]] int first(std::size_t count) const { return m_first[count]; }
    [[nodiscard]] int next(int line) const { return m_next[std::size_t(line)]; }
    [[nodiscard]] std::size_t mostCount() const { return m_first.size() - 1; }

    void put(int line, int count) {
        const auto at = std::size_t(line);
        if (m_at[at] == count) {
            return;
        }
        remove(line);
        int& head = m_first[std::size_t(count)];
        m_at[at] = count;
        m_next[at] = head;
        m_previous[at] = -1;
        if (head >= 0) {
            m_previous[std::size_t(head)] = line;
        }
        head = line;
    }

    void remove(int line) {
        const auto at = std::size_t(line);
        if (m_at[at] < 0) {
            return;
        }
        const int next = m_next[at];
        const int previous = m_previous[at];
        (previous >= 0 ? m_next[std::size_t(previous)] : m_first[std::size_t(m_at[at])]) = next;
        if (next >= 0) {
            m_previous[std::size_t(next)] = previous;
        }
        m_at[at] = -1;
    }

private:
    std::vector<int> m_first, m_next, m_previous;
    std::vector<int> m_at;  ///< The bucket a line lies in; -1 for none.
};

/// Eliminates symbolically and in numbers at once, writing the order as it goes.
template <class Scalar>
class Elimination {
public:
    Elimination(const SparsePattern& pattern, const std::vector<Scalar>& values, const std::vector<char>& lateRows,
                const std::vector<char>& lateColumns)
        : m_size(std::size_t(pattern.size())),
          m_slots(pattern.valueCount()),
          m_index(pattern.size()),
          m_rows(m_size),
          m_columns(m_size),
          m_rowBuckets(m_size),
          m_columnBuckets(m_size),
          m_weighRows(!lateRows.empty()),
          m_order(std::make_shared<EliminationOrder>()) {
        m_order->size = m_size;
        m_order->start.reserve(m_size + 1);
        m_order->lower.reserve(m_size);
        m_order->rowOfStep.reserve(m_size);
        m_order->columnOfStep.reserve(m_size);
        const std::size_t slots = m_slots;
        m_entries.reserve(2 * slots);
        m_across.reserve(2 * slots);
        m_changes.reserve(2 * slots);
        for (std::size_t slot = 1; slot < slots; ++slot) {
            const int row = pattern.rowOf(slot);
            const int column = pattern.columnOf(slot);
            add(row, column, values[slot]);
            const double size = magnitude(values[slot]);
            m_rows[std::size_t(row)].scale = std::max(m_rows[std::size_t(row)].scale, size);
            m_columns[std::size_t(column)].scale = std::max(m_columns[std::size_t(column)].scale, size);
        }
        for (std::size_t line = 0; line < lateRows.size(); ++line) {
            m_rows[line].late = lateRows[line] != 0;
            m_columns[line].late = lateColumns[line] != 0;
        }
    }

    ChosenOrder run() {
        for (std::size_t column = 0; column < m_size; ++column) {
            if (m_columns[column].count == 0) {
                return {nullptr, int(column)};
            }
        }
        fillBuckets();
        while (m_order->rowOfStep.size() < m_size) {
            const int pivot = findPivot();
            if (pivot < 0 && m_early) {
                m_order->earlySteps = m_order->rowOfStep.size();
                m_early = false;
                stopWeighingRows();
                fillBuckets();
                continue;
            }
            if (pivot < 0) {
                return {nullptr, vanishedColumn()};
            }
            if (const int emptied = eliminate(pivot); emptied >= 0) {
                return {nullptr, emptied};
            }
        }
        if (m_early) {
            m_order->earlySteps = m_size;
        }
        finish();
        return {m_order, -1};
    }

private:
    struct Entry {
        int row, column;
        int nextInRow, previousInRow, nextInColumn, previousInColumn;
        int position;
        Scalar value;
    };
    struct Line {
        int first = -1;
        int count = 0;
        double scale = 0.0;      ///< Largest entry as given.
        double heaviest = -1.0;  ///< Columns: largest weight left; 0 when all vanished; below 0 when not known.
        double leastSize = 0.0;  ///< Columns: of a pivot.
        bool late = false;
        bool done = false;
    };

    [[nodiscard]] Entry& entry(int id) { return m_entries[std::size_t(id)]; }
    [[nodiscard]] Line& row(int id) { return m_rows[std::size_t(id)]; }
    [[nodiscard]] Line& column(int id) { return m_columns[std::size_t(id)]; }

    int add(int atRow, int atColumn, Scalar value) {
        const int id = int(m_entries.size());
        Line& inRow = row(atRow);
        Line& inColumn = column(atColumn);
        m_entries.push_back({atRow, atColumn, inRow.first, -1, inColumn.first, -1, -1, value});
        if (inRow.first >= 0) {
            entry(inRow.first).previousInRow = id;
        }
        if (inColumn.first >= 0) {
            entry(inColumn.first).previousInColumn = id;
        }
        inRow.first = id;
        inColumn.first = id;
        ++inRow.count;
        ++inColumn.count;
        m_index.insert(atRow, atColumn, id);
        return id;
    }

    void takeOutOfRow(const Entry& e) {
        (e.previousInRow >= 0 ? entry(e.previousInRow).nextInRow : row(e.row).first) = e.nextInRow;
        if (e.nextInRow >= 0) {
            entry(e.nextInRow).previousInRow = e.previousInRow;
        }
        --row(e.row).count;
    }

    void takeOutOfColumn(const Entry& e) {
        (e.previousInColumn >= 0 ? entry(e.previousInColumn).nextInColumn : column(e.column).first) = e.nextInColumn;
        if (e.nextInColumn >= 0) {
            entry(e.nextInColumn).previousInColumn = e.previousInColumn;
        }
        --column(e.column).count;
    }

    void stopWeighingRows() {
        m_weighRows = false;
        for (Line& line : m_columns) {
            line.heaviest = -1.0;
        }
    }

    [[nodiscard]] bool open(const Line& line) const { return !line.done && !(m_early && line.late); }

    void fillBuckets() {
        for (std::size_t line = m_size; line-- > 0;) {
            if (open(m_rows[line]) && m_rows[line].count > 0) {
                m_rowBuckets.put(int(line), m_rows[line].count);
            }
            if (open(m_columns[line])) {
                m_columnBuckets.put(int(line), m_columns[line].count);
            }
        }
    }

    /// What an entry weighs as a pivot: its size, or, where the numbers will stay as they are, its share of the row.
    /// Rows are currents at one node and voltages at another: siemens beside a ratio tell nothing, and an op-amp's
    /// input resistance passed over for its gain leaves picoamperes at every step.
    double weight(const Entry& e) { return m_weighRows ? magnitude(e.value) / row(e.row).scale : magnitude(e.value); }

    /// The largest weight in a column, or 0 when nothing but rounding is left.
    double heaviestIn(Line& line) {
        if (line.heaviest >= 0.0) {
            return line.heaviest;
        }
        double largest = 0.0;
        bool vanished = true;
        for (int id = line.first; id >= 0; id = entry(id).nextInColumn) {
            const Entry& e = entry(id);
            const double size = magnitude(e.value);
            largest = std::max(largest, size);
            // A row of small entries throughout, as of a lifted leg, is small without being rounding.
            vanished = vanished && !(size > vanishedShare * std::min(line.scale, row(e.row).scale));
        }
        line.leastSize = m_weighRows ? leastPivotSize * largest : 0.0;
        line.heaviest = vanished || m_weighRows ? 0.0 : largest;
        for (int id = line.first; id >= 0 && m_weighRows && !vanished; id = entry(id).nextInColumn) {
            if (magnitude(entry(id).value) >= line.leastSize) {
                line.heaviest = std::max(line.heaviest, weight(entry(id)));
            }
        }
        return line.heaviest;
    }

    [[nodiscard]] bool mayBePivot(const Entry& e, const Line& line) {
        return magnitude(e.value) >= line.leastSize && weight(e) >= pivotThreshold * line.heaviest;
    }

    struct Candidate {
        int entry = -1;
        std::size_t count = std::numeric_limits<std::size_t>::max();
        double share = 0.0;
    };

    /// @return false when the column has no entry that may be a pivot.
    bool lookAtColumn(int id, Candidate& best) {
        Line& line = column(id);
        const double heaviest = heaviestIn(line);
        if (heaviest == 0.0) {
            return false;
        }
        bool usable = false;
        for (int at = line.first; at >= 0; at = entry(at).nextInColumn) {
            const Entry& e = entry(at);
            const Line& across = row(e.row);
            if (!mayBePivot(e, line) || !open(across)) {
                continue;
            }
            usable = true;
            const auto count = std::size_t(across.count - 1) * std::size_t(line.count - 1);
            const double share = weight(e) / heaviest;
            if (count < best.count || (count == best.count && share > best.share)) {
                best = {at, count, share};
            }
        }
        return usable;
    }

    /// @return false when the row has no entry that may be a pivot; entries that would fill more are not judged.
    bool lookAtRow(int id, Candidate& best) {
        const Line& line = row(id);
        bool usable = false;
        for (int at = line.first; at >= 0; at = entry(at).nextInRow) {
            const Entry& e = entry(at);
            Line& down = column(e.column);
            if (!open(down)) {
                continue;
            }
            const auto count = std::size_t(line.count - 1) * std::size_t(down.count - 1);
            if (count >= best.count) {
                usable = true;
                continue;
            }
            const double heaviest = heaviestIn(down);
            if (heaviest > 0.0 && mayBePivot(e, down)) {
                usable = true;
                best = {at, count, weight(e) / heaviest};
            }
        }
        return usable;
    }

    /// The usable entry of least count. Lines that hold none leave their bucket until an elimination changes them.
    int findPivot() {
        Candidate best;
        int lines = 0;
        for (std::size_t count = 1; count <= m_columnBuckets.mostCount(); ++count) {
            if (best.entry >= 0 && best.count < (count - 1) * (count - 1)) {
                break;
            }
            for (int line = m_columnBuckets.first(count); line >= 0;) {
                const int next = m_columnBuckets.next(line);
                if (!lookAtColumn(line, best)) {
                    m_columnBuckets.remove(line);
                }
                if (best.entry >= 0 && ++lines >= mostLines) {
                    return best.entry;
                }
                line = next;
            }
            // Columns of this count are known, so what a row of it may still offer fills at least this much.
            if (best.entry >= 0 && best.count <= (count - 1) * count) {
                continue;
            }
            for (int line = m_rowBuckets.first(count); line >= 0;) {
                const int next = m_rowBuckets.next(line);
                if (!lookAtRow(line, best)) {
                    m_rowBuckets.remove(line);
                }
                if (best.entry >= 0 && ++lines >= mostLines) {
                    return best.entry;
                }
                line = next;
            }
        }
        return best.entry;
    }

    [[nodiscard]] int vanishedColumn() const {
        for (std::size_t line = m_size; line-- > 0;) {
            if (!m_columns[line].done) {
                return int(line);
            }
        }
        return -1;
    }

    /// Takes multiples of the pivot's row off the row of an entry below the pivot.
    void takeOffRow(int below, const Scalar& multiplier) {
        const int targetRow = entry(below).row;
        for (const int beside : m_beside) {
            const int targetColumn = entry(beside).column;
            const Scalar change = multiplier * entry(beside).value;
            int target = m_index.find(targetRow, targetColumn);
            if (target < 0) {
                target = add(targetRow, targetColumn, -change);
            } else {
                entry(target).value -= change;
            }
            if (row(targetRow).scale == 0.0) {
                row(targetRow).scale = magnitude(change);  // a row of zeros begins with what fills it
            }
            m_changes.push_back({target, {entry(below).position, entry(beside).position}});
        }
        if (open(row(targetRow)) && row(targetRow).count > 0) {
            m_rowBuckets.put(targetRow, row(targetRow).count);
        } else {
            m_rowBuckets.remove(targetRow);
        }
    }

    /// @return a column left without entries, or -1.
    int eliminate(int pivotId) {
        const int pivotRow = entry(pivotId).row;
        const int pivotColumn = entry(pivotId).column;
        const Scalar pivot = entry(pivotId).value;
        EliminationOrder& order = *m_order;
        order.rowOfStep.push_back(pivotRow);
        order.columnOfStep.push_back(pivotColumn);
        row(pivotRow).done = true;
        column(pivotColumn).done = true;
        m_rowBuckets.remove(pivotRow);
        m_columnBuckets.remove(pivotColumn);

        order.start.push_back(m_positions);
        entry(pivotId).position = m_positions++;
        m_beside.clear();
        m_below.clear();
        for (int id = row(pivotRow).first; id >= 0; id = entry(id).nextInRow) {
            if (id != pivotId) {
                takeOutOfColumn(entry(id));
                entry(id).position = m_positions++;
                m_beside.push_back(id);
            }
        }
        order.lower.push_back(m_positions);
        for (int id = column(pivotColumn).first; id >= 0; id = entry(id).nextInColumn) {
            if (id != pivotId) {
                takeOutOfRow(entry(id));
                entry(id).position = m_positions++;
                m_below.push_back(id);
            }
        }
        const Scalar inverse = 1.0 / pivot;
        for (const int below : m_below) {
            takeOffRow(below, entry(below).value * inverse);
        }
        int emptied = -1;
        for (const int beside : m_beside) {
            const int touched = entry(beside).column;
            Line& line = column(touched);
            line.heaviest = -1.0;
            if (line.count == 0) {
                emptied = emptied < 0 ? touched : std::min(emptied, touched);
            } else if (open(line)) {
                m_columnBuckets.put(touched, line.count);
            }
        }
        return emptied;
    }

    /// Writes the lists: entries become positions, rows and columns become steps.
    void finish() {
        EliminationOrder& order = *m_order;
        order.start.push_back(m_positions);
        order.positionOfSlot.resize(m_slots);
        order.positionOfSlot[0] = m_positions;
        order.slotOfPosition.assign(std::size_t(m_positions), -1);
        for (std::size_t slot = 1; slot < m_slots; ++slot) {
            const int position = m_entries[slot - 1].position;
            order.positionOfSlot[slot] = position;
            order.slotOfPosition[std::size_t(position)] = int(slot);
        }
        listProducts();
        listPlaces();
    }

    /// Sorts the products by the entry they change, keeping their order in time.
    void listProducts() {
        EliminationOrder& order = *m_order;
        const int firstLatePosition = order.start[order.earlySteps];
        order.firstProduct.assign(std::size_t(m_positions) + 1, 0);
        order.firstLateProduct.assign(std::size_t(m_positions), 0);
        for (const Change& change : m_changes) {
            const auto position = std::size_t(entry(change.target).position);
            ++order.firstProduct[position + 1];
            order.firstLateProduct[position] += change.product.lower < firstLatePosition ? 1 : 0;
        }
        m_across.assign(std::size_t(m_positions), 0);
        for (std::size_t position = 0; position < std::size_t(m_positions); ++position) {
            m_across[position] = order.firstProduct[position];
            order.firstLateProduct[position] += order.firstProduct[position];
            order.firstProduct[position + 1] += order.firstProduct[position];
        }
        order.products.resize(m_changes.size());
        for (const Change& change : m_changes) {
            int& next = m_across[std::size_t(entry(change.target).position)];
            order.products[std::size_t(next++)] = change.product;
        }
    }

    /// Rows and columns of both factors, each in the order of steps.
    void listPlaces() {
        EliminationOrder& order = *m_order;
        std::vector<int> stepOfRow(m_size), stepOfColumn(m_size);
        for (std::size_t step = 0; step < m_size; ++step) {
            stepOfRow[std::size_t(order.rowOfStep[step])] = int(step);
            stepOfColumn[std::size_t(order.columnOfStep[step])] = int(step);
        }
        m_across.assign(std::size_t(m_positions), 0);
        for (const Entry& e : m_entries) {
            const int inRow = stepOfRow[std::size_t(e.row)];
            const int inColumn = stepOfColumn[std::size_t(e.column)];
            m_across[std::size_t(e.position)] = std::max(inRow, inColumn);
        }
        const auto upperEnd = [&](std::size_t step) { return order.lower[step]; };
        const auto upperBegin = [&](std::size_t step) { return order.start[step] + 1; };
        const auto lowerEnd = [&](std::size_t step) { return order.start[step + 1]; };
        listAlong(upperBegin, upperEnd, order.upperRows);
        listAcross(upperBegin, upperEnd, order.upperColumns);
        listAlong(upperEnd, lowerEnd, order.lowerColumns);
        listAcross(upperEnd, lowerEnd, order.lowerRows);

        order.firstLateOfRow.resize(m_size);
        for (std::size_t step = 0; step < m_size; ++step) {
            int at = order.lowerRows.first[step];
            while (at < order.lowerRows.first[step + 1] &&
                   std::size_t(order.lowerRows.places[std::size_t(at)].step) < order.earlySteps) {
                ++at;
            }
            order.firstLateOfRow[step] = at;
        }
    }

    /// Lines as they lie in the factors: each position with the step across, `m_across`.
    template <class Begin, class End>
    void listAlong(const Begin& begin, const End& end, PlaceLists& lists) {
        lists.first.reserve(m_size + 1);
        for (std::size_t step = 0; step < m_size; ++step) {
            lists.first.push_back(int(lists.places.size()));
            for (int position = begin(step); position < end(step); ++position) {
                lists.places.push_back({position, m_across[std::size_t(position)]});
            }
        }
        lists.first.push_back(int(lists.places.size()));
    }

    /// The same entries sorted by the step across, each with its own step.
    template <class Begin, class End>
    void listAcross(const Begin& begin, const End& end, PlaceLists& lists) {
        lists.first.assign(m_size + 2, 0);
        std::size_t count = 0;
        for (std::size_t step = 0; step < m_size; ++step) {
            for (int position = begin(step); position < end(step); ++position) {
                ++lists.first[std::size_t(m_across[std::size_t(position)]) + 2];
                ++count;
            }
        }
        for (std::size_t step = 0; step < m_size; ++step) {
            lists.first[step + 2] += lists.first[step + 1];
        }
        lists.places.resize(count);
        for (std::size_t step = 0; step < m_size; ++step) {
            for (int position = begin(step); position < end(step); ++position) {
                int& next = lists.first[std::size_t(m_across[std::size_t(position)]) + 1];
                lists.places[std::size_t(next++)] = {position, int(step)};
            }
        }
        lists.first.pop_back();
    }

    struct Change {
        int target;  ///< Entry.
        Product product;
    };

    std::size_t m_size;
    std::size_t m_slots;
    std::vector<Entry> m_entries;
    EntryIndex m_index;
    std::vector<Line> m_rows, m_columns;
    Buckets m_rowBuckets, m_columnBuckets;
    bool m_weighRows;
    std::vector<int> m_beside, m_below;  ///< Of the pivot.
    std::vector<Change> m_changes;
    std::vector<int> m_across;  ///< By position: room for counting, then the step of its other line.
    int m_positions = 0;
    bool m_early = true;  ///< Still among the rows and columns that are not late.
    std::shared_ptr<EliminationOrder> m_order;
};

}  // namespace

template <class Scalar>
ChosenOrder chooseOrder(const SparsePattern& pattern, const std::vector<Scalar>& values,
                        const std::vector<char>& lateRows, const std::vector<char>& lateColumns) {
    return Elimination<Scalar>(pattern, values, lateRows, lateColumns).run();
}

template ChosenOrder chooseOrder(const SparsePattern&, const std::vector<double>&, const std::vector<char>&,
                                 const std::vector<char>&);
template ChosenOrder chooseOrder(const SparsePattern&, const std::vector<std::complex<double>>&,
                                 const std::vector<char>&, const std::vector<char>&);

}  // namespace ohmwright
