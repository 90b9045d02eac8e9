// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/pin_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"
#include "core/plan/apply.h"
#include "core/plan/pinned.h"

#include <algorithm>

namespace ohmwright {

namespace {

PinnedAnswer solve(const Job& job, const PinnedState& pinned, CurveKind kind, const std::stop_token& stop) {
    const Job pinnedJob = jobOfPinned(job, pinned);
    PinnedAnswer answer{pinned, kind, {}, {}};
    const Result<Circuit> circuit = nowCircuit(pinnedJob);
    if (!circuit) {
        answer.fault = QString::fromStdString(circuit.error().message);
        return answer;
    }
    Result<CurveTable> table = measureCurve(kind, *circuit, pinnedJob.setting, stop);
    if (table) {
        answer.table = *std::move(table);
    } else {
        answer.fault = QString::fromStdString(table.error().message);
    }
    return answer;
}

/// Letter and name are words: a state that is renamed has the same curves.
bool hasSameCurves(const PinnedState& one, const PinnedState& other) {
    return one.plan == other.plan && one.setting == other.setting;
}

}  // namespace

PinService::PinService(JobDocument& document, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<std::vector<PinnedAnswer>>>(
          *this, [this](std::vector<PinnedAnswer> answers) { take(std::move(answers)); })),
      m_document(document),
      m_stock(document.job()->stock) {
    connect(&document, &JobDocument::jobChanged, this, &PinService::follow);
}

PinService::~PinService() = default;

void PinService::show(std::vector<CurveKind> kinds) {
    if (kinds != m_kinds) {
        m_kinds = std::move(kinds);
        ask();
        emit changed();
    }
}

void PinService::follow() {
    const std::shared_ptr<const Job> job = m_document.job();
    if (job->pinned.empty() && m_answers.empty()) {
        m_stock = job->stock;
        emit changed();
        return;
    }
    if (job->stock != m_stock) {
        m_answers.clear();
        m_stock = job->stock;
    }
    std::erase_if(m_answers, [&job](const PinnedAnswer& answer) {
        return std::none_of(job->pinned.begin(), job->pinned.end(),
                            [&answer](const PinnedState& each) { return hasSameCurves(each, answer.pinned); });
    });
    ask();
    emit changed();
}

std::vector<PinService::Wanted> PinService::missing() const {
    std::vector<Wanted> wanted;
    for (const PinnedState& pinned : m_document.job()->pinned) {
        for (const CurveKind kind : m_kinds) {
            if (find(pinned, kind) == nullptr) {
                wanted.push_back({pinned, kind});
            }
        }
    }
    return wanted;
}

void PinService::ask() {
    std::vector<Wanted> wanted = missing();
    if (wanted.empty()) {
        m_lane->stop();
        return;
    }
    m_lane->start([job = m_document.job(), wanted = std::move(wanted)](const std::stop_token& stop) {
        std::vector<PinnedAnswer> answers;
        for (const Wanted& each : wanted) {
            if (stop.stop_requested()) {
                break;
            }
            answers.push_back(solve(*job, each.pinned, each.kind, stop));
        }
        return answers;
    });
}

/// The lane drops what was asked before the stock changed.
void PinService::take(std::vector<PinnedAnswer> answers) {
    for (PinnedAnswer& answer : answers) {
        m_answers.push_back(std::move(answer));
    }
    emit changed();
}

const PinnedAnswer* PinService::find(const PinnedState& pinned, CurveKind kind) const {
    const auto found = std::find_if(m_answers.begin(), m_answers.end(), [&](const PinnedAnswer& answer) {
        return answer.kind == kind && hasSameCurves(answer.pinned, pinned);
    });
    return found == m_answers.end() ? nullptr : &*found;
}

std::vector<PinnedTable> PinService::tables(CurveKind kind) const {
    std::vector<PinnedTable> tables;
    for (const PinnedState& pinned : m_document.job()->pinned) {
        const PinnedAnswer* answer = find(pinned, kind);
        if (answer != nullptr && answer->fault.isEmpty()) {
            tables.push_back({pinned.letter, &answer->table});
        }
    }
    return tables;
}

QString PinService::fault(const std::string& letter) const {
    const PinnedState* pinned = findPinned(*m_document.job(), letter);
    for (const CurveKind kind : m_kinds) {
        const PinnedAnswer* answer = pinned != nullptr ? find(*pinned, kind) : nullptr;
        if (answer != nullptr && !answer->fault.isEmpty()) {
            return answer->fault;
        }
    }
    return {};
}

bool PinService::isCurrent() const {
    return missing().empty();
}

}  // namespace ohmwright
