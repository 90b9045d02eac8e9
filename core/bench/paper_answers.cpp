// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/paper_answers.h"

#include "core/base/said.h"

#include <utility>

namespace ohmwright {

namespace {

/// Why there is no paper; what is wrong with the job keeps its code.
Error refusal(Error error) {
    if (error.code != ErrorCode::cancelled) {
        error.message = said("No paper is made while the job cannot be solved. %1", error.message);
    }
    return error;
}

/// Puts an answer in its place, or says why there is none.
template <class Answer>
Result<void> take(Answer& place, Result<Answer> answer) {
    if (!answer) {
        return refusal(answer.error());
    }
    place = *std::move(answer);
    return {};
}

class Work {
public:
    Work(const PaperRequest& request, std::stop_token stop) : m_request(request), m_stop(std::move(stop)) {
        m_answers.kind = request.kind;
        m_answers.job = request.job;
        m_answers.drawer = request.drawer;
        m_answers.isStockAssumed = request.isStockAssumed;
    }

    Result<PaperAnswers> answer() {
        const Result<void> done = answerKind();
        return done ? Result<PaperAnswers>(std::move(m_answers)) : Result<PaperAnswers>(done.error());
    }

private:
    Result<void> answerKind() {
        // A state that is not solved is on no paper, whether its figures stand there or not.
        if (Result<void> solved = solveLinear(); !solved) {
            return solved;
        }
        switch (m_request.kind) {
            case PaperKind::bench:
                return answerBench();
            case PaperKind::wayBack:
                return take(m_answers.back, wayBack(job(), m_stop));
            case PaperKind::customer:
                return answerCustomer();
            case PaperKind::quote:
                return take(m_answers.quote, makeQuote(job(), m_request.drawer, m_request.rates));
            case PaperKind::label:
                break;
        }
        return {};
    }

    Result<void> answerBench() {
        if (Result<void> solved = solveLargeSignal(); !solved) {
            return solved;
        }
        if (Result<void> grouped = take(m_answers.groups, workGroups(job())); !grouped) {
            return grouped;
        }
        if (!m_request.isStockAssumed) {
            if (Result<void> picked = take(m_answers.picks, pickList(job(), m_request.drawer)); !picked) {
                return picked;
            }
        }
        return take(m_answers.work, stepsOfGroups(m_answers.groups, job().setting, m_stop));
    }

    Result<void> answerCustomer() {
        if (Result<void> solved = solveLargeSignal(); !solved) {
            return solved;
        }
        if (Result<void> knobs = take(m_answers.knobs, translateKnobs(job(), m_stop)); !knobs) {
            return knobs;
        }
        const auto claims = [&] { return checkClaims(job(), job().visit.words, m_request.words, m_stop); };
        if (Result<void> checked = take(m_answers.claims, claims()); !checked) {
            return checked;
        }
        return take(m_answers.back, wayBack(job(), m_stop));
    }

    Result<void> solveLinear() {
        Result<LinearAnswer> linear = compareLinear(compared(), m_stop);
        if (!linear) {
            return refusal(linear.error());
        }
        m_answers.linear = std::make_shared<const LinearAnswer>(*std::move(linear));
        return {};
    }

    Result<void> solveLargeSignal() {
        Result<LargeSignalAnswer> largeSignal = compareLargeSignal(compared(), m_stop);
        if (!largeSignal) {
            return refusal(largeSignal.error());
        }
        m_answers.largeSignal = std::make_shared<const LargeSignalAnswer>(*std::move(largeSignal));
        return {};
    }

    [[nodiscard]] CompareRequest compared() const {
        CompareRequest request;
        request.job = m_request.job;
        request.lastLinear = m_request.lastLinear;
        request.lastLargeSignal = m_request.lastLargeSignal;
        return request;
    }

    [[nodiscard]] const Job& job() const { return *m_request.job; }

    const PaperRequest& m_request;
    std::stop_token m_stop;
    PaperAnswers m_answers;
};

}  // namespace

Result<PaperAnswers> answersOfPaper(const PaperRequest& request, const std::stop_token& stop) {
    if (const Result<void> mapped = checkMapped(*request.job); !mapped) {
        return mapped.error();
    }
    if (const Result<void> seen = checkSeen(*request.job); !seen) {
        return seen.error();
    }
    return Work(request, stop).answer();
}

}  // namespace ohmwright
