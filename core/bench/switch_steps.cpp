// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/switch_steps.h"

#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/bench/edit_steps.h"
#include "core/bench/net_words.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

bool isOpen(const Circuit& circuit, const NetName& net) {
    return std::find(circuit.openNets.begin(), circuit.openNets.end(), net) != circuit.openNets.end();
}

/// What a throw does to one part; nothing for a part that only hangs on another's work.
std::string doneTo(const Circuit& board, const BoardEdit& edit) {
    switch (edit.kind) {
        case EditKind::partOut:
            return edit.before.kind == PartKind::link ? said("join away") : said("not joined");
        case EditKind::legMoved: {
            const NetName& to = edit.after.nets[static_cast<std::size_t>(edit.legs.front())];
            return isOpen(board, to) ? said("one leg free")
                                     : said("one leg to %1", joinsWords(board, to, edit.after.id));
        }
        case EditKind::partSwapped:
            return valueWords(edit.after);
        case EditKind::partIn:
            return edit.after.kind == PartKind::link ? said("joined") : said("%1 in", valueWords(edit.after));
    }
    return {};
}

/// A part that only one throw uses is new on the board, also where it stands in for another.
std::vector<BoardEdit> partsOfThrow(const Circuit& before, const ThrowCircuit& position) {
    std::vector<BoardEdit> fitted;
    for (BoardEdit& edit : boardEdits(before, position.circuit)) {
        const bool isNew = edit.kind == EditKind::partIn || edit.kind == EditKind::partSwapped;
        if (isNew && edit.after.kind != PartKind::link && edit.after.kind != PartKind::switchContact) {
            edit.kind = EditKind::partIn;
            edit.before = {};
            fitted.push_back(std::move(edit));
        }
    }
    return fitted;
}

void addOnce(std::vector<BoardEdit>& edits, std::vector<BoardEdit> more) {
    for (BoardEdit& edit : more) {
        const bool isKnown = std::any_of(edits.begin(), edits.end(), [&](const BoardEdit& known) {
            return known.kind == edit.kind && known.part().id == edit.part().id && known.legs == edit.legs;
        });
        if (!isKnown) {
            edits.push_back(std::move(edit));
        }
    }
}

}  // namespace

std::string namesOfThrows(const std::vector<ThrowCircuit>& throws) {
    std::string names;
    for (const ThrowCircuit& position : throws) {
        names += (names.empty() ? "" : " / ") + position.name;
    }
    return names;
}

std::string throwWords(const Circuit& before, const Circuit& board) {
    // Parts to which the same is done stand together.
    std::vector<std::pair<std::string, std::string>> done;
    for (const BoardEdit& edit : boardEdits(before, board)) {
        const std::string what = doneTo(board, edit);
        const std::string& whom = edit.part().reference;
        if (!done.empty() && done.back().second == what) {
            done.back().first += ", " + whom;
        } else {
            done.emplace_back(whom, what);
        }
    }
    std::string words;
    for (const auto& [whom, what] : done) {
        words.append(words.empty() ? "" : "; ").append(whom).append(" ").append(what);
    }
    return words.empty() ? said("the board as it was") : words;
}

std::vector<BenchStep> stepsOfSwitch(const SwitchWork& work) {
    BenchStep fit;
    fit.kind = StepKind::fit;
    fit.letter = work.letter;
    entitle(fit, [&] { return said("Fit the switch: %1", namesOfThrows(work.throws)); });
    fit.lines.push_back(
        {said("Hole"), said("place and turn tried with the box closed, then drilled: no way back"), false, true});
    fit.lines.push_back(
        {said("Lugs"), said("which of them beep at each lever, before a wire is on: types differ"), false, true});
    for (const ThrowCircuit& position : work.throws) {
        fit.lines.push_back({position.name, throwWords(work.before, position.circuit), false, true});
    }
    fit.lines.push_back(
        {said("Look"), said("wires short and twisted, none under tension, no strand across two lugs"), false, true});
    fit.ifItFails = said("Throws exchanged: the switch is the other way up.");
    std::vector<BenchStep> steps{std::move(fit)};
    for (const ThrowCircuit& position : work.throws) {
        for (const BoardEdit& edit : partsOfThrow(work.before, position)) {
            for (BenchStep& step : stepsOfEdits({work.letter, work.before, position.circuit, work.duties}, {edit})) {
                entitle(step, [&] {
                    return said("Wire %1 as %2 of throw %3", valueWords(edit.after), edit.after.reference,
                                position.name);
                });
                step.lines.insert(step.lines.begin(),
                                  {said("Switch"), said("at %1", position.name), false, true, true});
                steps.push_back(std::move(step));
            }
        }
    }
    return steps;
}

std::vector<BenchStep> stepsOfSwitchOut(const SwitchWork& work) {
    BenchStep out;
    out.kind = StepKind::takeOut;
    out.letter = work.letter;
    entitle(out, [&] { return said("Take the switch out, with its wires: %1", namesOfThrows(work.throws)); });
    std::vector<std::string> fitted, moved;
    const auto add = [](std::vector<std::string>& names, const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(name);
        }
    };
    for (const ThrowCircuit& position : work.throws) {
        for (const BoardEdit& edit : partsOfThrow(work.before, position)) {
            add(fitted, said("%1 %2 (throw %3)", edit.after.reference, valueWords(edit.after), position.name));
        }
        for (const BoardEdit& edit : boardEdits(work.before, position.circuit)) {
            if (edit.kind != EditKind::partIn) {
                add(moved, displayName(edit.before));
            }
        }
    }
    for (const std::string& name : fitted) {
        out.lines.push_back({said("Out"), name, false, true});
    }
    for (const std::string& name : moved) {
        out.lines.push_back({said("Back"), said("%1: every leg to its own pad", name), false, true});
    }
    out.lines.push_back(
        {said("Look"), said("pads whole, no wire left on them; the hole in the box is closed"), false, true});
    return {std::move(out)};
}

std::vector<BoardEdit> editsOfThrow(const Circuit& before, const std::vector<ThrowCircuit>& throws, std::size_t index) {
    const Circuit& board = throws[index].circuit;
    std::vector<BoardEdit> edits = boardEdits(before, board);
    for (const ThrowCircuit& other : throws) {
        addOnce(edits, boardEdits(other.circuit, board));
    }
    return edits;
}

std::vector<BoardEdit> editsBack(const Circuit& before, const std::vector<ThrowCircuit>& throws) {
    std::vector<BoardEdit> edits;
    for (const ThrowCircuit& position : throws) {
        addOnce(edits, boardEdits(position.circuit, before));
    }
    return edits;
}

std::optional<Mistake> switchUpsideDown(const std::vector<ThrowCircuit>& throws, std::size_t index) {
    const std::size_t other = throws.size() - 1 - index;
    if (other == index || throws[other].circuit.parts == throws[index].circuit.parts) {
        return std::nullopt;
    }
    return Mistake{MistakeKind::upsideDown,
                   {},
                   said("the switch the other way up: %1 where %2 should be", throws[other].name, throws[index].name),
                   throws[other].circuit,
                   false};
}

}  // namespace ohmwright
