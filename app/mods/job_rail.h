/// The left rail's upper half: the unit, its mods, what each does alone and together, and the way to a new mod.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <vector>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class ConsequenceService;
class JobDocument;
class ModList;
class ModMenu;
class ModsModel;
class PanelTitle;
class Selection;
class SignText;
class SolverService;
class ValueForm;
struct ValueQuestion;

class JobRail : public QWidget {
    Q_OBJECT
public:
    JobRail(JobDocument& document, Selection& selection, SolverService& solver, ConsequenceService& consequences,
            QWidget* parent = nullptr);

    /// The types that menus offer beside those of the circuit.
    void setModels(std::vector<Model> models);
    /// The menu of a part; the map's right click shows it too. Values it asks for are asked in this rail.
    [[nodiscard]] ModMenu& modMenu() { return *m_menu; }

    /// Switches the mod with this letter; does nothing when the plan has none.
    void toggleMod(const QString& letter);
    /// Switches the mod of the selected part: the row that is current, else the first on the part.
    void muteSelectedPart();

    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void addModsSection(QVBoxLayout& layout);
    void addTotalSection(QVBoxLayout& layout);
    void addNewModSection(QVBoxLayout& layout);
    void connectList();
    void followJob();
    void followPart();
    void showColumnHeads();
    void followState();
    void showCornerNote();
    void showEffects();
    void showTogether();
    void showWords();
    void showRowMenu(const QPoint& at);
    void switchMod(const QModelIndex& index);
    void removeModAt(const QModelIndex& index);
    void moveModBy(const QModelIndex& index, int by);
    void ask(const ValueQuestion& question);

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    ConsequenceService& m_consequences;
    ModsModel* m_mods;
    ModMenu* m_menu;
    PanelTitle* m_head;
    ModList* m_list;
    QLabel* m_empty;
    QLabel* m_on;  ///< "On: A, B"
    QLabel* m_onDb;
    QLabel* m_all;  ///< "All four"
    QLabel* m_allDb;
    QLabel* m_sum;   ///< Sum of the singles and interaction.
    QLabel* m_note;  ///< Whose shares they are, and why there are none.
    QLabel* m_condition;
    SignText* m_cornerNote;
    QPushButton* m_addMod;
    QLabel* m_addTo;
    ValueForm* m_form;
};

}  // namespace ohmwright
