/// The right rail: the selected part, its value or type, what else it could be, and what its change does alone.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <optional>
#include <set>
#include <vector>

class QGridLayout;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ohmwright {

class CandidateList;
class CandidateModel;
class FigureTable;
class JobDocument;
class MeasuredEntry;
class ModelCard;
class OwnerList;
class PanelTitle;
class PartHead;
class Selection;
class ShopDocument;
class SignText;
class SolverService;
class TypeBox;
class SwapChecks;
class TextLink;
class ValueField;
struct CandidateRow;
struct Mod;
struct StockValue;

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
    void addCandidates(QVBoxLayout& layout);
    void addAlone(QVBoxLayout& layout);
    void addChecks(QVBoxLayout& layout);
    void connectWidgets();
    void showPart();
    void showValue(const Part& stock, const Part& now);
    void showType(const Part& stock, const Part& now);
    void showCandidateHead();
    void showTryOn();
    void showCorrection();
    void takeCorrectionBack();
    void showChecks();
    void showAnswers();
    void followState();
    [[nodiscard]] std::vector<CandidateRow> valueRows(const Part& stock, const Part& now);
    [[nodiscard]] std::vector<CandidateRow> typeRows(const Part& stock, const Part& now) const;
    [[nodiscard]] const Mod* plannedMod() const;
    /// The drawer's values of the selected part's kind; empty where stock is assumed.
    [[nodiscard]] std::vector<StockValue> stockOfKind() const;
    [[nodiscard]] std::optional<int> leftOf(const std::vector<StockValue>& stock, double value) const;
    void take(const CandidateRow& row);
    /// The sentence against it, or nothing when it was taken.
    QString changeValue(double value);
    void showLiftMenu();

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    ShopDocument& m_shop;
    std::vector<Model> m_models;
    /// The selected part as built and as it is now; absent when nothing is selected.
    std::optional<Part> m_stock;
    std::optional<Part> m_now;
    std::vector<double> m_values;

    OwnerList* m_owners;
    QWidget* m_body;
    PartHead* m_head;
    ValueField* m_field;
    TypeBox* m_type;
    QLabel* m_elsewhere;
    QVBoxLayout* m_sections = nullptr;
    QWidget* m_candidateBox;
    PanelTitle* m_candidateTitle;
    CandidateModel* m_candidates;
    CandidateList* m_list;
    QLabel* m_candidateNote;
    QLabel* m_tryOn;
    QWidget* m_aloneBox;
    FigureTable* m_alone;
    QLabel* m_aloneSpread;
    QLabel* m_aloneNote;
    SwapChecks* m_swapChecks;
    QWidget* m_checkBox;
    QGridLayout* m_checkRows;
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
