/// The work at the bench, worked out off the GUI thread: order of work, checks, probe cards; readings judged.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/judge_step.h"
#include "core/bench/order_of_work.h"

#include <QObject>
#include <QString>

#include <memory>

namespace ohmwright {

class JobDocument;

class BenchService : public QObject {
    Q_OBJECT
public:
    explicit BenchService(JobDocument& document, QObject* parent = nullptr);
    ~BenchService() override;

    /// Nothing is solved while nobody looks.
    void setWanted(bool wanted);
    /// Of the job as it is now, less its words and marks; null until it is there.
    [[nodiscard]] std::shared_ptr<const WorkPlan> work() const;
    /// Why there is no work for the job as it is now; else empty.
    [[nodiscard]] QString fault() const;
    /// Answers with judged(); a newer question takes the place of an older one.
    /// @param step  of work(), which must be there. @param reading  absent: the meter shows none.
    void judge(std::size_t step, CheckReading reading);

signals:
    /// work() or fault() changed.
    void changed();
    void judged(std::size_t step, ohmwright::CheckReading reading, const ohmwright::Judgement& judgement);

private:
    void follow();

    struct Lanes;
    std::unique_ptr<Lanes> m_lanes;
    JobDocument& m_document;
    bool m_isWanted = false;
    std::shared_ptr<const Job> m_electrical;  ///< The newest job, less edits of words.
    std::shared_ptr<const Job> m_asked;       ///< What the lane works on or has answered.
    std::shared_ptr<const Job> m_answered;
    std::shared_ptr<const WorkPlan> m_work;
    QString m_fault;
};

}  // namespace ohmwright
