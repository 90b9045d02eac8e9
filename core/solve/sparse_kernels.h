/// The loops every solve spends its time in, once for any processor and once for those with wider vectors.
///
/// Numbers are passed as plain doubles: one each (real), two (complex) or sixteen (eight complex lanes). What is chosen
/// at run time changes the rounding of a sum, nothing else.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_lanes.h"
#include "core/solve/sparse_order.h"

#include <complex>
#include <cstddef>
#include <vector>

namespace ohmwright {

/// The lists of an EliminationOrder, bare.
struct EliminationLists {
    const int* start;
    const int* lower;
    const int* slotOfPosition;
    const Product* products;
    const int* firstProduct;
    const int* firstLateProduct;
    std::size_t size;
    std::size_t earlySteps;
};

EliminationLists listsOf(const EliminationOrder& order);

/// A run of elimination steps, `from` up to but without `to`.
struct StepRange {
    std::size_t from;
    std::size_t to;
};

/// One substitution: at each step, source less the sum over places of factor times what is known there.
struct Sweep {
    StepRange steps;
    bool descending;
    const int* first;  ///< By step, in `places`.
    const int* last;   ///< By step, past the end.
    const Place* places;
    const int* pivots;  ///< By step, the position of an inverted pivot to multiply by; null for none.
    const int* take;    ///< By step, the row of `source`; null when they are in the order of steps.
    const int* put;     ///< By step, the row of `result` that also gets the answer; null for none.
};

/// `count` right-hand sides side by side; `work` is in the order of steps.
struct SweepNumbers {
    const double* factors;
    const double* source;
    double* work;
    double* result;
    std::size_t count;
};

struct SparseKernels {
    /// Factors some steps of the matrix given by slot.
    /// @return false when a pivot was no usable number or a multiplier grew past `largestMultiplier`.
    bool (*factor)(const EliminationLists& lists, StepRange steps, const double* values, double* factors);
    /// The late entries less the products of early ones, into an array that begins at the first late position.
    void (*reduce)(const EliminationLists& lists, const double* values, const double* factors, double* reduced);
    /// Factors the late steps in place of the reduced matrix.
    bool (*factorLate)(const EliminationLists& lists, double* factors);
    void (*sweep)(const Sweep& sweep, const SweepNumbers& numbers);
};

/// Multipliers beyond this have lost too many digits for the chosen order.
inline constexpr double largestMultiplier = 1e7;

/// Every loop for every kind of number, as compiled for one kind of processor.
struct KernelSet {
    SparseKernels real;
    SparseKernels complex;
    SparseKernels lanes;
    /// SparseKernels::factor of conductances + j w capacitances at eight angular frequencies [rad/s], all steps.
    bool (*factorFrequencies)(const EliminationLists& lists, const double* conductances, const double* capacitances,
                              const double* omegas, double* factors);
};

const KernelSet& plainKernels();
/// REQUIRES: a processor with AVX2 and FMA.
const KernelSet& wideKernels();
/// Lanes of frequencies in vectors of eight; all else as wideKernels(). REQUIRES: a processor with AVX-512F as well.
const KernelSet& widestKernels();

/// Every set that this processor can run; the best is the last.
std::vector<const KernelSet*> usableKernels();
/// The best set for this processor.
const KernelSet& kernelSet();

template <class Scalar>
const SparseKernels& kernelsFor();
template <>
inline const SparseKernels& kernelsFor<double>() {
    return kernelSet().real;
}
template <>
inline const SparseKernels& kernelsFor<std::complex<double>>() {
    return kernelSet().complex;
}
template <>
inline const SparseKernels& kernelsFor<ComplexLanes>() {
    return kernelSet().lanes;
}

}  // namespace ohmwright
