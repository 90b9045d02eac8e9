/// What the paper that is looked at says, worked out off the GUI thread for the job as it is.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/step_photos.h"
#include "core/bench/paper_answers.h"

#include <QObject>
#include <QString>

#include <memory>
#include <optional>
#include <string>

namespace ohmwright {

class JobDocument;
template <class Answer>
class OwnLane;
class ShopDocument;
class SolverService;
struct Shop;

class PaperService : public QObject {
    Q_OBJECT
public:
    /// @param solver  whose figures are taken over where they are of the same circuit.
    PaperService(JobDocument& document, const SolverService& solver, ShopDocument& shop, QObject* parent = nullptr);
    ~PaperService() override;

    /// Which paper is looked at; nothing is worked out while none is.
    void want(std::optional<PaperKind> kind);
    /// Of the wanted paper, the job and the shop as they are now, words and signatures among them; null until it is
    /// there.
    [[nodiscard]] std::shared_ptr<const PaperAnswers> answers() const;
    /// The last of the wanted paper, whatever the job is by now; null when there is none.
    [[nodiscard]] std::shared_ptr<const PaperAnswers> lastAnswers() const;
    /// The photo crops beside the steps of lastAnswers().
    [[nodiscard]] const StepPhotos& lastPhotos() const { return m_photos; }
    /// Why there is no such paper of the job as it is now; else empty.
    [[nodiscard]] QString fault() const;

signals:
    /// answers() or fault() changed.
    void changed();

private:
    /// What an answer depends on.
    struct Asked {
        PaperKind kind = PaperKind::bench;
        std::shared_ptr<const Job> job;
        std::shared_ptr<const Shop> shop;
    };
    /// Answers, or why there are none.
    struct Answer {
        std::shared_ptr<const PaperAnswers> answers;
        StepPhotos photos;
        std::string fault;
    };

    void follow();
    void take(const Answer& answer);
    [[nodiscard]] bool isOfNow(const std::optional<Asked>& asked) const;

    std::unique_ptr<OwnLane<Answer>> m_lane;
    JobDocument& m_document;
    const SolverService& m_solver;
    ShopDocument& m_shop;
    std::optional<PaperKind> m_wanted;
    std::optional<Asked> m_asked;     ///< What the lane works on or has answered.
    std::optional<Asked> m_answered;  ///< What m_answers or m_fault is of.
    std::shared_ptr<const PaperAnswers> m_answers;
    StepPhotos m_photos;
    QString m_fault;
};

}  // namespace ohmwright
