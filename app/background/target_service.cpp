// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/target_service.h"

#include "app/background/latest_wins.h"
#include "app/document/job_document.h"

#include <utility>

namespace ohmwright {

namespace {

using Outcome = std::shared_ptr<const TargetOutcome>;

constexpr int tickMilliseconds = 100;

}  // namespace

struct TargetService::Lane {
    explicit Lane(TargetService& service)
        : work(service, pool, [&service](Outcome outcome) {
              service.m_tick.stop();
              service.m_outcome = std::move(outcome);
              emit service.changed();
          }) {
        constexpr int threads = 2;  // One at work and perhaps an older one that has not yet seen its token.
        pool.setMaxThreadCount(threads);
    }

    QThreadPool pool;
    LatestWins<Outcome> work;
};

TargetService::TargetService(JobDocument& document, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<Lane>(*this)),
      m_document(document),
      m_progress(std::make_shared<std::atomic<double>>(0.0)) {
    m_tick.setInterval(tickMilliseconds);
    connect(&m_tick, &QTimer::timeout, this, &TargetService::changed);
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            stop();
            m_outcome.reset();
        }
        emit changed();
    });
}

TargetService::~TargetService() {
    m_lane->work.stop();
    m_lane->pool.waitForDone();
}

void TargetService::search(const TargetRequest& request) {
    // Its own count: an older search that has not seen its token yet must not turn this one back.
    m_progress = std::make_shared<std::atomic<double>>(0.0);
    TargetRequest asked = request;
    asked.progress = [done = m_progress](double share) { done->store(share); };
    m_tick.start();
    m_lane->work.start([job = m_document.job(), asked](const std::stop_token& stop) {
        return std::make_shared<const TargetOutcome>(TargetOutcome{job, asked, findTargets(*job, asked, stop)});
    });
    emit changed();
}

void TargetService::stop() {
    m_tick.stop();
    m_lane->work.stop();
    emit changed();
}

bool TargetService::isRunning() const {
    return m_lane->work.isRunning();
}

double TargetService::progress() const {
    return m_progress->load();
}

bool TargetService::isCurrent() const {
    return m_outcome && m_outcome->job == m_document.job();
}

}  // namespace ohmwright
