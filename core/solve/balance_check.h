/// Whether a solution of small-signal equations balances, row by row: the check behind every number that is shown.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_lanes.h"
#include "core/solve/sparse_pattern.h"

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace ohmwright {

/// The equations (G + j w C) x = b as they are, or with rows and columns exchanged.
enum class Sense { forward, transposed };

/// A solution holds where what is missing in each equation is at most 1e-9 of its largest term; where all terms are
/// rounding, 1e-16 of the largest unknown times the steepest entry. What is no number never holds.
class BalanceCheck {
public:
    static constexpr std::size_t lanes = ComplexLanes::count;

    /// @param conductances, capacitances  by slot; the latter may be empty.
    BalanceCheck(const SparsePattern& pattern, std::span<const double> conductances,
                 std::span<const double> capacitances, Sense sense);

    /// @param solution  by unknown, ground's 0 at the end.
    /// @param right  the right-hand side.
    /// @param missing  what the solution leaves of it, ground's entry 0; null when only the answer is wanted.
    [[nodiscard]] std::array<bool, lanes> holds(const std::array<double, lanes>& omegas,
                                                const std::vector<ComplexLanes>& solution,
                                                const std::vector<ComplexLanes>& right,
                                                std::vector<ComplexLanes>* missing = nullptr) const;
    /// At DC: eight real solutions side by side.
    [[nodiscard]] bool holdsAtRest(const std::vector<double>& solutions, std::vector<double>& missing) const;

    struct Entry {
        int index;
        double siemens, farads;
    };
    /// One equation: entries without a charge up to `charged`, then those with one up to `end`.
    struct Equation {
        int begin, charged, end;
        double steepestSiemens, steepestFarads;
    };

private:
    std::vector<Equation> m_equations;
    std::vector<Entry> m_entries;
};

}  // namespace ohmwright
