/// Plans as a bench makes them, at random, the same ones on every run of a seed: every mod fits and the board that it
/// gives can be solved.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/preferred_numbers.h"
#include "core/bench/unpowered_board.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/plan/job.h"
#include "tests/support/random_jobs.h"

#include <string>
#include <vector>

namespace ohmwright::test {

inline bool isWorkedOn(const Part& part) {
    return part.kind == PartKind::resistor || part.kind == PartKind::capacitor || part.kind == PartKind::diode ||
           part.kind == PartKind::potentiometer || part.kind == PartKind::bipolar || part.kind == PartKind::jfet;
}

/// A preferred value up to two decades from `value`, never itself.
inline double otherPreferredValue(Chance& chance, double value) {
    const bool isUp = chance.oneIn(2);
    double other = value;
    for (int steps = 1 + chance.below(24); steps > 0; --steps) {
        other = isUp ? nextPreferred(other, Series::e12) : previousPreferred(other, Series::e12);
    }
    return other;
}

/// A second one of the same sort.
inline NewPart alike(Chance& chance, const Circuit& circuit, const Part& part, int number) {
    NewPart fitted;
    fitted.reference = "X" + std::to_string(number);
    fitted.kind = part.kind;
    fitted.tolerance = part.tolerance;
    if (part.kind == PartKind::diode) {
        fitted.model = *findModel(circuit, part.model);
    } else {
        fitted.value = otherPreferredValue(chance, part.value);
    }
    return fitted;
}

inline SingleChange benchChange(Chance& chance, const Circuit& circuit, const Part& part, int number) {
    const bool isPassive = part.kind == PartKind::resistor || part.kind == PartKind::capacitor;
    const bool isTwoLegged = isPassive || part.kind == PartKind::diode;
    if (part.kind == PartKind::potentiometer) {
        return ChangePot{part.id, otherPreferredValue(chance, part.value),
                         chance.oneIn(2) ? Taper::linear : Taper::logarithmic, chance.oneIn(2) ? 0.5 : 0.15};
    }
    if (!isTwoLegged) {
        return Bridge{part.id, 0, 2};
    }
    switch (chance.below(8)) {
        case 0:
            return AddInSeries{part.id, chance.below(2), alike(chance, circuit, part, number), chance.oneIn(3)};
        case 1:
            return AddAcross{part.id, 0, 1, alike(chance, circuit, part, number), chance.oneIn(2)};
        case 2:
            return Lift{part.id, chance.below(2)};
        case 3:
            return RemovePart{part.id};
        case 4:
            return Bridge{part.id, 0, 1};
        default:
            break;
    }
    if (isPassive) {
        return SwapValue{part.id, otherPreferredValue(chance, part.value)};
    }
    return AddInSeries{part.id, chance.below(2), alike(chance, circuit, part, number), false};
}

/// One to four mods on `job`'s board; the player's instrument before the jack is left alone.
inline Plan benchPlan(Chance& chance, const Job& job) {
    std::vector<Part> parts;
    const Circuit board = unpoweredBoard(job.stock);
    for (const Part& part : job.stock.parts) {
        if (isWorkedOn(part) &&
            (findPart(board, part.id) != nullptr || part.kind == PartKind::bipolar || part.kind == PartKind::jfet)) {
            parts.push_back(part);
        }
    }
    Plan plan;
    Circuit now = job.stock;
    const int wanted = 1 + chance.below(4);
    for (int tries = 0; static_cast<int>(plan.size()) < wanted && tries < 40; ++tries) {
        Mod mod;
        mod.id = "mod " + std::to_string(tries);
        mod.letter = std::string(1, static_cast<char>('A' + static_cast<int>(plan.size())));
        mod.change = std::visit([](auto&& kind) -> Change { return kind; },
                                benchChange(chance, now, chance.of(parts), 90 + tries));
        const Result<Circuit> next = applyMod(now, mod);
        if (next && solveCircuit(*next, job.setting)) {
            now = *next;
            plan.push_back(mod);
        }
    }
    return plan;
}

}  // namespace ohmwright::test
