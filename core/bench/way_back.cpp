// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/way_back.h"

#include "core/bench/net_words.h"
#include "core/bench/switch_steps.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

/// Of the edits that lead back, in words.
std::string wordsOf(const Circuit& before, const Circuit& after) {
    std::string words;
    const auto add = [&](const std::string& text) { words += (words.empty() ? "" : ", ") + text; };
    const auto printed = [](const Part& part) {
        const std::string marking = printedMarking(part);
        return marking.empty() || marking == valueWords(part) ? std::string() : " (printed " + marking + ")";
    };
    for (const BoardEdit& edit : boardEdits(before, after)) {
        switch (edit.kind) {
            case EditKind::partOut:
                add((edit.before.kind == PartKind::link ? "the join " + edit.before.reference
                                                        : displayName(edit.before)) +
                    " out");
                break;
            case EditKind::legMoved:
                add("leg of " + displayName(edit.after) + " back to its pad");
                break;
            case EditKind::partSwapped:
                add(displayName(edit.after) + " back to " + valueWords(edit.after) + printed(edit.after));
                break;
            case EditKind::partIn:
                add(displayName(edit.after) + " in again, " + valueWords(edit.after) + printed(edit.after));
                break;
        }
    }
    return words;
}

std::string switchOutWords(const FittedMod& fitted) {
    std::set<std::string> parts;
    for (const BoardEdit& edit : editsBack(fitted.before, fitted.throws)) {
        if (edit.kind != EditKind::partOut) {
            parts.insert(edit.part().reference);
        }
    }
    std::string names;
    for (const std::string& part : parts) {
        names += (names.empty() ? ", " : " and ") + part;
    }
    return "the switch (" + namesOfThrows(fitted.throws) + ") out" + names +
           (names.empty() ? "" : " on their own pads again");
}

/// What the mod did that its undoing cannot make unseen.
void addNotExact(const FittedMod& fitted, std::vector<std::string>& sentences) {
    if (!fitted.throws.empty()) {
        sentences.push_back("The hole of the switch stays in the box.");
        return;
    }
    for (const BoardEdit& edit : boardEdits(fitted.before, fitted.after)) {
        const std::string name = displayName(edit.kind == EditKind::partOut ? edit.before : edit.part());
        if (edit.kind == EditKind::legMoved) {
            sentences.push_back(name + ": where its lead was cut, a new " + valueWords(edit.before) +
                                " goes in; a lead that was only lifted goes back.");
        }
    }
}

/// The parts that the mod took out: they go back in, and the way back is exact.
void addFromBag(const FittedMod& fitted, std::vector<std::string>& parts) {
    if (!fitted.throws.empty()) {
        return;
    }
    for (const BoardEdit& edit : boardEdits(fitted.before, fitted.after)) {
        if (edit.kind != EditKind::partSwapped && edit.kind != EditKind::partOut) {
            continue;
        }
        const std::string marking = printedMarking(edit.before);
        const bool isMarked = !marking.empty() && marking != valueWords(edit.before);
        parts.push_back(displayName(edit.before) + " " + valueWords(edit.before) +
                        (isMarked ? " (printed " + marking + ")" : ""));
    }
}

}  // namespace

Circuit withEdits(const Circuit& circuit, const std::vector<BoardEdit>& edits) {
    Circuit done = circuit;
    for (const BoardEdit& edit : edits) {
        if (edit.kind == EditKind::partOut) {
            done.parts.erase(std::remove_if(done.parts.begin(), done.parts.end(),
                                            [&](const Part& part) { return part.id == edit.before.id; }),
                             done.parts.end());
        } else if (Part* part = findPart(done, edit.after.id)) {
            *part = edit.after;
        } else {
            done.parts.push_back(edit.after);
        }
    }
    const auto isLeft = [&](const NetName& net) {
        return std::none_of(done.parts.begin(), done.parts.end(), [&](const Part& part) {
            return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
        });
    };
    done.openNets.erase(std::remove_if(done.openNets.begin(), done.openNets.end(), isLeft), done.openNets.end());
    return done;
}

std::string wayBackWords(const std::vector<WorkGroup>& groups) {
    std::string words;
    for (auto group = groups.rbegin(); group != groups.rend(); ++group) {
        for (auto fitted = group->rbegin(); fitted != group->rend(); ++fitted) {
            words += (words.empty() ? "" : "; ") +
                     (fitted->throws.empty() ? wordsOf(fitted->after, fitted->before) : switchOutWords(*fitted));
        }
    }
    return words;
}

Result<WayBack> wayBack(const Job& job, const std::stop_token& stop) {
    const Result<std::vector<WorkGroup>> groups = workGroups(job);
    if (!groups) {
        return groups.error();
    }
    WayBack back;
    back.words = wayBackWords(*groups);
    std::vector<WorkGroup> reversed;
    for (auto group = groups->rbegin(); group != groups->rend(); ++group) {
        WorkGroup undone;
        for (auto fitted = group->rbegin(); fitted != group->rend(); ++fitted) {
            undone.push_back({fitted->letter, fitted->name, fitted->after, fitted->before, fitted->throws,
                              !fitted->throws.empty(), true});
            back.letters.push_back(fitted->letter);
            addNotExact(*fitted, back.notExact);
            addFromBag(*fitted, back.fromBag);
        }
        reversed.push_back(std::move(undone));
    }
    std::sort(back.notExact.begin(), back.notExact.end());
    back.notExact.erase(std::unique(back.notExact.begin(), back.notExact.end()), back.notExact.end());
    Result<WorkPlan> work = stepsOfGroups(reversed, job.setting, stop);
    if (!work) {
        return work.error();
    }
    back.work = *std::move(work);
    return back;
}

}  // namespace ohmwright
