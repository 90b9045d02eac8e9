// The house's table of customers' words; see claims.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/claims.h"

#include "core/base/number_text.h"

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

std::string claimRuleSentence(const Claim& claim) {
    const std::string yes = formatFigure(claim.yes);
    const std::string partly = formatFigure(claim.partly);
    const std::string yesSecond = formatFigure(claim.yesSecond.value_or(0.0));
    const std::string partlySecond = formatFigure(claim.partlySecond.value_or(0.0));
    const auto change = [&](const std::string& figure, const char* way, const char* unit = "dB") {
        return figure + " " + way + " by " + yes + " " + unit + "; partly from " + partly + " " + unit + ".";
    };
    switch (claim.rule) {
        case ClaimRule::fuller:
            return "Response at 82.4 Hz up by " + yes + " dB, and by " + yesSecond + " dB against 1 kHz; partly from " +
                   partly + " and " + partlySecond + " dB.";
        case ClaimRule::tighter:
            return change("Response at 82.4 Hz against 1 kHz", "down");
        case ClaimRule::brighter:
            return change("Response at 3 kHz against 330 Hz", "up");
        case ClaimRule::darker:
            return change("Response at 3 kHz against 330 Hz", "down");
        case ClaimRule::lessSquashed:
            return change("Level slope at the player's level", "up", "dB per dB");
        case ClaimRule::moreSquashed:
            return change("Level slope at the player's level", "down", "dB per dB");
        case ClaimRule::moreGain:
            return change("Highest gain of the clip stage", "up");
        case ClaimRule::moreHeadroom:
            return change("Pick level at the lower of the two clip thresholds", "up");
        case ClaimRule::louder:
            return change("Level at the output", "up");
        case ClaimRule::quieter:
            return change("Level at the output", "down");
        case ClaimRule::lessFizzy:
            return change("Harmonics 8 to 30 of 330 Hz, levels made equal,", "down");
        case ClaimRule::warmer:
            return "2nd harmonic up by " + yes + " dB, and 3rd and 5th together down by " + yesSecond +
                   " dB; partly from " + partly + " and " + partlySecond + " dB.";
        case ClaimRule::lessNoisy:
            return change("Noise at the output, gains at 1 kHz made equal,", "down");
        case ClaimRule::cleansUp:
            return "Distortion at guitar volume 5 at most " + yes +
                   " of that at 10, and less than stock's; partly up to " + partly + ".";
        case ClaimRule::lessScooped:
            return change("Dip of the tone network", "up");
        case ClaimRule::notGated:
            return "Collector of the output transistor within " + formatFigure(50.0 - claim.yes) + " to " +
                   formatFigure(50.0 + claim.yes) +
                   " % of the supply for low and high current gain; partly when only the nominal one is.";
        case ClaimRule::copiesAlike:
            return "Response at 1 kHz over low, typical and high devices within " + yes + " dB; partly within " +
                   partly + " dB.";
        case ClaimRule::muddier:
            return change("Difference product at 41.2 Hz of two low strings", "up");
    }
    return {};
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
