// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/recipe_service.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"

#include <utility>

namespace ohmwright {

namespace {

HeldRecipe holdAgainst(std::shared_ptr<const Job> job, std::shared_ptr<const Recipe> recipe,
                       const RecipeFitOptions& options, const std::stop_token& stop) {
    HeldRecipe held{std::move(job), std::move(recipe), {}, {}, {}};
    Result<RecipeFit> fit = fitRecipe(*held.recipe, *held.job, options, stop);
    if (!fit) {
        held.fault = QString::fromStdString(fit.error().message);
        return held;
    }
    auto settling = settlingReadings(*held.recipe, *fit, stop);
    if (settling) {
        held.settling = *std::move(settling);
    }
    held.fit = *std::move(fit);
    return held;
}

}  // namespace

struct RecipeService::Lanes {
    Lanes(RecipeService& service, OwnLane<HeldRecipe>::Take takeHeld, OwnLane<Result<Recipe>>::Take takeTaken)
        : holding(service, std::move(takeHeld)), taking(service, std::move(takeTaken)) {}

    OwnLane<HeldRecipe> holding;
    OwnLane<Result<Recipe>> taking;
};

RecipeService::RecipeService(JobDocument& document, QObject* parent) : QObject(parent), m_document(document) {
    m_lanes = std::make_unique<Lanes>(
        *this,
        [this](HeldRecipe answer) {
            if (answer.job == m_document.job()) {
                emit held(std::make_shared<const HeldRecipe>(std::move(answer)));
            }
        },
        [this](Result<Recipe> recipe) {
            if (recipe) {
                emit taken(std::make_shared<const Recipe>(*std::move(recipe)));
            } else {
                emit refused(QString::fromStdString(recipe.error().message));
            }
        });
    // What was held against another job is no answer any more.
    connect(&document, &JobDocument::jobChanged, this, [this] { m_lanes->holding.stop(); });
}

RecipeService::~RecipeService() = default;

void RecipeService::hold(std::shared_ptr<const Recipe> recipe, const RecipeFitOptions& options) {
    m_lanes->holding.start([job = m_document.job(), recipe = std::move(recipe), options](const std::stop_token& stop) {
        return holdAgainst(job, recipe, options, stop);
    });
}

void RecipeService::take(const RecipeOptions& options) {
    m_lanes->taking.start(
        [job = m_document.job(), options](const std::stop_token& stop) { return takeRecipe(*job, options, stop); });
}

bool RecipeService::isBusy() const {
    return m_lanes->holding.isRunning() || m_lanes->taking.isRunning();
}

}  // namespace ohmwright
