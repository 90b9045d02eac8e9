// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/shop_jobs.h"

#include "app/background/latest_wins.h"
#include "app/document/shop_document.h"

#include <utility>
#include <vector>

namespace ohmwright {

struct ShopJobs::Lane {
    explicit Lane(ShopJobs& service)
        : work(service, pool, [&service](std::vector<ShopJob> jobs) { service.m_shop.setJobs(std::move(jobs)); }) {
        constexpr int threads = 2;  // One at work and perhaps an older one that has not yet seen its token.
        pool.setMaxThreadCount(threads);
    }

    QThreadPool pool;
    LatestWins<std::vector<ShopJob>> work;
};

ShopJobs::ShopJobs(ShopDocument& shop, QObject* parent)
    : QObject(parent), m_lane(std::make_unique<Lane>(*this)), m_shop(shop) {
    connect(&shop, &ShopDocument::shopChanged, this, [this] {
        if (m_shop.folder() != m_folder) {
            read();
        }
    });
}

ShopJobs::~ShopJobs() {
    m_lane->work.stop();
    m_lane->pool.waitForDone();
}

void ShopJobs::read() {
    m_folder = m_shop.folder();
    if (m_folder.isEmpty()) {
        return;
    }
    m_lane->work.start(
        [folder = m_shop.shop()->folder](const std::stop_token& stop) { return readShopJobs(folder, stop); });
}

bool ShopJobs::isReading() const {
    return m_lane->work.isRunning();
}

}  // namespace ohmwright
