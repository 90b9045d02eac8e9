// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/shop_jobs.h"

#include "app/background/own_lane.h"
#include "app/document/shop_document.h"

#include <utility>
#include <vector>

namespace ohmwright {

ShopJobs::ShopJobs(ShopDocument& shop, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<std::vector<ShopJob>>>(
          *this, [this](std::vector<ShopJob> jobs) { m_shop.setJobs(std::move(jobs)); })),
      m_shop(shop) {
    connect(&shop, &ShopDocument::shopChanged, this, [this] {
        if (m_shop.folder() != m_folder) {
            read();
        }
    });
}

ShopJobs::~ShopJobs() = default;

void ShopJobs::read() {
    m_folder = m_shop.folder();
    if (m_folder.isEmpty()) {
        return;
    }
    m_lane->start([folder = m_shop.shop()->folder](const std::stop_token& stop) { return readShopJobs(folder, stop); });
}

bool ShopJobs::isReading() const {
    return m_lane->isRunning();
}

}  // namespace ohmwright
