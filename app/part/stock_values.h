/// The drawer's values of a kind: what the wheel steps through and the list shows, with how many are left.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/parts/drawer.h"

#include <string_view>
#include <vector>

namespace ohmwright {

/// A value as it is ordered, over all lots of it.
struct StockValue {
    double value = 0.0;  ///< SI unit of the kind.
    int left = 0;        ///< That the job can take; 0 where the drawer knows the value but has none.

    friend bool operator==(const StockValue&, const StockValue&) = default;
};

/// Ascending. Values that are used up are among them: the technician knows them and must see that they are gone.
/// @param job  whose own reservation counts as free (core/parts/drawer.h).
std::vector<StockValue> stockValues(const Drawer& drawer, PartKind kind, std::string_view job);

/// How many of a type or of a value the job can take; 0 where the drawer does not know it.
int leftOfType(const Drawer& drawer, PartKind kind, std::string_view type, std::string_view job);
int leftOfValue(const std::vector<StockValue>& values, double value);

/// `steps` values of the drawer up (negative: down) from wherever `value` is; stops at the ends.
/// REQUIRES: values not empty.
double steppedInStock(const std::vector<StockValue>& values, double value, int steps);

/// The `count` values of the drawer that stand around `value`, ascending; `value` itself is always among them.
std::vector<double> stockAround(const std::vector<StockValue>& values, double value, int count);

}  // namespace ohmwright
