/// Eight complex numbers side by side: eight frequencies solved in one pass of the sparse kernel.
///
/// Real parts together and imaginary parts together, so that a product is four products of whole vectors. Without the
/// checks for infinities that no circuit has.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <complex>
#include <cstddef>

/// Before a function with loops over lanes: it is compiled for wider vectors too, and the program takes what its
/// processor has when it is loaded. What it calls must be inlined into it.
#if defined(__x86_64__) && defined(__ELF__)
#define OHMWRIGHT_FOR_WIDE_VECTORS __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define OHMWRIGHT_FOR_WIDE_VECTORS
#endif

namespace ohmwright {

struct alignas(64) ComplexLanes {
    static constexpr std::size_t count = 8;

    double re[count] = {};
    double im[count] = {};

    ComplexLanes() = default;
    /// The same number in every lane.
    explicit ComplexLanes(std::complex<double> value) {
        for (std::size_t k = 0; k < count; ++k) {
            set(k, value);
        }
    }

    [[nodiscard]] std::complex<double> lane(std::size_t k) const { return {re[k], im[k]}; }
    void set(std::size_t k, std::complex<double> value) {
        re[k] = value.real();
        im[k] = value.imag();
    }

    ComplexLanes& operator+=(const ComplexLanes& other) {
        for (std::size_t k = 0; k < count; ++k) {
            re[k] += other.re[k];
            im[k] += other.im[k];
        }
        return *this;
    }
    ComplexLanes& operator-=(const ComplexLanes& other) {
        for (std::size_t k = 0; k < count; ++k) {
            re[k] -= other.re[k];
            im[k] -= other.im[k];
        }
        return *this;
    }
    ComplexLanes& operator*=(const ComplexLanes& other) {
        for (std::size_t k = 0; k < count; ++k) {
            const double real = re[k] * other.re[k] - im[k] * other.im[k];
            im[k] = re[k] * other.im[k] + im[k] * other.re[k];
            re[k] = real;
        }
        return *this;
    }
    friend ComplexLanes operator+(const ComplexLanes& a, const ComplexLanes& b) {
        ComplexLanes result = a;
        result += b;
        return result;
    }
    friend ComplexLanes operator-(const ComplexLanes& a, const ComplexLanes& b) {
        ComplexLanes result = a;
        result -= b;
        return result;
    }
    friend ComplexLanes operator*(const ComplexLanes& a, const ComplexLanes& b) {
        ComplexLanes result = a;
        result *= b;
        return result;
    }
};

/// A real number a lane.
using RealLanes = std::array<double, ComplexLanes::count>;

/// 1 / z, lane by lane.
inline ComplexLanes reciprocal(const ComplexLanes& z) {
    ComplexLanes inverse;
    for (std::size_t k = 0; k < ComplexLanes::count; ++k) {
        const double share = 1.0 / (z.re[k] * z.re[k] + z.im[k] * z.im[k]);
        inverse.re[k] = z.re[k] * share;
        inverse.im[k] = -z.im[k] * share;
    }
    return inverse;
}

}  // namespace ohmwright
