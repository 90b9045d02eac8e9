/// In which order the unknowns of a sparse matrix are eliminated, and every list that follows from it.
///
/// Immutable once made: copies of a factorisation, other kinds of numbers and other threads share one.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_pattern.h"

#include <complex>
#include <cstddef>
#include <memory>
#include <vector>

namespace ohmwright {

/// One entry of the factors that a sum takes in: its position, and the step whose number it is multiplied by.
struct Place {
    int position;
    int step;
};

/// For every step, a run of places: a row or a column of a factor.
struct PlaceLists {
    std::vector<int> first;  ///< size + 1, in `places`.
    std::vector<Place> places;
};

/// An entry of L and an entry of U by position, whose product is taken off a third entry.
struct Product {
    int lower;
    int upper;
};

/// Step k eliminates the unknown `columnOfStep[k]` with the row `rowOfStep[k]`. The factors lie step by step in one
/// array: at `start[k]` the pivot, then the row of U up to `lower[k]`, then the column of L up to `start[k + 1]`.
/// Each entry is what the matrix holds there less its products, all of which lie before it; those of the early steps
/// come first.
struct EliminationOrder {
    std::size_t size = 0;
    std::size_t earlySteps = 0;  ///< The first so many steps touch no late row or column; all, when nothing is late.
    std::vector<int> rowOfStep, columnOfStep;
    std::vector<int> start;           ///< size + 1 positions.
    std::vector<int> lower;           ///< By step.
    std::vector<int> positionOfSlot;  ///< Ground's slot 0 goes to the position past the last.
    std::vector<int> slotOfPosition;  ///< -1 for fill.
    std::vector<Product> products;
    std::vector<int> firstProduct;      ///< By position, and one more.
    std::vector<int> firstLateProduct;  ///< By position: the first product whose factors are late.
    PlaceLists upperRows, upperColumns, lowerRows, lowerColumns;
    std::vector<int> firstLateOfRow;  ///< By step, in `lowerRows`: the first place of a late step.

    [[nodiscard]] std::size_t positionCount() const { return slotOfPosition.size(); }
    /// Multiply-subtracts of one factorisation and of one solve: what a pass costs, whatever the machine.
    [[nodiscard]] std::size_t factorOperations() const { return products.size(); }
    [[nodiscard]] std::size_t solveOperations() const { return positionCount() - size; }
};

struct ChosenOrder {
    std::shared_ptr<const EliminationOrder> order;  ///< Null when the matrix is singular.
    int singularColumn = -1;                        ///< The unknown at which no usable pivot was left; -1 when sound.
};

/// Chooses pivots by least fill (Markowitz count) among entries of at least a thousandth of their column's largest;
/// among those of equal count the larger share. Among early steps each entry is taken as a share of its row's largest.
/// Time and memory grow with the entries of the factors, not with the square of the size: of many lines alike only some
/// are looked at.
///
/// @param values       representative for this kind of analysis; by slot of the pattern.
/// @param lateRows     by row, non-zero where entries will change after the early part was eliminated; may be empty.
/// @param lateColumns  the same by column; both or neither.
/// Sources: H. M. Markowitz, Management Science 3 (1957) 255; order of search after I. S. Duff and J. K. Reid, ACM
/// Trans. Math. Software 5 (1979) 18.
template <class Scalar>
ChosenOrder chooseOrder(const SparsePattern& pattern, const std::vector<Scalar>& values,
                        const std::vector<char>& lateRows = {}, const std::vector<char>& lateColumns = {});

extern template ChosenOrder chooseOrder(const SparsePattern&, const std::vector<double>&, const std::vector<char>&,
                                        const std::vector<char>&);
extern template ChosenOrder chooseOrder(const SparsePattern&, const std::vector<std::complex<double>>&,
                                        const std::vector<char>&, const std::vector<char>&);

}  // namespace ohmwright
