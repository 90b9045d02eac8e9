// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/file_band.h"

#include "app/background/journal.h"
#include "app/document/job_document.h"

namespace ohmwright {

FileBand::FileBand(JobDocument& document, Journal& journal, QWidget* parent)
    : MessageBand(SignKind::care, Stays::whileTrue, parent), m_document(document), m_journal(journal) {
    connect(&document, &JobDocument::saveStateChanged, this, &FileBand::follow);
    connect(&journal, &Journal::troubleChanged, this, &FileBand::follow);
    // The band may change, and with it the buttons, while it is answered.
    connect(
        this, &MessageBand::taken, this,
        [this](int choice) { emit asked(m_choices.at(static_cast<std::size_t>(choice)).what); }, Qt::QueuedConnection);
    follow();
}

void FileBand::follow() {
    const QString& sentence = m_document.fileCondition().sentence;
    m_choices = choices();
    QStringList words;
    for (const Choice& choice : m_choices) {
        words << choice.words;
    }
    setChoices(words);
    setSentence(sentence.isEmpty() ? m_journal.trouble() : sentence);
}

std::vector<FileBand::Choice> FileBand::choices() const {
    const Choice copy{FileChoice::saveAs, tr("Save a copy as …")};
    const Choice saveAs{FileChoice::saveAs, tr("Save as …")};
    switch (m_document.fileCondition().state) {
        case FileState::sound:
            break;
        case FileState::notWritable:
        case FileState::folderGone:
            return {saveAs};
        case FileState::heldElsewhere:
            return {{FileChoice::lookAgain, tr("Look again")}, copy};
        case FileState::heldAway:
        case FileState::leftBehind:
            return {{FileChoice::takeOver, tr("Take it over")}, copy};
        case FileState::damaged:
        case FileState::newer:
            if (m_document.fileFaults().size() > 1) {
                return {{FileChoice::showFaults, tr("Show all %1").arg(m_document.fileFaults().size())}, copy};
            }
            return {copy};
        case FileState::earlierVersion:
            return {copy};
        case FileState::changedOutside:
            return {{FileChoice::takeFromDisk, tr("Take what the file holds")},
                    {FileChoice::saveAs, tr("Keep mine as another file …")}};
        case FileState::gone:
            return {{FileChoice::save, tr("Save it there anew")}, saveAs};
        case FileState::notSaved:
            return {{FileChoice::save, tr("Save again")}, saveAs};
    }
    return {};
}

}  // namespace ohmwright
