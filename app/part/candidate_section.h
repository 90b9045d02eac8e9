/// What the selected part could be instead, from the drawer or of assumed stock, with what each would change; under it
/// how the value looked at can be heard before any desoldering.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/part/candidate_model.h"
#include "app/part/stock_values.h"
#include "core/circuit/circuit.h"

#include <QWidget>

#include <optional>
#include <vector>

class QLabel;

namespace ohmwright {

class CandidateList;
class JobDocument;
class PanelTitle;
class Selection;
class ShopDocument;
class SolverService;

class CandidateSection : public QWidget {
    Q_OBJECT
public:
    CandidateSection(JobDocument& document, Selection& selection, SolverService& solver, ShopDocument& shop,
                     QWidget* parent = nullptr);

    /// The types that are offered beside those of the circuit.
    void setModels(std::vector<Model> models);
    /// @param stock  the part as built, or as a mod fitted it. @param now  the same part now.
    void showValues(const Part& stock, const Part& now);
    void showTypes(const Part& stock, const Part& now);
    /// No part, or one that is not changed here.
    void showNothing();
    /// Of the type that is fitted now; null where types are not shown.
    [[nodiscard]] const Model* modelOfNow() const;
    /// Another part or another drawer: other values stand here, and the figures at hand are not theirs.
    void forgetValues();
    void forgetFigures();

signals:
    void taken(const ohmwright::CandidateRow& row);

private:
    void showHead();
    void showTryOn();
    void showFigures();
    [[nodiscard]] std::vector<CandidateRow> valueRows(const Part& stock, const Part& now);
    [[nodiscard]] std::vector<CandidateRow> typeRows(const Part& stock, const Part& now) const;
    /// The drawer's values of a kind; empty where stock is assumed.
    [[nodiscard]] std::vector<StockValue> stockOf(PartKind kind) const;
    [[nodiscard]] std::optional<int> leftOf(const std::vector<StockValue>& stock, double value) const;

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    ShopDocument& m_shop;
    std::vector<Model> m_models;
    std::optional<Part> m_now;
    std::vector<double> m_values;
    PanelTitle* m_title;
    CandidateModel* m_rows;
    CandidateList* m_list;
    QLabel* m_note;
    QLabel* m_tryOn;
};

}  // namespace ohmwright
