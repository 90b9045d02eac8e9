// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correction.h"

#include "core/base/number_text.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

struct ReasonWord {
    CorrectionReason reason;
    std::string_view word;
};
constexpr std::array reasonWords{ReasonWord{CorrectionReason::boardDiffers, "board differs"},
                                 ReasonWord{CorrectionReason::earlierMod, "earlier mod"},
                                 ReasonWord{CorrectionReason::misread, "misread"}};

constexpr double percent = 100.0;

std::string withMarking(std::string words, const std::string& printed) {
    if (!printed.empty() && printed != words) {
        words.append(" (printed ").append(printed).append(")");
    }
    return words;
}

struct FindingWriter {
    PartKind kind;

    std::string operator()(const ValueFound& found) const {
        return withMarking(formatPartValue({found.value, unitOf(kind)}), found.printed);
    }
    std::string operator()(const TypeFound& found) const { return withMarking(found.model.name, found.printed); }
    std::string operator()(const ToleranceFound& found) const {
        return found.tolerance > 0.0 ? "±" + formatFigure(found.tolerance * percent) + " %" : "no tolerance";
    }
    std::string operator()(const LawFound& found) const {
        if (found.taper == Taper::linear) {
            return "linear";
        }
        return std::string(found.taper == Taper::logarithmic ? "log " : "reverse log ") +
               formatFixed(found.shareAtHalf * percent, 0) + " %";
    }
    std::string operator()(const LegFound& found) const {
        std::string words = "leg " + std::to_string(found.pin + 1);
        words.append(" at ").append(found.net == groundNet ? "ground" : found.net);
        return words;
    }
    std::string operator()(const ReferenceFound& found) const { return "reference " + found.reference; }
    std::string operator()(const BoardNoteFound& found) const {
        return found.note.empty() ? std::string("no board note") : "“" + found.note + "”";
    }
    std::string operator()(const PresenceFound& found) const {
        return found.part ? "on the board" : "not on the board";
    }
};

}  // namespace

std::string_view reasonWord(CorrectionReason reason) {
    return std::find_if(reasonWords.begin(), reasonWords.end(),
                        [&](const ReasonWord& each) { return each.reason == reason; })
        ->word;
}

std::optional<CorrectionReason> reasonOfWord(std::string_view word) {
    const auto found =
        std::find_if(reasonWords.begin(), reasonWords.end(), [&](const ReasonWord& each) { return each.word == word; });
    return found != reasonWords.end() ? std::optional(found->reason) : std::nullopt;
}

std::string findingWords(const Finding& finding, PartKind kind) {
    return std::visit(FindingWriter{kind}, finding);
}

}  // namespace ohmwright
