/// The status line: how the last solve went, the keys that help here, and in what units things are drawn.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

namespace ohmwright {

class SolverService;
class ThemedLabel;

/// Follows the solver by itself.
class StatusLine : public QWidget {
    Q_OBJECT
public:
    explicit StatusLine(SolverService& solver, QWidget* parent = nullptr);

    /// Words for a moment in place of the hints (an action's hint, what was just done); empty: the hints again.
    void say(const QString& words);
    /// The keys of the map, where these act.
    void setHintsShown(bool shown);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void followSolver();
    void showUnits();

    SolverService& m_solver;
    ThemedLabel* m_solve;
    ThemedLabel* m_hints;
    ThemedLabel* m_units;
    bool m_showsHints = true;
};

}  // namespace ohmwright
