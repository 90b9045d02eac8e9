// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/target_options.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <utility>

namespace ohmwright {

OpenPart openPartFor(const Part& part, const TargetRequest& request) {
    OpenPart place;
    place.part = &part;
    place.isAssumed = request.drawer.lots.empty();
    place.onHand = place.isAssumed ? assumedStock(part.kind) : valuesOnHand(request.drawer, part.kind, request.forJob);
    place.byTaken[0].push_back({std::log(part.value), Joint::single, -1, -1});
    const int count = int(place.onHand.size());
    for (int a = 0; a < count; ++a) {
        place.byTaken[1].push_back({std::log(place.onHand[std::size_t(a)].value), Joint::single, a, -1});
        if (!request.withPairs || part.kind == PartKind::potentiometer) {
            continue;
        }
        for (int b = a; b < count; ++b) {
            if (a == b && place.onHand[std::size_t(a)].quantity < 2) {
                continue;
            }
            const double first = place.onHand[std::size_t(a)].value;
            const double second = place.onHand[std::size_t(b)].value;
            place.byTaken[2].push_back({std::log(seriesValue(part.kind, first, second)), Joint::series, a, b});
            place.byTaken[2].push_back({std::log(parallelValue(part.kind, first, second)), Joint::parallel, a, b});
        }
    }
    place.lowestLog = place.highestLog = std::log(part.value);
    for (std::vector<Option>& options : place.byTaken) {
        std::stable_sort(options.begin(), options.end(),
                         [](const Option& a, const Option& b) { return a.logValue < b.logValue; });
        if (!options.empty()) {
            place.lowestLog = std::min(place.lowestLog, options.front().logValue);
            place.highestLog = std::max(place.highestLog, options.back().logValue);
        }
    }
    return place;
}

Combination combinationOf(const OpenPart& place, const Option& option) {
    const ValueOnHand& first = place.onHand[std::size_t(option.first)];
    if (option.second < 0) {
        return {Joint::single, first.value, {first}};
    }
    const ValueOnHand& second = place.onHand[std::size_t(option.second)];
    const PartKind kind = place.part->kind;
    // On hand they ascend; the larger share first, as parts/combinations.h has it.
    const bool isSeries = option.joint == Joint::series;
    const bool largerFirst = isSeries == (kind != PartKind::capacitor);
    return {option.joint,
            isSeries ? seriesValue(kind, first.value, second.value) : parallelValue(kind, first.value, second.value),
            largerFirst ? std::vector<ValueOnHand>{second, first} : std::vector<ValueOnHand>{first, second}};
}

int leftToBuild(const std::vector<OpenPart>& places, const Choice& choice) {
    std::map<std::pair<PartKind, std::string>, std::pair<int, int>> needed;  // lot: needed, on hand
    const auto add = [&](std::size_t place, int member) {
        if (member >= 0) {
            const ValueOnHand& value = places[place].onHand[std::size_t(member)];
            const std::string name = value.lot.empty() ? std::to_string(value.value) : value.lot;
            auto& [count, there] = needed[{places[place].part->kind, name}];
            ++count;
            there = value.quantity;
        }
    };
    add(choice.firstPlace, choice.first.first);
    add(choice.firstPlace, choice.first.second);
    add(choice.secondPlace, choice.second.first);
    add(choice.secondPlace, choice.second.second);
    int left = std::numeric_limits<int>::max();
    for (const auto& [lot, counts] : needed) {
        left = std::min(left, counts.second / counts.first);
    }
    return left;
}

}  // namespace ohmwright
