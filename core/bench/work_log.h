/// What was done of the work: signatures of the visit against the steps of the plan, and what follows from them.
///
/// A mark belongs to a step by the step's key, which is made of English words: the same work has the same keys however
/// often it is solved and in whatever language; work that was planned anew has others, and its old marks stay in the
/// visit as history.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/bench/order_of_work.h"
#include "core/plan/job.h"

#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// "A fit: Fit C4 Cg 120n, printed 124"; the second of two alike ends in " (2)". One a step.
std::vector<std::string> stepKeys(const std::vector<BenchStep>& steps);

/// How the steps stand: the marks that the visit has, nothing for an open step.
class WorkLog {
public:
    /// Copies the marks; `steps` is not kept.
    WorkLog(const std::vector<BenchStep>& steps, const Visit& visit);

    [[nodiscard]] std::size_t size() const { return m_marks.size(); }
    [[nodiscard]] const std::optional<StepMark>& mark(std::size_t step) const { return m_marks[step]; }
    [[nodiscard]] const std::string& key(std::size_t step) const { return m_keys[step]; }
    [[nodiscard]] bool isOpen(std::size_t step) const { return !m_marks[step]; }
    [[nodiscard]] bool has(std::size_t step, StepResult result) const {
        return m_marks[step] && m_marks[step]->result == result;
    }
    /// The step that was refused: there the work ended.
    [[nodiscard]] std::optional<std::size_t> refused() const;
    /// The first step that is open or failed; none when all is done or the work was refused.
    [[nodiscard]] std::optional<std::size_t> next() const;

private:
    std::vector<std::string> m_keys;
    std::vector<std::optional<StepMark>> m_marks;
};

/// The first step before this one that must be passed before it opens; none when it may be done.
///
/// A blocking step closes all that comes after it until it is passed. A stop and the power-up after it also wait for
/// every step of their group: none may be open or failed; skipped ones are the technician's own risk and stay red.
std::optional<std::size_t> closedBy(const std::vector<BenchStep>& steps, const WorkLog& log, std::size_t step);

/// Steps that hold others back cannot be skipped, only done or refused.
inline bool mayBeSkipped(const BenchStep& step) {
    return !step.blocks;
}

/// Signs a step: the mark takes the place of an older one of the same step, at the end of the list.
/// Errors: invalidInput when the visit is gone (its record is closed), or a blocking step of these is marked skipped.
Result<Job> markStep(const Job& job, const BenchStep& step, StepMark mark);

enum class ModState {
    planned,
    removed,  ///< The old part is out, or a leg is off its pad.
    fitted,   ///< All its work of the hands is signed.
    proven,   ///< Fitted, and every reading of it and of its power-up passed.
};
/// "planned", "removed", "fitted", "proven".
std::string_view modStateWords(ModState state);

struct ModProgress {
    std::string letter;
    ModState state = ModState::planned;

    friend bool operator==(const ModProgress&, const ModProgress&) = default;
};
/// Of every mod that has steps, in the order of work.
std::vector<ModProgress> modProgress(const std::vector<BenchStep>& steps, const WorkLog& log);

}  // namespace ohmwright
