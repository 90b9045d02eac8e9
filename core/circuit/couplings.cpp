// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/circuit/couplings.h"

#include "core/base/said.h"

#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <unordered_map>
#include <unordered_set>
#include <utility>

namespace ohmwright {

namespace {

constexpr std::size_t mostOnACore = 100;

/// A coupling between inductors, by their places in a list.
struct Coupling {
    std::size_t part = 0;  ///< Index in the circuit.
    std::array<std::size_t, 2> inductors{};
};

struct CoupledInductors {
    std::vector<Coupling> couplings;
    std::size_t count = 0;  ///< Of inductors.
};

CoupledInductors coupledInductors(const Circuit& circuit) {
    std::unordered_set<std::string_view> inductors;
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::inductor) {
            inductors.insert(part.id);
        }
    }
    CoupledInductors coupled;
    std::unordered_map<std::string_view, std::size_t> places;
    for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
        const Part& part = circuit.parts[index];
        const bool isSound = part.kind == PartKind::coupling && part.controls.size() == 2 &&
                             part.controls[0] != part.controls[1] && inductors.contains(part.controls[0]) &&
                             inductors.contains(part.controls[1]);
        if (isSound) {
            const std::size_t one = places.try_emplace(part.controls[0], places.size()).first->second;
            const std::size_t other = places.try_emplace(part.controls[1], places.size()).first->second;
            coupled.couplings.push_back({index, {one, other}});
        }
    }
    coupled.count = places.size();
    return coupled;
}

/// Inductors that couplings join, by the place of each in a list.
class Cores {
public:
    explicit Cores(std::size_t count) : m_leader(count) { std::iota(m_leader.begin(), m_leader.end(), std::size_t{0}); }

    std::size_t leader(std::size_t one) {
        while (m_leader[one] != one) {
            m_leader[one] = m_leader[m_leader[one]];
            one = m_leader[one];
        }
        return one;
    }
    void join(std::size_t one, std::size_t other) { m_leader[leader(one)] = leader(other); }

private:
    std::vector<std::size_t> m_leader;
};

using Matrix = std::vector<std::vector<double>>;

/// Cholesky's steps on the matrix of couplings; a pivot of 0 is an ideal transformer and leaves a row of zeros.
bool canBe(Matrix matrix) {
    constexpr double rounding = 1e-9;
    for (std::size_t pivot = 0; pivot < matrix.size(); ++pivot) {
        const double diagonal = matrix[pivot][pivot];
        if (diagonal < -rounding) {
            return false;
        }
        for (std::size_t row = pivot + 1; row < matrix.size(); ++row) {
            if (diagonal <= rounding) {
                if (std::abs(matrix[row][pivot]) > std::sqrt(rounding)) {
                    return false;
                }
                continue;
            }
            const double factor = matrix[row][pivot] / diagonal;
            for (std::size_t column = pivot + 1; column < matrix.size(); ++column) {
                matrix[row][column] -= factor * matrix[pivot][column];
            }
        }
    }
    return true;
}

std::string nameOf(const Circuit& circuit, const PartId& id) {
    const Part* part = findPart(circuit, id);
    return part == nullptr ? id : displayName(*part);
}

void checkCore(const Circuit& circuit, const std::vector<const Coupling*>& couplings,
               std::vector<CouplingFault>& faults) {
    std::map<std::size_t, std::size_t> rows;
    for (const Coupling* coupling : couplings) {
        for (const std::size_t inductor : coupling->inductors) {
            rows.try_emplace(inductor, rows.size());
        }
    }
    const std::size_t last = couplings.back()->part;
    if (rows.size() > mostOnACore) {
        faults.push_back(
            {last, toSay("%1 couples more than 100 inductors to each other: leave some uncoupled."), {}, {}});
        return;
    }
    Matrix matrix(rows.size(), std::vector<double>(rows.size(), 0.0));
    for (std::size_t row = 0; row < matrix.size(); ++row) {
        matrix[row][row] = 1.0;
    }
    for (const Coupling* coupling : couplings) {
        const Part& part = circuit.parts[coupling->part];
        const std::size_t one = rows.at(coupling->inductors[0]);
        const std::size_t other = rows.at(coupling->inductors[1]);
        if (matrix[one][other] != 0.0) {
            faults.push_back({coupling->part, toSay("%1 couples %2 and %3 a second time: delete one of the couplings."),
                              nameOf(circuit, part.controls[0]), nameOf(circuit, part.controls[1])});
        }
        matrix[one][other] = part.value;
        matrix[other][one] = part.value;
    }
    if (!canBe(std::move(matrix))) {
        faults.push_back(
            {last,
             toSay("%1 and the other couplings of its core cannot be at once: two inductors that couple closely to "
                   "a third must couple to each other; add that coupling or lower the values."),
             {},
             {}});
    }
}

}  // namespace

std::vector<CouplingFault> faultsOfCouplings(const Circuit& circuit) {
    const CoupledInductors coupled = coupledInductors(circuit);
    Cores cores(coupled.count);
    for (const Coupling& coupling : coupled.couplings) {
        cores.join(coupling.inductors[0], coupling.inductors[1]);
    }
    std::map<std::size_t, std::vector<const Coupling*>> byCore;
    for (const Coupling& coupling : coupled.couplings) {
        byCore[cores.leader(coupling.inductors[0])].push_back(&coupling);
    }
    std::vector<CouplingFault> faults;
    for (const auto& [leader, couplings] : byCore) {
        checkCore(circuit, couplings, faults);
    }
    return faults;
}

}  // namespace ohmwright
