/// Recipes: taken of what is on, held against this unit with all that differs, and put into its plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/recipe_service.h"
#include "core/files/recipe_file.h"

#include <QWidget>

#include <map>
#include <memory>
#include <string>
#include <vector>

class QCheckBox;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class JobDocument;
class PanelTitle;
class SentenceList;
class ShopDocument;

class RecipeBench : public QWidget {
    Q_OBJECT
public:
    RecipeBench(JobDocument& document, ShopDocument& shop, QWidget* parent = nullptr);

    /// Reads the shop's recipes again.
    void readRecipes();
    /// Holds one against the open job; its list of differences comes when it is solved.
    void hold(std::shared_ptr<const Recipe> recipe);
    /// Puts the one that is held into the plan: one undo step.
    void accept();
    [[nodiscard]] bool isHolding() const { return m_held != nullptr; }

signals:
    void shopFolderAsked();

private:
    void buildTake(QVBoxLayout& layout);
    void buildHeld(QVBoxLayout& layout);
    void followJob();
    void showTrims();
    void take();
    void keep(const Recipe& recipe);
    void showHeld(std::shared_ptr<const HeldRecipe> held);
    void leave();

    JobDocument& m_document;
    ShopDocument& m_shop;
    RecipeService m_service;
    QLineEdit* m_name;
    QVBoxLayout* m_trimList;
    std::vector<std::pair<QCheckBox*, Trim>> m_trims;
    QPushButton* m_take;
    SentenceList* m_taken;
    QPushButton* m_chooseShop;
    QVBoxLayout* m_list;
    SentenceList* m_none;
    QWidget* m_heldPart;
    PanelTitle* m_heldTitle;
    SentenceList* m_heldLines;
    SentenceList* m_differences;
    QPushButton* m_accept;
    QPushButton* m_leave;
    std::shared_ptr<const HeldRecipe> m_held;
};

}  // namespace ohmwright
