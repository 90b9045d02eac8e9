// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/revision_service.h"

#include "app/background/own_lane.h"

#include <utility>

namespace ohmwright {

namespace {

RankedRevisions rank(const Job& job, const std::vector<Job>& stored, std::vector<SpotReading> readings,
                     const std::stop_token& stop) {
    RankedRevisions answer{candidatesFor(job, stored), std::move(readings), {}, {}};
    Result<RevisionRanking> ranking = whichRevision(answer.candidates, answer.readings, stop);
    if (ranking) {
        answer.ranking = *std::move(ranking);
    } else {
        answer.fault = QString::fromStdString(ranking.error().message);
    }
    return answer;
}

}  // namespace

RevisionService::RevisionService(QObject* parent)
    : QObject(parent), m_lane(std::make_unique<OwnLane<RankedRevisions>>(*this, [this](RankedRevisions answer) {
          emit ranked(std::make_shared<const RankedRevisions>(std::move(answer)));
      })) {}

RevisionService::~RevisionService() = default;

void RevisionService::ask(std::shared_ptr<const Job> job, std::vector<Job> stored, std::vector<SpotReading> readings) {
    m_lane->start([job = std::move(job), stored = std::move(stored), readings = std::move(readings)](
                      const std::stop_token& stop) { return rank(*job, stored, readings, stop); });
}

void RevisionService::stop() {
    m_lane->stop();
}

bool RevisionService::isBusy() const {
    return m_lane->isRunning();
}

}  // namespace ohmwright
