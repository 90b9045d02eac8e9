/// Which of many readings are enough: the cheapest set that leaves nothing unseen.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace ohmwright {

/// The cheapest set of columns that covers every row that can be covered; exact unless `isExact` comes back false.
struct Cover {
    std::vector<std::size_t> columns;
    bool isExact = true;
};
/// @param covers  one row a thing to cover, one entry a column.
Cover cheapestCover(const std::vector<std::vector<bool>>& covers, const std::vector<double>& costs);

}  // namespace ohmwright
