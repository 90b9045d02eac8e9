// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/tidy_service.h"

#include "app/background/own_lane.h"
#include "core/drawing/arrange.h"

#include <utility>

namespace ohmwright {

TidyService::TidyService(QObject* parent)
    : QObject(parent), m_lane(std::make_unique<OwnLane<Tidied>>(*this, [this](Tidied answer) {
          m_answer = std::move(answer);
          emit ready();
      })) {}

TidyService::~TidyService() = default;

void TidyService::start(std::shared_ptr<const Job> job, std::vector<PartId> chosen) {
    m_lane->start([job = std::move(job), chosen = std::move(chosen)](const std::stop_token& /*stop*/) {
        return Tidied{job, chosen, rejoin(chosen.empty() ? arrange(job->stock) : arrange(job->stock, chosen))};
    });
}

bool TidyService::isRunning() const {
    return m_lane->isRunning();
}

}  // namespace ohmwright
