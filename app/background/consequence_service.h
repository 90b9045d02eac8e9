/// Finds what the plan brings with it (core/plan/consequences.h) off the GUI thread, a section at a time.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/consequences.h"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

class JobDocument;
class ShopDocument;
class SolverService;

/// Follows the document, the solver and the shop by itself: every section starts when the solver's answers belong to
/// the job as it is, the newest request wins, and each comes as it is found. All members on the GUI thread.
class ConsequenceService : public QObject {
    Q_OBJECT
public:
    enum class Section { together, words, translations, effects, switches, sums };
    Q_ENUM(Section)

    ConsequenceService(JobDocument& document, SolverService& solver, ShopDocument& shop, QObject* parent = nullptr);
    ~ConsequenceService() override;

    /// Last good answers; null before the first of this job. May be older than the job: see isCurrent.
    [[nodiscard]] std::shared_ptr<const TogetherAnswer> together() const;
    [[nodiscard]] std::shared_ptr<const std::vector<WordAnswer>> words() const;
    [[nodiscard]] std::shared_ptr<const std::vector<KnobTranslation>> translations() const;
    [[nodiscard]] std::shared_ptr<const EffectsAnswer> effects() const;
    [[nodiscard]] std::shared_ptr<const std::vector<SwitchAnswer>> switches() const;
    [[nodiscard]] std::shared_ptr<const SumsAnswer> sums() const;

    /// Whether the section belongs to the job, its words and the shop's limits as they are.
    [[nodiscard]] bool isCurrent(Section section) const;
    /// Of all sections.
    [[nodiscard]] bool isCurrent() const;
    /// Why the section of the job as it is cannot be had, the solver's own fault first; else empty.
    [[nodiscard]] QString trouble(Section section) const;
    /// The shop's table of words.
    [[nodiscard]] const ClaimLimits& wordTable() const;

signals:
    /// A new answer, or a trouble, of one section.
    void ready(ohmwright::ConsequenceService::Section section);
    /// What is shown is old for longer than 0.3 s; and again when all sections are current.
    void stateChanged();

private:
    void follow();
    void startDue();
    void settle(Section section);

    struct Lanes;
    std::unique_ptr<Lanes> m_lanes;
    JobDocument& m_document;
    SolverService& m_solver;
    ShopDocument& m_shop;
};

}  // namespace ohmwright
