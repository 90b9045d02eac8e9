// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/curve_service.h"

#include "app/background/latest_wins.h"
#include "app/document/job_document.h"

namespace ohmwright {

struct CurveService::Lane {
    explicit Lane(CurveService& service)
        : work(service, pool, [&service](CurveAnswer answer) {
              service.m_answer = std::move(answer);
              emit service.changed();
          }) {
        constexpr int threads = 2;  // One at work and perhaps an older one that has not yet seen its token.
        pool.setMaxThreadCount(threads);
    }

    QThreadPool pool;
    LatestWins<CurveAnswer> work;
};

CurveService::CurveService(JobDocument& document, QObject* parent)
    : QObject(parent), m_lane(std::make_unique<Lane>(*this)), m_document(document), m_electrical(document.job()) {
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            m_answer = {};
        }
        if (aspect != JobAspect::words) {
            m_electrical = m_document.job();
            ask();
            emit changed();
        }
    });
}

CurveService::~CurveService() {
    m_lane->work.stop();
    m_lane->pool.waitForDone();
}

void CurveService::show(std::optional<CurveKind> kind) {
    if (kind == m_kind) {
        return;
    }
    m_kind = kind;
    ask();
    emit changed();
}

const CurveAnswer* CurveService::answer() const {
    return m_kind && m_answer.job && m_answer.kind == *m_kind ? &m_answer : nullptr;
}

bool CurveService::isCurrent() const {
    return answer() != nullptr && m_answer.job == m_electrical;
}

void CurveService::ask() {
    if (!m_kind || m_electrical->stock.parts.empty()) {
        m_lane->work.stop();
        return;
    }
    if (isCurrent()) {
        return;
    }
    m_lane->work.start([job = m_electrical, kind = *m_kind](const std::stop_token& stop) {
        CurveAnswer answer{job, kind, {}, {}};
        Result<ComparedCurve> curve = compareCurve(*job, kind, stop);
        if (curve) {
            answer.curve = *std::move(curve);
        } else {
            answer.fault = QString::fromStdString(curve.error().message);
        }
        return answer;
    });
}

}  // namespace ohmwright
