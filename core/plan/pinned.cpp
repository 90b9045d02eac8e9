// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/pinned.h"

#include "core/base/said.h"
#include "core/plan/apply.h"
#include "core/plan/open_visit.h"

#include <algorithm>

namespace ohmwright {

namespace {

Error refusal(const std::string& message) {
    return {ErrorCode::invalidInput, message, {}};
}

Error notPinned(const std::string& letter) {
    return refusal(letter.empty() ? said("No state is pinned under no letter: pin one first.")
                                  : said("No state is pinned under %1: pin one first.", letter));
}

/// "mods A and C", "as built".
std::string nameOfPlan(const Plan& plan) {
    std::vector<std::string> letters;
    for (const Mod& mod : plan) {
        if (mod.on) {
            letters.push_back(mod.letter);
        }
    }
    if (letters.empty()) {
        return said("as built");
    }
    return said(letters.size() == 1 ? toSay("mod %1") : toSay("mods %1"), saidList(letters));
}

/// The first of the letters that stands for nothing yet; empty when all do.
std::string freeLetter(const Job& job) {
    for (const char letter : pinnedLetters) {
        if (findPinned(job, std::string_view(&letter, 1)) == nullptr) {
            return std::string(1, letter);
        }
    }
    return {};
}

auto placeOf(Job& job, const std::string& letter) {
    return std::find_if(job.pinned.begin(), job.pinned.end(),
                        [&letter](const PinnedState& each) { return each.letter == letter; });
}

}  // namespace

const PinnedState* findPinned(const Job& job, std::string_view letter) {
    const auto found = std::find_if(job.pinned.begin(), job.pinned.end(),
                                    [letter](const PinnedState& each) { return each.letter == letter; });
    return found == job.pinned.end() ? nullptr : &*found;
}

Result<Job> pinState(const Job& job) {
    const auto same = std::find_if(job.pinned.begin(), job.pinned.end(), [&job](const PinnedState& each) {
        return each.plan == job.plan && each.setting == job.setting;
    });
    if (same != job.pinned.end()) {
        return refusal(said("This state is pinned already, as %1.", same->letter));
    }
    const std::string letter = freeLetter(job);
    if (letter.empty()) {
        return refusal(said("Four states are pinned already: take one of them away first."));
    }
    Job pinned = job;
    pinned.pinned.push_back({letter, nameOfPlan(job.plan), job.plan, job.setting});
    std::sort(pinned.pinned.begin(), pinned.pinned.end(),
              [](const PinnedState& one, const PinnedState& other) { return one.letter < other.letter; });
    return pinned;
}

Result<Job> unpinState(const Job& job, const std::string& letter) {
    Job left = job;
    const auto place = placeOf(left, letter);
    if (place == left.pinned.end()) {
        return notPinned(letter);
    }
    left.pinned.erase(place);
    return left;
}

Result<Job> renamePinned(const Job& job, const std::string& letter, const std::string& name) {
    Job named = job;
    const auto place = placeOf(named, letter);
    if (place == named.pinned.end()) {
        return notPinned(letter);
    }
    if (name.find_first_not_of(" \t\n") == std::string::npos) {
        return refusal(said("A pinned state needs a name: type one, or leave the old one with Esc."));
    }
    place->name = name;
    return named;
}

Result<Job> promotePinned(const Job& job, const std::string& letter) {
    const PinnedState* pinned = findPinned(job, letter);
    if (pinned == nullptr) {
        return notPinned(letter);
    }
    if (const Result<void> open = requireOpenVisit(job); !open) {
        return open.error();
    }
    Job promoted = jobOfPinned(job, *pinned);
    if (const Result<Circuit> circuit = nowCircuit(promoted); !circuit) {
        return circuit.error();
    }
    return promoted;
}

Job jobOfPinned(const Job& job, const PinnedState& pinned) {
    Job other = job;
    other.plan = pinned.plan;
    other.setting = pinned.setting;
    return other;
}

}  // namespace ohmwright
