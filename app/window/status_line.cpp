// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/status_line.h"

#include "app/background/solver_service.h"
#include "app/look/level_units.h"
#include "app/look/symbols.h"
#include "app/look/themed_label.h"

#include <QHBoxLayout>
#include <QPainter>

namespace ohmwright {

namespace {

QString keyHints() {
    return QObject::tr(
        "wheel: next value     Ctrl: E24     Shift: E96     Alt: free     S: hold stock     M: mute mod     "
        "F1: keys");
}

/// "2e-12", with a true minus.
QString exponentWords(double value) {
    return QString::number(value, 'e', 0).replace("e-0", "e-").replace('-', QChar(0x2212));
}

}  // namespace

StatusLine::StatusLine(SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_solver(solver),
      m_solve(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_hints(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_units(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(12, 2, 12, 3);
    layout->setSpacing(32);
    layout->addWidget(m_solve);
    layout->addWidget(m_hints, 1);
    layout->addWidget(m_units);
    // Long words give way, the window does not grow for them.
    m_hints->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    m_hints->setText(keyHints());
    showUnits();
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &StatusLine::showUnits);
    connect(&Theme::current(), &Theme::changed, this, &StatusLine::showUnits);
    connect(&solver, &SolverService::linearReady, this, [this] { followSolver(); });
    connect(&solver, &SolverService::largeSignalReady, this, [this] { followSolver(); });
    connect(&solver, &SolverService::stateChanged, this, [this] { followSolver(); });
    followSolver();
}

void StatusLine::say(const QString& words) {
    m_hints->setText(words.isEmpty() && m_showsHints ? keyHints() : words);
}

void StatusLine::setHintsShown(bool shown) {
    m_showsHints = shown;
    say({});
}

void StatusLine::showUnits() {
    m_units->setText(tr("resistors %1     levels in %2")
                         .arg(symbolStandard() == SymbolStandard::iec60617 ? QString("IEC 60617") : QString("IEEE 315"),
                              unitName(LevelUnits::current().unit())));
}

void StatusLine::followSolver() {
    const auto linear = m_solver.linear();
    if (!m_solver.fault().isEmpty()) {
        m_solve->setText(tr("not solved: figures are not current"));
    } else if (!linear) {
        m_solve->setText(m_solver.isBusy() ? tr("solving") : "");
    } else if (!m_solver.isCurrent()) {
        m_solve->setText(tr("solving, figures are not current"));
    } else {
        m_solve->setText(tr("solved in %1 ms, current residual %2 A")
                             .arg(m_solver.lastSolveMilliseconds(), 0, 'f', 0)
                             .arg(exponentWords(linear->now.residualAmperes)));
    }
}

void StatusLine::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright
