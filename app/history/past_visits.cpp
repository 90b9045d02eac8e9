// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/past_visits.h"

#include "app/background/visit_service.h"
#include "app/document/job_document.h"
#include "app/document/shop_document.h"
#include "app/history/sentence_list.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"
#include "core/bench/visits.h"
#include "core/files/job_file.h"
#include "core/plan/correct.h"

#include <QDate>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {

namespace {

/// "2026-11-24 18:05"
QString timeText(const std::string& when) {
    return text(when).left(16).replace('T', ' ');
}

QString readingsText(const std::vector<UnitReading>& readings) {
    QStringList words;
    for (const UnitReading& reading : readings) {
        words << saidText(reading.place) + " " + text(unitReadingWords(reading.value, reading.unit));
    }
    return words.join(", ");
}

SignKind signOf(ReturnVerdict verdict) {
    switch (verdict) {
        case ReturnVerdict::nothingChanged:
            return SignKind::tick;
        case ReturnVerdict::notCompared:
            return SignKind::note;
        default:
            return SignKind::care;
    }
}

QString returnedText(const ReturnedReading& reading) {
    const Unit unit = reading.back.unit;
    const QString back = text(unitReadingWords(reading.back.value, unit));
    if (!reading.left) {
        return QObject::tr("%1: %2, not read on leaving").arg(saidText(reading.back.place), back);
    }
    return QObject::tr("%1: %2 on leaving, %3 now, %4 (a meter and a battery explain %5)")
        .arg(saidText(reading.back.place), text(unitReadingWords(*reading.left, unit)), back,
             saidText(returnVerdictWord(reading.verdict)), text(unitReadingWords(reading.limit, unit)));
}

/// "12 steps signed, 1 skipped"
QString marksText(const std::vector<StepMark>& marks) {
    const auto count = [&marks](StepResult result) {
        return std::count_if(marks.begin(), marks.end(),
                             [result](const StepMark& mark) { return mark.result == result; });
    };
    QString words = QObject::tr("%1 steps passed").arg(count(StepResult::passed));
    for (const auto& [result, word] :
         {std::pair(StepResult::skipped, toSay("%1 skipped")), std::pair(StepResult::failed, toSay("%1 failed")),
          std::pair(StepResult::refused, toSay("%1 refused"))}) {
        if (const auto times = count(result); times > 0) {
            words += ", " + saidText(word).arg(times);
        }
    }
    return words;
}

std::vector<SignedSentence> sentencesOf(const PastVisit& past) {
    std::vector<SignedSentence> sentences;
    const Visit& visit = past.visit;
    if (!visit.complaint.empty()) {
        sentences.push_back({QObject::tr("“%1”").arg(text(visit.complaint)), SignKind::none});
    }
    if (!visit.condition.empty()) {
        sentences.push_back({QObject::tr("As it came in: %1").arg(text(visit.condition)), SignKind::none});
    }
    for (const std::string& found : past.found) {
        sentences.push_back({QObject::tr("Found on the board: %1").arg(text(found)), SignKind::note});
    }
    for (const std::string& work : past.work) {
        sentences.push_back({text(work), past.isFrozen() ? SignKind::tick : SignKind::note});
    }
    if (past.work.empty()) {
        sentences.push_back(
            {past.isFrozen() ? QObject::tr("Nothing was changed.") : QObject::tr("No mod is on yet."), SignKind::none});
    }
    if (!past.leftOut.empty()) {
        QStringList left;
        for (const std::string& each : past.leftOut) {
            left << text(each);
        }
        sentences.push_back({QObject::tr("Left out: %1").arg(left.join("; ")), SignKind::none});
    }
    if (!visit.readings.empty()) {
        sentences.push_back(
            {QObject::tr("Read before the work: %1").arg(readingsText(visit.readings)), SignKind::none});
    }
    if (!past.leaving.empty()) {
        sentences.push_back({QObject::tr("Read on leaving: %1").arg(readingsText(past.leaving)), SignKind::none});
    }
    if (!visit.marks.empty()) {
        sentences.push_back({marksText(visit.marks), SignKind::none});
    }
    for (const PrintedPaper& paper : visit.papers) {
        const bool isVoid = paper.hash != past.hash;
        sentences.push_back({(isVoid ? QObject::tr("Paper: %1, %2, %3, void: the job is another since")
                                     : QObject::tr("Paper: %1, %2, %3"))
                                 .arg(saidText(paper.kind), text(paper.hash), timeText(paper.when)),
                             isVoid ? SignKind::care : SignKind::none});
    }
    for (const std::string& note : past.notes) {
        sentences.push_back({QObject::tr("Note %1").arg(text(note)), SignKind::note});
    }
    return sentences;
}

}  // namespace

PastVisits::PastVisits(JobDocument& document, ShopDocument& shop, VisitService& visits, QWidget* parent)
    : QWidget(parent), m_document(document), m_shop(shop), m_visits(visits) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(14, 12, 14, 12);
    layout->setSpacing(6);
    layout->addWidget(new PanelTitle(tr("This unit"), this));
    m_unit = new ThemedLabel(TextRole::body, false, &ThemeColours::ink, this);
    m_unit->setWordWrap(true);
    layout->addWidget(m_unit);
    m_said = new SentenceList(this);
    layout->addWidget(m_said);
    m_pads = new SentenceList(this);
    layout->addWidget(m_pads);

    m_returnPart = new QWidget(this);
    auto* returned = new QVBoxLayout(m_returnPart);
    returned->setContentsMargins(0, 8, 0, 0);
    returned->addWidget(new PanelTitle(tr("On return, against what left"), m_returnPart));
    m_returned = new SentenceList(m_returnPart);
    returned->addWidget(m_returned);
    layout->addWidget(m_returnPart);

    layout->addSpacing(8);
    layout->addWidget(new PanelTitle(tr("Its visits"), this));
    m_list = new QVBoxLayout;
    m_list->setSpacing(4);
    layout->addLayout(m_list);
    layout->addStretch(1);
    connect(&m_document, &JobDocument::jobChanged, this, &PastVisits::showAll);
    connect(&m_shop, &ShopDocument::shopChanged, this, &PastVisits::showAll);
    connect(&m_visits, &VisitService::changed, this, &PastVisits::showReturn);
    showAll();
    showReturn();
}

void PastVisits::showAll() {
    const Job& job = *m_document.job();
    QStringList unit{text(job.unit.name), text(job.unit.serial), text(revisionWords(job)), text(job.unit.kind),
                     text(job.customer.name)};
    unit.removeAll(QString());
    m_unit->setText(unit.join(", "));

    // The open job stands for its own file, which may be older.
    std::vector<Job> jobs{job};
    std::vector<QString> files{m_document.path()};
    const QFileInfo own(m_document.path());
    for (const ShopJob& file : jobsOfUnit(m_shop.jobs(), job.unit.serial)) {
        const QString path = QString::fromStdString(file.path.string());
        if (m_document.path().isEmpty() || QFileInfo(path) != own) {
            jobs.push_back(*file.job);
            files.push_back(path);
        }
    }
    UnitHistory history = historyOf(jobs);
    std::vector<SignedSentence> doubts;
    for (const std::string& doubt : history.doubts) {
        doubts.push_back({text(doubt), SignKind::care});
    }
    m_said->setSentences(doubts);
    std::vector<SignedSentence> pads;
    for (const PadWork& pad : history.pads) {
        if (pad.visits > 1) {
            const QString many = pad.isWorn() ? tr("%1: iron on its pads in %2 visits; two are a pad's usual life "
                                                   "(house figure)")
                                              : tr("%1: iron on its pads in %2 visits");
            pads.push_back({many.arg(text(pad.reference), QString::number(pad.visits)),
                            pad.isWorn() ? SignKind::care : SignKind::note});
        }
    }
    m_pads->setSentences(pads);
    if (history.visits == m_shown.visits && files == m_files && m_list->count() > 0) {
        return;  // What is being typed into a note stays.
    }
    m_files = files;
    m_shown = std::move(history);
    while (QLayoutItem* item = m_list->takeAt(0)) {
        if (item->widget() != nullptr) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
    for (auto past = m_shown.visits.rbegin(); past != m_shown.visits.rend(); ++past) {
        addVisit(*past);
    }
}

void PastVisits::addVisit(const PastVisit& past) {
    auto* head = new ThemedLabel(TextRole::body, true, &ThemeColours::ink, this);
    QStringList words{
        tr("Visit %1, %2").arg(QString::number(past.visit.number), saidText(visitStateWord(past.visit.state)))};
    if (!past.visit.date.empty()) {
        words << tr("came %1").arg(text(past.visit.date));
    }
    if (past.isFrozen()) {
        words << tr("left %1").arg(timeText(past.left));
    }
    if (past.job != 0 && !m_files[past.job].isEmpty()) {
        words << tr("in %1").arg(QFileInfo(m_files[past.job]).fileName());
    }
    head->setText(words.join(", "));
    head->setWordWrap(true);
    head->setContentsMargins(0, m_list->isEmpty() ? 0 : 10, 0, 0);
    m_list->addWidget(head);
    auto* lines = new SentenceList(this);
    lines->setSentences(sentencesOf(past));
    m_list->addWidget(lines);
    head->show();
    if (past.isFrozen() && past.job == 0) {
        addNoteRow(past);
    }
}

/// Of a frozen record of the open job: a note beside it, and the job of then.
void PastVisits::addNoteRow(const PastVisit& past) {
    auto* row = new QWidget(this);
    auto* layout = new QHBoxLayout(row);
    layout->setContentsMargins(0, 0, 0, 10);
    layout->setSpacing(6);
    auto* words = new QLineEdit(row);
    words->setPlaceholderText(tr("A note beside the record"));
    words->setAccessibleName(tr("Note beside the record of visit %1").arg(past.visit.number));
    auto* write = new QPushButton(tr("Write the note"), row);
    auto* earlier = new QPushButton(tr("Save as it was…"), row);
    earlier->setAccessibleName(tr("Save the job as it was when visit %1 ended").arg(past.visit.number));
    layout->addWidget(words, 1);
    layout->addWidget(write);
    layout->addWidget(earlier);
    m_list->addWidget(row);
    row->show();
    const int number = past.visit.number;
    connect(write, &QPushButton::clicked, this, [this, number, words] { note(number, words->text()); });
    connect(words, &QLineEdit::returnPressed, this, [this, number, words] { note(number, words->text()); });
    connect(earlier, &QPushButton::clicked, this, [this, number] { askEarlierJob(number); });
}

void PastVisits::note(int visitNumber, const QString& words) {
    if (words.trimmed().isEmpty()) {
        return;
    }
    const QString dated = QDate::currentDate().toString(Qt::ISODate) + ": " + words.trimmed();
    m_document.edit(addDepartureNote(*m_document.job(), visitNumber, dated.toStdString()),
                    tr("Note on visit %1").arg(visitNumber), JobAspect::words);
}

void PastVisits::askEarlierJob(int visitNumber) {
    const QString path = QFileDialog::getSaveFileName(this, tr("Save the job as it was"), {}, tr("Jobs (*.ohmjob)"));
    if (path.isEmpty()) {
        return;
    }
    if (const Result<void> written = writeEarlierJob(visitNumber, path); !written) {
        m_said->setSentences({{text(written.error().message), SignKind::care}});
    }
}

Result<void> PastVisits::writeEarlierJob(int visitNumber, const QString& path) {
    const Result<Job> then = jobOfVisit(*m_document.job(), visitNumber);
    if (!then) {
        return then.error();
    }
    if (!m_document.path().isEmpty() && QFileInfo(path) == QFileInfo(m_document.path())) {
        return Error{ErrorCode::invalidInput, ohmwright::said("That is the file of the open job: name another.")};
    }
    return saveJob(*then, path.toStdString());
}

void PastVisits::showReturn() {
    const auto returned = m_visits.returned();
    std::vector<SignedSentence> sentences;
    if (returned) {
        sentences.push_back({text(returned->sentence), signOf(returned->verdict)});
        for (const ReturnedReading& reading : returned->readings) {
            sentences.push_back({returnedText(reading), signOf(reading.verdict)});
        }
    }
    const Job& job = *m_document.job();
    const std::size_t before = job.departures.size() - (job.visit.state == VisitState::gone ? 1 : 0);
    if (!returned && before > 0) {
        sentences.push_back(
            {tr("Read the unit before the work: what differs from its last leaving stands here."), SignKind::note});
    }
    m_returned->setSentences(sentences);
    m_returnPart->setVisible(!sentences.empty());
}

}  // namespace ohmwright
