// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/visit_card_view.h"

#include "app/background/bench_service.h"
#include "app/background/visit_service.h"
#include "app/document/job_document.h"
#include "app/history/reading_table.h"
#include "app/history/sentence_list.h"
#include "app/history/words_field.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/bench/visit_card.h"
#include "core/bench/work_log.h"

#include <QDate>
#include <QDateTime>
#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr std::array states{VisitState::draft, VisitState::quoted, VisitState::onBench, VisitState::proven,
                            VisitState::gone};

QString capitalised(QString words) {
    words[0] = words[0].toUpper();
    return words;
}

std::string now() {
    return QDateTime::currentDateTime().toString(Qt::ISODate).toStdString();
}

SignedSentence sentenceOf(const VisitNeed& need) {
    return {text(need.sentence), need.isMet ? SignKind::tick : need.isRequired ? SignKind::care : SignKind::note};
}

QString headOf(VisitState state) {
    switch (state) {
        case VisitState::draft:
            return QObject::tr("A quote asks for");
        case VisitState::quoted:
            return QObject::tr("To go on the bench asks for");
        case VisitState::onBench:
            return QObject::tr("To be proven asks for");
        case VisitState::proven:
            return QObject::tr("To leave asks for");
        case VisitState::gone:
            break;
    }
    return {};
}

}  // namespace

VisitCardView::VisitCardView(JobDocument& document, VisitService& visits, BenchService& bench, QWidget* parent)
    : QWidget(parent), m_document(document), m_visits(visits), m_bench(bench) {
    build();
    connect(&m_document, &JobDocument::jobChanged, this, &VisitCardView::showAll);
    connect(&m_visits, &VisitService::changed, this, &VisitCardView::showReadings);
    connect(&m_bench, &BenchService::changed, this, &VisitCardView::showState);
    showAll();
}

void VisitCardView::build() {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(14, 12, 14, 12);
    layout->setSpacing(6);
    m_title = new PanelTitle(tr("This visit"), this);
    layout->addWidget(m_title);

    // Where five have too little room, air goes and no word.
    constexpr int leastAir = 8;
    auto* row = new QHBoxLayout;
    row->setSpacing(4);
    for (const VisitState state : states) {
        auto* button = new QPushButton(capitalised(saidText(visitStateWord(state))), this);
        button->setCheckable(true);
        button->setAccessibleName(tr("Visit state: %1").arg(saidText(visitStateWord(state))));
        button->setMinimumWidth(button->fontMetrics().horizontalAdvance(button->text()) + leastAir);
        row->addWidget(button);
        m_states[state] = button;
        connect(button, &QPushButton::clicked, this, [this, state] { askState(state); });
    }
    layout->addLayout(row);
    m_refusal = new SentenceList(this);
    layout->addWidget(m_refusal);
    m_needsHead = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
    layout->addWidget(m_needsHead);
    m_needs = new SentenceList(this);
    layout->addWidget(m_needs);
    m_progressHead = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
    m_progressHead->setText(tr("How the work stands"));
    layout->addWidget(m_progressHead);
    m_progress = new SentenceList(this);
    layout->addWidget(m_progress);
    m_next = new QPushButton(tr("Begin the next visit"), this);
    layout->addWidget(m_next);
    connect(m_next, &QPushButton::clicked, this, [this] {
        edit(nextVisit(*m_document.job(), QDate::currentDate().toString(Qt::ISODate).toStdString(), {}),
             tr("Begin the next visit"));
    });
    layout->addSpacing(8);
    addWords(*layout);

    layout->addSpacing(8);
    layout->addWidget(new PanelTitle(tr("Readings before the work"), this));
    m_comingIn = new ReadingTable(tr("before the work"), this);
    layout->addWidget(m_comingIn);
    connect(m_comingIn, &ReadingTable::typed, this, [this](const UnitReading& reading) {
        edit(writeReading(*m_document.job(), reading), tr("Read %1").arg(saidText(reading.place)));
    });
    connect(m_comingIn, &ReadingTable::erased, this, [this](const UnitReading& place) {
        edit(eraseReading(*m_document.job(), place), tr("Take the reading of %1 back").arg(saidText(place.place)));
    });

    m_leavingPart = new QWidget(this);
    auto* leaving = new QVBoxLayout(m_leavingPart);
    leaving->setContentsMargins(0, 8, 0, 0);
    leaving->addWidget(new PanelTitle(tr("Readings on leaving"), m_leavingPart));
    m_leaving = new ReadingTable(tr("on leaving"), m_leavingPart);
    leaving->addWidget(m_leaving);
    m_depart = new QPushButton(tr("Write what leaves and end the visit"), m_leavingPart);
    leaving->addWidget(m_depart);
    layout->addWidget(m_leavingPart);
    connect(m_leaving, &ReadingTable::typed, this, [this](const UnitReading& reading) {
        std::erase_if(m_leavingReadings, [&](const UnitReading& each) { return each.place == reading.place; });
        m_leavingReadings.push_back(reading);
        showReadings();
    });
    connect(m_leaving, &ReadingTable::erased, this, [this](const UnitReading& place) {
        std::erase_if(m_leavingReadings, [&](const UnitReading& each) { return each.place == place.place; });
        showReadings();
    });
    connect(m_depart, &QPushButton::clicked, this, &VisitCardView::depart);
    layout->addStretch(1);
}

void VisitCardView::addWords(QVBoxLayout& layout) {
    const auto field = [&](const QString& heading, int lines, const QString& name, auto member) {
        layout.addWidget(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this));
        static_cast<QLabel*>(layout.itemAt(layout.count() - 1)->widget())->setText(heading);
        auto* words = new WordsField(heading, lines, this);
        layout.addWidget(words);
        connect(words, &WordsField::written, this, [this, name, member](const QString& typed) {
            VisitWords edited;
            edited.*member = typed.toStdString();
            edit(writeVisitWords(*m_document.job(), edited), name, MergeKind::words);
        });
        return words;
    };
    m_complaint = field(tr("The customer's words"), 2, tr("Change the complaint"), &VisitWords::complaint);
    m_condition =
        field(tr("As it came in, and what came with it"), 2, tr("Change the condition"), &VisitWords::condition);
    m_agreed = field(tr("What was agreed"), 2, tr("Change what was agreed"), &VisitWords::agreed);
}

void VisitCardView::edit(Result<Job> edited, const QString& name, MergeKind merge) {
    if (!edited) {
        m_refusal->setSentences({{text(edited.error().message), SignKind::care}});
        return;
    }
    m_refusal->setSentences({});
    const bool isAnotherUnit = edited->stock != m_document.job()->stock || edited->plan != m_document.job()->plan;
    m_document.edit(std::move(edited), name, isAnotherUnit ? JobAspect::electrical : JobAspect::words, merge, name);
}

void VisitCardView::askState(VisitState state) {
    const auto work = m_bench.work();
    if (state == m_document.job()->visit.state) {
        showState();
        return;
    }
    if (state == VisitState::gone) {
        if (mayLeave()) {
            m_isLeaving = true;
            m_leavingPart->show();
            m_depart->setFocus();
            m_refusal->setSentences(
                {{tr("Read the unit as it leaves, then end the visit below: the record is frozen."), SignKind::note}});
        } else {
            m_refusal->setSentences({sentenceOf(needsOf(*m_document.job(), state, nullptr).front())});
        }
        showState();
        return;
    }
    edit(setVisitState(*m_document.job(), state, work ? &work->steps : nullptr),
         tr("Visit %1").arg(saidText(visitStateWord(state))));
    showState();
}

void VisitCardView::depart() {
    edit(ohmwright::depart(*m_document.job(), m_leavingReadings, now()), tr("End the visit"));
}

bool VisitCardView::mayLeave() const {
    const Job& job = *m_document.job();
    return job.visit.state != VisitState::gone && needsOf(job, VisitState::gone, nullptr).front().isMet;
}

void VisitCardView::showAll() {
    const Job& job = *m_document.job();
    if (m_unit != job.unit.serial + std::to_string(job.visit.number)) {
        m_unit = job.unit.serial + std::to_string(job.visit.number);
        m_leavingReadings.clear();
        m_isLeaving = false;
        m_refusal->setSentences({});
    }
    const Visit& visit = job.visit;
    const bool isClosed = visit.state == VisitState::gone;
    m_title->setTitle(visit.date.empty() ? tr("Visit %1").arg(visit.number)
                                         : tr("Visit %1, %2").arg(QString::number(visit.number), text(visit.date)));
    for (const auto& [field, words] : {std::pair(m_complaint, &visit.complaint), std::pair(m_agreed, &visit.agreed),
                                       std::pair(m_condition, &visit.condition)}) {
        field->setWords(text(*words));
        field->setReadOnly(isClosed);
    }
    showState();
    showReadings();
}

void VisitCardView::showState() {
    const Job& job = *m_document.job();
    const VisitState present = job.visit.state;
    for (const auto& [state, button] : m_states) {
        button->setChecked(state == present);
        button->setEnabled(present != VisitState::gone || state == present);
    }
    std::vector<SignedSentence> sentences;
    if (present == VisitState::gone) {
        sentences.push_back({tr("The unit is gone and this card is closed. A correction is a note beside its record."),
                             SignKind::note});
    } else {
        const auto work = m_bench.work();
        const VisitState next = states[std::size_t(present) + 1];
        for (const VisitNeed& need : needsOf(job, next, work ? &work->steps : nullptr)) {
            sentences.push_back(sentenceOf(need));
        }
        if (!m_bench.fault().isEmpty()) {
            sentences.push_back({m_bench.fault(), SignKind::care});
        }
    }
    showProgress();
    m_needsHead->setText(headOf(present));
    m_needsHead->setVisible(present != VisitState::gone);
    m_needs->setSentences(sentences);
    m_next->setVisible(present == VisitState::gone);
    m_leavingPart->setVisible(mayLeave() && (m_isLeaving || present == VisitState::proven));
}

void VisitCardView::showProgress() {
    const auto work = m_bench.work();
    const Visit& visit = m_document.job()->visit;
    std::vector<SignedSentence> sentences;
    if (work && !visit.marks.empty()) {
        for (const ModProgress& mod : modProgress(work->steps, WorkLog(work->steps, visit))) {
            sentences.push_back({tr("Mod %1 is %2.").arg(text(mod.letter), saidText(modStateWords(mod.state))),
                                 mod.state == ModState::proven ? SignKind::tick : SignKind::note});
        }
    }
    m_progressHead->setVisible(!sentences.empty());
    m_progress->setSentences(sentences);
}

void VisitCardView::showReadings() {
    const auto expected = m_visits.expectations();
    const Job& job = *m_document.job();
    const VisitExpectations none;
    const VisitExpectations& all = expected ? *expected : none;
    m_comingIn->setReadings(all.comingIn, all.everyComingIn, job.visit.readings);
    m_comingIn->setClosed(job.visit.state == VisitState::gone);
    m_leaving->setReadings(all.leaving, all.everyLeaving, m_leavingReadings);
    if (!m_visits.fault().isEmpty()) {
        m_refusal->setSentences({{m_visits.fault(), SignKind::care}});
    }
}

}  // namespace ohmwright
