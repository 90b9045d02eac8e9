/// "This change alone": the figures of stock with only the selected part's mod, beside stock's.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRect>
#include <QStringList>
#include <QWidget>

class QLabel;

namespace ohmwright {

class FigureTable;
class JobDocument;
class SolverService;

class AloneSection : public QWidget {
    Q_OBJECT
public:
    AloneSection(JobDocument& document, SolverService& solver, QWidget* parent = nullptr);

    /// The answers at hand are about another part.
    void forget();

signals:
    /// The sum behind a figure is wanted; names as look/sum_notes.h has them, and what was pressed, on the screen.
    void sumsAsked(const QStringList& figures, const QRect& beside);

private:
    void showAnswers();
    void followState();

    JobDocument& m_document;
    SolverService& m_solver;
    FigureTable* m_figures;
    QLabel* m_spread;
    QLabel* m_note;
};

}  // namespace ohmwright
