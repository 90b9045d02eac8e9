/// The place where a unit is drawn: palette, drawing and what is picked; the curves stand below, where the window
/// puts them. Stock is drawn, never the plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <vector>

class QLabel;

namespace ohmwright {

class DrawCanvas;
class DrawHand;
class DrawPalette;
class DrawSide;
class JobDocument;
class Selection;
class SolverService;
class ZoneStrip;

class DrawBoard : public QWidget {
    Q_OBJECT
public:
    /// All three must outlive the board.
    DrawBoard(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent = nullptr);

    void setModels(const std::vector<Model>& models);
    /// What is put under the drawing; the board takes it in.
    void setCurves(QWidget* curves);
    /// From left to right, for the way of the keyboard.
    [[nodiscard]] std::vector<QWidget*> panels() const;
    [[nodiscard]] DrawHand& hand() { return *m_hand; }
    [[nodiscard]] DrawCanvas& canvas() { return *m_canvas; }
    [[nodiscard]] DrawSide& side() { return *m_side; }

signals:
    void refused(const QString& sentence);
    /// What is picked is wanted as a stage of the shop's shelf.
    void keepAsked(const std::vector<ohmwright::PartId>& parts);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void showSoon();
    void showState();
    void followHand();
    void followTheme();

    JobDocument& m_document;
    Selection& m_selection;
    SolverService& m_solver;
    DrawHand* m_hand;
    DrawPalette* m_palette;
    ZoneStrip* m_strip;
    DrawCanvas* m_canvas;
    DrawSide* m_side;
    QWidget* m_left;
    QWidget* m_right;
    QWidget* m_centre;
    QWidget* m_line;  ///< Under the drawing: where the caret is, what the keys do.
    QLabel* m_where;
    QLabel* m_keys;
    bool m_isDue = false;
};

}  // namespace ohmwright
