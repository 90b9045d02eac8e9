// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/solver_service.h"

#include "app/background/latest_wins.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"

#include <QElapsedTimer>
#include <QTimer>

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

namespace ohmwright {

namespace {

/// Until then an old curve may stay as it is; after it, it is stamped.
constexpr int patienceMilliseconds = 300;
/// A lane has one request at work and perhaps an older one that has not yet seen its token.
constexpr int threadsOfALane = 2;

template <class Answer>
struct Lane {
    Lane(QObject& receiver, QThreadPool& pool, typename LatestWins<Answer>::Take take, Pace pace)
        : work(receiver, pool, std::move(take), pace) {}

    LatestWins<Answer> work;
    QElapsedTimer clock;
    double milliseconds = 0.0;
    std::optional<Error> fault;
    bool isDue = false;
};

}  // namespace

struct SolverService::Lanes {
    explicit Lanes(SolverService& service)
        : linear(
              service, linearPool, [&service](Result<LinearAnswer> answer) { service.takeLinear(std::move(answer)); },
              Pace::soon),
          largeSignal(
              service, largeSignalPool,
              [&service](Result<LargeSignalAnswer> answer) { service.takeLargeSignal(std::move(answer)); },
              Pace::behind) {
        linearPool.setMaxThreadCount(threadsOfALane);
        largeSignalPool.setMaxThreadCount(threadsOfALane);
    }

    /// One each: large signals of thousands of parts see their token late, and a response never waits for them.
    QThreadPool linearPool;
    QThreadPool largeSignalPool;
    Lane<Result<LinearAnswer>> linear;
    Lane<Result<LargeSignalAnswer>> largeSignal;
    /// Fires when the event loop is free again, so that several changes at once are one request.
    QTimer gather;
    QTimer patience;
    /// The job that the answers have to belong to: the newest, less edits of words only.
    std::shared_ptr<const Job> electrical;
};

SolverService::SolverService(JobDocument& document, Selection& selection, QObject* parent)
    : QObject(parent), m_lanes(std::make_unique<Lanes>(*this)), m_document(document), m_selection(selection) {
    m_lanes->gather.setSingleShot(true);
    m_lanes->patience.setSingleShot(true);
    connect(&m_lanes->gather, &QTimer::timeout, this, [this] { requestSolve(); });
    connect(&m_lanes->patience, &QTimer::timeout, this, &SolverService::stateChanged);

    const auto both = [this] {
        m_lanes->linear.isDue = true;
        m_lanes->largeSignal.isDue = true;
        m_lanes->gather.start(0);
    };
    const auto linearOnly = [this] {
        m_lanes->linear.isDue = true;
        m_lanes->gather.start(0);
    };
    const auto followJob = [this, both] {
        m_lanes->electrical = m_document.job();
        m_lanes->patience.start(patienceMilliseconds);
        both();
    };
    connect(&document, &JobDocument::jobChanged, this, [this, followJob](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            forget();
        }
        if (aspect != JobAspect::words) {
            followJob();
        }
    });
    connect(&selection, &Selection::ghostChanged, this, both);
    connect(&selection, &Selection::partChanged, this, both);
    connect(&selection, &Selection::candidatesChanged, this, linearOnly);
    connect(&selection, &Selection::cursorChanged, this, linearOnly);
    if (!document.job()->stock.parts.empty()) {
        followJob();
    }
}

SolverService::~SolverService() {
    m_lanes->linear.work.stop();
    m_lanes->largeSignal.work.stop();
    m_lanes->linearPool.waitForDone();
    m_lanes->largeSignalPool.waitForDone();
}

bool SolverService::isCurrent() const {
    const std::shared_ptr<const Job>& asked = m_lanes->electrical;
    return asked && m_fault.isEmpty() && m_linear && m_linear->job == asked && m_largeSignal &&
           m_largeSignal->job == asked;
}

bool SolverService::isBusy() const {
    const auto isUnanswered = [](const auto& lane) { return lane.isDue || lane.work.isRunning(); };
    return isUnanswered(m_lanes->linear) || isUnanswered(m_lanes->largeSignal);
}

void SolverService::forget() {
    m_linear.reset();
    m_largeSignal.reset();
    m_lanes->linear.fault.reset();
    m_lanes->largeSignal.fault.reset();
    m_fault.clear();
    m_faultPlace.clear();
    emit stateChanged();
}

void SolverService::requestSolve() {
    if (!m_lanes->electrical || m_lanes->electrical->stock.parts.empty()) {
        // Nothing to solve: nothing is due either, and an answer of what was there before is of no use.
        m_lanes->linear.work.stop();
        m_lanes->largeSignal.work.stop();
        m_lanes->linear.isDue = false;
        m_lanes->largeSignal.isDue = false;
        m_lanes->patience.stop();
        forget();
        return;
    }
    const CompareRequest request{m_lanes->electrical,    m_selection.ghost(),
                                 m_selection.part(),     m_selection.candidateValues(),
                                 m_selection.cursorHz(), m_linear,
                                 m_largeSignal};
    if (std::exchange(m_lanes->linear.isDue, false)) {
        m_lanes->linear.clock.start();
        m_lanes->linear.work.start([request](const std::stop_token& stop) { return compareLinear(request, stop); });
    }
    if (std::exchange(m_lanes->largeSignal.isDue, false)) {
        m_lanes->largeSignal.clock.start();
        m_lanes->largeSignal.work.start(
            [request](const std::stop_token& stop) { return compareLargeSignal(request, stop); });
    }
}

void SolverService::takeLinear(Result<LinearAnswer> answer) {
    auto& lane = m_lanes->linear;
    lane.milliseconds = static_cast<double>(lane.clock.nsecsElapsed()) / 1.0e6;
    if (!answer) {
        lane.fault = answer.error();
        settle();
        return;
    }
    lane.fault.reset();
    m_linear = std::make_shared<const LinearAnswer>(std::move(*answer));
    emit linearReady();
    settle();
}

void SolverService::takeLargeSignal(Result<LargeSignalAnswer> answer) {
    auto& lane = m_lanes->largeSignal;
    lane.milliseconds = static_cast<double>(lane.clock.nsecsElapsed()) / 1.0e6;
    if (!answer) {
        lane.fault = answer.error();
        settle();
        return;
    }
    lane.fault.reset();
    m_largeSignal = std::make_shared<const LargeSignalAnswer>(std::move(*answer));
    emit largeSignalReady();
    settle();
}

void SolverService::settle() {
    const auto& [linear, largeSignal] = std::tie(m_lanes->linear, m_lanes->largeSignal);
    const std::optional<Error>& fault = linear.fault ? linear.fault : largeSignal.fault;
    m_fault = fault ? QString::fromStdString(fault->message) : QString();
    m_faultPlace = fault ? QString::fromStdString(fault->where) : QString();
    m_milliseconds = std::max(linear.milliseconds, largeSignal.milliseconds);
    if (isCurrent() || fault) {
        m_lanes->patience.stop();
        emit stateChanged();
    }
}

}  // namespace ohmwright
