/// The legs of the parts on the board: their names, their nets, and what a probe of a check stands for.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/check.h"
#include "core/circuit/circuit.h"
#include "core/plan/board.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// Every leg on the board, part by part in the order of walkOrder; what both halves of a chip share once. A MOSFET's
/// bulk that is at its source has no leg of its own.
std::vector<Leg> legsOnBoard(const Circuit& circuit);

/// The leg as legsOnBoard has it: of a pin that two halves of a chip share, the first half's.
Leg standingLeg(const Circuit& circuit, const Leg& leg);

/// The net at a leg; empty where there is no such leg.
NetName netAt(const Circuit& circuit, const Leg& leg);
/// In the order of legsOnBoard.
std::vector<Leg> legsOfNet(const Circuit& circuit, const NetName& net);

/// "leg 1", "pin 2", "base", "plus leg", "band leg".
std::string legWord(const Part& part, int pin);
/// "C4 Cg leg 1", "U1 pin 2", "Q1 base"; empty where there is no such leg.
std::string legWords(const Circuit& circuit, const Leg& leg);
/// The leg that somebody names: its word ("base", "leg 1", "pin 2"), its number on the body or, where it has none
/// there, counted from 1.
std::optional<int> pinOfWord(const Part& part, std::string_view word);

/// "inverting input", "Q1 base", "ground", "input jack", "output jack"; else the net's own name.
std::string netTitle(const Circuit& circuit, const NetName& net);
/// "6 legs: U1 pin 2, C4, C5, R6, D1, D2": chips first, then by kind and number.
std::string netLegsWords(const Circuit& circuit, const NetName& net);
/// "inverting input: 6 legs: U1 pin 2, C4, C5, R6, D1, D2"
std::string netWords(const Circuit& circuit, const NetName& net);

/// Where a probe goes on the board. Of legs that look alike it is the one that the other probe's net reaches, else the
/// first. Nothing for ground and the jacks, which are beside the board: their words say it.
std::optional<Leg> legOfProbe(const Circuit& circuit, const Probe& probe, const Probe& other);

/// "C4 Cg: not marked: click leg 1"
std::string markPrompt(const Circuit& circuit, const Leg& leg);

}  // namespace ohmwright
