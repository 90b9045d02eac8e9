/// The right rail: the selected part, its value or type, what else it could be, and what its change does alone.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <optional>
#include <set>
#include <vector>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class AloneSection;
class CandidateSection;
class CheckSection;
class JobDocument;
class MeasuredEntry;
class ModelCard;
class OwnerList;
class PartHead;
class Selection;
class ShopDocument;
class SolverService;
class TypeBox;
class TextLink;
class ValueField;
struct CandidateRow;
struct Mod;

class PartPanel : public QWidget {
    Q_OBJECT
public:
    PartPanel(JobDocument& document, Selection& selection, SolverService& solver, ShopDocument& shop,
              QWidget* parent = nullptr);

    /// The types that are offered beside those of the circuit.
    void setModels(std::vector<Model> models);
    /// The parts that a sum on paper is worked from: only they have a button for it.
    void setPartsWithSums(std::set<PartId> parts);

    /// The next value up or down: the map's wheel and Page Up / Page Down. Ctrl E24, Shift E96, Alt free. Does nothing
    /// for a part without a value.
    void stepValue(int steps, Qt::KeyboardModifiers modifiers);
    /// Puts `text` into the value field and the keyboard with it: a digit pressed on the map.
    void beginTyping(const QString& text);

    [[nodiscard]] QSize sizeHint() const override;

signals:
    /// Chosen from the list that stands where no part is.
    void partChosen(const ohmwright::PartId& part);
    /// The selected part is another on the board than the drawing says.
    void differsAsked();
    /// Parts are to be sought for figures that are wanted.
    void targetAsked();
    /// The sum behind a figure is wanted; names as look/sum_notes.h has them, and what was pressed, on the screen.
    void sumsAsked(const QStringList& figures, const QRect& beside);
    /// The sums that the selected part is in.
    void partSumsAsked(const QRect& beside);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void connectWidgets();
    void showPart();
    void showValue(const Part& stock, const Part& now);
    void showType(const Part& stock, const Part& now);
    void showCorrection();
    void takeCorrectionBack();
    [[nodiscard]] const Mod* plannedMod() const;
    void take(const CandidateRow& row);
    /// The sentence against it, or nothing when it was taken.
    QString changeValue(double value);
    void showLiftMenu();

    JobDocument& m_document;
    Selection& m_selection;
    ShopDocument& m_shop;
    /// The selected part as built and as it is now; absent when nothing is selected.
    std::optional<Part> m_stock;
    std::optional<Part> m_now;

    OwnerList* m_owners;
    QWidget* m_body;
    PartHead* m_head;
    ValueField* m_field;
    TypeBox* m_type;
    QLabel* m_elsewhere;
    QVBoxLayout* m_sections = nullptr;
    CandidateSection* m_candidates = nullptr;
    AloneSection* m_alone = nullptr;
    CheckSection* m_checks = nullptr;
    QWidget* m_modelBox;
    ModelCard* m_model;
    QPushButton* m_target;
    QPushButton* m_lift;
    MeasuredEntry* m_measured;
    TextLink* m_sums;
    TextLink* m_differs;
    TextLink* m_drawing;  ///< What the drawing said of a part that was corrected; takes that back.
    std::set<PartId> m_partsWithSums;
};

}  // namespace ohmwright
