// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/way_back.h"

#include "core/base/said.h"
#include "core/bench/net_words.h"
#include "core/bench/switch_steps.h"

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

/// "56n (printed 563)"
std::string markedValue(const Part& part) {
    const std::string marking = printedMarking(part);
    const bool isMarked = !marking.empty() && marking != valueWords(part);
    return isMarked ? said("%1 (printed %2)", valueWords(part), marking) : valueWords(part);
}

/// Of the edits that lead back, in words.
std::string stepBack(const BoardEdit& edit) {
    switch (edit.kind) {
        case EditKind::partOut:
            return edit.before.kind == PartKind::link ? said("the join %1 out", edit.before.reference)
                                                      : said("%1 out", displayName(edit.before));
        case EditKind::legMoved:
            return said("leg of %1 back to its pad", displayName(edit.after));
        case EditKind::partSwapped:
            return said("%1 back to %2", displayName(edit.after), markedValue(edit.after));
        case EditKind::partIn:
            return said("%1 in again, %2", displayName(edit.after), markedValue(edit.after));
    }
    return {};
}

std::string wordsOf(const Circuit& before, const Circuit& after) {
    std::string words;
    for (const BoardEdit& edit : boardEdits(before, after)) {
        words.append(words.empty() ? "" : ", ").append(stepBack(edit));
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
        names = names.empty() ? part : said("%1 and %2", names, part);
    }
    const std::string throws = namesOfThrows(fitted.throws);
    return names.empty() ? said("the switch (%1) out", throws)
                         : said("the switch (%1) out, %2 on their own pads again", throws, names);
}

/// What the mod did that its undoing cannot make unseen.
void addNotExact(const FittedMod& fitted, std::vector<std::string>& sentences) {
    if (!fitted.throws.empty()) {
        sentences.push_back(said("The hole of the switch stays in the box."));
        return;
    }
    for (const BoardEdit& edit : boardEdits(fitted.before, fitted.after)) {
        const std::string name = displayName(edit.kind == EditKind::partOut ? edit.before : edit.part());
        if (edit.kind == EditKind::legMoved) {
            sentences.push_back(
                said("%1: where its lead was cut, a new %2 goes in; a lead that was only lifted goes back.", name,
                     valueWords(edit.before)));
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
        parts.push_back(displayName(edit.before) + " " + markedValue(edit.before));
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
