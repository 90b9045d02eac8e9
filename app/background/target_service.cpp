// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/target_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"

#include <utility>

namespace ohmwright {

namespace {

using Outcome = std::shared_ptr<const TargetOutcome>;

constexpr int tickMilliseconds = 100;

}  // namespace

TargetService::TargetService(JobDocument& document, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<Outcome>>(*this,
                                                [this](Outcome outcome) {
                                                    m_tick.stop();
                                                    m_outcome = std::move(outcome);
                                                    emit changed();
                                                })),
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

TargetService::~TargetService() = default;

void TargetService::search(const TargetRequest& request) {
    // Its own count: an older search that has not seen its token yet must not turn this one back.
    m_progress = std::make_shared<std::atomic<double>>(0.0);
    TargetRequest asked = request;
    asked.progress = [done = m_progress](double share) { done->store(share); };
    m_tick.start();
    m_lane->start([job = m_document.job(), asked](const std::stop_token& stop) {
        return std::make_shared<const TargetOutcome>(TargetOutcome{job, asked, findTargets(*job, asked, stop)});
    });
    emit changed();
}

void TargetService::stop() {
    m_tick.stop();
    m_lane->stop();
    emit changed();
}

bool TargetService::isRunning() const {
    return m_lane->isRunning();
}

double TargetService::progress() const {
    return m_progress->load();
}

bool TargetService::isCurrent() const {
    return m_outcome && m_outcome->job == m_document.job();
}

}  // namespace ohmwright
