// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/sparse_lu.h"

#include "core/solve/sparse_kernels.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace ohmwright {

namespace {

/// With L, upwards.
Sweep forwardSweep(const EliminationOrder& order, StepRange steps) {
    return {steps,
            false,
            order.lowerRows.first.data(),
            order.lowerRows.first.data() + 1,
            order.lowerRows.places.data(),
            nullptr,
            nullptr,
            nullptr};
}

/// With U, downwards.
Sweep backSweep(const EliminationOrder& order, StepRange steps) {
    return {steps,
            true,
            order.upperRows.first.data(),
            order.upperRows.first.data() + 1,
            order.upperRows.places.data(),
            order.start.data(),
            nullptr,
            nullptr};
}

/// With U transposed, upwards.
Sweep forwardTransposedSweep(const EliminationOrder& order) {
    return {{0, order.size},
            false,
            order.upperColumns.first.data(),
            order.upperColumns.first.data() + 1,
            order.upperColumns.places.data(),
            order.start.data(),
            order.columnOfStep.data(),
            nullptr};
}

/// With L transposed, downwards.
Sweep backTransposedSweep(const EliminationOrder& order) {
    return {{0, order.size},
            true,
            order.lowerColumns.first.data(),
            order.lowerColumns.first.data() + 1,
            order.lowerColumns.places.data(),
            nullptr,
            nullptr,
            order.rowOfStep.data()};
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
bool SparseLu<Scalar>::factor(const std::vector<Scalar>& values) {
    if (!isAnalysed()) {
        return false;
    }
    assert(values.size() >= m_order->positionOfSlot.size());
    return kernelsFor<Scalar>().factor(listsOf(*m_order), {0, m_order->size}, raw(values.data()),
                                       raw(m_factors.data()));
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
    return kernelSet().factorFrequencies(listsOf(*m_order), conductances.data(), capacitances.data(), omegas.data(),
                                         raw(m_factors.data()));
}

template <class Scalar>
std::array<Sweep, 2> SparseLu<Scalar>::sweepsOfSolve() const {
    const EliminationOrder& order = *m_order;
    Sweep up = forwardSweep(order, {0, order.size});
    up.take = order.rowOfStep.data();
    Sweep down = backSweep(order, {0, order.size});
    down.put = order.columnOfStep.data();
    return {up, down};
}

template <class Scalar>
std::array<Sweep, 2> SparseLu<Scalar>::sweepsOfTransposedSolve() const {
    return {forwardTransposedSweep(*m_order), backTransposedSweep(*m_order)};
}

template <class Scalar>
void SparseLu<Scalar>::solveMany(std::vector<Scalar>& rightHandSides, std::size_t count) {
    sweepTwice(sweepsOfSolve(), rightHandSides, rightHandSides, count);
}

template <class Scalar>
void SparseLu<Scalar>::solveFrom(const std::vector<Scalar>& rightHandSide, std::vector<Scalar>& solution) {
    sweepTwice(sweepsOfSolve(), rightHandSide, solution, 1);
}

template <class Scalar>
void SparseLu<Scalar>::solveTransposedMany(std::vector<Scalar>& rightHandSides, std::size_t count) {
    sweepTwice(sweepsOfTransposedSolve(), rightHandSides, rightHandSides, count);
}

template <class Scalar>
void SparseLu<Scalar>::solveTransposedFrom(const std::vector<Scalar>& rightHandSide, std::vector<Scalar>& solution) {
    sweepTwice(sweepsOfTransposedSolve(), rightHandSide, solution, 1);
}

template <class Scalar>
void SparseLu<Scalar>::sweepTwice(const std::array<Sweep, 2>& upAndDown, const std::vector<Scalar>& rightHandSides,
                                  std::vector<Scalar>& solutions, std::size_t count) {
    assert(rightHandSides.size() >= (m_order->size + 1) * count && solutions.size() >= rightHandSides.size());
    m_work.resize(m_order->size * count);
    const auto& kernels = kernelsFor<Scalar>();
    const double* factors = raw(m_factors.data());
    double* work = raw(m_work.data());
    kernels.sweep(upAndDown[0], {factors, raw(rightHandSides.data()), work, nullptr, count});
    kernels.sweep(upAndDown[1], {factors, work, work, raw(solutions.data()), count});
    std::fill_n(solutions.begin() + std::ptrdiff_t(m_order->size * count), count, Scalar{});
}

template <class Scalar>
bool SparseLu<Scalar>::factorEarly(const std::vector<Scalar>& values) {
    if (!isAnalysed()) {
        return false;
    }
    const EliminationLists lists = listsOf(*m_order);
    const auto& kernels = kernelsFor<Scalar>();
    const bool sound = kernels.factor(lists, {0, m_order->earlySteps}, raw(values.data()), raw(m_factors.data()));
    m_reduced.resize(m_factors.size() - latePosition());
    kernels.reduce(lists, raw(values.data()), raw(m_factors.data()), raw(m_reduced.data()));
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
    return kernelsFor<Scalar>().factorLate(listsOf(*m_order), raw(m_factors.data()));
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
void SparseLu<Scalar>::sweepInPlace(const Sweep& sweep, std::span<Scalar> work) const {
    double* numbers = raw(work.data());
    kernelsFor<Scalar>().sweep(sweep, {raw(m_factors.data()), numbers, numbers, nullptr, 1});
}

template <class Scalar>
void SparseLu<Scalar>::forwardEarly(std::span<Scalar> work) const {
    sweepInPlace(forwardSweep(*m_order, {0, m_order->earlySteps}), work);
    Sweep ontoLate = forwardSweep(*m_order, {m_order->earlySteps, m_order->size});
    ontoLate.last = m_order->firstLateOfRow.data();
    sweepInPlace(ontoLate, work);
}

template <class Scalar>
void SparseLu<Scalar>::forwardLate(std::span<Scalar> work) const {
    Sweep late = forwardSweep(*m_order, {m_order->earlySteps, m_order->size});
    late.first = m_order->firstLateOfRow.data();
    sweepInPlace(late, work);
}

template <class Scalar>
void SparseLu<Scalar>::backLate(std::span<Scalar> work) const {
    sweepInPlace(backSweep(*m_order, {m_order->earlySteps, m_order->size}), work);
}

template <class Scalar>
void SparseLu<Scalar>::backEarly(std::span<Scalar> work) const {
    sweepInPlace(backSweep(*m_order, {0, m_order->earlySteps}), work);
}

template <class Scalar>
void SparseLu<Scalar>::subtractLateProduct(std::span<const Scalar> x, std::span<Scalar> result) const {
    const EliminationOrder& order = *m_order;
    const std::size_t early = order.earlySteps;
    const std::size_t base = latePosition();
    for (std::size_t step = early; step < order.size; ++step) {
        const std::size_t k = step - early;
        result[k] -= m_reduced[std::size_t(order.start[step]) - base] * x[k];
        for (int at = order.upperRows.first[step]; at < order.upperRows.first[step + 1]; ++at) {
            const Place place = order.upperRows.places[std::size_t(at)];
            result[k] -= m_reduced[std::size_t(place.position) - base] * x[std::size_t(place.step) - early];
        }
        for (int at = order.firstLateOfRow[step]; at < order.lowerRows.first[step + 1]; ++at) {
            const Place place = order.lowerRows.places[std::size_t(at)];
            result[k] -= m_reduced[std::size_t(place.position) - base] * x[std::size_t(place.step) - early];
        }
    }
}

template class SparseLu<double>;
template class SparseLu<std::complex<double>>;
template class SparseLu<ComplexLanes>;

}  // namespace ohmwright
