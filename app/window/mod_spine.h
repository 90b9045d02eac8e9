/// The left rail folded: a triangle for every mod with what it does alone, and what they do together.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class JobDocument;
class SolverService;

/// A press on a mod, or Space on the current one, switches it. Follows document and solver by itself.
class ModSpine : public QWidget {
    Q_OBJECT
public:
    ModSpine(JobDocument& document, SolverService& solver, QWidget* parent = nullptr);

    /// The rail stands beside it: only the way back is left.
    void setUnfolded(bool unfolded);
    /// The box of the mod at `index`, for pressing it.
    [[nodiscard]] QRect modBox(int index) const;

signals:
    /// The whole rail is wanted, or not any more.
    void unfoldAsked();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

private:
    void paintArrow(QPainter& painter) const;
    void paintMods(QPainter& painter) const;
    void paintTogether(QPainter& painter) const;
    void switchMod(int index);
    void describe();
    [[nodiscard]] QString figureOf(int index) const;

    JobDocument& m_document;
    SolverService& m_solver;
    int m_current = 0;
    bool m_isUnfolded = false;
};

}  // namespace ohmwright
