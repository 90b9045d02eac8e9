// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/judge_step.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"

#include <cmath>

namespace ohmwright {

namespace {

/// A discharged supply may sit a little under zero.
bool isInBand(const BenchStep& step, CheckReading reading) {
    if (!reading) {
        return !step.low && !step.high && !step.nominal;
    }
    const double value = step.kind == StepKind::discharge ? std::abs(*reading) : *reading;
    return (!step.low || value >= *step.low) && (!step.high || value <= *step.high);
}

/// Of a part in the hand: what lies nearest to the reading when it is wrong.
std::string partSentence(const BenchStep& step, CheckReading reading) {
    const std::string own = said("%1 is out of band (%2).", readWords(step, reading), allowedWords(step)) + " ";
    if (!reading || !step.nominal || *step.nominal <= 0.0 || *reading <= 0.0) {
        return own + said("Read again with clean leads, the part out of the board.");
    }
    const double decades = std::log10(*reading / *step.nominal);
    constexpr double nearDecade = 0.12;  // A quarter off is still that decade.
    const double nearest = std::round(decades);
    if (nearest != 0.0 && std::abs(decades - nearest) < nearDecade) {
        return own +
               (nearest > 0.0
                    ? said("Ten times or more of the value: the marking was read wrong, or the wrong drawer. Do not "
                           "fit it.")
                    : said("A tenth or less of the value: the marking was read wrong, or the wrong drawer. Do not "
                           "fit it."));
    }
    return step.kind == StepKind::takeOut
               ? own + said(
                           "The part drifted, is another one than drawn, or somebody was here before: note it, "
                           "then go on.")
               : own + said("Take another part from the drawer, or measure it again.");
}

Judgement plainJudgement(const BenchStep& step, CheckReading reading) {
    Judgement judgement;
    judgement.isInBand = isInBand(step, reading);
    if (judgement.isInBand) {
        judgement.sentence = said("In band.");
    } else if (step.kind == StepKind::takeOut || step.kind == StepKind::fit) {
        judgement.sentence = partSentence(step, reading);
    } else {
        judgement.sentence =
            said("%1 is out of band (%2).", readWords(step, reading), allowedWords(step)) + " " + step.ifItFails;
    }
    return judgement;
}

/// Where a tone would not see the first suspect, that and what would; else empty.
/// @param whole  the checks of the whole work, tones among them.
std::string whatIsBlind(const CheckPlan& whole, const Suspect& suspect) {
    for (std::size_t mistake = 0; mistake < whole.mistakes.size(); ++mistake) {
        if (whole.mistakes[mistake].sentence != suspect.sentence) {
            continue;
        }
        for (std::size_t k = 0; k < whole.checks.size(); ++k) {
            if (whole.checks[k].kind == CheckKind::tone && !whole.sees(k, mistake)) {
                return " " + howToSee(whole, mistake);
            }
        }
    }
    return {};
}

}  // namespace

bool hasReading(const BenchStep& step) {
    return step.check || step.unit != Unit::none;
}

std::string allowedWords(const BenchStep& step) {
    if (step.check) {
        return step.check->expected.words(step.check->kind);
    }
    if (step.kind == StepKind::discharge && step.high) {
        return said("under %1", formatQuantity({*step.high, step.unit}));
    }
    if (step.unit == Unit::none || !step.low || !step.high) {
        return {};
    }
    return said("%1 to %2", readWords(step, step.low), readWords(step, step.high));
}

std::string readWords(const BenchStep& step, CheckReading reading) {
    if (isBeeper(step)) {
        return reading && *reading > 0.5 ? said("beeps") : said("silent");
    }
    if (!reading) {
        return said("no reading");
    }
    if (step.unit == Unit::decibel) {
        return formatFixed(*reading, 1, Sign::always) + " dB";
    }
    if (step.unit == Unit::volt && std::abs(*reading) >= 0.01) {
        return formatFixed(*reading, 2) + " V";
    }
    return formatQuantity({*reading, step.unit});
}

Result<Judgement> judgeStep(const WorkPlan& work, std::size_t step, CheckReading reading, const Setting& setting,
                            const std::stop_token& stop) {
    const BenchStep& own = work.steps[step];
    if (!hasReading(own)) {
        return Error{ErrorCode::invalidInput, said("\"%1\" has no reading: sign it as done.", own.title), ""};
    }
    if (own.kind == StepKind::probe && own.sheet >= 0 && reading) {
        const PoweredGroup& group = work.powered[static_cast<std::size_t>(own.sheet)];
        return judgeProbe(group.finished, setting, group.card, own.line, *reading,
                          likelyMistakes(boardEdits(group.before, group.finished), group.finished), stop);
    }
    if ((own.kind == StepKind::reading || own.kind == StepKind::tone) && own.sheet >= 0) {
        Judgement judged = judgeCheck(work.checkPlans[static_cast<std::size_t>(own.sheet)], own.line, reading);
        if (!judged.suspects.empty()) {
            judged.sentence += whatIsBlind(work.checkPlans.back(), judged.suspects.front());
        }
        return judged;
    }
    return plainJudgement(own, reading);
}

}  // namespace ohmwright
