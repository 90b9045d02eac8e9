/// The place where a unit is drawn: palette, drawing and what is picked; the curves stand below, where the window
/// puts them. Stock is drawn, never the plan.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QWidget>

#include <vector>

class QBoxLayout;
class QLabel;
class QSplitter;

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

signals:
    /// What could not be done; it is past with the next accepted().
    void refused(const QString& sentence);
    void accepted();
    /// What was done; the line under the drawing says it too.
    void said(const QString& sentence);
    /// Why there is nothing to solve yet; empty when there is.
    void nothingToSolve(const QString& sentence);
    /// What is picked is wanted as a stage of the shop's shelf.
    void keepAsked(const std::vector<ohmwright::PartId>& parts);

protected:
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void showSoon();
    void showState();
    void followHand();
    void followTheme();
    void buildLine(QBoxLayout& column);
    void connectParts();
    void sayLine();
    void fitRails();

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
    QSplitter* m_centre;
    QWidget* m_line;  ///< Under the drawing: where the caret is, what the keys do.
    QLabel* m_where;
    QLabel* m_keys;
    QString m_said;
    bool m_isDue = false;
};

}  // namespace ohmwright
