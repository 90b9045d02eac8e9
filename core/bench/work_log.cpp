// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/work_log.h"

#include "core/base/said.h"

#include <algorithm>
#include <map>

namespace ohmwright {

namespace {

bool isHandWork(StepKind kind) {
    return kind == StepKind::takeOut || kind == StepKind::moveLeg || kind == StepKind::fit;
}

/// Where the group of a step begins: its own discharge, or the first step.
std::size_t groupOf(const std::vector<BenchStep>& steps, std::size_t step) {
    while (step > 0 && steps[step].kind != StepKind::discharge) {
        --step;
    }
    return step;
}

std::size_t endOfGroup(const std::vector<BenchStep>& steps, std::size_t step) {
    ++step;
    while (step < steps.size() && steps[step].kind != StepKind::discharge && steps[step].kind != StepKind::tone) {
        ++step;
    }
    return step;
}

/// How far the mod is whose first step that is.
ModState stateOf(const std::vector<BenchStep>& steps, std::size_t first, const WorkLog& log) {
    bool isBegun = false, isFitted = true, isProven = true;
    const std::size_t end = endOfGroup(steps, first);
    for (std::size_t k = first; k < end; ++k) {
        const bool isOwn = steps[k].letter == steps[first].letter;
        if (!isOwn && !steps[k].letter.empty()) {
            continue;
        }
        const bool isPassed = log.has(k, StepResult::passed);
        if (isOwn && isHandWork(steps[k].kind)) {
            isBegun = isBegun || isPassed;
            isFitted = isFitted && isPassed;
        }
        isProven = isProven && isPassed;
    }
    return isFitted && isProven ? ModState::proven
           : isFitted           ? ModState::fitted
           : isBegun            ? ModState::removed
                                : ModState::planned;
}

}  // namespace

std::vector<std::string> stepKeys(const std::vector<BenchStep>& steps) {
    std::vector<std::string> keys;
    std::map<std::string, int> seen;
    for (const BenchStep& step : steps) {
        std::string key = step.letter.empty() ? std::string() : step.letter + " ";
        key.append(stepWords(step.kind)).append(": ").append(step.english.empty() ? step.title : step.english);
        const int times = ++seen[key];
        keys.push_back(times == 1 ? key : key + " (" + std::to_string(times) + ")");
    }
    return keys;
}

WorkLog::WorkLog(const std::vector<BenchStep>& steps, const Visit& visit) : m_keys(stepKeys(steps)) {
    m_marks.resize(m_keys.size());
    for (std::size_t k = 0; k < m_keys.size(); ++k) {
        for (const StepMark& mark : visit.marks) {
            if (mark.step == m_keys[k]) {
                m_marks[k] = mark;
            }
        }
    }
}

std::optional<std::size_t> WorkLog::refused() const {
    for (std::size_t k = 0; k < m_marks.size(); ++k) {
        if (has(k, StepResult::refused)) {
            return k;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> WorkLog::next() const {
    if (refused()) {
        return std::nullopt;
    }
    for (std::size_t k = 0; k < m_marks.size(); ++k) {
        if (isOpen(k) || has(k, StepResult::failed)) {
            return k;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> closedBy(const std::vector<BenchStep>& steps, const WorkLog& log, std::size_t step) {
    for (std::size_t k = 0; k < step; ++k) {
        if (steps[k].blocks && !log.has(k, StepResult::passed)) {
            return k;
        }
    }
    if (steps[step].kind == StepKind::stop || steps[step].kind == StepKind::powerUp) {
        for (std::size_t k = groupOf(steps, step); k < step; ++k) {
            if (log.isOpen(k) || log.has(k, StepResult::failed)) {
                return k;
            }
        }
    }
    return std::nullopt;
}

Result<Job> markStep(const Job& job, const BenchStep& step, StepMark mark) {
    if (job.visit.state == VisitState::gone) {
        return Error{ErrorCode::invalidInput,
                     said("This visit is gone and its record is closed: begin a new visit before work goes on."),
                     mark.step};
    }
    if (mark.result == StepResult::skipped && !mayBeSkipped(step)) {
        return Error{ErrorCode::invalidInput, said("\"%1\" cannot be skipped: do it, or refuse the work.", step.title),
                     mark.step};
    }
    Job edited = job;
    std::vector<StepMark>& marks = edited.visit.marks;
    marks.erase(std::remove_if(marks.begin(), marks.end(), [&](const StepMark& old) { return old.step == mark.step; }),
                marks.end());
    marks.push_back(std::move(mark));
    return edited;
}

std::string_view modStateWords(ModState state) {
    switch (state) {
        case ModState::planned:
            return toSay("planned");
        case ModState::removed:
            return toSay("removed");
        case ModState::fitted:
            return toSay("fitted");
        case ModState::proven:
            return toSay("proven");
    }
    return {};
}

std::vector<ModProgress> modProgress(const std::vector<BenchStep>& steps, const WorkLog& log) {
    std::vector<ModProgress> progress;
    for (std::size_t first = 0; first < steps.size(); ++first) {
        const std::string& letter = steps[first].letter;
        const bool isKnown = std::any_of(progress.begin(), progress.end(),
                                         [&](const ModProgress& each) { return each.letter == letter; });
        if (letter.empty() || isKnown) {
            continue;
        }
        progress.push_back({letter, stateOf(steps, first, log)});
    }
    return progress;
}

}  // namespace ohmwright
