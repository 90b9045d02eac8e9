// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/swap_checks.h"

#include "app/background/own_lane.h"
#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "core/bench/mod_checks.h"

#include <algorithm>

namespace ohmwright {

SwapChecks::SwapChecks(JobDocument& document, Selection& selection, SolverService& solver, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<SwapChecksAnswer>>(*this,
                                                         [this](SwapChecksAnswer answer) {
                                                             m_answer = std::move(answer);
                                                             emit changed();
                                                         })),
      m_document(document),
      m_selection(selection),
      m_solver(solver) {
    connect(&document, &JobDocument::jobChanged, this, [this] {
        emit changed();
        follow();  // After an edit of words the solver has nothing new to say.
    });
    connect(&selection, &Selection::partChanged, this, &SwapChecks::changed);
    connect(&solver, &SolverService::largeSignalReady, this, &SwapChecks::follow);
}

SwapChecks::~SwapChecks() = default;

const SwapChecksAnswer* SwapChecks::answer() const {
    const Mod* mod = modOnPart(m_document.job()->plan, m_selection.part());
    return mod != nullptr && m_answer.job == m_document.job() && m_answer.mod == mod->id ? &m_answer : nullptr;
}

void SwapChecks::follow() {
    const std::shared_ptr<const Job> job = m_document.job();
    const Mod* mod = modOnPart(job->plan, m_selection.part());
    if (mod == nullptr || answer() != nullptr || !m_solver.isCurrent()) {
        return;
    }
    m_lane->start([job, id = mod->id](const std::stop_token& stop) {
        SwapChecksAnswer answer{job, id, {}, {}};
        Result<std::vector<Check>> checks = checksOfMod(*job, id, stop);
        if (checks) {
            answer.checks = *std::move(checks);
        } else {
            answer.fault = QString::fromStdString(checks.error().message);
        }
        return answer;
    });
}

const Mod* modOnPart(const Plan& plan, const PartId& part) {
    const auto found = std::find_if(plan.begin(), plan.end(), [&part](const Mod& candidate) {
        return targetOf(candidate.change) == part || candidate.id == part || fitsPart(candidate, part);
    });
    return part.empty() || found == plan.end() ? nullptr : &*found;
}

}  // namespace ohmwright
