// The house's table of customers' words; see claims.h.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
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

/// @param sentence  "The customer's words: %1 ...", the entry filled in.
Error wrongEntry(const Claim& claim, const char* sentence, const std::string& word = {}) {
    const std::string name = claim.words.empty() ? said("an entry without words") : "\"" + claim.words.front() + "\"";
    return {ErrorCode::invalidInput, said(sentence, name, word), name};
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
            {ClaimRule::fuller, {toSay("fuller"), toSay("more low end"), toSay("full range")}, 3.0, 1.5, 2.0, 1.0},
            {ClaimRule::tighter, {toSay("less woolly"), toSay("tighter")}, 3.0, 1.5, {}, {}},
            {ClaimRule::brighter, {toSay("brighter")}, 2.0, 1.0, {}, {}},
            {ClaimRule::darker, {toSay("darker")}, 2.0, 1.0, {}, {}},
            {ClaimRule::lessSquashed,
             {toSay("less squashed"), toSay("more open"), toSay("chords not flat")},
             0.10,
             0.03,
             {},
             {}},
            {ClaimRule::moreSquashed, {toSay("more squashed"), toSay("more sustain")}, 0.10, 0.03, {}, {}},
            {ClaimRule::moreGain, {toSay("more gain"), toSay("more drive")}, 3.0, 1.0, {}, {}},
            {ClaimRule::moreHeadroom, {toSay("more headroom")}, 3.0, 1.0, {}, {}},
            {ClaimRule::louder, {toSay("louder")}, 3.0, 1.0, {}, {}},
            {ClaimRule::quieter, {toSay("quieter")}, 3.0, 1.0, {}, {}},
            {ClaimRule::lessFizzy, {toSay("less fizzy"), toSay("less harsh")}, 3.0, 1.5, {}, {}},
            {ClaimRule::warmer, {toSay("warmer")}, 3.0, 1.0, 3.0, 1.0},
            {ClaimRule::lessNoisy, {toSay("less noisy")}, 3.0, 1.0, {}, {}},
            {ClaimRule::cleansUp, {toSay("cleans up")}, 0.33, 0.67, {}, {}},
            {ClaimRule::lessScooped, {toSay("less scooped")}, 2.0, 1.0, {}, {}},
            {ClaimRule::notGated, {toSay("not gated"), toSay("not heat-shy")}, 10.0, 10.0, {}, {}},
            {ClaimRule::copiesAlike, {toSay("copies alike")}, 3.0, 6.0, {}, {}},
            {ClaimRule::muddier, {toSay("muddier")}, 3.0, 1.0, {}, {}},
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
    switch (claim.rule) {
        case ClaimRule::fuller:
            return said("Response at 82.4 Hz up by %1 dB, and by %2 dB against 1 kHz; partly from %3 and %4 dB.", yes,
                        yesSecond, partly, partlySecond);
        case ClaimRule::tighter:
            return said("Response at 82.4 Hz against 1 kHz down by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::brighter:
            return said("Response at 3 kHz against 330 Hz up by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::darker:
            return said("Response at 3 kHz against 330 Hz down by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::lessSquashed:
            return said("Level slope at the player's level up by %1 dB per dB; partly from %2 dB per dB.", yes, partly);
        case ClaimRule::moreSquashed:
            return said("Level slope at the player's level down by %1 dB per dB; partly from %2 dB per dB.", yes,
                        partly);
        case ClaimRule::moreGain:
            return said("Highest gain of the clip stage up by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::moreHeadroom:
            return said("Pick level at the lower of the two clip thresholds up by %1 dB; partly from %2 dB.", yes,
                        partly);
        case ClaimRule::louder:
            return said("Level at the output up by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::quieter:
            return said("Level at the output down by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::lessFizzy:
            return said("Harmonics 8 to 30 of 330 Hz, levels made equal, down by %1 dB; partly from %2 dB.", yes,
                        partly);
        case ClaimRule::warmer:
            return said("2nd harmonic up by %1 dB, and 3rd and 5th together down by %2 dB; partly from %3 and %4 dB.",
                        yes, yesSecond, partly, partlySecond);
        case ClaimRule::lessNoisy:
            return said("Noise at the output, gains at 1 kHz made equal, down by %1 dB; partly from %2 dB.", yes,
                        partly);
        case ClaimRule::cleansUp:
            return said(
                "Distortion at guitar volume 5 at most %1 of that at 10, and less than stock's; partly up to %2.", yes,
                partly);
        case ClaimRule::lessScooped:
            return said("Dip of the tone network up by %1 dB; partly from %2 dB.", yes, partly);
        case ClaimRule::notGated:
            return said(
                "Collector of the output transistor within %1 to %2 % of the supply for low and high current gain; "
                "partly when only the nominal one is.",
                formatFigure(50.0 - claim.yes), formatFigure(50.0 + claim.yes));
        case ClaimRule::copiesAlike:
            return said("Response at 1 kHz over low, typical and high devices within %1 dB; partly within %2 dB.", yes,
                        partly);
        case ClaimRule::muddier:
            return said("Difference product at 41.2 Hz of two low strings up by %1 dB; partly from %2 dB.", yes,
                        partly);
    }
    return {};
}

Result<void> checkClaimLimits(const ClaimLimits& limits) {
    std::set<std::string> met;
    for (const Claim& claim : limits.claims) {
        if (claim.words.empty()) {
            return wrongEntry(claim, toSay("The customer's words: %1 cannot be asked for. Write at least one word."));
        }
        for (const std::string& word : claim.words) {
            if (word.empty() || word != inSmallLetters(word)) {
                return wrongEntry(claim, toSay("The customer's words: %1 has a word that is empty or has capitals. "
                                               "Write it in small letters."));
            }
            if (!met.insert(word).second) {
                return wrongEntry(
                    claim,
                    toSay("The customer's words: %1 has \"%2\", which another entry has too. Keep it in one of them."),
                    word);
            }
        }
        if (claim.yesSecond.has_value() != hasTwoFigures(claim.rule) ||
            claim.partlySecond.has_value() != hasTwoFigures(claim.rule)) {
            return wrongEntry(
                claim, hasTwoFigures(claim.rule)
                           ? toSay("The customer's words: %1 is held against two figures and needs limits for both.")
                           : toSay("The customer's words: %1 is held against one figure and has limits for a second. "
                                   "Take them out."));
        }
        const bool second =
            !claim.yesSecond || isInOrder(claim.rule, *claim.yesSecond, claim.partlySecond.value_or(0.0));
        if (!isInOrder(claim.rule, claim.yes, claim.partly) || !second) {
            return wrongEntry(claim, toSay("The customer's words: %1 has limits that cannot be: both must be above 0, "
                                           "and partly must be easier than yes."));
        }
    }
    if (!(limits.betaLow > 0.0) || !(limits.betaHigh >= limits.betaLow) || !std::isfinite(limits.betaHigh)) {
        return Error{ErrorCode::invalidInput,
                     said("The customer's words: the low current gain must be above 0 and not above the high one."),
                     ""};
    }
    return {};
}

std::string_view verdictWord(ClaimVerdict verdict) {
    switch (verdict) {
        case ClaimVerdict::yes:
            return toSay("yes");
        case ClaimVerdict::partly:
            return toSay("partly");
        case ClaimVerdict::no:
            return toSay("no");
        case ClaimVerdict::theOtherWay:
            return toSay("the other way");
        case ClaimVerdict::noAnswer:
            break;
    }
    return toSay("no answer");
}

}  // namespace ohmwright
