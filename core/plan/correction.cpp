// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/correction.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

struct ReasonWord {
    CorrectionReason reason;
    std::string_view word;
};
constexpr std::array reasonWords{ReasonWord{CorrectionReason::boardDiffers, toSay("board differs")},
                                 ReasonWord{CorrectionReason::earlierMod, toSay("earlier mod")},
                                 ReasonWord{CorrectionReason::misread, toSay("misread")}};

constexpr double percent = 100.0;

std::string withMarking(const std::string& words, const std::string& printed) {
    return printed.empty() || printed == words ? words : said("%1 (printed %2)", words, printed);
}

struct FindingWriter {
    PartKind kind;

    std::string operator()(const ValueFound& found) const {
        return withMarking(formatPartValue({found.value, unitOf(kind)}), found.printed);
    }
    std::string operator()(const TypeFound& found) const { return withMarking(found.model.name, found.printed); }
    std::string operator()(const ToleranceFound& found) const {
        return found.tolerance > 0.0 ? "±" + formatFigure(found.tolerance * percent) + " %" : said("no tolerance");
    }
    std::string operator()(const LawFound& found) const {
        if (found.taper == Taper::linear) {
            return said("linear");
        }
        return said(found.taper == Taper::logarithmic ? toSay("log %1 %") : toSay("reverse log %1 %"),
                    formatFixed(found.shareAtHalf * percent, 0));
    }
    std::string operator()(const LegFound& found) const {
        return found.net == groundNet ? said("leg %1 at ground", found.pin + 1)
                                      : said("leg %1 at %2", found.pin + 1, found.net);
    }
    std::string operator()(const ReferenceFound& found) const { return said("reference %1", found.reference); }
    std::string operator()(const BoardNoteFound& found) const {
        return found.note.empty() ? said("no board note") : "“" + found.note + "”";
    }
    std::string operator()(const PresenceFound& found) const {
        return found.part ? said("on the board") : said("not on the board");
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
