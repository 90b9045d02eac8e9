/// The place "History": the card of this visit, the unit's visits, and the shop's recipes.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/visit_service.h"
#include "core/plan/job.h"

#include <QWidget>

namespace ohmwright {

class BenchService;
class JobDocument;
class PastVisits;
class RecipeBench;
class RevisionFinder;
class ShopDocument;
class ShopJobs;
class VisitCardView;

class HistoryPlace : public QWidget {
    Q_OBJECT
public:
    HistoryPlace(JobDocument& document, ShopDocument& shop, BenchService& bench, QWidget* parent = nullptr);

    [[nodiscard]] VisitCardView& card() { return *m_card; }
    [[nodiscard]] PastVisits& visits() { return *m_visits; }
    [[nodiscard]] RecipeBench& recipes() { return *m_recipes; }
    /// Everything that it shows is of the job as it is.
    [[nodiscard]] bool isCurrent() const;

signals:
    void shopFolderAsked();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void arrange();

    QWidget* m_cardArea = nullptr;
    QWidget* m_recipesArea = nullptr;
    BenchService& m_bench;
    VisitService m_service;
    ShopJobs* m_jobs;
    VisitCardView* m_card;
    PastVisits* m_visits;
    RecipeBench* m_recipes;
    RevisionFinder* m_revision;
};

}  // namespace ohmwright
