/// The loops every solve spends its time in, once for any processor and once for those with wider vectors.
///
/// Numbers are passed as plain doubles: one each (real), two (complex) or eight (four complex lanes). What is chosen at
/// run time changes the rounding of a sum, nothing else.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_lanes.h"

#include <complex>
#include <cstddef>

namespace ohmwright {

/// The lists of an EliminationOrder, bare.
struct EliminationLists {
    const int* start;
    const int* lower;
    const int* index;
    const int* targets;
    const int* firstTarget;
    const int* positionOfSlot;
    const int* fills;
    std::size_t slotCount;
    std::size_t fillCount;
};

/// A run of elimination steps, `from` up to but without `to`.
struct StepRange {
    std::size_t from;
    std::size_t to;
};

/// Work arrays are in the order of elimination, `count` right-hand sides side by side.
struct SparseKernels {
    /// Lays values by slot into the factors' places; fill becomes 0.
    void (*scatter)(const EliminationLists& lists, const double* values, double* factors);
    /// @return false when a pivot was no usable number or a multiplier grew past `largestMultiplier`.
    bool (*eliminate)(const EliminationLists& lists, StepRange steps, double* factors);
    /// Solves with L, then with U; upwards and downwards through the steps.
    void (*forward)(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                    std::size_t count);
    void (*back)(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                 std::size_t count);
    /// The same of the transposed matrix: with U transposed upwards, then with L transposed downwards.
    void (*forwardTransposed)(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                              std::size_t count);
    void (*backTransposed)(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                           std::size_t count);
};

/// Multipliers beyond this have lost too many digits for the chosen order.
inline constexpr double largestMultiplier = 1e7;

/// Every loop for every kind of number, as compiled for one kind of processor.
struct KernelSet {
    SparseKernels real;
    SparseKernels complex;
    SparseKernels lanes;
    /// Lays conductances + j w * capacitances at four angular frequencies [rad/s] into the factors' places.
    void (*scatterFrequencies)(const EliminationLists& lists, const double* conductances, const double* capacitances,
                               const double* omegas, double* factors);
};

const KernelSet& plainKernels();
/// REQUIRES: a processor with AVX2 and FMA.
const KernelSet& wideKernels();

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
