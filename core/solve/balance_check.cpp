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

// Four numbers at once; on processors with wide vectors in one instruction, chosen when the program runs.
using Four = double __attribute__((vector_size(32)));
using FourBits = std::int64_t __attribute__((vector_size(32)));

#define OHMWRIGHT_INLINE inline __attribute__((always_inline))

OHMWRIGHT_INLINE void load(Four& four, const double* from) {
    std::memcpy(&four, from, sizeof four);
}
OHMWRIGHT_INLINE void store(const Four& four, double* to) {
    std::memcpy(to, &four, sizeof four);
}
OHMWRIGHT_INLINE void makePositive(Four& four) {
    constexpr std::int64_t all = 0x7fffffffffffffff;
    FourBits bits;
    std::memcpy(&bits, &four, sizeof bits);
    bits &= FourBits{all, all, all, all};
    std::memcpy(&four, &bits, sizeof bits);
}
OHMWRIGHT_INLINE void raiseTo(Four& largest, const Four& other) {
    largest = largest > other ? largest : other;
}
OHMWRIGHT_INLINE void addSize(Four& sum, const Four& re, const Four& im) {
    Four positiveRe = re;
    Four positiveIm = im;
    makePositive(positiveRe);
    makePositive(positiveIm);
    sum = positiveRe + positiveIm;
}

struct Problem {
    std::span<const BalanceCheck::Equation> equations;
    const BalanceCheck::Entry* entries;
    const double* omegas;
    const ComplexLanes* solution;
    ComplexLanes* missing;
};

OHMWRIGHT_INLINE void checkLanes(const Problem& problem, std::int64_t* unsound) {
    Four omega, largest{};
    load(omega, problem.omegas);
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        Four re, im, size;
        load(re, problem.solution[k].re);
        load(im, problem.solution[k].im);
        addSize(size, re, im);
        raiseTo(largest, size);
    }
    largest *= silentShare;
    FourBits bad{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        const BalanceCheck::Equation& equation = problem.equations[k];
        Four re, im, scale, size;
        load(re, problem.missing[k].re);
        load(im, problem.missing[k].im);
        addSize(scale, re, im);
        int at = equation.begin;
        for (; at < equation.charged; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Four termRe, termIm;
            load(termRe, problem.solution[entry.index].re);
            load(termIm, problem.solution[entry.index].im);
            termRe *= entry.siemens;
            termIm *= entry.siemens;
            re -= termRe;
            im -= termIm;
            addSize(size, termRe, termIm);
            raiseTo(scale, size);
        }
        for (; at < equation.end; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Four xRe, xIm;
            load(xRe, problem.solution[entry.index].re);
            load(xIm, problem.solution[entry.index].im);
            const Four susceptance = omega * entry.farads;
            const Four termRe = entry.siemens * xRe - susceptance * xIm;
            const Four termIm = entry.siemens * xIm + susceptance * xRe;
            re -= termRe;
            im -= termIm;
            addSize(size, termRe, termIm);
            raiseTo(scale, size);
        }
        addSize(size, re, im);
        const Four allowed =
            largestResidualShare * scale + largest * (equation.steepestSiemens + omega * equation.steepestFarads);
        bad |= ~(size <= allowed);  // a sum that is no number compares false
        store(re, problem.missing[k].re);
        store(im, problem.missing[k].im);
    }
    std::memcpy(unsound, &bad, sizeof bad);
}

struct ProblemAtRest {
    std::span<const BalanceCheck::Equation> equations;
    const BalanceCheck::Entry* entries;
    const double* solution;
    double* missing;
};

OHMWRIGHT_INLINE void checkAtRest(const ProblemAtRest& problem, std::int64_t* unsound) {
    constexpr std::size_t lanes = BalanceCheck::lanes;
    Four largest{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        Four value;
        load(value, problem.solution + k * lanes);
        makePositive(value);
        raiseTo(largest, value);
    }
    largest *= silentShare;
    FourBits bad{};
    for (std::size_t k = 0; k < problem.equations.size(); ++k) {
        const BalanceCheck::Equation& equation = problem.equations[k];
        Four sum;
        load(sum, problem.missing + k * lanes);
        Four scale = sum;
        makePositive(scale);
        for (int at = equation.begin; at < equation.end; ++at) {
            const BalanceCheck::Entry& entry = problem.entries[at];
            Four term;
            load(term, problem.solution + std::size_t(entry.index) * lanes);
            term *= entry.siemens;
            sum -= term;
            makePositive(term);
            raiseTo(scale, term);
        }
        store(sum, problem.missing + k * lanes);
        makePositive(sum);
        bad |= ~(sum <= largestResidualShare * scale + largest * equation.steepestSiemens);
    }
    std::memcpy(unsound, &bad, sizeof bad);
}

#if defined(__x86_64__)
__attribute__((target("avx2"))) void checkLanesWide(const Problem& problem, std::int64_t* unsound) {
    checkLanes(problem, unsound);
}
__attribute__((target("avx2"))) void checkAtRestWide(const ProblemAtRest& problem, std::int64_t* unsound) {
    checkAtRest(problem, unsound);
}
const bool isWide = __builtin_cpu_supports("avx2") != 0;
#endif

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
                                                          std::vector<ComplexLanes>& missing) const {
    const Problem problem{m_equations, m_entries.data(), omegas.data(), solution.data(), missing.data()};
    std::array<std::int64_t, lanes> unsound;
#if defined(__x86_64__)
    isWide ? checkLanesWide(problem, unsound.data()) : checkLanes(problem, unsound.data());
#else
    checkLanes(problem, unsound.data());
#endif
    missing.back() = ComplexLanes{};
    std::array<bool, lanes> sound{};
    for (std::size_t k = 0; k < lanes; ++k) {
        sound[k] = unsound[k] == 0;
    }
    return sound;
}

bool BalanceCheck::holdsAtRest(const std::vector<double>& solutions, std::vector<double>& missing) const {
    const ProblemAtRest problem{m_equations, m_entries.data(), solutions.data(), missing.data()};
    std::array<std::int64_t, lanes> unsound;
#if defined(__x86_64__)
    isWide ? checkAtRestWide(problem, unsound.data()) : checkAtRest(problem, unsound.data());
#else
    checkAtRest(problem, unsound.data());
#endif
    std::fill(missing.end() - std::ptrdiff_t(lanes), missing.end(), 0.0);
    return std::all_of(unsound.begin(), unsound.end(), [](std::int64_t bad) { return bad == 0; });
}

}  // namespace ohmwright
