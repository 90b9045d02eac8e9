/// The matrix G + s C of a linearised circuit, whose C is made of few charges: its finite eigenvalues.
///
/// With charges q = S x whose currents enter by A (C = A S), det(G + s C) = 0 where s = s0 - 1/mu and mu is an
/// eigenvalue of M = S (G + s0 C)^-1 A, which is as small as the number of charges.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/solve/bias.h"
#include "core/solve/equations.h"
#include "core/solve/natural_roots.h"
#include "core/solve/sparse_lu.h"

#include <complex>
#include <optional>
#include <stop_token>
#include <vector>

namespace ohmwright {

/// dq/dt of one charge leaves row `plus` and enters row `minus`.
struct PencilCharge {
    struct Slope {
        int controlPlus, controlMinus;
        double farads;
    };
    int plus, minus;
    std::vector<Slope> slopes;
};

/// Not thread-safe.
class ChargePencil {
public:
    /// Of the circuit about its bias.
    ChargePencil(const Equations& equations, const OperatingPoint& bias);
    /// With the input as one more unknown and the asked voltage = 0 as one more equation: its eigenvalues are the zeros
    /// of the transfer between them.
    static ChargePencil bordered(const Equations& equations, const OperatingPoint& bias, int output);

    [[nodiscard]] int size() const { return m_pattern.size(); }
    /// Charges that no loop with others or with sources of voltage makes dependent.
    [[nodiscard]] std::size_t independentCount() const { return m_injections.size(); }
    [[nodiscard]] std::size_t chargeCount() const { return m_charges.size(); }

    /// Approximations of all eigenvalues [rad/s] below `largestRate`, from real shifts decades apart, each answering
    /// for those near it.
    /// Errors: noConvergence; unsolvable when the matrix is singular at every shift; cancelled.
    Result<std::vector<NaturalRoot>> approximateRoots(const std::stop_token& stop);

    /// Sum over the eigenvalues of 1 / (s - s_i): the trace of (G + s C)^-1 C; nothing where G + s C is singular.
    std::optional<std::complex<double>> logDerivative(std::complex<double> s);

    struct Transfer {
        std::complex<double> value;          ///< c^T (G + s C)^-1 b
        std::complex<double> logDerivative;  ///< By s; no number where the value is 0.
    };
    /// From the input to a voltage. REQUIRES: not bordered.
    std::optional<Transfer> transferAt(std::complex<double> s, Equations::DriveRows drive, int output);

    /// Eigenvalues beyond this are none: no conductance and charge of a circuit are so far apart [rad/s].
    static constexpr double largestRate = 1e17;

private:
    ChargePencil() = default;
    void read(const Equations& equations, const OperatingPoint& bias, int size);
    void addEntry(int row, int column, double siemens);
    void reduce();
    [[nodiscard]] bool absorbs(int column) const;
    Result<std::vector<NaturalRoot>> rootsAround(double shift);
    bool factorAt(std::complex<double> s);

    /// Part of a charge's slope in one of the independent directions.
    struct Share {
        std::size_t direction;
        int controlPlus, controlMinus;
        double farads;
    };
    struct Edge {
        int plus, minus;
    };

    SparsePattern m_pattern{0};
    std::vector<double> m_conductances, m_capacitances;  ///< By slot.
    std::vector<PencilCharge> m_charges;                 ///< With slopes that are not 0.
    std::vector<Edge> m_injections;                      ///< Independent directions in which charges inject.
    std::vector<Share> m_shares;
    SparseLu<std::complex<double>> m_lu;
    std::vector<std::complex<double>> m_values, m_work;
};

}  // namespace ohmwright
