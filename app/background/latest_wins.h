/// One lane of background work in which only the latest request counts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/pace.h"

#include <QFutureWatcher>
#include <QObject>
#include <QThreadPool>
#include <QtConcurrentRun>

#include <functional>
#include <stop_token>
#include <utility>

namespace ohmwright {

/// Runs `work` on the pool and hands its answer to `take` on the receiver's thread. All members on that thread.
///
/// Starting asks the older request to stop and does not wait for it; what a stopped request still answers is
/// dropped. `work` gets copies of all it needs and polls its token.
///
/// REQUIRES: all lanes of a pool have one pace; the receiver outlives this lane; the pool is waited for before what
/// `take` touches dies.
template <class Answer>
class LatestWins {
public:
    using Work = std::function<Answer(const std::stop_token&)>;
    using Take = std::function<void(Answer)>;

    LatestWins(QObject& receiver, QThreadPool& pool, Take take, Pace pace = Pace::behind)
        : m_receiver(receiver), m_pool(pool), m_take(std::move(take)), m_pace(pace) {}
    ~LatestWins() { stop(); }
    LatestWins(const LatestWins&) = delete;
    LatestWins& operator=(const LatestWins&) = delete;

    void start(Work work) {
        stop();
        m_stop = std::stop_source();
        m_running = true;
        const std::stop_token token = m_stop.get_token();
        // The watcher belongs to the receiver: QFuture::then() asserts in Qt 6.4 when its context died first.
        auto* watcher = new QFutureWatcher<Answer>(&m_receiver);
        QObject::connect(watcher, &QFutureWatcherBase::finished, &m_receiver, [this, watcher, token] {
            watcher->deleteLater();
            // Asked first: a lane that is gone has stopped its token.
            if (token.stop_requested()) {
                return;
            }
            m_running = false;
            m_take(watcher->future().takeResult());
        });
        watcher->setFuture(QtConcurrent::run(&m_pool, [work = std::move(work), token, pace = m_pace] {
            takePace(pace);
            return work(token);
        }));
    }

    /// Asks the running request to stop; its answer will not come.
    void stop() {
        m_stop.request_stop();
        m_running = false;
    }

    [[nodiscard]] bool isRunning() const { return m_running; }

private:
    QObject& m_receiver;
    QThreadPool& m_pool;
    Take m_take;
    Pace m_pace;
    std::stop_source m_stop;
    bool m_running = false;
};

}  // namespace ohmwright
