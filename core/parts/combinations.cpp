// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/parts/combinations.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/circuit/check.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>

namespace ohmwright {

namespace {

/// Nearness is compared in steps of this share of the target.
constexpr double nearnessStep = 1e-3;
/// An assumed stock holds enough for a pair.
constexpr int assumedQuantity = 2;

/// A capacitor's value in series behaves as a resistor's across.
bool addsInSeries(PartKind kind) {
    return kind != PartKind::capacitor;
}

double harmonicSum(double first, double second) {
    return first * second / (first + second);
}

/// The larger share first: of what adds, the larger value; of what divides, the smaller.
std::vector<ValueOnHand> inListOrder(const ValueOnHand& a, const ValueOnHand& b, bool adds) {
    const bool aFirst = adds ? a.value >= b.value : a.value <= b.value;
    return aFirst ? std::vector<ValueOnHand>{a, b} : std::vector<ValueOnHand>{b, a};
}

/// How often the whole can be built.
int leftOf(const Combination& combination) {
    int left = combination.members.front().quantity;
    for (const ValueOnHand& member : combination.members) {
        left = std::min(left, member.quantity);
    }
    return left;
}

auto rankOf(const Combination& combination, double target) {
    const double off = std::abs(shareOff(combination, target));
    return std::tuple(std::round(off / nearnessStep), combination.members.size(), -leftOf(combination), off,
                      combination.value);
}

/// Keeps the best of a stream of combinations without holding all of it.
class BestOf {
public:
    BestOf(double target, std::size_t most) : m_target(target), m_most(std::max<std::size_t>(most, 1)) {}

    void offer(Combination&& combination) {
        m_kept.push_back(std::move(combination));
        if (m_kept.size() >= 8 * m_most) {
            trim();
        }
    }
    std::vector<Combination> take() {
        trim();
        return std::move(m_kept);
    }

private:
    void trim() {
        std::stable_sort(m_kept.begin(), m_kept.end(), [this](const Combination& a, const Combination& b) {
            return rankOf(a, m_target) < rankOf(b, m_target);
        });
        m_kept.resize(std::min(m_kept.size(), m_most));
    }

    double m_target;
    std::size_t m_most;
    std::vector<Combination> m_kept;
};

template <class Take>
void forEachCombination(PartKind kind, const std::vector<ValueOnHand>& onHand, bool withPairs, Take take) {
    for (const ValueOnHand& one : onHand) {
        if (one.quantity > 0) {
            take(Combination{Joint::single, one.value, {one}});
        }
    }
    if (!withPairs || kind == PartKind::potentiometer) {
        return;
    }
    for (std::size_t a = 0; a < onHand.size(); ++a) {
        for (std::size_t b = a; b < onHand.size(); ++b) {
            if (onHand[a].quantity < (a == b ? 2 : 1) || onHand[b].quantity < 1) {
                continue;
            }
            const double first = onHand[a].value;
            const double second = onHand[b].value;
            const bool adds = addsInSeries(kind);
            take(Combination{Joint::series, seriesValue(kind, first, second), inListOrder(onHand[a], onHand[b], adds)});
            take(Combination{Joint::parallel, parallelValue(kind, first, second),
                             inListOrder(onHand[a], onHand[b], !adds)});
        }
    }
}

}  // namespace

std::vector<ValueOnHand> valuesOnHand(const Drawer& drawer, PartKind kind, std::string_view job) {
    std::vector<ValueOnHand> values;
    for (const DrawerLot* lot : lotsOfKind(drawer, kind, job)) {
        values.push_back({valueOf(*lot), lot->id, availableFor(*lot, job)});
    }
    std::stable_sort(values.begin(), values.end(),
                     [](const ValueOnHand& a, const ValueOnHand& b) { return a.value < b.value; });
    return values;
}

std::vector<ValueOnHand> assumedValues(Series series, double lowest, double highest) {
    assert(lowest > 0.0 && lowest <= highest);
    std::vector<ValueOnHand> values;
    // What lies at the lower edge within rounding counts as in.
    double value = nextPreferred(lowest * (1.0 - 1e-6), series);
    while (value <= highest * (1.0 + 1e-6)) {
        values.push_back({value, "", assumedQuantity});
        value = nextPreferred(value, series);
    }
    return values;
}

std::vector<ValueOnHand> assumedStock(PartKind kind) {
    switch (kind) {
        case PartKind::capacitor:
            return assumedValues(Series::e12, 10e-12, 100e-6);
        case PartKind::potentiometer:
            return assumedValues(Series::e3, 1e3, 1e6);
        case PartKind::inductor:
            return assumedValues(Series::e6, 1e-3, 1.0);
        default:
            return assumedValues(Series::e24, 10.0, 10e6);
    }
}

double seriesValue(PartKind kind, double first, double second) {
    return addsInSeries(kind) ? first + second : harmonicSum(first, second);
}

double parallelValue(PartKind kind, double first, double second) {
    return addsInSeries(kind) ? harmonicSum(first, second) : first + second;
}

double shareOff(const Combination& combination, double target) {
    return combination.value / target - 1.0;
}

Result<std::vector<Combination>> findCombinations(PartKind kind, double target, const std::vector<ValueOnHand>& onHand,
                                                  const CombinationOptions& options) {
    const auto limits = valueLimits(kind);
    if (!limits) {
        return Error{ErrorCode::invalidInput,
                     said("A %1 has no value that parts could make. Choose its type.", said(kindName(kind))), ""};
    }
    if (!limits->hold(target)) {
        return Error{ErrorCode::invalidInput,
                     said("No %1 has that value: choose %2.", said(kindName(kind)), said(limits->words)), ""};
    }
    BestOf best(target, options.most);
    forEachCombination(kind, onHand, options.withPairs,
                       [&best](Combination&& combination) { best.offer(std::move(combination)); });
    return best.take();
}

std::vector<Combination> allCombinations(PartKind kind, const std::vector<ValueOnHand>& onHand, bool withPairs) {
    std::vector<Combination> all;
    forEachCombination(kind, onHand, withPairs,
                       [&all](Combination&& combination) { all.push_back(std::move(combination)); });
    return all;
}

std::string describeCombination(PartKind kind, const Combination& combination) {
    const auto text = [&](std::size_t member) {
        return formatPartValue({combination.members[member].value, unitOf(kind)});
    };
    switch (combination.joint) {
        case Joint::series:
            return said("%1 + %2 in series", text(0), text(1));
        case Joint::parallel:
            return said("%1 with %2 across", text(0), text(1));
        case Joint::single:
            break;
    }
    return text(0);
}

}  // namespace ohmwright
