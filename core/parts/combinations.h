/// Which parts of the drawer make a value: one alone, two in series, two across each other.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/preferred_numbers.h"
#include "core/base/result.h"
#include "core/parts/drawer.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A value that can be had, as often as `quantity` says.
struct ValueOnHand {
    double value = 0.0;  ///< SI unit of the kind; the measured one where it was measured.
    std::string lot;     ///< DrawerLot::id; empty for a preferred number that is assumed to be in stock.
    int quantity = 0;

    friend bool operator==(const ValueOnHand&, const ValueOnHand&) = default;
};

/// What the job can take of a kind, ascending; lots that are used up or reserved are left out.
std::vector<ValueOnHand> valuesOnHand(const Drawer& drawer, PartKind kind, std::string_view job = {});

/// Every value of a series from `lowest` to `highest`, two of each: for a shop without a drawer. "Assumed stock".
/// REQUIRES: 0 < lowest <= highest.
std::vector<ValueOnHand> assumedValues(Series series, double lowest, double highest);

/// What a shop without a drawer is taken to have: E24 from 10R to 10M, capacitors E12 from 10p to 100µ, pots E3 from 1k
/// to 1M, coils E6 from 1 mH to 1 H.
std::vector<ValueOnHand> assumedStock(PartKind kind);

enum class Joint { single, series, parallel };

/// One part, or two joined; `members` are in the order in which they are to be listed, the larger share first.
struct Combination {
    Joint joint = Joint::single;
    double value = 0.0;  ///< Of the whole [SI].
    std::vector<ValueOnHand> members;

    friend bool operator==(const Combination&, const Combination&) = default;
};

/// Of two in series: resistors and coils add, capacitors add as 1/C; across each other the other way round.
/// REQUIRES: `kind` is resistor, potentiometer (its track), capacitor or inductor; values above 0.
double seriesValue(PartKind kind, double first, double second);
double parallelValue(PartKind kind, double first, double second);

/// How far a combination is off: value/target - 1, signed.
double shareOff(const Combination& combination, double target);

struct CombinationOptions {
    bool withPairs = true;
    std::size_t most = 12;
};

/// The combinations nearest to `target`, ranked: by how near (in steps of 0.1 % of the target, less is nothing to a
/// part of 1 %), then by how few parts, then by how many are left of the scarcest member, then by value.
///
/// A lot is in a pair twice only if it holds two. A pot is never paired: two tracks turn on two shafts.
/// Errors: invalidInput when the kind has no value or the target is outside what such parts have.
Result<std::vector<Combination>> findCombinations(PartKind kind, double target, const std::vector<ValueOnHand>& onHand,
                                                  const CombinationOptions& options = {});

/// All of them, in no order: singles first. What an exhaustive search walks.
std::vector<Combination> allCombinations(PartKind kind, const std::vector<ValueOnHand>& onHand, bool withPairs = true);

/// "2k7", "1k8 + 820R in series", "3k9 with 10k across".
std::string describeCombination(PartKind kind, const Combination& combination);

}  // namespace ohmwright
