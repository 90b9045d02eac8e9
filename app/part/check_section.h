/// "Checks after the swap": what the meter must say at the selected part once its mod is in.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/swap_checks.h"

#include <QWidget>

class QGridLayout;

namespace ohmwright {

class CheckSection : public QWidget {
    Q_OBJECT
public:
    CheckSection(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent = nullptr);

    /// Says anew what is known of the part and the job as they are now.
    void showChecks();

private:
    void add(const QString& word, const QString& words);

    SolverService& m_solver;
    SwapChecks m_checks;
    QGridLayout* m_rows;
};

}  // namespace ohmwright
