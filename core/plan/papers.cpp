// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/papers.h"

#include <algorithm>

namespace ohmwright {

namespace {

struct KindWords {
    PaperKind kind;
    std::string_view word;
    std::string_view name;
};
constexpr std::array kindWords{
    KindWords{PaperKind::bench, "bench", "Bench sheet"}, KindWords{PaperKind::wayBack, "way-back", "Way-back sheet"},
    KindWords{PaperKind::customer, "customer", "Customer sheet"}, KindWords{PaperKind::label, "label", "Label"},
    KindWords{PaperKind::quote, "quote", "Quote"}};

const KindWords& wordsOf(PaperKind kind) {
    return *std::find_if(kindWords.begin(), kindWords.end(), [&](const KindWords& each) { return each.kind == kind; });
}

/// "C4 Cg", "C4 Cg and D2", "C4 Cg, D2 and R5".
std::string namesOf(const Circuit& stock, const std::vector<PartId>& parts) {
    std::string names;
    for (std::size_t k = 0; k < parts.size(); ++k) {
        names += k == 0 ? "" : k + 1 == parts.size() ? " and " : ", ";
        names += displayName(*findPart(stock, parts[k]));
    }
    return names;
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
    const bool isOne = unseen.size() == 1;
    return Error{ErrorCode::invalidInput,
                 "No paper is made: the plan works on " + namesOf(job.stock, unseen) + ", which " +
                     (isOne ? "is" : "are") + " known from the drawing alone. Look at " + (isOne ? "it" : "them") +
                     " on the board, then mark " + (isOne ? "it" : "them") + " as seen.",
                 unseen.front()};
}

Result<void> checkMapped(const Job& job) {
    const auto isBrought = [&job](const PartId& part) {
        return std::any_of(job.plan.begin(), job.plan.end(), [&](const Mod& mod) { return fitsPart(mod, part); });
    };
    for (const Mod& mod : job.plan) {
        for (const SingleChange& change : mod.on ? everySingleChange(mod.change) : std::vector<SingleChange>()) {
            const PartId& part = targetOf(change);
            if (findPart(job.stock, part) == nullptr && !isBrought(part)) {
                return Error{ErrorCode::invalidInput,
                             "No paper is made: " + nameOfMod(mod) + " works on a part “" + part +
                                 "” that this board has not. Find the part that does its work here, or switch the mod "
                                 "off.",
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
                         "There is no part \"" + id + "\" in the unit's circuit. Choose another part.", id};
        }
        if (part->knowledge == Knowledge::drawn) {
            part->knowledge = Knowledge::seen;
        }
    }
    return edited;
}

Result<Job> recordPaper(const Job& job, PaperKind kind, const std::string& when) {
    if (job.visit.state == VisitState::gone) {
        return Error{
            ErrorCode::invalidInput, "This visit is gone and its record is closed: the paper is not listed in it.", {}};
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
