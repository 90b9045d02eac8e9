// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include "core/solve/sparse_kernels.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace ohmwright {

namespace {

EliminationLists listsOf(const EliminationOrder& order) {
    return {order.start.data(),   order.lower.data(),          order.index.data(),
            order.targets.data(), order.firstTarget.data(),    order.positionOfSlot.data(),
            order.fills.data(),   order.positionOfSlot.size(), order.fills.size()};
}

/// The kernels take numbers apart into doubles; std::complex allows it by its definition, ComplexLanes by its layout.
static_assert(sizeof(ComplexLanes) == 2 * ComplexLanes::count * sizeof(double));

template <class Scalar>
double* raw(Scalar* numbers) {
    return reinterpret_cast<double*>(numbers);
}
template <class Scalar>
const double* raw(const Scalar* numbers) {
    return reinterpret_cast<const double*>(numbers);
}

template <class Scalar>
ChosenOrder choose(const SparsePattern& pattern, const std::vector<Scalar>& values, const std::vector<char>& lateRows,
                   const std::vector<char>& lateColumns) {
    return chooseOrder(pattern, values, lateRows, lateColumns);
}

ChosenOrder choose(const SparsePattern& pattern, const std::vector<ComplexLanes>& values,
                   const std::vector<char>& lateRows, const std::vector<char>& lateColumns) {
    std::vector<std::complex<double>> first;
    first.reserve(values.size());
    for (const ComplexLanes& value : values) {
        first.push_back(value.lane(0));
    }
    return chooseOrder(pattern, first, lateRows, lateColumns);
}

}  // namespace

template <class Scalar>
int SparseLu<Scalar>::analyse(const SparsePattern& pattern, const std::vector<Scalar>& values) {
    return analyse(pattern, values, {}, {});
}

template <class Scalar>
int SparseLu<Scalar>::analyse(const SparsePattern& pattern, const std::vector<Scalar>& values,
                              const std::vector<char>& lateRows, const std::vector<char>& lateColumns) {
    ChosenOrder chosen = choose(pattern, values, lateRows, lateColumns);
    adopt(std::move(chosen.order));
    return chosen.singularColumn;
}

template <class Scalar>
void SparseLu<Scalar>::adopt(std::shared_ptr<const EliminationOrder> order) {
    m_order = std::move(order);
    m_reduced.clear();
    m_work.clear();
    m_factors.clear();
    if (m_order) {
        m_factors.resize(m_order->positionCount() + 1);
    }
}

template <class Scalar>
bool SparseLu<Scalar>::eliminate(std::size_t from, std::size_t to) {
    return kernelsFor<Scalar>().eliminate(listsOf(*m_order), {from, to}, raw(m_factors.data()));
}

template <class Scalar>
bool SparseLu<Scalar>::factor(const std::vector<Scalar>& values) {
    if (!isAnalysed()) {
        return false;
    }
    assert(values.size() >= m_order->positionOfSlot.size());
    kernelsFor<Scalar>().scatter(listsOf(*m_order), raw(values.data()), raw(m_factors.data()));
    return eliminate(0, m_order->size);
}

template <class Scalar>
bool SparseLu<Scalar>::factorAt(
    std::span<const double> conductances, std::span<const double> capacitances,
    std::span<const double, ComplexLanes::count> omegas) requires std::same_as<Scalar, ComplexLanes> {
    if (!isAnalysed()) {
        return false;
    }
    assert(conductances.size() >= m_order->positionOfSlot.size());
    assert(capacitances.size() >= m_order->positionOfSlot.size());
    kernelSet().scatterFrequencies(listsOf(*m_order), conductances.data(), capacitances.data(), omegas.data(),
                                   raw(m_factors.data()));
    return eliminate(0, m_order->size);
}

template <class Scalar>
void SparseLu<Scalar>::solveMany(std::vector<Scalar>& rightHandSides, std::size_t count) {
    const EliminationOrder& order = *m_order;
    m_work.resize(order.size * count);
    for (std::size_t step = 0; step < order.size; ++step) {
        std::copy_n(&rightHandSides[std::size_t(order.rowOfStep[step]) * count], count, &m_work[step * count]);
    }
    const EliminationLists lists = listsOf(order);
    const auto& kernels = kernelsFor<Scalar>();
    kernels.forward(lists, {0, order.size}, raw(m_factors.data()), raw(m_work.data()), count);
    kernels.back(lists, {0, order.size}, raw(m_factors.data()), raw(m_work.data()), count);
    for (std::size_t step = 0; step < order.size; ++step) {
        std::copy_n(&m_work[step * count], count, &rightHandSides[std::size_t(order.columnOfStep[step]) * count]);
    }
    std::fill_n(&rightHandSides[order.size * count], count, Scalar{});
}

template <class Scalar>
void SparseLu<Scalar>::solveTransposedMany(std::vector<Scalar>& rightHandSides, std::size_t count) {
    const EliminationOrder& order = *m_order;
    m_work.resize(order.size * count);
    for (std::size_t step = 0; step < order.size; ++step) {
        std::copy_n(&rightHandSides[std::size_t(order.columnOfStep[step]) * count], count, &m_work[step * count]);
    }
    const EliminationLists lists = listsOf(order);
    const auto& kernels = kernelsFor<Scalar>();
    kernels.forwardTransposed(lists, {0, order.size}, raw(m_factors.data()), raw(m_work.data()), count);
    kernels.backTransposed(lists, {0, order.size}, raw(m_factors.data()), raw(m_work.data()), count);
    for (std::size_t step = 0; step < order.size; ++step) {
        std::copy_n(&m_work[step * count], count, &rightHandSides[std::size_t(order.rowOfStep[step]) * count]);
    }
    std::fill_n(&rightHandSides[order.size * count], count, Scalar{});
}

template <class Scalar>
bool SparseLu<Scalar>::factorEarly(const std::vector<Scalar>& values) {
    if (!isAnalysed()) {
        return false;
    }
    kernelsFor<Scalar>().scatter(listsOf(*m_order), raw(values.data()), raw(m_factors.data()));
    const bool sound = eliminate(0, m_order->earlySteps);
    m_reduced.assign(m_factors.begin() + std::ptrdiff_t(latePosition()), m_factors.end());
    return sound;
}

template <class Scalar>
bool SparseLu<Scalar>::factorLate(std::span<const int> slots, std::span<const Scalar> additions) {
    assert(!m_reduced.empty() && slots.size() == additions.size());
    std::copy(m_reduced.begin(), m_reduced.end(), m_factors.begin() + std::ptrdiff_t(latePosition()));
    for (std::size_t k = 0; k < slots.size(); ++k) {
        const int position = m_order->positionOfSlot[std::size_t(slots[k])];
        assert(std::size_t(position) >= latePosition());
        m_factors[std::size_t(position)] += additions[k];
    }
    return eliminate(m_order->earlySteps, m_order->size);
}

template <class Scalar>
void SparseLu<Scalar>::permuteIn(std::span<const Scalar> rightHandSide, std::span<Scalar> work) const {
    for (std::size_t step = 0; step < m_order->size; ++step) {
        work[step] = rightHandSide[std::size_t(m_order->rowOfStep[step])];
    }
}

template <class Scalar>
void SparseLu<Scalar>::permuteOut(std::span<const Scalar> work, std::span<Scalar> solution) const {
    for (std::size_t step = 0; step < m_order->size; ++step) {
        solution[std::size_t(m_order->columnOfStep[step])] = work[step];
    }
    solution[m_order->size] = Scalar{};
}

template <class Scalar>
void SparseLu<Scalar>::forwardEarly(std::span<Scalar> work) const {
    kernelsFor<Scalar>().forward(listsOf(*m_order), {0, m_order->earlySteps}, raw(m_factors.data()), raw(work.data()),
                                 1);
}

template <class Scalar>
void SparseLu<Scalar>::forwardLate(std::span<Scalar> work) const {
    kernelsFor<Scalar>().forward(listsOf(*m_order), {m_order->earlySteps, m_order->size}, raw(m_factors.data()),
                                 raw(work.data()), 1);
}

template <class Scalar>
void SparseLu<Scalar>::backLate(std::span<Scalar> work) const {
    kernelsFor<Scalar>().back(listsOf(*m_order), {m_order->earlySteps, m_order->size}, raw(m_factors.data()),
                              raw(work.data()), 1);
}

template <class Scalar>
void SparseLu<Scalar>::backEarly(std::span<Scalar> work) const {
    kernelsFor<Scalar>().back(listsOf(*m_order), {0, m_order->earlySteps}, raw(m_factors.data()), raw(work.data()), 1);
}

template <class Scalar>
void SparseLu<Scalar>::subtractLateProduct(std::span<const Scalar> x, std::span<Scalar> result) const {
    const EliminationOrder& order = *m_order;
    const std::size_t first = order.earlySteps;
    const auto base = latePosition();
    for (std::size_t step = first; step < order.size; ++step) {
        const std::size_t k = step - first;
        auto at = std::size_t(order.start[step]);
        result[k] -= m_reduced[at - base] * x[k];
        for (++at; at < std::size_t(order.lower[step]); ++at) {
            result[k] -= m_reduced[at - base] * x[std::size_t(order.index[at]) - first];
        }
        for (; at < std::size_t(order.start[step + 1]); ++at) {
            result[std::size_t(order.index[at]) - first] -= m_reduced[at - base] * x[k];
        }
    }
}

template class SparseLu<double>;
template class SparseLu<std::complex<double>>;
template class SparseLu<ComplexLanes>;

}  // namespace ohmwright
