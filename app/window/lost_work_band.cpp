// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/lost_work_band.h"

#include "app/look/said_text.h"

#include <QDateTime>
#include <QLocale>

namespace ohmwright {

LostWorkBand::LostWorkBand(Journal& journal, QWidget* parent)
    : MessageBand(SignKind::care, Stays::untilDismissed, parent), m_journal(journal) {
    setChoices({tr("Bring it back"), tr("Throw it away")});
    connect(this, &MessageBand::taken, this, [this](int choice) {
        if (m_lost.empty()) {
            return;
        }
        if (choice == 0) {
            emit wanted(m_lost.front());
        } else {
            throwFirstAway();
        }
    });
    connect(this, &MessageBand::dismissed, this, &LostWorkBand::passFirst);
}

void LostWorkBand::offer() {
    m_lost = m_journal.lostWork();
    m_found = m_lost.size();
    showFirst();
}

void LostWorkBand::isBack() {
    // Only once this window keeps it: until then there is but one copy.
    m_journal.write();
    m_journal.finish();
    Journal::forget(m_lost.front());
    passFirst();
}

void LostWorkBand::throwFirstAway() {
    if (Journal::throwAway(m_lost.front()).isEmpty()) {
        emit refused(tr("This work cannot be thrown away: the desktop has no wastebasket for %1. It stays there.")
                         .arg(m_lost.front().file));
        return;
    }
    passFirst();
}

void LostWorkBand::passFirst() {
    if (!m_lost.empty()) {
        m_lost.erase(m_lost.begin());
    }
    showFirst();
}

void LostWorkBand::showFirst() {
    if (m_lost.empty()) {
        setSentence({});
        return;
    }
    const JournalEntry& entry = m_lost.front().entry;
    const QString unit = QString::fromStdString(entry.job.unit.name).left(60);
    const QDateTime when = QDateTime::fromString(QString::fromStdString(entry.when), Qt::ISODate);
    const QString time = shownLocale().toString(when, tr("d MMM HH:mm"));
    const QString sentence = unit.isEmpty() ? tr("The program ended on %1 with a drawing that was not saved.").arg(time)
                                            : tr("The program ended on %1 with unsaved work on %2.").arg(time, unit);
    const std::size_t number = m_found - m_lost.size() + 1;
    // All at once: a unit may be called "%2".
    setSentence(m_found > 1 ? tr("%1 (%2 of %3)").arg(sentence, QString::number(number), QString::number(m_found))
                            : sentence);
}

}  // namespace ohmwright
