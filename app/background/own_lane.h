/// A lane of background work with threads of its own, for a service that asks one thing at a time.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/latest_wins.h"

#include <utility>

namespace ohmwright {

/// LatestWins together with its pool: what still runs is stopped and waited for when the lane dies.
///
/// REQUIRES: the receiver owns the lane; `work` touches nothing of the receiver.
template <class Answer>
class OwnLane {
public:
    using Work = typename LatestWins<Answer>::Work;
    using Take = typename LatestWins<Answer>::Take;

    OwnLane(QObject& receiver, Take take) : m_work(receiver, m_pool, std::move(take)) {
        constexpr int threads = 2;  // One at work and perhaps an older one that has not yet seen its token.
        m_pool.setMaxThreadCount(threads);
    }
    ~OwnLane() {
        m_work.stop();
        m_pool.waitForDone();
    }
    OwnLane(const OwnLane&) = delete;
    OwnLane& operator=(const OwnLane&) = delete;

    void start(Work work) { m_work.start(std::move(work)); }
    void stop() { m_work.stop(); }
    [[nodiscard]] bool isRunning() const { return m_work.isRunning(); }

private:
    QThreadPool m_pool;
    LatestWins<Answer> m_work;
};

}  // namespace ohmwright
