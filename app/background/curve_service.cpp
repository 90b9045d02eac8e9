// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/curve_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"

namespace ohmwright {

CurveService::CurveService(JobDocument& document, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<CurveAnswer>>(*this,
                                                    [this](CurveAnswer answer) {
                                                        m_answer = std::move(answer);
                                                        emit changed();
                                                    })),
      m_document(document),
      m_electrical(document.job()) {
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

CurveService::~CurveService() = default;

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
        m_lane->stop();
        return;
    }
    if (isCurrent()) {
        return;
    }
    m_lane->start([job = m_electrical, kind = *m_kind](const std::stop_token& stop) {
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
