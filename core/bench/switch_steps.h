/// The work of a switch that a mod fits: parts of its throws, the switch and its wires, then each throw as a board of
/// its own with its readings.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/bench_step.h"
#include "core/bench/board_edits.h"
#include "core/bench/mistakes.h"
#include "core/bench/polarity.h"
#include "core/plan/throws.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

struct SwitchWork {
    std::string letter;
    const Circuit& before;                    ///< Without the switch.
    const std::vector<ThrowCircuit>& throws;  ///< In the switch's order; one at least.
    const DutyTable& duties;
};

/// Parts that any throw brings, and the switch with what each throw joins; without readings.
std::vector<BenchStep> stepsOfSwitch(const SwitchWork& work);

/// The way back: the switch and the parts of its throws out.
std::vector<BenchStep> stepsOfSwitchOut(const SwitchWork& work);

/// What a throw is read for: the parts that are another way on it than before or on any other throw.
std::vector<BoardEdit> editsOfThrow(const Circuit& before, const std::vector<ThrowCircuit>& throws, std::size_t index);

/// The same on the board that is to be as before: the parts that any throw moved.
std::vector<BoardEdit> editsBack(const Circuit& before, const std::vector<ThrowCircuit>& throws);

/// The switch the other way up: the board that the lever gives then. Absent for a middle throw, and where both throws
/// are alike.
std::optional<Mistake> switchUpsideDown(const std::vector<ThrowCircuit>& throws, std::size_t index);

/// "silicon / open / LED"
std::string namesOfThrows(const std::vector<ThrowCircuit>& throws);

/// "the board as it was", "D1, D2 LED red": what a throw does, against the board before.
std::string throwWords(const Circuit& before, const Circuit& board);

}  // namespace ohmwright
