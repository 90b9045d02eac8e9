// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/unit_view.h"

#include "app/document/job_document.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/plan/correct.h"

#include <QPainter>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int margin = 12;
constexpr int barWidth = 3;
constexpr int quotationIndent = 13;

/// Lines that have nothing to say take no room.
void showLine(QLabel& label, const QString& words) {
    label.setText(words);
    label.setVisible(!words.isEmpty());
}

}  // namespace

UnitView::UnitView(JobDocument& document, QWidget* parent)
    : QWidget(parent),
      m_name(new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this)),
      m_customer(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_board(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_visit(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_complaint(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(margin, 10, margin, 12);
    layout->setSpacing(1);
    for (QLabel* line : {m_name, m_customer, m_board, m_visit, m_complaint}) {
        line->setWordWrap(true);
        layout->addWidget(line);
    }
    m_complaint->setContentsMargins(quotationIndent, 0, 0, 0);
    layout->insertSpacing(layout->indexOf(m_complaint), 10);
    connect(&document, &JobDocument::jobChanged, this, [this, &document] { show(document); });
    connect(&document, &JobDocument::saveStateChanged, this, [this, &document] { show(document); });
    show(document);
}

void UnitView::show(const JobDocument& document) {
    const Job& job = *document.job();
    showLine(*m_name, job.unit.name.empty() ? tr("Unit without a name") : text(job.unit.name));
    m_name->setToolTip(text(job.unit.kind));
    showLine(*m_customer, job.customer.name.empty() ? QString() : tr("customer %1").arg(text(job.customer.name)));
    QStringList board;
    for (const std::string& word : {job.unit.serial, revisionWords(job)}) {
        if (!word.empty()) {
            board << text(word);
        }
    }
    showLine(*m_board, board.join(", "));
    showLine(*m_visit, tr("visit %1, %2").arg(QString::number(job.visit.number), document.saveStateText()));
    showLine(*m_complaint, job.visit.complaint.empty() ? QString() : tr("“%1”").arg(text(job.visit.complaint)));
    update();
}

void UnitView::paintEvent(QPaintEvent*) {
    if (m_complaint->isHidden()) {
        return;
    }
    QPainter painter(this);
    const QRect words = m_complaint->geometry();
    painter.fillRect(QRect(words.left(), words.top(), barWidth, words.height()), Theme::current().colours().edge);
}

}  // namespace ohmwright
