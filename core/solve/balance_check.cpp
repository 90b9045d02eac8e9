// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/balance_check.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace ohmwright {

namespace {

constexpr double largestResidualShare = 1e-9;
constexpr double silentShare = 1e-16;
/// Beside a largest unknown of 1 V this is nobody's current [S], a millionth of gmin: a lifted leg's 100 GΩ beside an
/// op-amp at its rail has no digits for more.
constexpr double silentSiemens = 1e-18;

// As many numbers at once as the processor holds in one vector, chosen when the program runs: each width goes through
// the equations with its share of the lanes.
using Two = double __attribute__((vector_size(16)));
using Four = double __attribute__((vector_size(32)));
using Eight = double __attribute__((vector_size(64)));

template <class Vector>
using BitsOf = decltype(Vector{} < Vector{});

#define OHMWRIGHT_INLINE inline __attribute__((always_inline))

template <class Vector>
OHMWRIGHT_INLINE void load(Vector& vector, const double* from) {
    std::memcpy(&vector, from, sizeof vector);
}
template <class Vector>
OHMWRIGHT_INLINE void store(const Vector& vector, double* to) {
    std::memcpy(to, &vector, sizeof vector);
}
template <class Vector>
OHMWRIGHT_INLINE void makePositive(Vector& vector) {
    BitsOf<Vector> bits;
    std::memcpy(&bits, &vector, sizeof bits);
    bits &= 0x7fffffffffffffff;
    std::memcpy(&vector, &bits, sizeof bits);
}
template <class Vector>
OHMWRIGHT_INLINE void raiseTo(Vector& largest, const Vector& other) {
    largest = largest > other ? largest : other;
}
template <class Vector>
OHMWRIGHT_INLINE void addSize(Vector& sum, const Vector& re, const Vector& im) {
    Vector positiveRe = re;
    Vector positiveIm = im;
    makePositive(positiveRe);
    makePositive(positiveIm);
    sum = positiveRe + positiveIm;
}

struct Problem {
    std::span<const BalanceCheck::Equation> equations;
    const BalanceCheck::Entry* entries;
    const double* omegas;
    const ComplexLanes* solution;
    const ComplexLanes* right;
    ComplexLanes* missing;  ///< Null when not wanted.
};

/// The lanes from `lane` on, as many as a vector holds.
template <class Vector>
OHMWRIGHT_INLINE void checkLanesFrom(std::size_t lane, const Problem& problem, std::int64_t* unsound) {
    Vector omega, largest{};
    load(omega, problem.omegas + lane);
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        Vector re, im, size;
        load(re, problem.solution[k].re + lane);
        load(im, problem.solution[k].im + lane);
        addSize(size, re, im);
        raiseTo(largest, size);
    }
    largest *= silentShare;
    BitsOf<Vector> bad{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        const BalanceCheck::Equation& equation = problem.equations[k];
        Vector re, im, scale, size;
        load(re, problem.right[k].re + lane);
        load(im, problem.right[k].im + lane);
        addSize(scale, re, im);
        int at = equation.begin;
        for (; at < equation.charged; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Vector termRe, termIm;
            load(termRe, problem.solution[entry.index].re + lane);
            load(termIm, problem.solution[entry.index].im + lane);
            termRe *= entry.siemens;
            termIm *= entry.siemens;
            re -= termRe;
            im -= termIm;
            addSize(size, termRe, termIm);
            raiseTo(scale, size);
        }
        for (; at < equation.end; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Vector xRe, xIm;
            load(xRe, problem.solution[entry.index].re + lane);
            load(xIm, problem.solution[entry.index].im + lane);
            const Vector susceptance = omega * entry.farads;
            const Vector termRe = entry.siemens * xRe - susceptance * xIm;
            const Vector termIm = entry.siemens * xIm + susceptance * xRe;
            re -= termRe;
            im -= termIm;
            addSize(size, termRe, termIm);
            raiseTo(scale, size);
        }
        addSize(size, re, im);
        const Vector allowed =
            largestResidualShare * scale +
            largest * (equation.steepestSiemens + omega * equation.steepestFarads + silentSiemens / silentShare);
        bad |= ~(size <= allowed);  // a sum that is no number compares false
        if (problem.missing != nullptr) {
            store(re, problem.missing[k].re + lane);
            store(im, problem.missing[k].im + lane);
        }
    }
    std::memcpy(unsound + lane, &bad, sizeof bad);
}

template <class Vector>
OHMWRIGHT_INLINE void checkLanes(const Problem& problem, std::int64_t* unsound) {
    for (std::size_t lane = 0; lane < BalanceCheck::lanes; lane += sizeof(Vector) / sizeof(double)) {
        checkLanesFrom<Vector>(lane, problem, unsound);
    }
}

struct ProblemAtRest {
    std::span<const BalanceCheck::Equation> equations;
    const BalanceCheck::Entry* entries;
    const double* solution;
    double* missing;
};

template <class Vector>
OHMWRIGHT_INLINE void checkAtRestFrom(std::size_t lane, const ProblemAtRest& problem, std::int64_t* unsound) {
    constexpr std::size_t lanes = BalanceCheck::lanes;
    Vector largest{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        Vector value;
        load(value, problem.solution + k * lanes + lane);
        makePositive(value);
        raiseTo(largest, value);
    }
    largest *= silentShare;
    BitsOf<Vector> bad{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        const BalanceCheck::Equation& equation = problem.equations[k];
        Vector sum;
        load(sum, problem.missing + k * lanes + lane);
        Vector scale = sum;
        makePositive(scale);
        for (int at = equation.begin; at < equation.end; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Vector term;
            load(term, problem.solution + std::size_t(entry.index) * lanes + lane);
            term *= entry.siemens;
            sum -= term;
            makePositive(term);
            raiseTo(scale, term);
        }
        store(sum, problem.missing + k * lanes + lane);
        makePositive(sum);
        bad |= ~(sum <= largestResidualShare * scale + largest * equation.steepestSiemens);
    }
    std::memcpy(unsound + lane, &bad, sizeof bad);
}

template <class Vector>
OHMWRIGHT_INLINE void checkAtRest(const ProblemAtRest& problem, std::int64_t* unsound) {
    for (std::size_t lane = 0; lane < BalanceCheck::lanes; lane += sizeof(Vector) / sizeof(double)) {
        checkAtRestFrom<Vector>(lane, problem, unsound);
    }
}

struct Checks {
    void (*lanes)(const Problem& problem, std::int64_t* unsound);
    void (*atRest)(const ProblemAtRest& problem, std::int64_t* unsound);
};

#if defined(__x86_64__)
__attribute__((target("avx2"))) void checkLanesByFour(const Problem& problem, std::int64_t* unsound) {
    checkLanes<Four>(problem, unsound);
}
__attribute__((target("avx2"))) void checkAtRestByFour(const ProblemAtRest& problem, std::int64_t* unsound) {
    checkAtRest<Four>(problem, unsound);
}
__attribute__((target("avx512f,avx512dq"))) void checkLanesByEight(const Problem& problem, std::int64_t* unsound) {
    checkLanes<Eight>(problem, unsound);
}
__attribute__((target("avx512f,avx512dq"))) void checkAtRestByEight(const ProblemAtRest& problem,
                                                                    std::int64_t* unsound) {
    checkAtRest<Eight>(problem, unsound);
}
#endif

Checks bestChecks() {
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512dq") != 0) {
        return {checkLanesByEight, checkAtRestByEight};
    }
    if (__builtin_cpu_supports("avx2") != 0) {
        return {checkLanesByFour, checkAtRestByFour};
    }
#endif
    return {checkLanes<Two>, checkAtRest<Two>};
}

const Checks checks = bestChecks();

#undef OHMWRIGHT_INLINE

}  // namespace

BalanceCheck::BalanceCheck(const SparsePattern& pattern, std::span<const double> conductances,
                           std::span<const double> capacitances, Sense sense) {
    const auto size = std::size_t(pattern.size());
    std::vector<std::vector<Entry>> plain(size), charged(size);
    for (std::size_t slot = 1; slot < pattern.valueCount(); ++slot) {
        int equation = pattern.rowOf(slot);
        int index = pattern.columnOf(slot);
        if (sense == Sense::transposed) {
            std::swap(equation, index);
        }
        const double farads = capacitances.empty() ? 0.0 : capacitances[slot];
        (farads == 0.0 ? plain : charged)[std::size_t(equation)].push_back({index, conductances[slot], farads});
    }
    m_entries.reserve(pattern.valueCount());
    for (std::size_t k = 0; k < size; ++k) {
        Equation& equation = m_equations.emplace_back();
        equation.begin = int(m_entries.size());
        m_entries.insert(m_entries.end(), plain[k].begin(), plain[k].end());
        equation.charged = int(m_entries.size());
        m_entries.insert(m_entries.end(), charged[k].begin(), charged[k].end());
        equation.end = int(m_entries.size());
        for (int at = equation.begin; at < equation.end; ++at) {
            const Entry& entry = m_entries[std::size_t(at)];
            equation.steepestSiemens = std::max(equation.steepestSiemens, std::abs(entry.siemens));
            equation.steepestFarads = std::max(equation.steepestFarads, std::abs(entry.farads));
        }
    }
}

std::array<bool, BalanceCheck::lanes> BalanceCheck::holds(const std::array<double, lanes>& omegas,
                                                          const std::vector<ComplexLanes>& solution,
                                                          const std::vector<ComplexLanes>& right,
                                                          std::vector<ComplexLanes>* missing) const {
    if (missing != nullptr) {
        missing->resize(solution.size());
        missing->back() = ComplexLanes{};
    }
    const Problem problem{m_equations,     m_entries.data(), omegas.data(),
                          solution.data(), right.data(),     missing != nullptr ? missing->data() : nullptr};
    std::array<std::int64_t, lanes> unsound;
    checks.lanes(problem, unsound.data());
    std::array<bool, lanes> sound{};
    for (std::size_t k = 0; k < lanes; ++k) {
        sound[k] = unsound[k] == 0;
    }
    return sound;
}

bool BalanceCheck::holdsAtRest(const std::vector<double>& solutions, std::vector<double>& missing) const {
    const ProblemAtRest problem{m_equations, m_entries.data(), solutions.data(), missing.data()};
    std::array<std::int64_t, lanes> unsound;
    checks.atRest(problem, unsound.data());
    std::fill(missing.end() - std::ptrdiff_t(lanes), missing.end(), 0.0);
    return std::all_of(unsound.begin(), unsound.end(), [](std::int64_t bad) { return bad == 0; });
}

}  // namespace ohmwright
