// The house's table of customers' words; see claims.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/claims.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>

namespace ohmwright {

namespace {

std::string inSmallLetters(std::string_view text) {
    std::string small;
    for (const char c : text) {
        small += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    return small;
}

Error wrongEntry(const Claim& claim, const std::string& sentence) {
    const std::string name = claim.words.empty() ? "an entry without words" : "\"" + claim.words.front() + "\"";
    return {ErrorCode::invalidInput, "The customer's words: " + name + " " + sentence, name};
}

bool hasTwoFigures(ClaimRule rule) {
    return rule == ClaimRule::fuller || rule == ClaimRule::warmer;
}

/// Limits of a magnitude that must be reached; of the two rules below, of one that must not be passed.
bool isUpperLimit(ClaimRule rule) {
    return rule == ClaimRule::cleansUp || rule == ClaimRule::copiesAlike;
}

bool isInOrder(ClaimRule rule, double yes, double partly) {
    if (!std::isfinite(yes) || !std::isfinite(partly) || !(yes > 0.0) || !(partly > 0.0)) {
        return false;
    }
    if (rule == ClaimRule::notGated) {
        return true;  // two windows of two questions
    }
    return isUpperLimit(rule) ? yes <= partly : yes >= partly;
}

}  // namespace

const ClaimLimits& houseClaimLimits() {
    static const ClaimLimits limits{
        {
            {ClaimRule::fuller, {"fuller", "more low end", "full range"}, 3.0, 1.5, 2.0, 1.0},
            {ClaimRule::tighter, {"less woolly", "tighter"}, 3.0, 1.5, {}, {}},
            {ClaimRule::brighter, {"brighter"}, 2.0, 1.0, {}, {}},
            {ClaimRule::darker, {"darker"}, 2.0, 1.0, {}, {}},
            {ClaimRule::lessSquashed, {"less squashed", "more open", "chords not flat"}, 0.10, 0.03, {}, {}},
            {ClaimRule::moreSquashed, {"more squashed", "more sustain"}, 0.10, 0.03, {}, {}},
            {ClaimRule::moreGain, {"more gain", "more drive"}, 3.0, 1.0, {}, {}},
            {ClaimRule::moreHeadroom, {"more headroom"}, 3.0, 1.0, {}, {}},
            {ClaimRule::louder, {"louder"}, 3.0, 1.0, {}, {}},
            {ClaimRule::quieter, {"quieter"}, 3.0, 1.0, {}, {}},
            {ClaimRule::lessFizzy, {"less fizzy", "less harsh"}, 3.0, 1.5, {}, {}},
            {ClaimRule::warmer, {"warmer"}, 3.0, 1.0, 3.0, 1.0},
            {ClaimRule::lessNoisy, {"less noisy"}, 3.0, 1.0, {}, {}},
            {ClaimRule::cleansUp, {"cleans up"}, 0.33, 0.67, {}, {}},
            {ClaimRule::lessScooped, {"less scooped"}, 2.0, 1.0, {}, {}},
            {ClaimRule::notGated, {"not gated", "not heat-shy"}, 10.0, 10.0, {}, {}},
            {ClaimRule::copiesAlike, {"copies alike"}, 3.0, 6.0, {}, {}},
            {ClaimRule::muddier, {"muddier"}, 3.0, 1.0, {}, {}},
        },
        70.0,
        500.0};
    return limits;
}

const Claim* findClaim(const ClaimLimits& limits, std::string_view word) {
    const std::string small = inSmallLetters(word);
    for (const Claim& claim : limits.claims) {
        if (std::find(claim.words.begin(), claim.words.end(), small) != claim.words.end()) {
            return &claim;
        }
    }
    return nullptr;
}

Result<void> checkClaimLimits(const ClaimLimits& limits) {
    std::set<std::string> met;
    for (const Claim& claim : limits.claims) {
        if (claim.words.empty()) {
            return wrongEntry(claim, "cannot be asked for. Write at least one word.");
        }
        for (const std::string& word : claim.words) {
            if (word.empty() || word != inSmallLetters(word)) {
                return wrongEntry(claim, "has a word that is empty or has capitals. Write it in small letters.");
            }
            if (!met.insert(word).second) {
                return wrongEntry(claim, "has \"" + word + "\", which another entry has too. Keep it in one of them.");
            }
        }
        if (claim.yesSecond.has_value() != hasTwoFigures(claim.rule) ||
            claim.partlySecond.has_value() != hasTwoFigures(claim.rule)) {
            return wrongEntry(claim, hasTwoFigures(claim.rule)
                                         ? "is held against two figures and needs limits for both."
                                         : "is held against one figure and has limits for a second. Take them out.");
        }
        const bool second =
            !claim.yesSecond || isInOrder(claim.rule, *claim.yesSecond, claim.partlySecond.value_or(0.0));
        if (!isInOrder(claim.rule, claim.yes, claim.partly) || !second) {
            return wrongEntry(claim,
                              "has limits that cannot be: both must be above 0, and partly must be easier than yes.");
        }
    }
    if (!(limits.betaLow > 0.0) || !(limits.betaHigh >= limits.betaLow) || !std::isfinite(limits.betaHigh)) {
        return Error{ErrorCode::invalidInput,
                     "The customer's words: the low current gain must be above 0 and not above the high one.", ""};
    }
    return {};
}

std::string_view verdictWord(ClaimVerdict verdict) {
    switch (verdict) {
        case ClaimVerdict::yes:
            return "yes";
        case ClaimVerdict::partly:
            return "partly";
        case ClaimVerdict::no:
            return "no";
        case ClaimVerdict::theOtherWay:
            return "the other way";
        case ClaimVerdict::noAnswer:
            break;
    }
    return "no answer";
}

}  // namespace ohmwright
