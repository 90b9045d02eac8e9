// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/stock_values.h"

#include "app/part/value_steps.h"

#include <algorithm>
#include <cstdlib>

namespace ohmwright {

std::vector<StockValue> stockValues(const Drawer& drawer, PartKind kind, std::string_view job) {
    std::vector<StockValue> values;
    for (const DrawerLot& lot : drawer.lots) {
        if (lot.kind != kind || lot.value <= 0.0) {
            continue;
        }
        const auto same = std::find_if(values.begin(), values.end(),
                                       [&lot](const StockValue& known) { return isSameValue(known.value, lot.value); });
        if (same == values.end()) {
            values.push_back({lot.value, availableFor(lot, job)});
        } else {
            same->left += availableFor(lot, job);
        }
    }
    std::sort(values.begin(), values.end(), [](const auto& a, const auto& b) { return a.value < b.value; });
    return values;
}

int leftOfType(const Drawer& drawer, PartKind kind, std::string_view type, std::string_view job) {
    int left = 0;
    for (const DrawerLot& lot : drawer.lots) {
        left += lot.kind == kind && lot.type == type ? availableFor(lot, job) : 0;
    }
    return left;
}

int leftOfValue(const std::vector<StockValue>& values, double value) {
    const auto found = std::find_if(values.begin(), values.end(),
                                    [value](const StockValue& known) { return isSameValue(known.value, value); });
    return found == values.end() ? 0 : found->left;
}

double steppedInStock(const std::vector<StockValue>& values, double value, int steps) {
    for (int taken = 0; taken < std::abs(steps); ++taken) {
        const auto isAbove = [value](const StockValue& known) {
            return known.value > value && !isSameValue(known.value, value);
        };
        const auto isBelow = [value](const StockValue& known) {
            return known.value < value && !isSameValue(known.value, value);
        };
        if (steps > 0) {
            const auto next = std::find_if(values.begin(), values.end(), isAbove);
            value = next == values.end() ? value : next->value;
        } else {
            const auto next = std::find_if(values.rbegin(), values.rend(), isBelow);
            value = next == values.rend() ? value : next->value;
        }
    }
    return value;
}

std::vector<double> stockAround(const std::vector<StockValue>& values, double value, int count) {
    std::vector<double> around;
    for (const StockValue& known : values) {
        if (!isSameValue(known.value, value)) {
            around.push_back(known.value);
        }
    }
    const auto inserted = around.insert(std::upper_bound(around.begin(), around.end(), value), value);
    const std::ptrdiff_t place = inserted - around.begin();
    const auto size = static_cast<std::ptrdiff_t>(around.size());
    const std::ptrdiff_t first =
        std::clamp(place - count / 2, std::ptrdiff_t{0}, std::max(std::ptrdiff_t{0}, size - count));
    return {around.begin() + first, around.begin() + std::min(size, first + count)};
}

}  // namespace ohmwright
