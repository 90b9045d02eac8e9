/// Where the names of thin curves stand: on their curve, as far from the others as it gets.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPolygonF>
#include <QRectF>
#include <QSizeF>

#include <optional>
#include <vector>

namespace ohmwright {

/// A curve with the size of its name [px]; x of the curve ascends.
struct NamedCurve {
    QPolygonF line;
    QSizeF size;
};

/// One box a curve, above or below a place on its line, inside `plot`, on none of the boxes before it nor of
/// `taken`; of the places free of all lines the one furthest from other curves. Absent where none is free.
std::vector<std::optional<QRectF>> placeNames(const QRectF& plot, const std::vector<NamedCurve>& curves,
                                              const std::vector<QPolygonF>& others, const std::vector<QRectF>& taken);

}  // namespace ohmwright
