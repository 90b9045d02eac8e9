// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/papers.h"

#include "core/base/said.h"

#include <algorithm>

namespace ohmwright {

namespace {

struct KindWords {
    PaperKind kind;
    std::string_view word;
    std::string_view name;
};
constexpr std::array kindWords{KindWords{PaperKind::bench, "bench", toSay("Bench sheet")},
                               KindWords{PaperKind::wayBack, "way-back", toSay("Way-back sheet")},
                               KindWords{PaperKind::customer, "customer", toSay("Customer sheet")},
                               KindWords{PaperKind::label, "label", toSay("Label")},
                               KindWords{PaperKind::quote, "quote", toSay("Quote")}};

const KindWords& wordsOf(PaperKind kind) {
    return *std::find_if(kindWords.begin(), kindWords.end(), [&](const KindWords& each) { return each.kind == kind; });
}

/// "C4 Cg", "C4 Cg and D2", "C4 Cg, D2 and R5".
std::string namesOf(const Circuit& stock, const std::vector<PartId>& parts) {
    std::vector<std::string> names;
    names.reserve(parts.size());
    for (const PartId& part : parts) {
        names.push_back(displayName(*findPart(stock, part)));
    }
    return saidList(names);
}

}  // namespace

std::string_view paperWord(PaperKind kind) {
    return wordsOf(kind).word;
}

std::string_view paperName(PaperKind kind) {
    return wordsOf(kind).name;
}

std::optional<PaperKind> paperOfWord(std::string_view word) {
    const auto found =
        std::find_if(kindWords.begin(), kindWords.end(), [&](const KindWords& each) { return each.word == word; });
    return found != kindWords.end() ? std::optional(found->kind) : std::nullopt;
}

std::vector<PartId> unseenParts(const Job& job) {
    std::vector<PartId> unseen;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        for (const SingleChange& change : everySingleChange(mod.change)) {
            // A part that a mod brings comes out of the drawer: it is not in stock.
            const Part* part = findPart(job.stock, targetOf(change));
            const bool isNew = part != nullptr && std::find(unseen.begin(), unseen.end(), part->id) == unseen.end();
            if (isNew && part->knowledge == Knowledge::drawn) {
                unseen.push_back(part->id);
            }
        }
    }
    return unseen;
}

Result<void> checkSeen(const Job& job) {
    const std::vector<PartId> unseen = unseenParts(job);
    if (unseen.empty()) {
        return {};
    }
    const char* sentence = unseen.size() == 1
                               ? toSay(
                                     "No paper is made: the plan works on %1, which is known from the drawing alone. "
                                     "Look at it on the board, then mark it as seen.")
                               : toSay(
                                     "No paper is made: the plan works on %1, which are known from the drawing alone. "
                                     "Look at them on the board, then mark them as seen.");
    return Error{ErrorCode::invalidInput, said(sentence, namesOf(job.stock, unseen)), unseen.front()};
}

Result<void> checkMapped(const Job& job) {
    const auto isBrought = [&job](const PartId& part) {
        return std::any_of(job.plan.begin(), job.plan.end(), [&](const Mod& mod) { return fitsPart(mod, part); });
    };
    for (const Mod& mod : job.plan) {
        for (const SingleChange& change : mod.on ? everySingleChange(mod.change) : std::vector<SingleChange>()) {
            const PartId& part = targetOf(change);
            if (findPart(job.stock, part) == nullptr && !isBrought(part)) {
                return Error{
                    ErrorCode::invalidInput,
                    said("No paper is made: %1 works on a part “%2” that this board has not. Find the part that "
                         "does its work here, or switch the mod off.",
                         nameOfMod(mod), part),
                    part};
            }
        }
    }
    return {};
}

Result<Job> markSeen(const Job& job, const std::vector<PartId>& parts) {
    Job edited = job;
    for (const PartId& id : parts) {
        Part* part = findPart(edited.stock, id);
        if (part == nullptr) {
            return Error{ErrorCode::invalidInput,
                         said("There is no part \"%1\" in the unit's circuit. Choose another part.", id), id};
        }
        if (part->knowledge == Knowledge::drawn) {
            part->knowledge = Knowledge::seen;
        }
    }
    return edited;
}

Result<Job> recordPaper(const Job& job, PaperKind kind, const std::string& when) {
    if (job.visit.state == VisitState::gone) {
        return Error{ErrorCode::invalidInput,
                     said("This visit is gone and its record is closed: the paper is not listed in it."),
                     {}};
    }
    Job edited = job;
    edited.visit.papers.push_back({std::string(paperWord(kind)), stateHash(job), when});
    return edited;
}

bool isVoid(const Job& job, const PrintedPaper& paper) {
    return paper.hash != stateHash(job);
}

const PrintedPaper* lastPaper(const Visit& visit, PaperKind kind) {
    const auto last = std::find_if(visit.papers.rbegin(), visit.papers.rend(),
                                   [&](const PrintedPaper& paper) { return paper.kind == paperWord(kind); });
    return last != visit.papers.rend() ? &*last : nullptr;
}

}  // namespace ohmwright
