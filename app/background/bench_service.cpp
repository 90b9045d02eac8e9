// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/bench_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"

namespace ohmwright {

namespace {

struct Judged {
    std::shared_ptr<const Job> job;
    std::size_t step = 0;
    CheckReading reading;
    Judgement judgement;
};

}  // namespace

struct BenchService::Lanes {
    Lanes(BenchService& service, OwnLane<Result<WorkPlan>>::Take takeWork, OwnLane<Judged>::Take takeJudged)
        : work(service, std::move(takeWork)), judging(service, std::move(takeJudged)) {}

    OwnLane<Result<WorkPlan>> work;
    OwnLane<Judged> judging;
};

BenchService::BenchService(JobDocument& document, QObject* parent)
    : QObject(parent), m_document(document), m_electrical(document.job()) {
    m_lanes = std::make_unique<Lanes>(
        *this,
        [this](Result<WorkPlan> answer) {
            m_answered = m_asked;
            m_fault = answer ? QString() : QString::fromStdString(answer.error().message);
            m_work = answer ? std::make_shared<const WorkPlan>(*std::move(answer)) : nullptr;
            emit changed();
        },
        [this](const Judged& answer) {
            if (answer.job == m_electrical) {
                emit judged(answer.step, answer.reading, answer.judgement);
            }
        });
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect != JobAspect::words) {
            m_electrical = m_document.job();
            emit changed();
            follow();
        }
    });
}

BenchService::~BenchService() = default;

void BenchService::setWanted(bool wanted) {
    m_isWanted = wanted;
    follow();
}

std::shared_ptr<const WorkPlan> BenchService::work() const {
    return m_answered == m_electrical ? m_work : nullptr;
}

QString BenchService::fault() const {
    return m_answered == m_electrical ? m_fault : QString();
}

void BenchService::follow() {
    if (!m_isWanted || m_asked == m_electrical || m_electrical->stock.parts.empty()) {
        return;
    }
    m_asked = m_electrical;
    m_lanes->work.start([job = m_electrical](const std::stop_token& stop) { return orderOfWork(*job, stop); });
}

void BenchService::judge(std::size_t step, CheckReading reading) {
    m_lanes->judging.start([job = m_electrical, work = work(), step, reading](const std::stop_token& stop) {
        Judged answer{job, step, reading, {}};
        Result<Judgement> judgement = judgeStep(*work, step, reading, job->setting, stop);
        if (judgement) {
            answer.judgement = *std::move(judgement);
        } else {
            answer.judgement.sentence = judgement.error().message;
        }
        return answer;
    });
}

}  // namespace ohmwright
