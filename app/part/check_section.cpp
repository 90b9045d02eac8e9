// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/check_section.h"

#include "app/background/solver_service.h"
#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/check_rows.h"
#include "app/part/panel_section.h"

#include <QGridLayout>

namespace ohmwright {

CheckSection::CheckSection(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent), m_solver(solver), m_checks(document, selection, solver), m_rows(new QGridLayout) {
    m_rows->setHorizontalSpacing(12);
    m_rows->setVerticalSpacing(4);
    m_rows->setColumnStretch(1, 1);
    QVBoxLayout* inner = layOutSection(*this);
    inner->addWidget(new PanelTitle(tr("Checks after the swap"), this));
    inner->addLayout(m_rows);
    connect(&m_checks, &SwapChecks::changed, this, &CheckSection::showChecks);
}

void CheckSection::showChecks() {
    while (QLayoutItem* item = m_rows->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const SwapChecksAnswer* answer = m_checks.answer();
    if (answer == nullptr) {
        add({}, m_solver.fault().isEmpty() ? tr("solving") : tr("not current"));
        return;
    }
    if (!answer->fault.isEmpty()) {
        add({}, answer->fault);
    }
    for (const CheckRow& row : checkRows(answer->checks)) {
        add(row.word, row.words);
    }
}

void CheckSection::add(const QString& word, const QString& words) {
    const int row = m_rows->rowCount();
    auto* name = new ThemedLabel(TextRole::body, false, &ThemeColours::ink3, this);
    auto* sentence = new ThemedLabel(TextRole::body, false, &ThemeColours::ink, this);
    name->setText(word);
    sentence->setText(words);
    sentence->setWordWrap(true);
    m_rows->addWidget(name, row, 0, Qt::AlignTop);
    m_rows->addWidget(sentence, row, 1);
}

}  // namespace ohmwright
