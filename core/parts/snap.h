/// From a value that no part has to one that a part has: the drawer's nearest, else the shop's series.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/preferred_numbers.h"
#include "core/circuit/circuit.h"
#include "core/parts/drawer.h"

#include <string>
#include <string_view>

namespace ohmwright {

/// E12 for capacitors and inductors, E24 for resistors, E6 for pots: what a shop keeps (common practice, no source).
Series shopSeries(PartKind kind);

/// "E12"
const char* seriesName(Series series);

struct SnappedValue {
    double value = 0.0;  ///< SI unit of the kind.
    int left = 0;        ///< How many the drawer has for the job; 0: the value is one of the series.

    friend bool operator==(const SnappedValue&, const SnappedValue&) = default;
};

/// The nearest by ratio of the values that the drawer has a part of for the job; where it has none of the kind, the
/// nearest of the shop's series. Of two equally near ones the smaller.
/// REQUIRES: value > 0 and finite.
/// @param job  whose own reservation counts as free (drawer.h).
SnappedValue snapToPart(const Drawer& drawer, PartKind kind, double value, std::string_view job);

/// "snapped 2k73 → 2k7, 14 in the drawer"; "snapped 2k73 → 2k7 of E24, assumed stock"; "2k7, 14 in the drawer" where it
/// was one already.
/// @param isStockKnown  whether the shop has a drawer; where it has, and none of this kind in it, that is said.
std::string snapSentence(PartKind kind, double from, const SnappedValue& to, bool isStockKnown);

}  // namespace ohmwright
