// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/owner_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "core/plan/apply.h"

#include <QTimer>

#include <utility>

namespace ohmwright {

namespace {

/// Until then an older answer may stay where it stands.
constexpr int patienceMilliseconds = 300;

OwnersAnswer ownersOf(const Job& job, double hertz, bool isStock, const std::stop_token& stop) {
    OwnersAnswer answer{hertz, isStock, {}, {}};
    const Result<Circuit> circuit = isStock ? Result<Circuit>(job.stock) : nowCircuit(job);
    auto owners = circuit ? findOwners(*circuit, job.setting, hertz, stop) : circuit.error();
    if (owners) {
        answer.owners = *std::move(owners);
    } else {
        answer.fault = QString::fromStdString(owners.error().message);
    }
    return answer;
}

}  // namespace

struct OwnerService::Lane {
    explicit Lane(OwnerService& service)
        : work(service, [&service](OwnersAnswer answer) {
              service.m_lane->patience.stop();
              service.m_answer = std::make_shared<const OwnersAnswer>(std::move(answer));
              emit service.changed();
          }) {
        gather.setSingleShot(true);
        patience.setSingleShot(true);
    }

    OwnLane<OwnersAnswer> work;
    QTimer gather;  ///< Several changes at once are one request.
    QTimer patience;
};

OwnerService::OwnerService(JobDocument& document, Selection& selection, QObject* parent)
    : QObject(parent), m_lane(std::make_unique<Lane>(*this)), m_document(document), m_selection(selection) {
    connect(&m_lane->gather, &QTimer::timeout, this, &OwnerService::ask);
    connect(&m_lane->patience, &QTimer::timeout, this, &OwnerService::forget);
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            forget();
        }
        if (aspect != JobAspect::words) {
            askSoon();
        }
    });
    connect(&selection, &Selection::cursorChanged, this, &OwnerService::askSoon);
    connect(&selection, &Selection::holdsStockChanged, this, &OwnerService::askSoon);
}

OwnerService::~OwnerService() = default;

void OwnerService::setWanted(bool wanted) {
    if (std::exchange(m_isWanted, wanted) != wanted) {
        askSoon();
    }
}

bool OwnerService::isBusy() const {
    return m_lane->gather.isActive() || m_lane->work.isRunning();
}

void OwnerService::forget() {
    if (std::exchange(m_answer, nullptr)) {
        emit changed();
    }
}

void OwnerService::askSoon() {
    m_lane->gather.start(0);
}

void OwnerService::ask() {
    if (!m_isWanted || m_document.job()->stock.parts.empty()) {
        m_lane->work.stop();
        m_lane->patience.stop();
        forget();
        return;
    }
    if (m_answer && !m_lane->patience.isActive()) {
        m_lane->patience.start(patienceMilliseconds);
    }
    m_lane->work.start([job = m_document.job(), hertz = m_selection.cursorHz(), isStock = m_selection.holdsStock()](
                           const std::stop_token& stop) { return ownersOf(*job, hertz, isStock, stop); });
}

}  // namespace ohmwright
