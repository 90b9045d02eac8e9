// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/visit_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"
#include "core/plan/apply.h"

#include <utility>

namespace ohmwright {

namespace {

Result<VisitExpectations> expectationsOf(const Job& job, const std::stop_token& stop) {
    const Result<Circuit> now = nowCircuit(job);
    if (!now) {
        return now.error();
    }
    VisitExpectations all;
    for (const auto& [circuit, shown, every] : {std::tuple(&job.stock, &all.comingIn, &all.everyComingIn),
                                                std::tuple(&*now, &all.leaving, &all.everyLeaving)}) {
        auto few = expectedReadings(*circuit, job.setting, stop);
        auto places = everyReading(*circuit, job.setting, stop);
        if (!few || !places) {
            return few ? places.error() : few.error();
        }
        *shown = *std::move(few);
        *every = *std::move(places);
    }
    return all;
}

}  // namespace

struct VisitService::Lanes {
    Lanes(VisitService& service, OwnLane<Result<VisitExpectations>>::Take takeExpectations,
          OwnLane<Result<ReturnCheck>>::Take takeReturned)
        : expecting(service, std::move(takeExpectations)), comparing(service, std::move(takeReturned)) {}

    OwnLane<Result<VisitExpectations>> expecting;
    OwnLane<Result<ReturnCheck>> comparing;
};

VisitService::VisitService(JobDocument& document, QObject* parent)
    : QObject(parent), m_document(document), m_electrical(document.job()) {
    m_lanes = std::make_unique<Lanes>(
        *this,
        [this](Result<VisitExpectations> answer) {
            m_answered = m_asked;
            m_fault = answer ? QString() : QString::fromStdString(answer.error().message);
            m_expectations = answer ? std::make_shared<const VisitExpectations>(*std::move(answer)) : nullptr;
            emit changed();
        },
        [this](Result<ReturnCheck> answer) {
            m_returned = answer ? std::make_shared<const ReturnCheck>(*std::move(answer)) : nullptr;
            emit changed();
        });
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect != JobAspect::words) {
            m_electrical = m_document.job();
            emit changed();
        }
        follow();
    });
}

VisitService::~VisitService() = default;

void VisitService::setWanted(bool wanted) {
    m_isWanted = wanted;
    follow();
}

std::shared_ptr<const VisitExpectations> VisitService::expectations() const {
    return m_answered == m_electrical ? m_expectations : nullptr;
}

std::shared_ptr<const ReturnCheck> VisitService::returned() const {
    const auto job = m_document.job();
    const bool isCurrent =
        job->visit.readings == m_askedReadings && job->departures.size() == m_askedRecords && m_askedRecords > 0;
    return isCurrent && !m_askedReadings.empty() ? m_returned : nullptr;
}

QString VisitService::fault() const {
    return m_answered == m_electrical ? m_fault : QString();
}

void VisitService::follow() {
    if (!m_isWanted || m_document.job()->stock.parts.empty()) {
        return;
    }
    followReadings();
    if (m_asked == m_electrical) {
        return;
    }
    m_asked = m_electrical;
    m_lanes->expecting.start([job = m_electrical](const std::stop_token& stop) { return expectationsOf(*job, stop); });
}

/// Compared with the visit before: what this one's own record holds is no reference for it.
void VisitService::followReadings() {
    const auto job = m_document.job();
    const bool isGone = job->visit.state == VisitState::gone;
    if (job->visit.readings == m_askedReadings && job->departures.size() == m_askedRecords) {
        return;
    }
    m_askedReadings = job->visit.readings;
    m_askedRecords = job->departures.size();
    m_returned = nullptr;
    m_lanes->comparing.stop();
    const std::size_t records = job->departures.size() - (isGone ? 1 : 0);
    if (m_askedReadings.empty() || records == 0) {
        return;
    }
    m_lanes->comparing.start([record = job->departures[records - 1], readings = m_askedReadings](
                                 const std::stop_token& stop) { return checkReturn(record, readings, stop); });
}

}  // namespace ohmwright
