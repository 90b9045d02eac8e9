/// Says how it stands with the open job's file, and offers what can be done about it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/window/message_band.h"

#include <vector>

namespace ohmwright {

class Journal;
class JobDocument;

enum class FileChoice {
    lookAgain,     ///< Whether the other window still has it.
    takeOver,      ///< Of a program that is gone, of another machine.
    takeFromDisk,  ///< What others wrote.
    save,
    saveAs,
    showFaults,
};

class FileBand : public MessageBand {
    Q_OBJECT
public:
    /// Both must outlive the band.
    FileBand(JobDocument& document, Journal& journal, QWidget* parent = nullptr);

signals:
    void asked(ohmwright::FileChoice choice);

private:
    struct Choice {
        FileChoice what;
        QString words;
    };
    void follow();
    [[nodiscard]] std::vector<Choice> choices() const;

    JobDocument& m_document;
    Journal& m_journal;
    std::vector<Choice> m_choices;
};

}  // namespace ohmwright
