// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/history_place.h"

#include "app/background/bench_service.h"
#include "app/background/shop_jobs.h"
#include "app/document/job_document.h"
#include "app/history/past_visits.h"
#include "app/history/recipe_bench.h"
#include "app/history/revision_finder.h"
#include "app/history/visit_card_view.h"
#include "app/look/theme.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int cardWidth = 470;
constexpr int recipeWidth = 400;

QScrollArea* scrolled(QWidget* page, const QString& name, QWidget* parent) {
    auto* scroll = new QScrollArea(parent);
    scroll->setAccessibleName(name);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(page);
    return scroll;
}

}  // namespace

HistoryPlace::HistoryPlace(JobDocument& document, ShopDocument& shop, BenchService& bench, QWidget* parent)
    : QWidget(parent),
      m_bench(bench),
      m_service(document),
      m_jobs(new ShopJobs(shop, this)),
      m_card(new VisitCardView(document, m_service, bench)),
      m_visits(new PastVisits(document, shop, m_service)),
      m_recipes(new RecipeBench(document, shop)),
      m_revision(new RevisionFinder(document, shop)) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);  // The ground shows through as a line.
    auto* card = scrolled(m_card, tr("This visit"), this);
    m_cardArea = card;
    auto* right = new QWidget(this);
    auto* rightLayout = new QVBoxLayout(right);
    rightLayout->setContentsMargins(0, 0, 0, 0);
    rightLayout->addWidget(m_revision);
    rightLayout->addWidget(m_recipes, 1);
    auto* recipes = scrolled(right, tr("Recipes and revisions"), this);
    m_recipesArea = recipes;
    layout->addWidget(card);
    layout->addWidget(scrolled(m_visits, tr("Earlier visits"), this), 1);
    layout->addWidget(recipes);
    arrange();
    connect(&Theme::current(), &Theme::changed, this, &HistoryPlace::arrange);
    connect(m_recipes, &RecipeBench::shopFolderAsked, this, &HistoryPlace::shopFolderAsked);
    connect(&document, &JobDocument::saveStateChanged, this, [this] {
        if (isVisible()) {
            m_jobs->read();
        }
    });
}

/// The sides widen with the text, as long as the visits between them keep a quarter.
void HistoryPlace::arrange() {
    const double scale = Theme::current().textScale();
    const double most = 0.75 * width() / (cardWidth + recipeWidth);
    const double factor = std::max(1.0, std::min(scale, most));
    m_cardArea->setFixedWidth(qRound(cardWidth * factor));
    m_recipesArea->setFixedWidth(qRound(recipeWidth * factor));
}

void HistoryPlace::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

bool HistoryPlace::isCurrent() const {
    return (m_service.expectations() || !m_service.fault().isEmpty()) && (m_bench.work() || !m_bench.fault().isEmpty());
}

void HistoryPlace::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

void HistoryPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_service.setWanted(true);
    m_bench.setWanted(true);
    m_jobs->read();
    m_recipes->readRecipes();
}

void HistoryPlace::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_service.setWanted(false);
    m_bench.setWanted(false);
}

}  // namespace ohmwright
