// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/claim_words.h"

#include "core/files/atomic_file.h"
#include "core/files/file_head.h"
#include "core/files/json_reader.h"

#include <array>

namespace ohmwright {

namespace {

constexpr std::string_view wordsFormat = "ohmwright-words";

/// A word, once published, never changes its meaning.
constexpr std::array<Word<ClaimRule>, 18> ruleWords{{
    {"fuller", ClaimRule::fuller},
    {"tighter", ClaimRule::tighter},
    {"brighter", ClaimRule::brighter},
    {"darker", ClaimRule::darker},
    {"less squashed", ClaimRule::lessSquashed},
    {"more squashed", ClaimRule::moreSquashed},
    {"more gain", ClaimRule::moreGain},
    {"more headroom", ClaimRule::moreHeadroom},
    {"louder", ClaimRule::louder},
    {"quieter", ClaimRule::quieter},
    {"less fizzy", ClaimRule::lessFizzy},
    {"warmer", ClaimRule::warmer},
    {"less noisy", ClaimRule::lessNoisy},
    {"cleans up", ClaimRule::cleansUp},
    {"less scooped", ClaimRule::lessScooped},
    {"not gated", ClaimRule::notGated},
    {"copies alike", ClaimRule::copiesAlike},
    {"muddier", ClaimRule::muddier},
}};

Claim readEntry(JsonReader entry) {
    Claim claim;
    claim.rule = entry.word("means", ruleWords);
    claim.words = entry.texts("words");
    claim.yes = entry.number("yes");
    claim.partly = entry.number("partly");
    claim.yesSecond = entry.numberIfThere("yesSecond");
    claim.partlySecond = entry.numberIfThere("partlySecond");
    return claim;
}

JsonNode writeEntry(const Claim& claim) {
    JsonNode node = JsonNode::object();
    node.add("means", wordFor(claim.rule, ruleWords));
    JsonNode words = JsonNode::list();
    for (const std::string& word : claim.words) {
        words.append(JsonNode::ofText(word));
    }
    node.add("words", std::move(words));
    node.add("yes", JsonNode::ofNumber(claim.yes));
    node.add("partly", JsonNode::ofNumber(claim.partly));
    if (claim.yesSecond) {
        node.add("yesSecond", JsonNode::ofNumber(*claim.yesSecond));
    }
    if (claim.partlySecond) {
        node.add("partlySecond", JsonNode::ofNumber(*claim.partlySecond));
    }
    return node;
}

ClaimLimits readMembers(JsonReader& reader) {
    ClaimLimits limits;
    for (const JsonReader& entry : reader.member("claims").entries()) {
        limits.claims.push_back(readEntry(entry));
    }
    limits.betaLow = reader.number("betaLow", limits.betaLow);
    limits.betaHigh = reader.number("betaHigh", limits.betaHigh);
    return limits;
}

}  // namespace

Result<ClaimLimits> readClaimWords(std::string_view text) {
    Result<ClaimLimits> limits = readOfKind(text, wordsFormat, claimWordsVersion, readMembers);
    if (!limits) {
        return limits;
    }
    if (const Result<void> sound = checkClaimLimits(*limits); !sound) {
        return Error{ErrorCode::fileDamaged, sound.error().message, sound.error().where};
    }
    return limits;
}

std::string writeClaimWords(const ClaimLimits& limits) {
    JsonNode root = writeHead(wordsFormat, claimWordsVersion);
    JsonNode claims = JsonNode::list();
    for (const Claim& claim : limits.claims) {
        claims.append(writeEntry(claim));
    }
    root.add("claims", std::move(claims));
    root.add("betaLow", JsonNode::ofNumber(limits.betaLow));
    root.add("betaHigh", JsonNode::ofNumber(limits.betaHigh));
    return printJson(root);
}

Result<ClaimLimits> loadClaimWords(const std::filesystem::path& path) {
    const Result<std::string> text = readWholeFile(path);
    if (!text) {
        return text.error();
    }
    Result<ClaimLimits> limits = readClaimWords(*text);
    if (!limits) {
        return errorInFile(limits.error(), path);
    }
    return limits;
}

Result<void> saveClaimWords(const ClaimLimits& limits, const std::filesystem::path& path) {
    if (Result<void> sound = checkClaimLimits(limits); !sound) {
        return sound;
    }
    return replaceFile(path, writeClaimWords(limits));
}

}  // namespace ohmwright
