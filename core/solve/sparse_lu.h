/// The one kernel of every analysis: LU of a small sparse matrix whose pattern is fixed.
///
/// The pattern and the pivot order are found once per circuit and kind of analysis; after that a
/// factorisation is a walk along flat index lists. Values live in an array by slot, so that stamps are
/// additions to known places. An order can be shared by copies and by other kinds of numbers. Not thread-safe; copy it
/// for another thread.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_lanes.h"
#include "core/solve/sparse_order.h"
#include "core/solve/sparse_pattern.h"

#include <array>
#include <complex>
#include <concepts>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace ohmwright {

struct Sweep;

/// @tparam Scalar  double, std::complex<double> or ComplexLanes.
template <class Scalar>
class SparseLu {
public:
    /// Chooses pivots by least fill (Markowitz count) among entries of at least a thousandth of their column's
    /// largest, and lays out the elimination; see chooseOrder. ComplexLanes are judged by their first lane.
    /// @param values  representative for this kind of analysis; with non-linear devices switched off.
    /// @return -1, or the column (unknown) at which no usable pivot was left: the matrix is singular there.
    int analyse(const SparsePattern& pattern, const std::vector<Scalar>& values);

    /// The same, with rows and columns that are to come last, since their entries will change more often: all that
    /// non-linear devices stamp. Every usable pivot among the others comes before them.
    /// @param lateRows, lateColumns  by index, non-zero for late; size or size + 1 entries.
    int analyse(const SparsePattern& pattern, const std::vector<Scalar>& values, const std::vector<char>& lateRows,
                const std::vector<char>& lateColumns);

    /// Takes an order found elsewhere for the same pattern, perhaps with other numbers.
    void adopt(std::shared_ptr<const EliminationOrder> order);
    [[nodiscard]] const std::shared_ptr<const EliminationOrder>& order() const { return m_order; }
    [[nodiscard]] bool isAnalysed() const { return m_order != nullptr; }

    /// @return false when there is no order yet, a pivot vanished or was no number, or multipliers grew past 1e7:
    /// analyse with these values.
    bool factor(const std::vector<Scalar>& values);
    /// Factors conductances + j w capacitances at eight angular frequencies [rad/s], without an array of values
    /// between.
    /// @param conductances, capacitances  by slot, valueCount() entries.
    /// @return as factor(); false when any of the eight is unsound.
    bool factorAt(std::span<const double> conductances, std::span<const double> capacitances,
                  std::span<const double, ComplexLanes::count> omegas) requires std::same_as<Scalar, ComplexLanes>;

    /// Replaces b by x of A x = b. Length `size + 1`; the last entry (ground) becomes 0.
    void solve(std::vector<Scalar>& rightHandSide) { solveMany(rightHandSide, 1); }
    /// The same from a right-hand side that stays as it is; `solution` has as many entries.
    void solveFrom(const std::vector<Scalar>& rightHandSide, std::vector<Scalar>& solution);
    /// `count` right-hand sides at once, stored row by row (row r at r * count); size + 1 rows.
    void solveMany(std::vector<Scalar>& rightHandSides, std::size_t count);

    /// Replaces c by y of A^T y = c (no conjugate): y[row] is how much the sum of c times x answers to the right-hand
    /// side of that row.
    void solveTransposed(std::vector<Scalar>& rightHandSide) { solveTransposedMany(rightHandSide, 1); }
    void solveTransposedFrom(const std::vector<Scalar>& rightHandSide, std::vector<Scalar>& solution);
    void solveTransposedMany(std::vector<Scalar>& rightHandSides, std::size_t count);

    // In two parts: what stays is eliminated once, what changes many times.
    //
    //   factorEarly(values)                      permuteIn(b, work)     work is in the order of elimination: the
    //   factorLate(slots, additions), repeated   forwardEarly(work)     earlyCount() numbers, then lateCount() late
    //                                            forwardLate(work)      ones: number k of them belongs to the equation
    //                                            backLate(work)         lateRow(k) before backLate, to the unknown
    //                                            backEarly(work)        lateColumn(k) after it
    //                                            permuteOut(work, x)
    //
    // forwardLate and backLate neither read nor write the early numbers: Newton's iteration can stay among the late.
    //
    // Both parts done, solve() and the others work as after factor(). The four halves in turn are solve().

    /// Eliminates the early part, and keeps what it left of the late one (the reduced late matrix).
    /// @return as factor(), of the early part.
    bool factorEarly(const std::vector<Scalar>& values);
    /// Late part anew: what factorEarly() left, and additions[k] at slots[k]; slots of late rows and columns or 0.
    /// @return as factor(), of the late part.
    bool factorLate(std::span<const int> slots, std::span<const Scalar> additions);

    [[nodiscard]] std::size_t size() const { return m_order ? m_order->size : 0; }
    [[nodiscard]] std::size_t earlyCount() const { return m_order ? m_order->earlySteps : 0; }
    /// At least the late rows; also those without a usable pivot among the early ones.
    [[nodiscard]] std::size_t lateCount() const { return size() - earlyCount(); }
    [[nodiscard]] int lateRow(std::size_t k) const { return m_order->rowOfStep[earlyCount() + k]; }
    [[nodiscard]] int lateColumn(std::size_t k) const { return m_order->columnOfStep[earlyCount() + k]; }

    /// @param work  size() numbers, here and below; right-hand sides have size() + 1.
    void permuteIn(std::span<const Scalar> rightHandSide, std::span<Scalar> work) const;
    void permuteOut(std::span<const Scalar> work, std::span<Scalar> solution) const;
    void forwardEarly(std::span<Scalar> work) const;
    void forwardLate(std::span<Scalar> work) const;
    void backLate(std::span<Scalar> work) const;
    void backEarly(std::span<Scalar> work) const;

    /// result -= S x, with S the reduced late matrix as factorEarly() left it: without any additions.
    /// @param x  by lateColumn; result by lateRow; lateCount() numbers each.
    void subtractLateProduct(std::span<const Scalar> x, std::span<Scalar> result) const;

private:
    [[nodiscard]] std::array<Sweep, 2> sweepsOfSolve() const;
    [[nodiscard]] std::array<Sweep, 2> sweepsOfTransposedSolve() const;
    void sweepTwice(const std::array<Sweep, 2>& upAndDown, const std::vector<Scalar>& rightHandSides,
                    std::vector<Scalar>& solutions, std::size_t count);
    void sweepInPlace(const Sweep& sweep, std::span<Scalar> work) const;
    [[nodiscard]] std::size_t latePosition() const { return std::size_t(m_order->start[m_order->earlySteps]); }

    std::shared_ptr<const EliminationOrder> m_order;
    std::vector<Scalar> m_factors;  ///< By position; pivots inverted. One more, which takes ground's entries.
    std::vector<Scalar> m_reduced;  ///< The late positions as factorEarly() left them.
    std::vector<Scalar> m_work;
};

extern template class SparseLu<double>;
extern template class SparseLu<std::complex<double>>;
extern template class SparseLu<ComplexLanes>;

}  // namespace ohmwright
