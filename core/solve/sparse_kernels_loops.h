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

#ifdef __AVX2__
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
    static OHMWRIGHT_INLINE void clear(double* to) { *to = 0.0; }
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
    static OHMWRIGHT_INLINE void clear(double* to) { to[0] = to[1] = 0.0; }
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
    static OHMWRIGHT_INLINE void clear(double* to) {
        const Vector zero = {};
        for (std::size_t at = 0; at < width; at += vectorDoubles) {
            store(to + at, zero);
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

template <class Kind>
void scatter(const EliminationLists& lists, const double* values, double* factors) {
    for (std::size_t k = 0; k < lists.fillCount; ++k) {
        Kind::clear(factors + std::size_t(lists.fills[k]) * Kind::width);
    }
    for (std::size_t slot = 0; slot < lists.slotCount; ++slot) {
        typename Kind::Value value;
        Kind::fetch(value, values + slot * Kind::width);
        Kind::put(factors + std::size_t(lists.positionOfSlot[slot]) * Kind::width, value);
    }
}

void scatterFrequencies(const EliminationLists& lists, const double* conductances, const double* capacitances,
                        const double* omegas, double* factors) {
    Vector omega[Lanes::vectors];
    for (std::size_t v = 0; v < Lanes::vectors; ++v) {
        load(omega[v], omegas + v * vectorDoubles);
    }
    for (std::size_t k = 0; k < lists.fillCount; ++k) {
        Lanes::clear(factors + std::size_t(lists.fills[k]) * Lanes::width);
    }
    const Vector zero = {};
    for (std::size_t slot = 0; slot < lists.slotCount; ++slot) {
        Lanes::Value value;
        for (std::size_t v = 0; v < Lanes::vectors; ++v) {
            value.re[v] = zero + conductances[slot];
            value.im[v] = omega[v] * capacitances[slot];
        }
        Lanes::put(factors + std::size_t(lists.positionOfSlot[slot]) * Lanes::width, value);
    }
}

template <class Kind>
bool eliminate(const EliminationLists& lists, StepRange steps, double* factors) {
    typename Kind::Health health;
    const int* target = lists.targets + lists.firstTarget[steps.from];
    for (std::size_t step = steps.from; step < steps.to; ++step) {
        double* at = factors + std::size_t(lists.start[step]) * Kind::width;
        double* const lower = factors + std::size_t(lists.lower[step]) * Kind::width;
        double* const end = factors + std::size_t(lists.start[step + 1]) * Kind::width;
        typename Kind::Value inverse;
        Kind::fetch(inverse, at);
        Kind::invert(inverse, health);
        Kind::put(at, inverse);
        const double* const upper = at + Kind::width;
        for (double* l = lower; l != end; l += Kind::width) {
            typename Kind::Value multiplier;
            Kind::fetch(multiplier, l);
            Kind::multiply(multiplier, inverse);
            Kind::judge(multiplier, health);
            Kind::put(l, multiplier);
            for (const double* u = upper; u != lower; u += Kind::width) {
                double* const goal = factors + std::size_t(*target++) * Kind::width;
                typename Kind::Value entry, across;
                Kind::fetch(entry, goal);
                Kind::fetch(across, u);
                Kind::subtractProduct(entry, multiplier, across);
                Kind::put(goal, entry);
            }
        }
    }
    return Kind::sound(health);
}

/// goal -= factor * source, `count` numbers of each.
template <class Kind>
OHMWRIGHT_INLINE void subtractRow(double* goal, const double* source, const typename Kind::Value& factor,
                                  std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) {
        typename Kind::Value entry, from;
        Kind::fetch(entry, goal + k * Kind::width);
        Kind::fetch(from, source + k * Kind::width);
        Kind::subtractProduct(entry, factor, from);
        Kind::put(goal + k * Kind::width, entry);
    }
}

template <>
OHMWRIGHT_INLINE void subtractRow<Real>(double* goal, const double* source, const Real::Value& factor,
                                        std::size_t count) {
    std::size_t k = 0;
    for (; k + vectorDoubles <= count; k += vectorDoubles) {
        Vector entry, from;
        load(entry, goal + k);
        load(from, source + k);
        entry -= factor.re * from;
        store(goal + k, entry);
    }
    for (; k < count; ++k) {
        goal[k] -= factor.re * source[k];
    }
}

template <class Kind>
OHMWRIGHT_INLINE void scaleRow(double* goal, const typename Kind::Value& factor, std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) {
        typename Kind::Value entry;
        Kind::fetch(entry, goal + k * Kind::width);
        Kind::multiply(entry, factor);
        Kind::put(goal + k * Kind::width, entry);
    }
}

/// Positions of one step's row of U or column of L.
struct Span {
    std::size_t from, to;
};
OHMWRIGHT_INLINE Span upperOf(const EliminationLists& lists, std::size_t step) {
    return {std::size_t(lists.start[step]) + 1, std::size_t(lists.lower[step])};
}
OHMWRIGHT_INLINE Span lowerOf(const EliminationLists& lists, std::size_t step) {
    return {std::size_t(lists.lower[step]), std::size_t(lists.start[step + 1])};
}

/// What is known at a step is taken off the unknowns of the span.
template <class Kind>
OHMWRIGHT_INLINE void spread(const EliminationLists& lists, Span span, const double* factors, double* work,
                             std::size_t step, std::size_t count) {
    const double* const source = work + step * count * Kind::width;
    if (count == 1) {
        typename Kind::Value known;
        Kind::fetch(known, source);
        for (std::size_t at = span.from; at < span.to; ++at) {
            double* const goal = work + std::size_t(lists.index[at]) * Kind::width;
            typename Kind::Value factor, entry;
            Kind::fetch(factor, factors + at * Kind::width);
            Kind::fetch(entry, goal);
            Kind::subtractProduct(entry, factor, known);
            Kind::put(goal, entry);
        }
        return;
    }
    for (std::size_t at = span.from; at < span.to; ++at) {
        typename Kind::Value factor;
        Kind::fetch(factor, factors + at * Kind::width);
        subtractRow<Kind>(work + std::size_t(lists.index[at]) * count * Kind::width, source, factor, count);
    }
}

/// What is known at the unknowns of the span is taken off a step.
template <class Kind>
OHMWRIGHT_INLINE void gather(const EliminationLists& lists, Span span, const double* factors, double* work,
                             std::size_t step, std::size_t count) {
    double* const goal = work + step * count * Kind::width;
    if (count == 1) {
        typename Kind::Value sum;
        Kind::fetch(sum, goal);
        for (std::size_t at = span.from; at < span.to; ++at) {
            typename Kind::Value factor, known;
            Kind::fetch(factor, factors + at * Kind::width);
            Kind::fetch(known, work + std::size_t(lists.index[at]) * Kind::width);
            Kind::subtractProduct(sum, factor, known);
        }
        Kind::put(goal, sum);
        return;
    }
    for (std::size_t at = span.from; at < span.to; ++at) {
        typename Kind::Value factor;
        Kind::fetch(factor, factors + at * Kind::width);
        subtractRow<Kind>(goal, work + std::size_t(lists.index[at]) * count * Kind::width, factor, count);
    }
}

template <class Kind>
OHMWRIGHT_INLINE void scale(const EliminationLists& lists, const double* factors, double* work, std::size_t step,
                            std::size_t count) {
    typename Kind::Value inverse;
    Kind::fetch(inverse, factors + std::size_t(lists.start[step]) * Kind::width);
    scaleRow<Kind>(work + step * count * Kind::width, inverse, count);
}

template <class Kind>
void forward(const EliminationLists& lists, StepRange steps, const double* factors, double* work, std::size_t count) {
    for (std::size_t step = steps.from; step < steps.to; ++step) {
        spread<Kind>(lists, lowerOf(lists, step), factors, work, step, count);
    }
}

template <class Kind>
void back(const EliminationLists& lists, StepRange steps, const double* factors, double* work, std::size_t count) {
    for (std::size_t step = steps.to; step-- > steps.from;) {
        gather<Kind>(lists, upperOf(lists, step), factors, work, step, count);
        scale<Kind>(lists, factors, work, step, count);
    }
}

template <class Kind>
void forwardTransposed(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                       std::size_t count) {
    for (std::size_t step = steps.from; step < steps.to; ++step) {
        scale<Kind>(lists, factors, work, step, count);
        spread<Kind>(lists, upperOf(lists, step), factors, work, step, count);
    }
}

template <class Kind>
void backTransposed(const EliminationLists& lists, StepRange steps, const double* factors, double* work,
                    std::size_t count) {
    for (std::size_t step = steps.to; step-- > steps.from;) {
        gather<Kind>(lists, lowerOf(lists, step), factors, work, step, count);
    }
}

template <class Kind>
constexpr SparseKernels kernelsOf() {
    return {scatter<Kind>, eliminate<Kind>, forward<Kind>, back<Kind>, forwardTransposed<Kind>, backTransposed<Kind>};
}

constexpr KernelSet localKernels{kernelsOf<Real>(), kernelsOf<Complex>(), kernelsOf<Lanes>(), scatterFrequencies};

#undef OHMWRIGHT_INLINE

}  // namespace
}  // namespace ohmwright
