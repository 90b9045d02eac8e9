/// Searches the drawer for wanted figures off the GUI thread; the latest request wins, and it can be stopped.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/targets.h"

#include <QObject>
#include <QTimer>

#include <atomic>
#include <memory>

namespace ohmwright {

template <class Answer>
class OwnLane;
class JobDocument;

struct TargetOutcome {
    std::shared_ptr<const Job> job;  ///< That was searched for.
    TargetRequest request;
    Result<TargetList> list;
};

class TargetService : public QObject {
    Q_OBJECT
public:
    explicit TargetService(JobDocument& document, QObject* parent = nullptr);
    ~TargetService() override;

    void search(const TargetRequest& request);
    /// Gives the running search up; what was found before it stays.
    void stop();
    [[nodiscard]] bool isRunning() const;
    /// Share of the running search that is done, 0..1.
    [[nodiscard]] double progress() const;
    /// Null before the first search of this job. May be older than the job: see isCurrent.
    [[nodiscard]] std::shared_ptr<const TargetOutcome> outcome() const { return m_outcome; }
    /// Whether the outcome was found for the job as it is now.
    [[nodiscard]] bool isCurrent() const;

signals:
    /// Started, progressed, stopped, answered, or the job moved away from the answer.
    void changed();

private:
    std::unique_ptr<OwnLane<std::shared_ptr<const TargetOutcome>>> m_lane;
    JobDocument& m_document;
    std::shared_ptr<const TargetOutcome> m_outcome;
    std::shared_ptr<std::atomic<double>> m_progress;
    QTimer m_tick;
};

}  // namespace ohmwright
