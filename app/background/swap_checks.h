/// The meter checks of the selected part's mod, worked out off the GUI thread once the large-signal answer is there.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/checks.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>

#include <memory>
#include <string>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;
class JobDocument;
class Selection;
class SolverService;

struct SwapChecksAnswer {
    std::shared_ptr<const Job> job;
    std::string mod;  ///< Mod::id
    std::vector<Check> checks;
    QString fault;  ///< Why there are none; else empty.
};

class SwapChecks : public QObject {
    Q_OBJECT
public:
    SwapChecks(JobDocument& document, Selection& selection, SolverService& solver, QObject* parent = nullptr);
    ~SwapChecks() override;

    /// Null while nothing belongs to the job and the selected part as they are now: what is shown is never old.
    [[nodiscard]] const SwapChecksAnswer* answer() const;

signals:
    /// An answer came, or the one that was there is no longer current.
    void changed();

private:
    void follow();

    std::unique_ptr<OwnLane<SwapChecksAnswer>> m_lane;
    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    SwapChecksAnswer m_answer;
};

/// The mod that works on a part or that fitted it; null when none does.
const Mod* modOnPart(const Plan& plan, const PartId& part);

}  // namespace ohmwright
