/// What the parts of a target search can become: every single part and pair on hand, and staying as they are.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/parts/combinations.h"
#include "core/plan/targets.h"

#include <array>
#include <cstddef>
#include <vector>

namespace ohmwright {

/// One value that a part can have; `members` index the values on hand.
struct Option {
    double logValue = 0.0;
    Joint joint = Joint::single;
    int first = -1;  ///< -1: the part stays as it is.
    int second = -1;

    [[nodiscard]] std::size_t taken() const { return std::size_t(first >= 0) + std::size_t(second >= 0); }
};

/// A part that may change, with all it can become.
struct OpenPart {
    const Part* part = nullptr;
    std::vector<ValueOnHand> onHand;
    std::array<std::vector<Option>, 3> byTaken;  ///< Taking none, one, two; each ascending in value.
    double lowestLog = 0.0;
    double highestLog = 0.0;
    bool isAssumed = false;
};

OpenPart openPartFor(const Part& part, const TargetRequest& request);

/// The option as a combination of what is on hand. REQUIRES: it takes something.
Combination combinationOf(const OpenPart& place, const Option& option);

/// Options for two places (the second -1 where only one part changes) and what interpolation says of them.
struct Choice {
    std::size_t firstPlace = 0, secondPlace = 0;
    Option first, second;
    double guess = 0.0;

    [[nodiscard]] std::size_t taken() const { return first.taken() + second.taken(); }
};

/// How often the drawer holds what the choice takes; 0 when it does not.
int leftToBuild(const std::vector<OpenPart>& places, const Choice& choice);

}  // namespace ohmwright
