/// Says what an earlier run of the program left unsaved, and brings it back.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/journal.h"
#include "app/window/message_band.h"

#include <vector>

namespace ohmwright {

class LostWorkBand : public MessageBand {
    Q_OBJECT
public:
    explicit LostWorkBand(Journal& journal, QWidget* parent = nullptr);

    /// Looks for lost work and offers it, one after the other, newest first. What is dismissed stays on the disk and is
    /// offered again at the next start; what is thrown away lies in the desktop's wastebasket.
    void offer();
    /// The one that is offered is back in the window.
    void isBack();

signals:
    void wanted(const ohmwright::LostWork& lost);
    void refused(const QString& sentence);

private:
    void throwFirstAway();
    void passFirst();
    void showFirst();

    Journal& m_journal;
    std::vector<LostWork> m_lost;  ///< Still to be offered.
    std::size_t m_found = 0;       ///< With those that were dealt with.
};

}  // namespace ohmwright
