// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/paper_service.h"

#include "app/background/own_lane.h"
#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/shop_document.h"

#include <QFileInfo>

namespace ohmwright {

namespace {

/// Whether a paper of one says what a paper of the other does, less words that are only set.
bool solvesAlike(const Job& a, const Job& b) {
    return a.stock == b.stock && a.plan == b.plan && a.setting == b.setting && a.visit.words == b.visit.words &&
           a.board == b.board;
}

}  // namespace

PaperService::PaperService(JobDocument& document, const SolverService& solver, ShopDocument& shop, QObject* parent)
    : QObject(parent),
      m_lane(std::make_unique<OwnLane<Answer>>(*this, [this](const Answer& answer) { take(answer); })),
      m_document(document),
      m_solver(solver),
      m_shop(shop) {
    connect(&document, &JobDocument::jobChanged, this, &PaperService::follow);
    connect(&shop, &ShopDocument::shopChanged, this, &PaperService::follow);
}

PaperService::~PaperService() = default;

void PaperService::want(std::optional<PaperKind> kind) {
    m_wanted = kind;
    follow();
}

bool PaperService::isOfNow(const std::optional<Asked>& asked) const {
    return asked && m_wanted == asked->kind && asked->shop == m_shop.shop() &&
           (asked->job == m_document.job() || solvesAlike(*asked->job, *m_document.job()));
}

std::shared_ptr<const PaperAnswers> PaperService::answers() const {
    return isOfNow(m_answered) ? m_answers : nullptr;
}

std::shared_ptr<const PaperAnswers> PaperService::lastAnswers() const {
    return m_answers && m_wanted == m_answers->kind ? m_answers : nullptr;
}

QString PaperService::fault() const {
    return isOfNow(m_answered) ? m_fault : QString();
}

void PaperService::follow() {
    const std::shared_ptr<const Job> job = m_document.job();
    if (!m_wanted || job->stock.parts.empty()) {
        m_lane->stop();
        m_asked = m_answered;
        return;
    }
    if (isOfNow(m_asked)) {
        if (isOfNow(m_answered) && m_answers && m_answers->job != job) {
            // Only words and signatures are others: they are set anew, nothing is solved.
            auto renamed = std::make_shared<PaperAnswers>(*m_answers);
            renamed->job = job;
            m_answers = std::move(renamed);
            m_answered->job = job;
        }
        emit changed();
        return;
    }
    m_asked = Asked{*m_wanted, job, m_shop.shop()};
    PaperRequest request;
    request.kind = *m_wanted;
    request.job = job;
    request.words = m_shop.shop()->words;
    request.rates = m_shop.shop()->rates;
    request.drawer = m_shop.onHand();
    request.isStockAssumed = m_shop.shop()->isStockAssumed();
    request.lastLinear = m_solver.linear();
    request.lastLargeSignal = m_solver.largeSignal();
    const QString folder = m_document.path().isEmpty() ? QString() : QFileInfo(m_document.path()).absolutePath();
    m_lane->start([request = std::move(request), folder](const std::stop_token& stop) {
        Result<PaperAnswers> answers = answersOfPaper(request, stop);
        if (!answers) {
            return Answer{nullptr, {}, answers.error().message};
        }
        StepPhotos photos = readStepPhotos(*answers, folder);
        return Answer{std::make_shared<const PaperAnswers>(*std::move(answers)), std::move(photos), {}};
    });
    emit changed();
}

void PaperService::take(const Answer& answer) {
    m_answered = m_asked;
    m_fault = QString::fromStdString(answer.fault);
    m_answers = answer.answers;
    m_photos = answer.photos;
    // Words may have changed meanwhile.
    follow();
}

}  // namespace ohmwright
