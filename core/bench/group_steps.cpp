// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/group_steps.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"
#include "core/bench/edit_steps.h"
#include "core/bench/switch_steps.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ohmwright {

namespace {

using Index = std::size_t;

/// More suspicions than these do not fit beside a step.
constexpr std::size_t mostSuspicions = 3;
/// A reading that climbs for longer is given its time. Common practice, no source.
constexpr double noticedSeconds = 0.5;

std::string suspicions(const CheckPlan& plan, std::size_t check) {
    std::string words;
    std::size_t named = 0;
    for (std::size_t k = 0; k < plan.mistakes.size() && named < mostSuspicions; ++k) {
        if (plan.sees(check, k)) {
            words += (named++ == 0 ? "" : "; ") + plan.mistakes[k].sentence;
        }
    }
    return words;
}

std::string titleOf(const Check& check) {
    const std::string words = check.words();
    std::string title = words;
    if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') {
        title[0] = static_cast<char>(title[0] - 'a' + 'A');
    }
    return title;
}

/// "rises to no reading, after 3 s: read"
std::string readLineWords(const Check& check, double waitSeconds) {
    const std::string expected = check.expected.words(check.kind);
    if (waitSeconds <= 0.0) {
        return said("%1: read", expected);
    }
    const std::string seconds = formatFixed(std::ceil(waitSeconds), 0);
    const bool isOpen = !check.expected.low && !check.expected.high;
    return isOpen ? said("rises to %1, after %2 s: read", expected, seconds)
                  : said("%1, after %2 s: read", expected, seconds);
}

/// Ohms that say nothing ("no reading" both in plan and mistakes) are left out.
bool isWorthReading(const CheckPlan& plan, std::size_t index) {
    if (plan.checks[index].kind != CheckKind::ohms) {
        return true;
    }
    for (std::size_t k = 0; k < plan.mistakes.size(); ++k) {
        if (plan.sees(index, k)) {
            return true;
        }
    }
    return false;
}

}  // namespace

BenchStep readingStep(const CheckPlan& plan, std::size_t index, const std::string& letter, StepKind kind) {
    const Check& check = plan.checks[index];
    BenchStep step;
    step.kind = kind;
    step.letter = letter;
    entitle(step, [&] { return titleOf(check); });
    step.check = check;
    step.low = check.expected.low;
    step.nominal = check.expected.nominal;
    step.high = check.expected.high;
    step.unit = unitOf(check.kind);
    step.waitSeconds = check.settleSeconds > noticedSeconds ? check.settleSeconds : 0.0;
    step.ifItFails = suspicions(plan, index);
    step.line = index;
    step.isEnough = std::find(plan.smallest.begin(), plan.smallest.end(), index) != plan.smallest.end();
    if (isBeeper(check.kind)) {
        step.lines.push_back({check.kind == CheckKind::beep ? said("Must beep") : said("Silent"),
                              saidMeaning("two places", "%1 to %2", {check.red.words, check.black.words}), false,
                              true});
        return step;
    }
    step.lines.push_back({said("Read"), readLineWords(check, step.waitSeconds), true, true});
    return step;
}

std::vector<Mistake> upsideDown(const FittedMod& fitted, Index throwIndex) {
    const std::optional<Mistake> mistake = switchUpsideDown(fitted.throws, throwIndex);
    return mistake ? std::vector<Mistake>{*mistake} : std::vector<Mistake>{};
}

std::optional<Index> standingThrow(const FittedMod& fitted) {
    for (Index k = 0; k < fitted.throws.size() && !fitted.takesSwitchOut; ++k) {
        if (fitted.throws[k].circuit.parts == fitted.after.parts) {
            return k;
        }
    }
    return std::nullopt;
}

Result<void> GroupSteps::add(const FittedMod& fitted) {
    if (!fitted.throws.empty()) {
        return addSwitch(fitted);
    }
    const std::vector<BoardEdit> edits = boardEdits(fitted.before, fitted.after);
    push(stepsOfEdits({fitted.letter, fitted.before, fitted.after, m_work.duties, fitted.isUndone}, edits));
    return addReadings(fitted, edits, fitted.after);
}

Result<void> GroupSteps::addSwitch(const FittedMod& fitted) {
    const Circuit& without = fitted.takesSwitchOut ? fitted.after : fitted.before;
    const SwitchWork own{fitted.letter, without, fitted.throws, m_work.duties};
    if (fitted.takesSwitchOut) {
        push(stepsOfSwitchOut(own));
        return addReadings(fitted, editsBack(without, fitted.throws), without);
    }
    push(stepsOfSwitch(own));
    for (Index k = 0; k < fitted.throws.size(); ++k) {
        const Result<void> added =
            addReadings(fitted, editsOfThrow(without, fitted.throws, k), fitted.throws[k].circuit, k);
        if (!added) {
            return added.error();
        }
    }
    return {};
}

/// @param throwIndex  at which the mod's switch stands for them.
Result<void> GroupSteps::addReadings(const FittedMod& fitted, const std::vector<BoardEdit>& edits, const Circuit& board,
                                     std::optional<Index> throwIndex) {
    const std::string throwName = throwIndex ? fitted.throws[*throwIndex].name : std::string();
    CheckOptions meterOnly;
    meterOnly.tonesHz.clear();
    meterOnly.withSettling = true;
    if (throwIndex) {
        meterOnly.alsoLikely = upsideDown(fitted, *throwIndex);
    }
    Result<CheckPlan> checks = planChecks(edits, board, m_setting, meterOnly, m_stop);
    if (!checks) {
        Error error = checks.error();
        if (throwIndex) {
            error.message = said("Switch at %1: %2", throwName, error.message);
        }
        return error;
    }
    for (Index k = 0; k < checks->checks.size(); ++k) {
        if (!isMeter(checks->checks[k].kind) || !isWorthReading(*checks, k)) {
            continue;
        }
        BenchStep step = readingStep(*checks, k, fitted.letter, StepKind::reading);
        step.sheet = static_cast<int>(m_work.checkPlans.size());
        if (!throwName.empty()) {
            entitle(step, [&] { return said("Switch at %1: %2", throwName, step.check->words()); });
            step.lines.insert(step.lines.begin(), {said("Switch"), said("at %1", throwName), false, true, true});
        }
        m_work.steps.push_back(std::move(step));
    }
    m_work.checkPlans.push_back(*std::move(checks));
    return {};
}

void GroupSteps::push(std::vector<BenchStep> steps) {
    std::move(steps.begin(), steps.end(), std::back_inserter(m_work.steps));
}

}  // namespace ohmwright
