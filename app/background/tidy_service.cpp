// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/tidy_service.h"

#include "app/background/latest_wins.h"
#include "core/drawing/arrange.h"

#include <utility>

namespace ohmwright {

struct TidyService::Lane {
    explicit Lane(TidyService& service)
        : work(service, pool, [&service](Tidied answer) {
              service.m_answer = std::move(answer);
              emit service.ready();
          }) {
        constexpr int threads = 2;  // one at work and perhaps an older one that nobody waits for
        pool.setMaxThreadCount(threads);
    }

    QThreadPool pool;
    LatestWins<Tidied> work;
};

TidyService::TidyService(QObject* parent) : QObject(parent), m_lane(std::make_unique<Lane>(*this)) {}

TidyService::~TidyService() {
    m_lane->work.stop();
    m_lane->pool.waitForDone();
}

void TidyService::start(std::shared_ptr<const Job> job, std::vector<PartId> chosen) {
    m_lane->work.start([job = std::move(job), chosen = std::move(chosen)](const std::stop_token& /*stop*/) {
        return Tidied{job, chosen, rejoin(chosen.empty() ? arrange(job->stock) : arrange(job->stock, chosen))};
    });
}

bool TidyService::isRunning() const {
    return m_lane->work.isRunning();
}

}  // namespace ohmwright
