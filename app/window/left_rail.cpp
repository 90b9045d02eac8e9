// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/left_rail.h"

#include "app/consequences/claim_check.h"
#include "app/consequences/knob_translations.h"
#include "app/look/theme.h"
#include "app/mods/job_rail.h"

#include <QVBoxLayout>

namespace ohmwright {

namespace {

QFrame* ruler(QWidget* parent) {
    auto* line = new QFrame(parent);
    line->setFixedHeight(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    return line;
}

}  // namespace

LeftRail::LeftRail(JobDocument& document, Selection& selection, SolverService& solver, ConsequenceService& consequences,
                   QWidget* parent)
    : QScrollArea(parent),
      m_sheet(new QWidget),
      m_jobRail(new JobRail(document, selection, solver, consequences, m_sheet)),
      m_claims(new ClaimCheckPanel(document, consequences, m_sheet)) {
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setWidgetResizable(true);
    setFocusPolicy(Qt::NoFocus);
    setAccessibleName(tr("Job"));
    auto* layout = new QVBoxLayout(m_sheet);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_jobRail);
    layout->addWidget(ruler(m_sheet));
    layout->addWidget(m_claims);
    layout->addWidget(ruler(m_sheet));
    layout->addWidget(new KnobTranslations(consequences, m_sheet));
    layout->addStretch(1);
    m_sheet->setAutoFillBackground(true);
    setWidget(m_sheet);
    connect(&Theme::current(), &Theme::changed, this, &LeftRail::followTheme);
    followTheme();
}

void LeftRail::followTheme() {
    setFixedWidth(qRound(space::leftRail * Theme::current().textScale()));
    QPalette own = palette();
    own.setColor(QPalette::Window, Theme::current().colours().panel);
    m_sheet->setPalette(own);
}

}  // namespace ohmwright
