/// Recipes held against the open job off the GUI thread, and taken from it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/settling_reading.h"
#include "core/plan/recipe.h"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

class JobDocument;

/// A recipe on the job as it was when it was asked.
struct HeldRecipe {
    std::shared_ptr<const Job> job;
    std::shared_ptr<const Recipe> recipe;
    std::optional<RecipeFit> fit;  ///< Absent: see fault.
    std::vector<SettlingReading> settling;
    QString fault;
};

class RecipeService : public QObject {
    Q_OBJECT
public:
    explicit RecipeService(JobDocument& document, QObject* parent = nullptr);
    ~RecipeService() override;

    /// Answers with held(); a newer question takes the place of an older one.
    void hold(std::shared_ptr<const Recipe> recipe, const RecipeFitOptions& options);
    /// Answers with taken() or refused().
    void take(const RecipeOptions& options);
    [[nodiscard]] bool isBusy() const;

signals:
    /// Only while the job is the one that it was asked for.
    void held(std::shared_ptr<const ohmwright::HeldRecipe> answer);
    void taken(std::shared_ptr<const ohmwright::Recipe> recipe);
    void refused(const QString& sentence);

private:
    struct Lanes;
    std::unique_ptr<Lanes> m_lanes;
    JobDocument& m_document;
};

}  // namespace ohmwright
