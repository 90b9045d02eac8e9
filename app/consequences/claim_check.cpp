// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/claim_check.h"

#include "app/consequences/claim_row.h"
#include "app/document/job_document.h"
#include "app/look/icons.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/plan/edits.h"

#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {

namespace {

using Section = ConsequenceService::Section;
constexpr int margin = 12;

}  // namespace

ClaimCheckPanel::ClaimCheckPanel(JobDocument& document, ConsequenceService& consequences, QWidget* parent)
    : QWidget(parent), m_document(document), m_consequences(consequences) {
    setAccessibleName(tr("Claim check"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(margin, 8, margin, 10);
    layout->setSpacing(4);
    layout->addWidget(new PanelTitle(tr("Claim check"), this));
    m_list = new QVBoxLayout;
    m_list->setSpacing(8);
    layout->addLayout(m_list);
    m_add = new QPushButton(icon(IconName::plus), tr("Add a word"), this);
    layout->addSpacing(4);
    layout->addWidget(m_add);
    connect(m_add, &QPushButton::clicked, this, [this] {
        QMenu* menu = buildWordMenu(this);
        menu->setAttribute(Qt::WA_DeleteOnClose);
        menu->popup(m_add->mapToGlobal(QPoint(0, m_add->height())));
    });
    connect(&document, &JobDocument::jobChanged, this, &ClaimCheckPanel::followWords);
    connect(&consequences, &ConsequenceService::ready, this, [this](Section section) {
        if (section == Section::words) {
            showAnswers();
        }
    });
    connect(&consequences, &ConsequenceService::stateChanged, this, &ClaimCheckPanel::showAnswers);
    followWords();
}

void ClaimCheckPanel::followWords() {
    const std::vector<std::string>& words = m_document.job()->visit.words;
    if (words == m_shownWords) {
        return;
    }
    m_shownWords = words;
    for (ClaimRow* row : m_rows) {
        row->hide();
        row->deleteLater();  // one of them may be asking to be taken out
    }
    m_rows.clear();
    for (const std::string& word : words) {
        const Claim* claim = findClaim(m_consequences.wordTable(), word);
        auto* row = new ClaimRow(text(word), claim ? text(claimRuleSentence(*claim)) : QString(), this);
        connect(row, &ClaimRow::removeAsked, this, [this](const QString& removed) {
            m_document.edit(removeWord(*m_document.job(), removed.toStdString()),
                            tr("Take out the word “%1”").arg(saidText(removed.toStdString())), JobAspect::words);
        });
        m_list->addWidget(row);
        m_rows.push_back(row);
    }
    showAnswers();
}

/// Answers are found by their word: they may be of an older list.
void ClaimCheckPanel::showAnswers() {
    const auto answers = m_consequences.words();
    const bool isCurrent = m_consequences.isCurrent(Section::words);
    const QString trouble = m_consequences.trouble(Section::words);
    for (ClaimRow* row : m_rows) {
        const auto isRows = [&](const WordAnswer& answer) { return text(answer.claim.word) == row->word(); };
        const auto found = answers ? std::find_if(answers->begin(), answers->end(), isRows)
                                   : std::vector<WordAnswer>::const_iterator();
        if (isCurrent && answers && found != answers->end()) {
            row->show(*found);
        } else {
            row->showWithout(trouble.isEmpty() ? tr("solving") : tr("not current. %1").arg(trouble));
        }
    }
}

QMenu* ClaimCheckPanel::buildWordMenu(QWidget* parent) {
    auto* menu = new QMenu(parent);
    for (const Claim& claim : m_consequences.wordTable().claims) {
        for (const std::string& word : claim.words) {
            const bool isHeld = std::find(m_shownWords.begin(), m_shownWords.end(), word) != m_shownWords.end();
            if (isHeld) {
                continue;
            }
            menu->addAction(QString("%1: %2").arg(saidText(word), text(claimRuleSentence(claim))), this, [this, word] {
                m_document.edit(addWord(*m_document.job(), word), tr("Hold the word “%1”").arg(saidText(word)),
                                JobAspect::words);
            });
        }
    }
    return menu;
}

}  // namespace ohmwright
