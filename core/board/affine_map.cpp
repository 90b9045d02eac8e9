// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/board/affine_map.h"

#include <cmath>
#include <complex>

namespace ohmwright {

namespace {

/// Less of the scatter than this share across the main direction is a line: a hand marks no better.
constexpr double lineShare = 1e-4;

struct Means {
    BoardPoint from, to;
};

Means meansOf(std::span<const PointPair> pairs) {
    Means means;
    const auto count = static_cast<double>(pairs.size());
    for (const PointPair& pair : pairs) {
        means.from.x += pair.from.x / count;
        means.from.y += pair.from.y / count;
        means.to.x += pair.to.x / count;
        means.to.y += pair.to.y / count;
    }
    return means;
}

FittedMap withResidual(const AffineMap& map, std::span<const PointPair> pairs) {
    double squares = 0.0;
    for (const PointPair& pair : pairs) {
        const BoardPoint reached = map.at(pair.from);
        squares += std::pow(reached.x - pair.to.x, 2) + std::pow(reached.y - pair.to.y, 2);
    }
    return {map, std::sqrt(squares / static_cast<double>(pairs.size()))};
}

/// The map whose turning part is known, so that means fall on means.
AffineMap shifted(AffineMap map, const Means& means) {
    const BoardPoint reached = map.at(means.from);
    map.x0 = means.to.x - reached.x;
    map.y0 = means.to.y - reached.y;
    return map;
}

}  // namespace

AffineMap AffineMap::inverse() const {
    const double determinant = xx * yy - xy * yx;
    AffineMap back;
    back.xx = yy / determinant;
    back.xy = -xy / determinant;
    back.yx = -yx / determinant;
    back.yy = xx / determinant;
    back.x0 = -(back.xx * x0 + back.xy * y0);
    back.y0 = -(back.yx * x0 + back.yy * y0);
    return back;
}

/// Normal equations about the means: two by two, the same for both rows of the map.
std::optional<FittedMap> fitAffine(std::span<const PointPair> pairs) {
    constexpr std::size_t leastPairs = 3;
    if (pairs.size() < leastPairs) {
        return std::nullopt;
    }
    const Means means = meansOf(pairs);
    double sxx = 0.0, sxy = 0.0, syy = 0.0;
    double txx = 0.0, txy = 0.0, tyx = 0.0, tyy = 0.0;
    for (const PointPair& pair : pairs) {
        const double x = pair.from.x - means.from.x, y = pair.from.y - means.from.y;
        const double u = pair.to.x - means.to.x, v = pair.to.y - means.to.y;
        sxx += x * x;
        sxy += x * y;
        syy += y * y;
        txx += u * x;
        txy += u * y;
        tyx += v * x;
        tyy += v * y;
    }
    const double determinant = sxx * syy - sxy * sxy;
    const double scatter = sxx + syy;
    if (determinant <= lineShare * scatter * scatter) {
        return std::nullopt;
    }
    AffineMap map;
    map.xx = (txx * syy - txy * sxy) / determinant;
    map.xy = (txy * sxx - txx * sxy) / determinant;
    map.yx = (tyx * syy - tyy * sxy) / determinant;
    map.yy = (tyy * sxx - tyx * sxy) / determinant;
    return withResidual(shifted(map, means), pairs);
}

/// In complex numbers to = s conj(from) + t: s turns and scales, the conjugate mirrors.
std::optional<FittedMap> fitMirrored(std::span<const PointPair> pairs) {
    if (pairs.size() < 2) {
        return std::nullopt;
    }
    const Means means = meansOf(pairs);
    std::complex<double> product = 0.0;
    double scatter = 0.0;
    for (const PointPair& pair : pairs) {
        const std::complex<double> from(pair.from.x - means.from.x, pair.from.y - means.from.y);
        const std::complex<double> to(pair.to.x - means.to.x, pair.to.y - means.to.y);
        product += to * from;
        scatter += std::norm(from);
    }
    if (scatter <= 0.0 || product == std::complex<double>(0.0)) {
        return std::nullopt;
    }
    const std::complex<double> s = product / scatter;
    AffineMap map;
    map.xx = s.real();
    map.xy = s.imag();
    map.yx = s.imag();
    map.yy = -s.real();
    return withResidual(shifted(map, means), pairs);
}

}  // namespace ohmwright
