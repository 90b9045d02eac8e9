/// The loops themselves; each sparse_kernels_*.cpp compiles them for its kind of processor.
///
/// All is local to the including file, and no inline function from elsewhere is called: the linker keeps one copy of
/// those for the program, which must not be one for a processor that is not there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/sparse_kernels.h"

namespace ohmwright {
namespace {

#define OHMWRIGHT_INLINE inline __attribute__((always_inline))

#if defined(__AVX512F__)
using Vector = double __attribute__((vector_size(64)));
#elif defined(__AVX2__)
using Vector = double __attribute__((vector_size(32)));
#else
using Vector = double __attribute__((vector_size(16)));
#endif
constexpr std::size_t vectorDoubles = sizeof(Vector) / sizeof(double);

OHMWRIGHT_INLINE void load(Vector& to, const double* from) {
    __builtin_memcpy(&to, from, sizeof to);
}
OHMWRIGHT_INLINE void store(double* to, const Vector& from) {
    __builtin_memcpy(to, &from, sizeof from);
}

/// Each kind of number: where number `k` of an array lies, and the few operations of an elimination.
struct Real {
    static constexpr std::size_t width = 1;

    struct Value {
        double re;
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) { to.re = *from; }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) { *to = from.re; }
    static OHMWRIGHT_INLINE void clear(Value& to) { to = {}; }
    /// target -= a * b
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Value& a, const Value& b) {
        target.re -= a.re * b.re;
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Value& by) { target.re *= by.re; }

    /// Whether everything so far was a usable number; anything that is no number is not.
    struct Health {
        bool sound = true;
    };
    static OHMWRIGHT_INLINE void invert(Value& pivot, Health& health) {
        health.sound &= (pivot.re > 0.0) | (pivot.re < 0.0);
        pivot.re = 1.0 / pivot.re;
    }
    static OHMWRIGHT_INLINE void judge(const Value& multiplier, Health& health) {
        health.sound &= (multiplier.re < largestMultiplier) & (multiplier.re > -largestMultiplier);
    }
    static OHMWRIGHT_INLINE bool sound(const Health& health) { return health.sound; }
};

struct Complex {
    static constexpr std::size_t width = 2;

    struct Value {
        double re, im;
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) {
        to.re = from[0];
        to.im = from[1];
    }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) {
        to[0] = from.re;
        to[1] = from.im;
    }
    static OHMWRIGHT_INLINE void clear(Value& to) { to = {}; }
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Value& a, const Value& b) {
        target.re = target.re - a.re * b.re + a.im * b.im;
        target.im = target.im - a.re * b.im - a.im * b.re;
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Value& by) {
        const double re = target.re * by.re - target.im * by.im;
        target.im = target.re * by.im + target.im * by.re;
        target.re = re;
    }

    struct Health {
        bool sound = true;
    };
    static OHMWRIGHT_INLINE void invert(Value& pivot, Health& health) {
        const double square = pivot.re * pivot.re + pivot.im * pivot.im;
        health.sound &= square > 0.0;
        const double share = 1.0 / square;
        pivot.re *= share;
        pivot.im *= -share;
    }
    static OHMWRIGHT_INLINE void judge(const Value& multiplier, Health& health) {
        health.sound &=
            multiplier.re * multiplier.re + multiplier.im * multiplier.im < largestMultiplier * largestMultiplier;
    }
    static OHMWRIGHT_INLINE bool sound(const Health& health) { return health.sound; }
};

struct Lanes {
    static constexpr std::size_t width = 2 * ComplexLanes::count;
    static constexpr std::size_t vectors = ComplexLanes::count / vectorDoubles;

    struct Value {
        Vector re[vectors], im[vectors];
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) {
        for (std::size_t v = 0; v < vectors; ++v) {
            load(to.re[v], from + v * vectorDoubles);
            load(to.im[v], from + ComplexLanes::count + v * vectorDoubles);
        }
    }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) {
        for (std::size_t v = 0; v < vectors; ++v) {
            store(to + v * vectorDoubles, from.re[v]);
            store(to + ComplexLanes::count + v * vectorDoubles, from.im[v]);
        }
    }
    static OHMWRIGHT_INLINE void clear(Value& to) {
        for (std::size_t v = 0; v < vectors; ++v) {
            to.re[v] = to.im[v] = Vector{};
        }
    }
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Value& a, const Value& b) {
        for (std::size_t v = 0; v < vectors; ++v) {
            target.re[v] = target.re[v] - a.re[v] * b.re[v] + a.im[v] * b.im[v];
            target.im[v] = target.im[v] - a.re[v] * b.im[v] - a.im[v] * b.re[v];
        }
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Value& by) {
        for (std::size_t v = 0; v < vectors; ++v) {
            const Vector re = target.re[v] * by.re[v] - target.im[v] * by.im[v];
            target.im[v] = target.re[v] * by.im[v] + target.im[v] * by.re[v];
            target.re[v] = re;
        }
    }

    using Mask = decltype(Vector{} < Vector{});
    struct Health {
        Mask sound[vectors];
        Health() {
            for (Mask& each : sound) {
                each = Vector{} <= Vector{};
            }
        }
    };
    static OHMWRIGHT_INLINE void invert(Value& pivot, Health& health) {
        for (std::size_t v = 0; v < vectors; ++v) {
            const Vector square = pivot.re[v] * pivot.re[v] + pivot.im[v] * pivot.im[v];
            health.sound[v] &= square > 0.0;
            const Vector share = 1.0 / square;
            pivot.re[v] *= share;
            pivot.im[v] *= -share;
        }
    }
    static OHMWRIGHT_INLINE void judge(const Value& multiplier, Health& health) {
        for (std::size_t v = 0; v < vectors; ++v) {
            const Vector square = multiplier.re[v] * multiplier.re[v] + multiplier.im[v] * multiplier.im[v];
            health.sound[v] &= square < largestMultiplier * largestMultiplier;
        }
    }
    static OHMWRIGHT_INLINE bool sound(const Health& health) {
        bool all = true;
        for (const Mask& each : health.sound) {
            for (std::size_t k = 0; k < vectorDoubles; ++k) {
                all &= each[k] != 0;
            }
        }
        return all;
    }
};

/// Where an entry of the matrix comes from before anything is taken off it: an array by slot; fill is 0.
template <class Kind>
struct FromValues {
    const int* slotOfPosition;
    const double* values;

    OHMWRIGHT_INLINE void fetch(typename Kind::Value& to, std::size_t position) const {
        const int slot = slotOfPosition[position];
        if (slot >= 0) {
            Kind::fetch(to, values + std::size_t(slot) * Kind::width);
        } else {
            Kind::clear(to);
        }
    }
};

/// The factors' array itself.
template <class Kind>
struct InPlace {
    const double* factors;

    OHMWRIGHT_INLINE void fetch(typename Kind::Value& to, std::size_t position) const {
        Kind::fetch(to, factors + position * Kind::width);
    }
};

/// Conductance + j w capacitance, in each lane its own w.
struct FromFrequencies {
    const int* slotOfPosition;
    const double* conductances;
    const double* capacitances;
    Vector omegas[Lanes::vectors];

    OHMWRIGHT_INLINE void fetch(Lanes::Value& to, std::size_t position) const {
        const int slot = slotOfPosition[position];
        if (slot >= 0) {
            for (std::size_t v = 0; v < Lanes::vectors; ++v) {
                to.re[v] = Vector{} + conductances[slot];
                to.im[v] = omegas[v] * capacitances[slot];
            }
        } else {
            Lanes::clear(to);
        }
    }
};

template <class Kind>
OHMWRIGHT_INLINE void subtractProducts(typename Kind::Value& entry, const Product* product, const Product* end,
                                       const double* factors) {
    for (; product != end; ++product) {
        typename Kind::Value lower, upper;
        Kind::fetch(lower, factors + std::size_t(product->lower) * Kind::width);
        Kind::fetch(upper, factors + std::size_t(product->upper) * Kind::width);
        Kind::subtractProduct(entry, lower, upper);
    }
}

/// Crout's elimination: every entry is summed up once and stored once. `firstProduct` may leave out those already
/// taken off what `source` gives.
template <class Kind, class Source>
OHMWRIGHT_INLINE bool factorSteps(const EliminationLists lists, StepRange steps, const Source source,
                                  const int* firstProduct, double* factors) {
    typename Kind::Health health;
    const int* const lastProduct = lists.firstProduct + 1;
    auto position = std::size_t(lists.start[steps.from]);
    for (std::size_t step = steps.from; step < steps.to; ++step) {
        typename Kind::Value inverse, entry;
        source.fetch(inverse, position);
        subtractProducts<Kind>(inverse, lists.products + firstProduct[position], lists.products + lastProduct[position],
                               factors);
        Kind::invert(inverse, health);
        Kind::put(factors + position * Kind::width, inverse);
        ++position;
        for (const auto lower = std::size_t(lists.lower[step]); position < lower; ++position) {
            source.fetch(entry, position);
            subtractProducts<Kind>(entry, lists.products + firstProduct[position],
                                   lists.products + lastProduct[position], factors);
            Kind::put(factors + position * Kind::width, entry);
        }
        for (const auto end = std::size_t(lists.start[step + 1]); position < end; ++position) {
            source.fetch(entry, position);
            subtractProducts<Kind>(entry, lists.products + firstProduct[position],
                                   lists.products + lastProduct[position], factors);
            Kind::multiply(entry, inverse);
            Kind::judge(entry, health);
            Kind::put(factors + position * Kind::width, entry);
        }
    }
    return Kind::sound(health);
}

template <class Kind>
bool factor(const EliminationLists& lists, StepRange steps, const double* values, double* factors) {
    return factorSteps<Kind>(lists, steps, FromValues<Kind>{lists.slotOfPosition, values}, lists.firstProduct, factors);
}

template <class Kind>
bool factorLate(const EliminationLists& lists, double* factors) {
    return factorSteps<Kind>(lists, {lists.earlySteps, lists.size}, InPlace<Kind>{factors}, lists.firstLateProduct,
                             factors);
}

bool factorFrequencies(const EliminationLists& lists, const double* conductances, const double* capacitances,
                       const double* omegas, double* factors) {
    FromFrequencies source{lists.slotOfPosition, conductances, capacitances, {}};
    for (std::size_t v = 0; v < Lanes::vectors; ++v) {
        load(source.omegas[v], omegas + v * vectorDoubles);
    }
    return factorSteps<Lanes>(lists, {0, lists.size}, source, lists.firstProduct, factors);
}

template <class Kind>
void reduce(const EliminationLists& lists, const double* values, const double* factors, double* reduced) {
    const FromValues<Kind> source{lists.slotOfPosition, values};
    const auto first = std::size_t(lists.start[lists.earlySteps]);
    for (std::size_t position = first; position < std::size_t(lists.start[lists.size]); ++position) {
        typename Kind::Value entry;
        source.fetch(entry, position);
        subtractProducts<Kind>(entry, lists.products + lists.firstProduct[position],
                               lists.products + lists.firstLateProduct[position], factors);
        Kind::put(reduced + (position - first) * Kind::width, entry);
    }
}

/// One step of a substitution: right-hand sides from number `k` on, as many as a Block holds in registers.
/// @tparam stride  doubles from one row to the next, when known beforehand; 0 for numbers.count right-hand sides.
template <class Block, class Kind, std::size_t stride>
OHMWRIGHT_INLINE void sweepStep(const Sweep& sweep, const SweepNumbers& numbers, std::size_t step, std::size_t k) {
    const std::size_t row = stride != 0 ? stride : numbers.count * Kind::width;
    const std::size_t offset = k * Kind::width;
    const std::size_t from = sweep.take != nullptr ? std::size_t(sweep.take[step]) : step;
    typename Block::Value sum;
    Block::fetch(sum, numbers.source + from * row + offset);
    const Place* const end = sweep.places + sweep.last[step];
    for (const Place* place = sweep.places + sweep.first[step]; place != end; ++place) {
        typename Kind::Value factor;
        typename Block::Value known;
        Kind::fetch(factor, numbers.factors + std::size_t(place->position) * Kind::width);
        Block::fetch(known, numbers.work + std::size_t(place->step) * row + offset);
        Block::subtractProduct(sum, factor, known);
    }
    if (sweep.pivots != nullptr) {
        typename Kind::Value inverse;
        Kind::fetch(inverse, numbers.factors + std::size_t(sweep.pivots[step]) * Kind::width);
        Block::multiply(sum, inverse);
    }
    Block::put(numbers.work + step * row + offset, sum);
    if (sweep.put != nullptr) {
        Block::put(numbers.result + std::size_t(sweep.put[step]) * row + offset, sum);
    }
}

/// A vector of real right-hand sides.
struct OneVector {
    static constexpr std::size_t columns = vectorDoubles;

    struct Value {
        Vector a;
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) { load(to.a, from); }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) { store(to, from.a); }
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Real::Value& factor, const Value& known) {
        target.a -= factor.re * known.a;
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Real::Value& by) { target.a *= by.re; }
};

struct TwoVectors {
    static constexpr std::size_t columns = 2 * vectorDoubles;

    struct Value {
        Vector a, b;
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) {
        load(to.a, from);
        load(to.b, from + vectorDoubles);
    }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) {
        store(to, from.a);
        store(to + vectorDoubles, from.b);
    }
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Real::Value& factor, const Value& known) {
        target.a -= factor.re * known.a;
        target.b -= factor.re * known.b;
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Real::Value& by) {
        target.a *= by.re;
        target.b *= by.re;
    }
};

/// Four of them, written out: the compiler keeps arrays of vectors in memory.
struct FourVectors {
    static constexpr std::size_t columns = 4 * vectorDoubles;

    struct Value {
        Vector a, b, c, d;
    };
    static OHMWRIGHT_INLINE void fetch(Value& to, const double* from) {
        load(to.a, from);
        load(to.b, from + vectorDoubles);
        load(to.c, from + 2 * vectorDoubles);
        load(to.d, from + 3 * vectorDoubles);
    }
    static OHMWRIGHT_INLINE void put(double* to, const Value& from) {
        store(to, from.a);
        store(to + vectorDoubles, from.b);
        store(to + 2 * vectorDoubles, from.c);
        store(to + 3 * vectorDoubles, from.d);
    }
    static OHMWRIGHT_INLINE void subtractProduct(Value& target, const Real::Value& factor, const Value& known) {
        target.a -= factor.re * known.a;
        target.b -= factor.re * known.b;
        target.c -= factor.re * known.c;
        target.d -= factor.re * known.d;
    }
    static OHMWRIGHT_INLINE void multiply(Value& target, const Real::Value& by) {
        target.a *= by.re;
        target.b *= by.re;
        target.c *= by.re;
        target.d *= by.re;
    }
};

/// The lists are taken by value: what is stored could be one of them for all the compiler knows.
template <class Block, class Kind, std::size_t stride = 0>
OHMWRIGHT_INLINE void sweepColumns(const Sweep sweep, const SweepNumbers numbers, std::size_t k) {
    if (sweep.descending) {
        for (std::size_t step = sweep.steps.to; step-- > sweep.steps.from;) {
            sweepStep<Block, Kind, stride>(sweep, numbers, step, k);
        }
    } else {
        for (std::size_t step = sweep.steps.from; step < sweep.steps.to; ++step) {
            sweepStep<Block, Kind, stride>(sweep, numbers, step, k);
        }
    }
}

template <class Kind>
void sweepAll(const Sweep& sweep, const SweepNumbers& numbers) {
    if (numbers.count == 1) {
        sweepColumns<Kind, Kind, Kind::width>(sweep, numbers, 0);
        return;
    }
    for (std::size_t k = 0; k < numbers.count; ++k) {
        sweepColumns<Kind, Kind>(sweep, numbers, k);
    }
}

/// Real right-hand sides in blocks of four vectors, then two, then one, then singly.
template <>
void sweepAll<Real>(const Sweep& sweep, const SweepNumbers& numbers) {
    if (numbers.count == 1) {
        sweepColumns<Real, Real, Real::width>(sweep, numbers, 0);
        return;
    }
    std::size_t k = 0;
    for (; k + FourVectors::columns <= numbers.count; k += FourVectors::columns) {
        sweepColumns<FourVectors, Real>(sweep, numbers, k);
    }
    for (; k + TwoVectors::columns <= numbers.count; k += TwoVectors::columns) {
        sweepColumns<TwoVectors, Real>(sweep, numbers, k);
    }
    for (; k + OneVector::columns <= numbers.count; k += OneVector::columns) {
        sweepColumns<OneVector, Real>(sweep, numbers, k);
    }
    for (; k < numbers.count; ++k) {
        sweepColumns<Real, Real>(sweep, numbers, k);
    }
}

template <class Kind>
constexpr SparseKernels kernelsOf() {
    return {factor<Kind>, reduce<Kind>, factorLate<Kind>, sweepAll<Kind>};
}

constexpr KernelSet localKernels{kernelsOf<Real>(), kernelsOf<Complex>(), kernelsOf<Lanes>(), factorFrequencies};

#undef OHMWRIGHT_INLINE

}  // namespace
}  // namespace ohmwright
