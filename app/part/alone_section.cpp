// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/alone_section.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/look/figure_table.h"
#include "app/look/level_units.h"
#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/alone_rows.h"
#include "app/part/panel_section.h"
#include "core/base/number_text.h"

namespace ohmwright {

AloneSection::AloneSection(JobDocument& document, SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_solver(solver),
      m_figures(new FigureTable(this)),
      m_spread(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink, this)),
      m_note(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)) {
    m_figures->setAccessibleName(tr("This change alone"));
    m_figures->setPressable(true);
    m_spread->setWordWrap(true);
    m_note->setWordWrap(true);
    QVBoxLayout* rows = layOutSection(*this);
    rows->addWidget(new PanelTitle(tr("This change alone"), this));
    rows->addWidget(m_figures);
    rows->addWidget(m_spread);
    rows->addWidget(m_note);

    connect(m_figures, &FigureTable::rowPressed, this, [this](int row, const QRect& box) {
        emit sumsAsked(m_figures->rows().at(static_cast<std::size_t>(row)).sums, box);
    });
    connect(&m_solver, &SolverService::linearReady, this, &AloneSection::showAnswers);
    connect(&m_solver, &SolverService::largeSignalReady, this, &AloneSection::showAnswers);
    connect(&m_solver, &SolverService::stateChanged, this, &AloneSection::followState);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &AloneSection::followState);
}

void AloneSection::forget() {
    m_figures->setRows({});
    m_spread->hide();
}

void AloneSection::showAnswers() {
    const auto linear = m_solver.linear();
    m_figures->setRows(aloneRows(linear.get(), m_solver.largeSignal().get()));
    m_spread->setText(linear ? aloneAgainstSpread(*linear) : QString());
    m_spread->setVisible(!m_spread->text().isEmpty());
    const Setting& setting = m_document.job()->setting;
    m_note->setText(
        tr("threshold and peak: %1, %2")
            .arg(QString::fromStdString(formatFrequency(setting.toneHz)), pickLevelText(setting.pickVoltsPeak)));
}

/// While a value turns the last figures stay; when the service says that they are old, the panel says it too.
void AloneSection::followState() {
    if (m_solver.isCurrent()) {
        showAnswers();
    } else {
        m_note->setText(m_solver.fault().isEmpty() ? tr("solving") : tr("not current: %1").arg(m_solver.fault()));
    }
}

}  // namespace ohmwright
